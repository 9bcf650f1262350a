//! The short label written on a piece: `H2-5 L`.
//!
//! The letter is the kind of edge, the first number the edge's place among
//! those of its kind, the second the course, the last letter the hand; a piece
//! beyond the first of its course has its number behind the course: `H2-5.2 L`.

use super::cut_list::{PieceRest, PieceStock};
use super::edge::EdgeId;
use super::job::Job;
use super::piece::PieceId;
use std::collections::HashMap;

/// The short names of a job's edges.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Labels {
    edges: HashMap<EdgeId, (String, &'static str)>,
}

impl Labels {
    /// The labels for `job`.
    #[must_use]
    pub fn of(job: &Job) -> Self {
        let mut counts = HashMap::new();
        let edges = job
            .edges()
            .iter()
            .map(|edge| {
                let count = counts.entry(edge.kind).or_insert(0_u32);
                *count += 1;
                let short = format!("{}{count}", edge.kind.letter());
                (edge.id, (short, edge.hand.letter()))
            })
            .collect();
        Self { edges }
    }

    /// The short name of an edge: `H2`; `?` for one no longer in the job.
    #[must_use]
    pub fn edge(&self, edge: EdgeId) -> &str {
        self.edges.get(&edge).map_or("?", |(short, _)| short)
    }

    /// The label of a piece: `H2-5 L`.
    #[must_use]
    pub fn piece(&self, piece: PieceId) -> String {
        let (short, hand) = self
            .edges
            .get(&piece.edge)
            .map_or(("?", "?"), |(short, hand)| (short.as_str(), *hand));
        if piece.number > 1 {
            format!("{short}-{}.{} {hand}", piece.course, piece.number)
        } else {
            format!("{short}-{} {hand}", piece.course)
        }
    }

    /// What a piece is cut from: `new panel 5`, `offcut 7 from the rack, left
    /// edge whole`.
    #[must_use]
    pub fn stock(&self, stock: &PieceStock) -> String {
        match stock {
            PieceStock::New { panel } => format!("new panel {panel}"),
            PieceStock::Rack { number, offcut, .. } => format!(
                "offcut {number} from the rack, {} edge whole",
                offcut.whole.word()
            ),
            PieceStock::LeftBy { piece, offcut, .. } => format!(
                "the offcut of {}, {} edge whole",
                self.piece(*piece),
                offcut.whole.word()
            ),
        }
    }

    /// What becomes of the rest: `keep: offcut 8, for H2-5 R`, `waste`; nothing
    /// where nothing is left.
    #[must_use]
    pub fn rest(&self, rest: &PieceRest) -> Option<String> {
        match rest {
            PieceRest::KeptFor {
                piece,
                number: Some(number),
            } => Some(format!("keep: offcut {number}, for {}", self.piece(*piece))),
            PieceRest::KeptFor {
                piece,
                number: None,
            } => Some(format!("keep it for {}", self.piece(*piece))),
            PieceRest::Waste => Some("waste".to_owned()),
            PieceRest::Nothing => None,
        }
    }
}
