//! Several pieces at once: all are marked, then all go through the next step,
//! then each is finished and goes onto the stack.
//!
//! What is done stands in the job's facts alone: a batch only says which piece
//! is next, and is forgotten when the program is left.
//!
//! ```text
//!            marked         cut            bent and stacked
//!   pile     1 2 3 4 5      5 4 3 2 1      1 2 3 4 5
//!   row      1 2 3 4 5      1 2 3 4 5      1 2 3 4 5
//! ```
//!
//! Of a pile the top one is taken; those cut make a new pile, so that the last
//! cut is bent first. Either way they come to the stack in laying order.

use super::open_job::OpenJob;
use crate::domain::{
    bench::{Fact, Stage, stages},
    cutting::{CutPiece, PieceStock},
    piece::PieceId,
    settings::BenchOrder,
};
use std::collections::HashSet;

/// How the panels that are marked lie until they are cut.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Lying {
    /// One on the other: the last is taken first.
    Pile,
    /// Side by side: the first is taken first.
    Row,
}

impl Lying {
    /// Both, in the order in which they are asked for.
    pub const ALL: [Self; 2] = [Self::Pile, Self::Row];
}

/// The pieces that go through the steps together.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Batch {
    pub lying: Lying,
    pieces: Vec<PieceId>,
}

/// What a batch leaves out, and why it ends where it does.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct LeftOut {
    /// Held, or no longer fitting.
    pub waiting: Vec<PieceId>,
    /// The piece before which it ends, and the one whose offcut that is cut from.
    pub stock: Option<[PieceId; 2]>,
}

/// Where in the batch a piece is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Pass {
    Mark,
    /// The first step after marking; the panels lie as they were marked.
    First,
    /// All that is left, to the stack.
    Last,
}

impl Batch {
    /// The next pieces from place `from` on, at most `count`, or those of one
    /// edge: all that are open and whose stock is there.
    pub fn of(open: &OpenJob, from: usize, count: Option<usize>, lying: Lying) -> (Self, LeftOut) {
        let (mut pieces, mut left_out) = (Vec::new(), LeftOut::default());
        let mut edge = None;
        let after = open.list.pieces.iter().skip(from);
        for piece in after.filter(|piece| piece.is_open()) {
            let is_full = count.map_or_else(
                || *edge.get_or_insert(piece.id.edge) != piece.id.edge,
                |count| pieces.len() >= count,
            );
            if is_full {
                break;
            }
            if waits(open, piece) {
                left_out.waiting.push(piece.id);
            } else if let Some(before) = stock_to_come(piece) {
                left_out.stock = Some([piece.id, before]);
                break;
            } else {
                pieces.push(piece.id);
            }
        }
        (Self { lying, pieces }, left_out)
    }

    /// How many pieces it is of.
    pub fn count(&self) -> usize {
        self.pieces.len()
    }

    /// Its last piece in cutting order.
    pub fn last(&self) -> Option<PieceId> {
        self.pieces.last().copied()
    }

    /// Where `piece` is in it, from 1.
    pub fn place_of(&self, piece: PieceId) -> Option<usize> {
        let at = self.pieces.iter().position(|other| *other == piece);
        at.map(|at| at + 1)
    }

    /// The piece that comes next; none once nothing of it can be done.
    pub fn next(&self, open: &OpenJob) -> Option<PieceId> {
        let free = self.free(open);
        // What is cut at one of two ends is not laid away.
        let half = free.iter().find(|piece| is_half_cut(piece));
        let to_mark = free.iter().find(|piece| is_ready(piece));
        let first = half.or(to_mark).map(|piece| piece.id);
        first
            .or_else(|| self.next_in_first_pass(open, &free))
            .or_else(|| free.first().map(|piece| piece.id))
    }

    /// Which pass `piece` is in, where it is of the batch and open.
    pub fn pass_of(&self, open: &OpenJob, piece: PieceId) -> Option<Pass> {
        let piece = open.piece(piece).filter(|piece| piece.is_open())?;
        self.place_of(piece.id)?;
        Some(match piece.stage {
            Stage::ToMark => Pass::Mark,
            stage if self.first_step(open) == Some(stage) => Pass::First,
            _ => Pass::Last,
        })
    }

    /// The piece that has to lie under `piece`, which is to be stacked now.
    pub fn goes_under(&self, open: &OpenJob, piece: PieceId) -> Option<PieceId> {
        self.place_of(piece)?;
        let first = self.free(open).first()?.id;
        (first != piece).then_some(first)
    }

    /// Its pieces that something can be done with, in cutting order as it is now.
    fn free<'a>(&self, open: &'a OpenJob) -> Vec<&'a CutPiece> {
        let places = self.pieces.iter().filter_map(|id| open.list.place_of(*id));
        let mut places: Vec<usize> = places.collect();
        places.sort_unstable();
        let pieces = places.iter().filter_map(|at| open.list.pieces.get(*at));
        pieces
            .filter(|piece| piece.is_open() && !waits(open, piece))
            .collect()
    }

    /// The step that comes first after marking, of those that any of its pieces
    /// takes.
    fn first_step(&self, open: &OpenJob) -> Option<Stage> {
        let order = open.job().settings.bench_order;
        let steps = match order {
            BenchOrder::CutFirst => [Stage::ToCut, Stage::ToBend],
            BenchOrder::BendFirst => [Stage::ToBend, Stage::ToCut],
        };
        let takes = |step: &Stage| {
            let mut pieces = self.pieces.iter().filter_map(|id| open.piece(*id));
            pieces.any(|piece| stages(&piece.spec, order).contains(step))
        };
        steps.into_iter().find(takes)
    }

    fn next_in_first_pass(&self, open: &OpenJob, free: &[&CutPiece]) -> Option<PieceId> {
        let step = self.first_step(open)?;
        let at_step = free.iter().filter(|piece| piece.stage == step);
        let mut lie: HashSet<PieceId> = at_step.map(|piece| piece.id).collect();
        // One made again was marked twice: it lies where it was laid last.
        let events = open.job().events().iter().rev();
        for event in events {
            let Fact::Marked { piece, .. } = event.fact else {
                continue;
            };
            if lie.remove(&piece) && (self.lying == Lying::Pile || lie.is_empty()) {
                return Some(piece);
            }
        }
        None
    }
}

/// Whether nothing may be done with it until a question is answered.
fn waits(open: &OpenJob, piece: &CutPiece) -> bool {
    open.held(piece).is_some() || piece.fit.misfit().is_some() || piece.waits()
}

fn is_half_cut(piece: &CutPiece) -> bool {
    piece.first_cut && piece.stage == Stage::ToCut
}

/// Whether it is to be marked and its stock is there.
fn is_ready(piece: &CutPiece) -> bool {
    piece.stage == Stage::ToMark && stock_to_come(piece).is_none()
}

/// The piece that leaves the offcut it is to be marked on.
fn stock_to_come(piece: &CutPiece) -> Option<PieceId> {
    match piece.stock {
        PieceStock::LeftBy { piece: before, .. } if piece.stage == Stage::ToMark => Some(before),
        _ => None,
    }
}
