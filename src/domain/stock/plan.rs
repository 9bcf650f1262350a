//! The fewest panels for what is left to cut, and the smallest rack.
//!
//! # What is planned
//!
//! A panel gives at most one left-hand and one right-hand piece, if both fit
//! (`pair.rs`) and are of one colour lot and one panel size. A piece
//! comes from a new panel, from an offcut on the rack, or from the offcut that
//! a piece cut **earlier** will leave; then nothing more comes from that panel.
//! A short course's panel is cut across before anything else. So its offcut
//! serves nothing higher; but its piece may come from a higher offcut, which is
//! cut across when the piece's turn comes.
//!
//! # Why the plan opens the fewest panels
//!
//! Put on one side what keeps a left edge: the left-hand pieces left to cut,
//! and each offcut whose right edge is whole, which stands in for the piece cut
//! from its left. Put on the other side the right-hand pieces and the offcuts
//! whose left edge is whole. Join two of different sides if they fit and are
//! equally high, or the later one is cut across and lower; but never two offcuts.
//! Every way to cut the job pairs some of these: a piece with the piece that gets
//! its offcut, an offcut with the piece cut from it. Nothing is in two pairs, for
//! a panel gives one piece of each hand; so it is a matching.
//! Every pair holds at least one piece to be cut, and saves exactly one new
//! panel: of two pieces only the first opens one, a piece beside an offcut
//! none. Conversely any matching can be cut in this order, because whether a pair
//! fits hangs on nothing but the two. Hence
//!
//! ```text
//!   new panels = pieces left - pairs in the matching
//! ```
//!
//! and a maximum matching gives the fewest panels. Lots and widths share no pair,
//! so each is planned alone. A sweep by two thresholds would do only where all
//! lines lean alike and all offcuts have one hand.
//!
//! Cutting on by the plan keeps it the best. Let M be the plan and p its first
//! piece. Cut p. If p is in no pair, M without p is still of the most pairs, for
//! leaving out a part never adds one. If p leaves its offcut to q, that offcut
//! takes p's place in M and in the graph, before all others as p was, which loses
//! at most some joins to other offcuts. If p comes from an offcut, both leave the
//! graph and M loses that one pair; a matching as large as M in what remains, with
//! that pair added, would have been larger than M. So nothing need change until
//! something is spoiled, thrown away, found or read anew.
//!
//! # Promises
//!
//! Promises are looked at from the oldest to the newest. One is kept if a
//! matching of the most pairs exists that has it and all older ones kept so
//! far: pair the two, search for the one path that may be missing. Else it is
//! released. So a promise never gives way to a newer one, none is released that
//! could be kept beside the older ones, and if all can be kept, all are.
//!
//! # Waiting
//!
//! Among the matchings of the most pairs that have all promises kept, the plan
//! takes one of the least waiting in all. The argument stands at the head of
//! `waiting.rs`. Time and memory grow with the square of the pieces of one lot
//! and width, so the caller bounds how many it asks for.
//!
//! It does not know what was cut, bent or spoiled: what is left comes in.

use super::{
    group::{Partner, groups},
    planned::{LeftToCut, PlannedPiece, PlannedStock, Released, Rest, WhyReleased},
    rack::{OffcutNumber, RackOffcut},
};
use crate::domain::{log::EdgeId, measure::Length, piece::PieceId};
use foldhash::HashMap;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// What to cut every piece from.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Plan {
    /// The pieces, in cutting order.
    pub pieces: Vec<PlannedPiece>,
    /// The piece each used offcut of the rack is kept for; one that is missing
    /// here has no use.
    pub rack: BTreeMap<OffcutNumber, PieceId>,
    /// The promises not kept, the newest first.
    pub released: Vec<Released>,
    /// For every pair of two parts, how many pieces are cut between them, in
    /// all; what lies on the rack waits from now. No plan with as few panels
    /// and these promises has less.
    pub waiting: usize,
    /// How many offcuts with a use lie on the rack at once, at most.
    pub most_on_rack: usize,
    /// Whether every side was tried for each piece cut at both ends; else a plan
    /// with fewer panels may exist.
    pub every_way: bool,
}

impl Plan {
    /// The plan for `left`, in cutting order, given what lies on the `rack`
    /// and the `spare` to leave between two parts of one panel.
    pub fn of(left: &[LeftToCut], rack: &[RackOffcut], spare: Length) -> Self {
        let mut draft = Draft::new(left, rack);
        draft.refuse_lost_promises();
        for group in groups(left, rack, spare) {
            let solved = group.solve(left, rack);
            draft.plan.waiting += solved.waiting;
            for (one, other) in &solved.pairs {
                draft.join(*one, *other);
                draft.join(*other, *one);
            }
            for (at, why) in solved.released {
                draft.release(at, why);
            }
        }
        draft.finish()
    }

    /// How many new panels it opens: the fewest.
    pub fn new_panels(&self) -> usize {
        let new = |piece: &&PlannedPiece| piece.stock == PlannedStock::New;
        self.pieces.iter().filter(new).count()
    }

    /// How many pieces it cuts from offcuts.
    pub fn from_offcuts(&self) -> usize {
        let from_offcut = |piece: &&PlannedPiece| piece.stock != PlannedStock::New;
        self.pieces.iter().filter(from_offcut).count()
    }

    /// How many new panels it opens at each edge.
    pub fn new_by_edge(&self) -> BTreeMap<EdgeId, usize> {
        let mut edges = BTreeMap::new();
        for piece in &self.pieces {
            let count: &mut usize = edges.entry(piece.id.edge).or_default();
            *count += usize::from(piece.stock == PlannedStock::New);
        }
        edges
    }
}

/// A plan while its groups come in.
struct Draft<'a> {
    left: &'a [LeftToCut],
    rack: &'a [RackOffcut],
    plan: Plan,
    partners: Vec<Option<Partner>>,
    /// By when they were promised.
    released: Vec<(u32, Released)>,
}

impl<'a> Draft<'a> {
    fn new(left: &'a [LeftToCut], rack: &'a [RackOffcut]) -> Self {
        Self {
            left,
            rack,
            plan: Plan {
                every_way: true,
                ..Plan::default()
            },
            partners: vec![None; left.len()],
            released: Vec::new(),
        }
    }

    /// Releases the promises to pieces that are not left, or that the offcut
    /// cannot serve by hand, width or lot; whether it fits else, its group says.
    fn refuse_lost_promises(&mut self) {
        let places: HashMap<PieceId, &LeftToCut> =
            self.left.iter().map(|piece| (piece.id, piece)).collect();
        for (at, offcut) in self.rack.iter().enumerate() {
            let Some(promise) = offcut.promise else {
                continue;
            };
            match places.get(&promise.piece) {
                None => self.release(at, WhyReleased::NotLeft),
                Some(piece) if !are_of_one_group(offcut, piece) => {
                    self.release(at, WhyReleased::NoFit);
                }
                Some(_) => {}
            }
        }
    }

    fn release(&mut self, at: usize, why: WhyReleased) {
        let offcut = self.rack.get(at);
        if let Some((offcut, promise)) = offcut.and_then(|o| Some((o, o.promise?))) {
            let released = Released {
                offcut: offcut.number,
                piece: promise.piece,
                why,
            };
            self.released.push((promise.since, released));
        }
    }

    fn join(&mut self, one: Partner, other: Partner) {
        if let Partner::Piece(at) = one
            && let Some(partner) = self.partners.get_mut(at)
        {
            *partner = Some(other);
        }
    }

    fn finish(mut self) -> Plan {
        let mut stays = Vec::new();
        for (at, piece) in self.left.iter().enumerate() {
            let partner = self.partners.get(at).copied().flatten();
            let (stock, rest, stay) = self.share(at, piece, partner);
            if let PlannedStock::Rack(number) = stock {
                self.plan.rack.insert(number, piece.id);
            }
            stays.extend(stay);
            self.plan.pieces.push(PlannedPiece {
                id: piece.id,
                stock,
                rest,
            });
        }
        self.plan.most_on_rack = most_at_once(&stays, self.left.len());
        self.released
            .sort_by_key(|(since, released)| Reverse((*since, released.offcut)));
        let released = self.released.into_iter();
        self.plan.released = released.map(|(_, released)| released).collect();
        self.plan
    }

    /// What the `at`-th piece is cut from, what becomes of the rest, and how
    /// long the offcut between it and a `partner` before it lies on the rack.
    fn share(
        &self,
        at: usize,
        piece: &LeftToCut,
        partner: Option<Partner>,
    ) -> (PlannedStock, Rest, Option<Stay>) {
        let PlannedPiece { stock, rest, .. } = PlannedPiece::alone(piece);
        let alone = (stock, rest, None);
        match partner {
            None => alone,
            Some(Partner::Rack(offcut)) => self.rack.get(offcut).map_or(alone, |offcut| {
                let stay = Stay { from: 0, to: at };
                let stock = PlannedStock::Rack(offcut.number);
                (stock, Rest::Waste, Some(stay))
            }),
            Some(Partner::Piece(other)) => self.left.get(other).map_or(alone, |partner| {
                if at < other {
                    (PlannedStock::New, Rest::kept_for(partner.id), None)
                } else {
                    let from = other + 1;
                    let stay = Stay { from, to: at };
                    let stock = PlannedStock::LeftBy(partner.id);
                    (stock, Rest::Waste, Some(stay))
                }
            }),
        }
    }
}

/// How long an offcut lies on the rack, in pieces cut since now: it is there
/// when `from` are cut and still when `to` are.
#[derive(Clone, Copy, Debug)]
struct Stay {
    from: usize,
    to: usize,
}

/// The most that lie there at once until the `last` piece is cut.
fn most_at_once(stays: &[Stay], last: usize) -> usize {
    let mut comes = vec![0_usize; last + 2];
    let mut goes = comes.clone();
    for stay in stays {
        if let (Some(come), Some(go)) = (comes.get_mut(stay.from), goes.get_mut(stay.to + 1)) {
            *come += 1;
            *go += 1;
        }
    }
    let there = comes.iter().zip(&goes).scan(0_usize, |there, (come, go)| {
        *there = there.saturating_sub(*go) + come;
        Some(*there)
    });
    there.max().unwrap_or_default()
}

fn are_of_one_group(offcut: &RackOffcut, piece: &LeftToCut) -> bool {
    offcut.offcut.whole == piece.spec.hand
        && offcut.offcut.panel.width == piece.spec.panel.width
        && offcut.lot == piece.lot
}
