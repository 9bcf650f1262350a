//! What the keys are about at each place: never something that is gone.

use super::{batch::Batch, open_job::OpenJob, program::State, views::HipsFocus};
use crate::app::place::Place;
use crate::domain::{
    bench::Stage,
    cutting::{CutPiece, PieceStock, ReadingAt},
    doubt::Doubt,
    log::{Edge, EdgeId},
    piece::PieceId,
    settings::Setting,
    stock::OffcutNumber,
};

impl State {
    /// The edge selected in the Log; the first where none is.
    pub fn edge_in_log(&self) -> Option<&Edge> {
        let job = self.job()?;
        let chosen = self.log.edge.and_then(|edge| job.edge(edge));
        chosen.or_else(|| job.edges().first().map(|edge| &**edge))
    }

    /// The reading selected in the Log.
    pub fn reading_in_log(&self) -> Option<ReadingAt> {
        let (edge, course, end) = (self.edge_in_log()?.id, self.log.course, self.log.end);
        Some(ReadingAt { edge, course, end })
    }

    /// The doubt at the course selected in the Log.
    pub fn doubt_in_log(&self) -> Option<(EdgeId, &Doubt)> {
        let edge = self.edge_in_log()?.id;
        let doubt = self.open.as_ref()?.doubt_at(edge, self.log.course)?;
        Some((edge, doubt))
    }

    /// The edge selected in Hips; the last where the list has become shorter.
    pub fn edge_in_hips(&self) -> Option<EdgeId> {
        let edges = self.job()?.edges();
        let chosen = edges.get(self.hips.edge).or_else(|| edges.last())?;
        Some(chosen.id)
    }

    /// The piece that Enter in Hips takes, by its place among those of its edge: the
    /// selected one; among the edges the one in hand, else the next of the selected edge.
    pub fn piece_in_hips(&self) -> Option<usize> {
        let pieces = self.open.as_ref()?.pieces_of(self.edge_in_hips()?);
        let at = match self.hips.focus {
            HipsFocus::Pieces => self.hips.piece,
            HipsFocus::Edges => {
                let at = |wanted: &dyn Fn(&CutPiece) -> bool| {
                    pieces
                        .iter()
                        .position(|piece| piece.is_open() && wanted(piece))
                };
                let in_hand = at(&|piece| Some(piece.id) == self.bench.piece);
                in_hand.or_else(|| at(&|_| true)).unwrap_or(0)
            }
        };
        (at < pieces.len()).then_some(at)
    }

    /// The piece in hand at the Bench: the chosen one, else the next that is not
    /// stacked, else the last one.
    pub fn piece_in_hand(&self) -> Option<&CutPiece> {
        let open = self.open.as_ref()?;
        open.list.pieces.get(open.place_in_hand(self.bench.piece)?)
    }

    /// The pieces that go through the steps together, while any is to be done.
    pub fn several(&self) -> Option<(&OpenJob, &Batch)> {
        let (open, batch) = self.open.as_ref().zip(self.bench.batch.as_ref())?;
        batch.next(open).map(|_| (open, batch))
    }

    /// The offcut on the rack that the piece in hand is still to be marked on.
    pub fn offcut_in_hand(&self) -> Option<OffcutNumber> {
        let piece = self.piece_in_hand()?;
        match piece.stock {
            PieceStock::Rack { number, .. } if piece.stage == Stage::ToMark => Some(number),
            _ => None,
        }
    }

    /// The offcut selected on the Rack.
    pub fn offcut_on_rack(&self) -> Option<OffcutNumber> {
        let rack = self.open.as_ref()?.progress.rack();
        let chosen = rack.get(self.rack.offcut).or_else(|| rack.last())?;
        Some(chosen.number)
    }

    /// The edge whose sheet alone may be written: the one selected, among others.
    pub fn edge_to_write(&self) -> Option<EdgeId> {
        let here = match self.place {
            Place::Hips => self.edge_in_hips(),
            Place::Log => self.edge_in_log().map(|edge| edge.id),
            Place::Bench => self.piece_in_hand().map(|piece| piece.id.edge),
            Place::Rack | Place::Job => None,
        };
        let several = self.job().is_some_and(|job| job.edges().len() > 1);
        here.filter(|_| several)
    }

    /// The setting selected in Job; of the two ways to give a leg the one in use.
    pub fn setting(&self) -> Option<Setting> {
        let job = self.job()?;
        Some(self.job_view.setting.in_use(&job.settings))
    }
}

impl OpenJob {
    /// Where the piece in hand is in the list, `chosen` being asked for.
    pub fn place_in_hand(&self, chosen: Option<PieceId>) -> Option<usize> {
        chosen
            .and_then(|piece| self.list.place_of(piece))
            .or_else(|| self.next_open(0))
            .or_else(|| self.list.pieces.len().checked_sub(1))
    }

    /// The first piece from place `from` on, then from the start, that is not
    /// stacked yet; one that is held only where there is no other.
    pub fn next_open(&self, from: usize) -> Option<usize> {
        let pieces = &self.list.pieces;
        let free = |at: &usize| pieces.get(*at).is_some_and(|piece| self.is_free(piece));
        let mut all = (from..pieces.len()).chain(0..from);
        all.find(free).or_else(|| self.list.next_open(from))
    }

    /// The piece to take in hand after the one at place `at`: of the same edge as
    /// long as one of it is free, so that no stack goes up with a piece missing.
    pub fn next_after(&self, at: usize) -> Option<usize> {
        let pieces = &self.list.pieces;
        let edge = pieces.get(at)?.id.edge;
        let is_its = |at: &usize| pieces.get(*at).is_some_and(|piece| piece.id.edge == edge);
        let is_free = |at: &usize| pieces.get(*at).is_some_and(|piece| self.is_free(piece));
        let mut later = (at + 1..pieces.len()).take_while(is_its);
        let earlier = (0..at).rev().take_while(is_its);
        later
            .find(is_free)
            .or_else(|| earlier.filter(is_free).last())
            .or_else(|| self.next_open(at + 1))
    }

    /// Whether it is open, and nothing holds it.
    pub fn is_free(&self, piece: &CutPiece) -> bool {
        let waits = self.held(piece).is_some() || piece.fit.misfit().is_some() || piece.waits();
        piece.is_open() && !waits
    }

    /// The first piece that is begun: marked, not yet stacked, and held by nothing.
    pub fn begun(&self) -> Option<PieceId> {
        let mut pieces = self.list.pieces.iter();
        let begun = |piece: &&CutPiece| piece.stage != Stage::ToMark && self.is_free(piece);
        pieces.find(begun).map(|piece| piece.id)
    }

    /// Which pieces are marked and not yet stacked, where it is more than one: how
    /// they lie was in somebody's head, and is not taken up again after a restart.
    pub fn several_begun(&self) -> Option<String> {
        const TOLD: usize = 4;
        let pieces = self.list.pieces.iter();
        let begun: Vec<&CutPiece> = pieces
            .filter(|piece| piece.is_open() && piece.stage != Stage::ToMark)
            .collect();
        let told: Vec<String> = begun
            .iter()
            .take(TOLD)
            .map(|piece| self.labels.piece(piece.id))
            .collect();
        let more = match begun.len().saturating_sub(TOLD) {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        (begun.len() > 1).then(|| {
            format!(
                "{} pieces are begun: {}{more}. Take up what is written on the one that lies there: / finds it",
                begun.len(),
                told.join(", ")
            )
        })
    }

    /// How many pieces of an edge are marked.
    pub fn marked_of(&self, edge: EdgeId) -> usize {
        let marked = self.progress.marked();
        marked.filter(|(piece, _)| piece.edge == edge).count()
    }

    /// The pieces of one edge, in cutting order.
    pub fn pieces_of(&self, edge: EdgeId) -> Vec<&CutPiece> {
        self.list.pieces_of(edge).collect()
    }
}
