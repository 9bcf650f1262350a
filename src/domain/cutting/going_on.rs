//! The cutting list after a step that follows it.
//!
//! A piece that is marked on the stock planned for it, or whose rest goes where it
//! was planned to go, leaves the rest of the plan the best (see
//! [`crate::domain::stock::Plan`]), and no figure of another piece hangs on it: so
//! the list goes on and nothing is planned anew. Whatever else was done, it is.

use super::{
    cut_list::CutList,
    cut_piece::{CutPiece, PieceStock},
    job::Job,
    stock_plan::{lot_of, needs_more_ahead},
};
use crate::domain::{
    bench::{CutRest, Fact, MarkedStock, Progress, Stage},
    piece::PieceId,
    stock::{OffcutNumber, PlannedStock, Rest},
};

impl CutList {
    /// Goes on after `facts`, which `progress` knows already; false where they do
    /// not follow the list, and it must be made anew.
    pub fn go_on(&mut self, facts: &[Fact], job: &Job, progress: &Progress) -> bool {
        facts
            .iter()
            .all(|fact| self.take(fact, job, progress).is_some())
    }

    /// `None` where it does not follow the list.
    fn take(&mut self, fact: &Fact, job: &Job, progress: &Progress) -> Option<()> {
        match fact {
            Fact::Paused => Some(()),
            Fact::FirstCut(piece) | Fact::Bent(piece) | Fact::Stacked(piece) => {
                self.further(*piece, job, progress)
            }
            Fact::Marked {
                piece, stock, lot, ..
            } => {
                let known = self.piece(*piece)?;
                let is_planned = known.stage == Stage::ToMark
                    && progress.done(*piece)?.spec == known.spec
                    && is_stock(*stock, &known.stock)
                    && *lot == lot_of(job, *piece);
                let at = self.planned_at(*piece).filter(|_| is_planned)?;
                if !self.stays_the_best(at) {
                    return None;
                }
                self.plan.marked(at);
                self.ahead = self.ahead.saturating_sub(1);
                let beyond = self.plan.pieces.len().saturating_sub(self.ahead);
                if needs_more_ahead(self.ahead, beyond) {
                    return None;
                }
                self.further(*piece, job, progress)
            }
            Fact::Cut { piece, rest } => {
                self.lay_down(*piece, *rest, progress)?;
                self.further(*piece, job, progress)
            }
            _ => None,
        }
    }

    /// The piece came to another stage, and nothing else changes with it.
    fn further(&mut self, piece: PieceId, job: &Job, progress: &Progress) -> Option<()> {
        let (place, done) = (self.place_of(piece)?, progress.done(piece)?);
        let piece = self.pieces.get_mut(place)?;
        // What can be done with one that does not fit is another thing now.
        if piece.fit.misfit().is_some() {
            return None;
        }
        let before = piece.stage;
        piece.stage = done.stage(job.settings.bench_order);
        piece.first_cut = done.first_cut;
        self.tally.moved(piece, before);
        Some(())
    }

    /// What a cut left lies where it was planned to go.
    fn lay_down(&mut self, piece: PieceId, rest: CutRest, progress: &Progress) -> Option<()> {
        let place = self.place_of(piece)?;
        match (rest, self.pieces.get(place)?.rest) {
            (CutRest::Waste, Rest::Waste | Rest::Nothing) => Some(()),
            (
                CutRest::Kept { offcut, promised },
                Rest::KeptFor {
                    piece: q,
                    number: None,
                },
            ) if promised == q => {
                let laid = progress.laid(offcut)?;
                let stock = PieceStock::Rack {
                    number: offcut,
                    offcut: laid.offcut,
                    panel: laid.panel,
                };
                let at = self.planned_at(q)?;
                let is_planned = self.plan.pieces.get(at)?.stock == PlannedStock::LeftBy(piece);
                self.plan.cut(offcut, Some(at).filter(|_| is_planned)?);
                self.kept(q, place, offcut, stock)
            }
            _ => None,
        }
    }

    fn kept(
        &mut self,
        piece: PieceId,
        left_by: usize,
        number: OffcutNumber,
        stock: PieceStock,
    ) -> Option<()> {
        let place = self.place_of(piece)?;
        self.pieces.get_mut(place)?.stock = stock;
        self.pieces.get_mut(left_by)?.rest = Rest::KeptFor {
            piece,
            number: Some(number),
        };
        Some(())
    }

    /// Where `piece` stands in the plan, which is in cutting order.
    fn planned_at(&self, piece: PieceId) -> Option<usize> {
        let place = self.place_of(piece)?;
        let pieces = &self.plan.pieces;
        let at = pieces.partition_point(|other| self.place_of(other.id) < Some(place));
        pieces.get(at).filter(|found| found.id == piece).map(|_| at)
    }

    /// Whether the plan stays the best once its `at`-th piece is marked: that was
    /// planned with the others, and nothing lower is left before it that might come
    /// from its offcut now.
    fn stays_the_best(&self, at: usize) -> bool {
        let is_cut_across = |piece: &CutPiece| piece.spec.across.is_some();
        let mut before = self.plan.pieces.iter().take(at);
        self.plan.every_way
            && at < self.ahead
            && (self.tally.cut_across == 0
                || !before.any(|before| self.piece(before.id).is_some_and(is_cut_across)))
    }
}

fn is_stock(marked: MarkedStock, planned: &PieceStock) -> bool {
    match (marked, planned) {
        (MarkedStock::New { panel }, PieceStock::New { panel: planned }) => panel == *planned,
        (MarkedStock::Offcut { offcut, .. }, PieceStock::Rack { number, .. }) => offcut == *number,
        _ => false,
    }
}
