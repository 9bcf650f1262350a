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
//! something is spoiled, thrown away, found or read anew, and a step that follows
//! the plan goes on with it ([`Plan::marked`], [`Plan::cut`]) instead of planning
//! anew.
//!
//! The same holds of a p further back, unless what was before it is cut across and
//! lower: p's offcut is there before it now, and it might come from that. Of all
//! sides for the pieces cut at both ends M has the best, so it has the best of those
//! that p leaves open; where not all were tried, it is planned anew. An offcut that
//! M does not use may be thrown away as well: leaving it out adds no pair.
//!
//! Promises are kept on the way, too: all that M keeps are pairs of it and stay so,
//! and the one that comes new with an offcut is the pair (p, q) of M.
//!
//! The waiting stays the least counted from when the plan was made. Planned anew on
//! the way it may differ, for what has been waited by then counts no more.
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

    /// The pieces it opens a new panel for.
    pub fn opening(&self) -> impl Iterator<Item = PieceId> {
        let opens = |piece: &&PlannedPiece| piece.stock == PlannedStock::New;
        self.pieces.iter().filter(opens).map(|piece| piece.id)
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

    /// For every pair of two parts, how many pieces are cut between them, in
    /// all; what lies on the rack waits from now. No plan with as few panels
    /// and these promises had less when it was made.
    pub fn waiting(&self) -> usize {
        self.stays().iter().map(|stay| stay.to - stay.from).sum()
    }

    /// How many offcuts with a use lie on the rack at once, at most.
    pub fn most_on_rack(&self) -> usize {
        most_at_once(&self.stays(), self.pieces.len())
    }

    /// How long each offcut lies on the rack until its piece is cut; what is left by
    /// a piece that is marked and not cut lies there as good as now.
    fn stays(&self) -> Vec<Stay> {
        let mut places: HashMap<PieceId, usize> = HashMap::default();
        let mut stays = Vec::new();
        for (to, piece) in self.pieces.iter().enumerate() {
            match piece.stock {
                PlannedStock::New => drop(places.insert(piece.id, to)),
                PlannedStock::Rack(_) => stays.push(Stay { from: 0, to }),
                PlannedStock::LeftBy(before) => {
                    let from = places.get(&before).map_or(0, |at| at + 1);
                    stays.push(Stay { from, to });
                }
            }
        }
        stays
    }

    /// Goes on once the `at`-th piece is marked on the stock planned for it.
    pub fn marked(&mut self, at: usize) {
        if at < self.pieces.len()
            && let PlannedStock::Rack(number) = self.pieces.remove(at).stock
        {
            self.rack.remove(&number);
        }
    }

    /// Goes on once a cut laid the offcut `number` on the rack, of which the `at`-th
    /// piece is to come.
    pub fn cut(&mut self, number: OffcutNumber, at: usize) {
        if let Some(piece) = self.pieces.get_mut(at) {
            piece.stock = PlannedStock::Rack(number);
            self.rack.insert(number, piece.id);
        }
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
        for (at, piece) in self.left.iter().enumerate() {
            let partner = self.partners.get(at).copied().flatten();
            let (stock, rest) = self.share(at, piece, partner);
            if let PlannedStock::Rack(number) = stock {
                self.plan.rack.insert(number, piece.id);
            }
            self.plan.pieces.push(PlannedPiece {
                id: piece.id,
                stock,
                rest,
            });
        }
        self.released
            .sort_by_key(|(since, released)| Reverse((*since, released.offcut)));
        let released = self.released.into_iter();
        self.plan.released = released.map(|(_, released)| released).collect();
        self.plan
    }

    /// What the `at`-th piece is cut from, and what becomes of the rest.
    fn share(
        &self,
        at: usize,
        piece: &LeftToCut,
        partner: Option<Partner>,
    ) -> (PlannedStock, Rest) {
        let PlannedPiece { stock, rest, .. } = PlannedPiece::alone(piece);
        let alone = (stock, rest);
        match partner {
            None => alone,
            Some(Partner::Rack(offcut)) => self.rack.get(offcut).map_or(alone, |offcut| {
                (PlannedStock::Rack(offcut.number), Rest::Waste)
            }),
            Some(Partner::Piece(other)) => self.left.get(other).map_or(alone, |partner| {
                if at < other {
                    (PlannedStock::New, Rest::kept_for(partner.id))
                } else {
                    (PlannedStock::LeftBy(partner.id), Rest::Waste)
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
