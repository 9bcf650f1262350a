//! What every piece of the cutting list is cut from, and what is kept of that.
//!
//! Marked pieces have their stock written down; the rest follow the plan of the
//! fewest panels ([`crate::domain::stock`]), given the rack as it lies. A piece that is
//! marked and not yet cut counts as an offcut to come.

use super::{
    cut_piece::{CutPiece, PieceStock},
    job::Job,
};
use crate::domain::bench::{CutRest, Done, MarkedStock, Progress, Stage};
use crate::domain::measure::Name;
use crate::domain::piece::{PieceId, PieceSpec};
use crate::domain::stock::{
    LeftToCut, Offcut, OffcutNumber, Plan, PlannedPiece, PlannedStock, RackOffcut, Rest,
    choose_hands,
};
use foldhash::HashMap;

/// How many pieces ahead are planned; those beyond it count as new panels until
/// their turn comes. Many roofs' worth, and still a moment's work: the plan's
/// time and memory grow with the square of it.
const HORIZON: usize = 2_000;

/// Those beyond it come in so many at once.
const BLOCK: usize = 500;

/// Whether it is time for the next block, where so many are planned `ahead` and so
/// many are `beyond`.
pub(super) const fn needs_more_ahead(ahead: usize, beyond: usize) -> bool {
    beyond > 0 && ahead + BLOCK <= HORIZON
}

/// Where the numbers of offcuts to come start, counted down; the bench never
/// comes near it.
const TO_COME: u32 = u32::MAX;

/// Gives every piece its stock and rest; says by which plan, and how many pieces it
/// plans with one another. `places` says where a piece stands among the `pieces`,
/// `turned` how one cut at both ends is with the tape pulled from the other side:
/// the plan chooses.
pub(super) fn assign_stock(
    pieces: &mut [CutPiece],
    places: &HashMap<PieceId, usize>,
    turned: &HashMap<PieceId, PieceSpec>,
    job: &Job,
    progress: &Progress,
    first: Option<PieceId>,
) -> (Plan, usize) {
    let coming = coming(pieces, progress);
    let mut rack = progress.rack();
    rack.extend(coming.iter().map(|coming| coming.offcut.clone()));
    let left = left_to_cut(pieces, first);
    let (near_at, beyond_at) = left.split_at(left.len().min(HORIZON));
    let edges: HashMap<_, _> = job.edges().iter().map(|e| (e.id, e)).collect();
    let to_cut = |piece: &CutPiece| LeftToCut {
        id: piece.id,
        spec: piece.spec,
        lot: edges
            .get(&piece.id.edge)
            .and_then(|edge| edge.lot_of(piece.id.course).cloned()),
    };
    // Only those that are planned are copied: of a large job all would take as
    // much again as its list.
    let near = near_at.iter().filter_map(|at| pieces.get(*at));
    let mut near: Vec<_> = near.map(to_cut).collect();
    let every_way = choose_hands(&mut near, turned, &rack, job.settings.spare);
    for (piece, at) in near.iter().zip(near_at) {
        if let Some(place) = pieces.get_mut(*at) {
            place.spec = piece.spec;
        }
    }
    let mut plan = Plan::of(&near, &rack, job.settings.spare);
    let beyond = beyond_at.iter().filter_map(|at| pieces.get(*at));
    let beyond = beyond.map(|piece| PlannedPiece::alone(&to_cut(piece)));
    plan.pieces.extend(beyond);
    plan.every_way = every_way;
    let coming = left_by(&mut plan, coming);
    let plan = plan;
    let mut foreseen = vec![Foreseen::default(); pieces.len()];
    for (at, planned) in left.iter().zip(&plan.pieces) {
        if let Some((foreseen, piece)) = foreseen.get_mut(*at).zip(pieces.get(*at)) {
            foreseen.planned = Some(planned);
            foreseen.leaves = Offcut::left_by(&piece.spec);
        }
    }
    number(&mut foreseen, progress);
    let outlook = Outlook {
        progress,
        plan: &plan,
        coming: &coming,
        places,
        foreseen: &foreseen,
    };
    for (piece, foreseen) in pieces.iter_mut().zip(&foreseen) {
        if let Some(done) = progress.done(piece.id) {
            piece.stock = outlook.marked_stock(done);
            piece.rest = outlook.marked_rest(piece.id, done);
        } else if let Some(planned) = foreseen.planned {
            let new = PieceStock::New {
                panel: foreseen.panel,
            };
            piece.stock = outlook.planned_stock(planned.stock).unwrap_or(new);
            piece.rest = planned.rest;
        }
    }
    (plan, near_at.len())
}

/// What is foreseen for a piece that is still to be marked.
#[derive(Clone, Default)]
struct Foreseen<'a> {
    planned: Option<&'a PlannedPiece>,
    /// What its cut will leave.
    leaves: Option<Offcut>,
    /// The number of the panel opened for it; 0 where none is.
    panel: u32,
}

/// An offcut that a marked piece will leave once it is cut.
struct Coming {
    piece: PieceId,
    /// For the piece that takes it.
    stock: PieceStock,
    offcut: RackOffcut,
    /// The piece that takes it.
    kept_for: Option<PieceId>,
}

/// The same by the piece that leaves it.
type ComingBy = HashMap<PieceId, Coming>;

fn coming(pieces: &[CutPiece], progress: &Progress) -> Vec<Coming> {
    let mut coming = Vec::new();
    for piece in pieces {
        let Some(done) = progress.done(piece.id).filter(|done| !done.cut) else {
            continue;
        };
        let (MarkedStock::New { panel }, Some(offcut)) = (done.stock, Offcut::left_by(&done.spec))
        else {
            continue;
        };
        let count = u32::try_from(coming.len()).unwrap_or(0);
        let piece = piece.id;
        coming.push(Coming {
            piece,
            stock: PieceStock::LeftBy {
                piece,
                offcut,
                panel,
            },
            offcut: RackOffcut {
                number: OffcutNumber(TO_COME - count),
                offcut,
                lot: done.lot.clone(),
                promise: None,
            },
            kept_for: None,
        });
    }
    coming
}

/// Names each offcut to come in the plan by the piece that leaves it: its number is
/// not given out yet.
fn left_by(plan: &mut Plan, mut coming: Vec<Coming>) -> ComingBy {
    for coming in &mut coming {
        coming.kept_for = plan.rack.remove(&coming.offcut.number);
    }
    let first = TO_COME - u32::try_from(coming.len()).unwrap_or(0);
    for piece in &mut plan.pieces {
        if let PlannedStock::Rack(OffcutNumber(number)) = piece.stock
            && let Some(coming) = usize::try_from(TO_COME - number)
                .ok()
                .filter(|_| number > first)
                .and_then(|at| coming.get(at))
        {
            piece.stock = PlannedStock::LeftBy(coming.piece);
        }
    }
    coming
        .into_iter()
        .map(|coming| (coming.piece, coming))
        .collect()
}

/// The colour lot that `piece` must have.
pub(super) fn lot_of(job: &Job, piece: PieceId) -> Option<Name> {
    job.edge(piece.edge)
        .and_then(|edge| edge.lot_of(piece.course).cloned())
}

/// What is left to mark, by its place among `pieces`, in cutting order but for a
/// piece taken out of turn.
fn left_to_cut(pieces: &[CutPiece], first: Option<PieceId>) -> Vec<usize> {
    let all = pieces.iter().enumerate();
    let mut left: Vec<usize> = all
        .filter(|(_, piece)| piece.stage == Stage::ToMark)
        .map(|(at, _)| at)
        .collect();
    let is_first = |at: &usize| pieces.get(*at).map(|piece| piece.id) == first;
    let at = first.and_then(|_| left.iter().position(is_first));
    if let Some(part) = at.and_then(|at| left.get_mut(..=at)) {
        part.rotate_right(1);
    }
    left
}

/// Numbers the panels still to open: those of opened panels stay, the others
/// count on in cutting order, passing over the numbers that are taken.
fn number(foreseen: &mut [Foreseen<'_>], progress: &Progress) {
    let mut next = 1_u32;
    let opens = |planned: &PlannedPiece| planned.stock == PlannedStock::New;
    for foreseen in foreseen {
        if foreseen.planned.is_some_and(opens) {
            while progress.panels().contains_key(&next) {
                next += 1;
            }
            foreseen.panel = next;
            next += 1;
        }
    }
}

/// All that is known when a piece is looked at.
struct Outlook<'a> {
    progress: &'a Progress,
    plan: &'a Plan,
    coming: &'a ComingBy,
    places: &'a HashMap<PieceId, usize>,
    foreseen: &'a [Foreseen<'a>],
}

impl Outlook<'_> {
    fn marked_stock(&self, done: &Done) -> PieceStock {
        match done.stock {
            MarkedStock::New { panel } => PieceStock::New { panel },
            // Only a file made by hand takes an offcut nobody laid down.
            MarkedStock::Offcut { offcut, panel } => {
                self.rack(offcut, panel).unwrap_or(PieceStock::New {
                    panel: panel.unwrap_or(0),
                })
            }
        }
    }

    fn marked_rest(&self, piece: PieceId, done: &Done) -> Rest {
        match done.rest {
            Some(CutRest::Kept { offcut, promised }) => Rest::KeptFor {
                // By the plan as it now is.
                piece: self.plan.rack.get(&offcut).copied().unwrap_or(promised),
                number: Some(offcut),
            },
            Some(CutRest::Waste) => Rest::Waste,
            None if Offcut::left_by(&done.spec).is_none() => Rest::Nothing,
            None => self
                .coming
                .get(&piece)
                .and_then(|coming| coming.kept_for)
                .map_or(Rest::Waste, Rest::kept_for),
        }
    }

    /// None where a new panel is opened.
    fn planned_stock(&self, planned: PlannedStock) -> Option<PieceStock> {
        match planned {
            PlannedStock::New => None,
            PlannedStock::LeftBy(piece) => {
                if let Some(coming) = self.coming.get(&piece) {
                    return Some(coming.stock);
                }
                let before = self.foreseen.get(*self.places.get(&piece)?)?;
                Some(PieceStock::LeftBy {
                    piece,
                    offcut: before.leaves?,
                    panel: before.panel,
                })
            }
            PlannedStock::Rack(number) => self.rack(number, self.progress.laid(number)?.panel),
        }
    }

    /// An offcut that was laid on the rack, from that panel.
    fn rack(&self, number: OffcutNumber, panel: Option<u32>) -> Option<PieceStock> {
        let offcut = self.progress.laid(number)?.offcut;
        Some(PieceStock::Rack {
            number,
            offcut,
            panel,
        })
    }
}
