//! How many pieces stand at each stage, kept up to date from step to step: a frame
//! must not look at every piece of the job.

use super::cut_piece::CutPiece;
use crate::domain::{bench::Stage, log::EdgeId};
use foldhash::HashMap;
use std::ops::Range;

/// How many pieces are at each stage, in the order of [`Stage::ALL`].
pub(super) type AtStages = [usize; Stage::ALL.len()];

/// The counts of a cutting list.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(super) struct Tally {
    pub whole: AtStages,
    edges: HashMap<EdgeId, OfEdge>,
    /// How many no longer fit and are not answered.
    pub misfits: usize,
    /// How many of those to mark are cut across.
    pub cut_across: usize,
}

/// The pieces of one edge, which stand together, but that those of the second
/// trip stand behind the first trip's of all edges.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
struct OfEdge {
    places: Range<usize>,
    at: AtStages,
}

impl Tally {
    /// The counts of `pieces`.
    pub(super) fn of(pieces: &[CutPiece]) -> Self {
        let mut tally = Self::default();
        for (place, piece) in pieces.iter().enumerate() {
            let edge = tally.edges.entry(piece.id.edge).or_default();
            if edge.places.is_empty() {
                edge.places = place..place;
            }
            edge.places.end = place + 1;
            add(&mut edge.at, piece.stage);
            add(&mut tally.whole, piece.stage);
            tally.misfits += usize::from(piece.fit.misfit().is_some());
            let is_to_mark = piece.stage == Stage::ToMark;
            tally.cut_across += usize::from(is_to_mark && piece.spec.across.is_some());
        }
        tally
    }

    /// Counts `piece` anew, which stood at the stage `before`.
    pub(super) fn moved(&mut self, piece: &CutPiece, before: Stage) {
        let edge = self.edges.get_mut(&piece.id.edge);
        for at in edge
            .map(|edge| &mut edge.at)
            .into_iter()
            .chain([&mut self.whole])
        {
            if let Some(count) = at.get_mut(place(before)) {
                *count = count.saturating_sub(1);
            }
            add(at, piece.stage);
        }
        let is_marked = before == Stage::ToMark && piece.stage != before;
        if is_marked && piece.spec.across.is_some() {
            self.cut_across = self.cut_across.saturating_sub(1);
        }
    }

    /// From the first of the pieces of `edge` in the list to the last.
    pub(super) fn places_of(&self, edge: EdgeId) -> Range<usize> {
        let edge = self.edges.get(&edge);
        edge.map_or(0..0, |edge| edge.places.clone())
    }

    /// How many pieces of `edge` are at each stage.
    pub(super) fn at_edge(&self, edge: EdgeId) -> AtStages {
        self.edges.get(&edge).map_or([0; 5], |edge| edge.at)
    }
}

fn place(stage: Stage) -> usize {
    let mut stages = Stage::ALL.iter();
    stages.position(|other| *other == stage).unwrap_or_default()
}

fn add(at: &mut AtStages, stage: Stage) {
    if let Some(count) = at.get_mut(place(stage)) {
        *count += 1;
    }
}
