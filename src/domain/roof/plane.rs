//! Roof planes, as far as a log tells of them: which edges bound the same one.
//!
//! The wrong hand cannot be seen in one edge's readings, which mirror exactly.
//! But seen from the eave a plane commonly has one edge at each end of its
//! courses, so two of one hand are worth a second look (common practice).

use crate::domain::measure::Hand;

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

#[cfg(test)]
mod tests {
    use super::*;

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
