//! From which side the tape is pulled on a piece that is cut at both ends.
//!
//! Such a piece takes a panel from the tape's side up to its far cut, so it
//! shares one as a piece of either hand. Once the hands are chosen the fewest
//! panels are `plan.rs`'s matter; so every choice is tried, one matching each,
//! for up to six such pieces of a lot and panel width. Beyond that they are turned one
//! at a time while that saves a panel, and that is said: a better choice may
//! exist.

use super::{group::groups, planned::LeftToCut, rack::RackOffcut};
use crate::domain::{
    measure::{Hand, Length, Name},
    piece::{PieceId, PieceSpec},
};
use foldhash::HashMap;

/// So many are tried in every way.
const EVERY_WAY: usize = 6;

/// Gives each piece in `left` that is also in `turned` the hand with which the
/// fewest panels are opened; of equals its usual one, but for promises. Says
/// whether every choice was tried.
pub fn choose_hands(
    left: &mut [LeftToCut],
    turned: &HashMap<PieceId, PieceSpec>,
    rack: &[RackOffcut],
    spare: Length,
) -> bool {
    if turned.is_empty() {
        return true;
    }
    let mut every_way = true;
    let mut done: Vec<(Option<Name>, Length)> = Vec::new();
    for at in 0..left.len() {
        let Some(piece) = left.get(at).filter(|piece| turned.contains_key(&piece.id)) else {
            continue;
        };
        let kind = (piece.lot.clone(), piece.spec.panel.width);
        if done.contains(&kind) {
            continue;
        }
        let mut choice = Choice::of(left, turned, rack, spare, &kind);
        every_way &= choice.best();
        for (piece, (at, _)) in choice.free_pieces().zip(&choice.free) {
            if let Some(place) = choice
                .places
                .get(*at)
                .and_then(|place| left.get_mut(*place))
            {
                place.spec = piece;
            }
        }
        done.push(kind);
    }
    every_way
}

/// The pieces and offcuts of one lot and panel width.
struct Choice {
    left: Vec<LeftToCut>,
    /// Where each of them stands in the cutting order.
    places: Vec<usize>,
    rack: Vec<RackOffcut>,
    spare: Length,
    /// Those with a choice, by place here, each with its usual figures and those
    /// from the other side.
    free: Vec<(usize, [PieceSpec; 2])>,
}

impl Choice {
    fn of(
        left: &[LeftToCut],
        turned: &HashMap<PieceId, PieceSpec>,
        rack: &[RackOffcut],
        spare: Length,
        (lot, width): &(Option<Name>, Length),
    ) -> Self {
        let mine = left.iter().enumerate();
        let mine = mine.filter(|(_, piece)| piece.lot == *lot && piece.spec.panel.width == *width);
        let (places, left): (Vec<_>, Vec<_>) = mine.map(|(at, piece)| (at, piece.clone())).unzip();
        let rack = rack
            .iter()
            .filter(|offcut| offcut.lot == *lot && offcut.offcut.panel.width == *width);
        let free = left
            .iter()
            .enumerate()
            .filter_map(|(at, piece)| Some((at, [piece.spec, *turned.get(&piece.id)?])));
        Self {
            free: free.collect(),
            places,
            rack: rack.cloned().collect(),
            spare,
            left,
        }
    }

    fn free_pieces(&self) -> impl Iterator<Item = PieceSpec> {
        self.free
            .iter()
            .filter_map(|(at, _)| Some(self.left.get(*at)?.spec))
    }

    /// Turns the `which`-th free piece to its usual side or to the other.
    fn turn(&mut self, which: usize, to_other: bool) {
        if let Some((at, [usual, other])) = self.free.get(which)
            && let Some(piece) = self.left.get_mut(*at)
        {
            piece.spec = if to_other { *other } else { *usual };
        }
    }

    /// How good the present choice is: pairs, then promises that can be kept.
    fn worth(&self) -> (usize, usize) {
        let pairs = groups(&self.left, &self.rack, self.spare);
        let pairs = pairs.iter().map(super::group::Group::most_pairs).sum();
        let hand = |id: PieceId| -> Option<Hand> {
            let piece = self.left.iter().find(|piece| piece.id == id)?;
            Some(piece.spec.hand)
        };
        let kept = self.rack.iter().filter(|offcut| {
            let promised = offcut.promise.and_then(|promise| hand(promise.piece));
            promised == Some(offcut.offcut.whole)
        });
        (pairs, kept.count())
    }

    /// Leaves the pieces as they are best; says whether every way was tried.
    fn best(&mut self) -> bool {
        let count = self.free.len();
        let mut best = self.worth();
        if count > EVERY_WAY {
            for which in 0..count {
                self.turn(which, true);
                let worth = self.worth();
                if worth > best {
                    best = worth;
                } else {
                    self.turn(which, false);
                }
            }
            return false;
        }
        // The fewest turned first: of equals that one stays.
        let mut ways: Vec<u32> = (1..1 << count).collect();
        ways.sort_by_key(|way| way.count_ones());
        let mut chosen = 0;
        for way in ways {
            self.turn_all(way);
            let worth = self.worth();
            if worth > best {
                (best, chosen) = (worth, way);
            }
        }
        self.turn_all(chosen);
        true
    }

    fn turn_all(&mut self, way: u32) {
        for which in 0..self.free.len() {
            self.turn(which, way >> which & 1 == 1);
        }
    }
}
