//! Roof planes, as far as a log tells of them: which edges bound the same one, and
//! at which end.
//!
//! The wrong hand cannot be seen in one edge's readings, which mirror exactly.
//! But seen from the eave a plane commonly has one edge at each end of its
//! courses, so two of one hand are worth a second look (common practice).

use crate::domain::measure::Hand;
use std::collections::BTreeMap;

/// Edges of one hand that are said to bound the same plane.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SameHand<Plane, Edge> {
    /// The plane.
    pub plane: Plane,
    /// The hand they share.
    pub hand: Hand,
    /// The edges, in the order they were given; two or more.
    pub edges: Vec<Edge>,
}

/// The planes with two or more edges of one hand, in the order they are met;
/// edges without a plane are left out by the caller.
pub fn planes_of_one_hand<Plane: PartialEq, Edge>(
    edges: impl IntoIterator<Item = (Plane, Hand, Edge)>,
) -> Vec<SameHand<Plane, Edge>> {
    let mut planes: Vec<SameHand<Plane, Edge>> = Vec::new();
    for (plane, hand, edge) in edges {
        let met = |same: &&mut SameHand<Plane, Edge>| same.plane == plane && same.hand == hand;
        if let Some(same) = planes.iter_mut().find(met) {
            same.edges.push(edge);
        } else {
            planes.push(SameHand {
                plane,
                hand,
                edges: vec![edge],
            });
        }
    }
    planes.retain(|same| same.edges.len() > 1);
    planes
}

/// A side of the roof as a log knows it, seen from the eave: the edge at the
/// left end of its courses and the one at the right end; one of them at least.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct RoofSide<Edge> {
    /// Of right-hand pieces.
    pub left: Option<Edge>,
    /// Of left-hand pieces.
    pub right: Option<Edge>,
}

impl<Edge> RoofSide<Edge> {
    /// Its edges, the left one first.
    pub fn edges(&self) -> impl Iterator<Item = &Edge> {
        self.left.iter().chain(&self.right)
    }

    /// Whether both ends are known.
    pub const fn is_whole(&self) -> bool {
        self.left.is_some() && self.right.is_some()
    }

    fn end(&mut self, hand: Hand) -> &mut Option<Edge> {
        match hand {
            Hand::Right => &mut self.left,
            Hand::Left => &mut self.right,
        }
    }
}

/// The sides of the roof, in the order their edges are met. An edge without a
/// plane, or whose end of its plane is taken, has a side of its own.
pub fn roof_sides<Plane: Ord, Edge>(
    edges: impl IntoIterator<Item = (Option<Plane>, Hand, Edge)>,
) -> Vec<RoofSide<Edge>> {
    let mut sides: Vec<RoofSide<Edge>> = Vec::new();
    let mut first_of: BTreeMap<Plane, usize> = BTreeMap::new();
    for (plane, hand, edge) in edges {
        let here = sides.len();
        let at = plane.map_or(here, |plane| *first_of.entry(plane).or_insert(here));
        match sides.get_mut(at).map(|side| side.end(hand)) {
            Some(end) if end.is_none() => *end = Some(edge),
            _ => {
                let mut side = RoofSide {
                    left: None,
                    right: None,
                };
                *side.end(hand) = Some(edge);
                sides.push(side);
            }
        }
    }
    sides
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_side_has_an_edge_at_each_end_and_one_too_many_has_its_own() {
        let edges = [
            (Some("south"), Hand::Left, 1),
            (None, Hand::Right, 2),
            (Some("west"), Hand::Right, 3),
            (Some("south"), Hand::Right, 4),
            (Some("south"), Hand::Right, 5),
            (None, Hand::Left, 6),
        ];
        let side = |left, right| RoofSide { left, right };
        let expected = [
            side(Some(4), Some(1)),
            side(Some(2), None),
            side(Some(3), None),
            side(Some(5), None),
            side(None, Some(6)),
        ];
        assert_eq!(roof_sides(edges), expected);
    }

    #[test]
    fn a_plane_with_one_edge_of_each_hand_is_not_pointed_out() {
        let edges = [
            ("south", Hand::Left, 1),
            ("south", Hand::Right, 2),
            ("west", Hand::Left, 3),
        ];
        assert_eq!(planes_of_one_hand(edges), []);
    }

    #[test]
    fn a_plane_with_two_edges_of_one_hand_is_pointed_out() {
        let edges = [
            ("south", Hand::Left, 1),
            ("west", Hand::Left, 2),
            ("south", Hand::Right, 3),
            ("south", Hand::Left, 4),
        ];
        let expected = SameHand {
            plane: "south",
            hand: Hand::Left,
            edges: vec![1, 4],
        };
        assert_eq!(planes_of_one_hand(edges), [expected]);
    }
}
