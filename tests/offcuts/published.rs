//! Published pairing examples through the same planner, and cases that a
//! simpler rule gets wrong.
//!
//! A need (x, y) becomes a right-hand piece cut x wide at the nose and y at
//! the back, an offering (X, Y) an offcut on the rack of those widths, its
//! right edge whole; it serves the need exactly if x <= X and y <= Y. Every
//! figure is taken one unit larger, for a piece has some width.

use crate::outside::{first_fit, most_pairs};
use bendmark::domain::{
    log::{CourseNumber, EdgeId},
    measure::{Hand, Length, SkewLine},
    piece::{Panel, PieceId, PieceSpec},
    roof::EdgeKind,
    stock::{
        FitGraph, LeftToCut, Matching, Offcut, OffcutNumber, Plan, PlannedStock, RackOffcut,
        share_a_panel,
    },
};

/// 48 in wide, 14 in high.
fn panel() -> Panel {
    Panel {
        width: Length::from_inches(48),
        height: Length::from_inches(14),
    }
}

/// The `number`-th piece, cut so wide at nose and back, in inches.
pub(crate) fn piece(number: u32, hand: Hand, nose: i64, back: i64) -> LeftToCut {
    LeftToCut {
        id: PieceId {
            edge: EdgeId(1),
            course: CourseNumber::new(number).unwrap(),
            number: 1,
        },
        spec: PieceSpec {
            kind: EdgeKind::Hip,
            hand,
            bend: SkewLine {
                at_nose: Length::from_inches(nose - 2),
                at_rise: Length::from_inches(back - 2),
                rise: Length::from_inches(14),
            },
            allowance: Length::from_inches(2),
            panel: panel(),
            across: None,
            near: None,
        },
        lot: None,
    }
}

pub(crate) fn offcut(number: u32, whole: Hand, nose: i64, back: i64) -> RackOffcut {
    let (nose, back) = (Length::from_inches(nose), Length::from_inches(back));
    RackOffcut {
        number: OffcutNumber(number),
        offcut: Offcut::found(whole, panel(), nose, back),
        lot: None,
        promise: None,
    }
}

#[track_caller]
fn check(needs: &[(i64, i64)], offerings: &[(i64, i64)], pairs: usize) {
    let needs: Vec<_> = (1..)
        .zip(needs)
        .map(|(number, (x, y))| piece(number, Hand::Right, x + 1, y + 1))
        .collect();
    let rack: Vec<_> = (1..)
        .zip(offerings)
        .map(|(number, (x, y))| offcut(number, Hand::Right, x + 1, y + 1))
        .collect();
    let plan = Plan::of(&needs, &rack, Length::ZERO);
    assert_eq!(plan.from_offcuts(), pairs);
    assert_eq!(plan.rack.len(), pairs);
}

/// "2D Plane 2N Points", samples 1 to 5 of its statement (AtCoder ARC 092 A).
/// All coordinates differ there, so its "smaller" is our "at most".
#[test]
fn published_pairs_in_the_plane_are_all_found() {
    check(&[(2, 0), (3, 1), (1, 3)], &[(4, 2), (0, 4), (5, 5)], 2);
    check(&[(0, 0), (1, 1), (5, 2)], &[(2, 3), (3, 4), (4, 5)], 2);
    check(&[(2, 2), (3, 3)], &[(0, 0), (1, 1)], 0);
    check(
        &[(0, 0), (7, 3), (2, 2), (4, 8), (1, 6)],
        &[(8, 5), (6, 9), (5, 4), (9, 1), (3, 7)],
        5,
    );
    check(
        &[(0, 0), (1, 1), (5, 5), (6, 6), (7, 7)],
        &[(2, 2), (3, 3), (4, 4), (8, 8), (9, 9)],
        4,
    );
}

/// Samples of two published problems in one dimension, "at most" (LeetCode
/// 2410 and 455, statements and tests in public repositories).
#[test]
fn published_pairs_on_a_line_are_all_found() {
    let on_line = |figures: &[i64]| -> Vec<_> { figures.iter().map(|x| (*x, *x)).collect() };
    let line = |needs: &[i64], offerings: &[i64], pairs| {
        check(&on_line(needs), &on_line(offerings), pairs);
    };
    line(&[4, 7, 9], &[8, 2, 5, 8], 2);
    line(&[1, 1, 1], &[10], 1);
    line(&[1, 2, 3], &[1, 1], 1);
    line(&[1, 2], &[1, 2, 3], 2);
}

/// Worked by hand: taking the smallest back width first pairs one only.
#[test]
fn the_smallest_first_is_not_the_rule() {
    check(&[(0, 0), (0, 1)], &[(0, 1), (1, 0)], 2);
}

/// Worked by hand: with three thresholds a sweep that takes the largest need
/// pairs one only. Panels have two; so this goes to the matching itself.
#[test]
fn three_thresholds_are_matched_too() {
    let needs = [[1, 1, 1], [1, 0, 2]];
    let offerings = [[1, 2, 1], [1, 1, 2]];
    let graph = FitGraph::of(&needs, &offerings, |need, offering| {
        need.iter().zip(offering).all(|(need, has)| need <= has)
    });
    assert_eq!(Matching::maximum(&graph).size(), 2);
}

/// The sweep by two thresholds opens one panel here: it pairs the two pieces.
/// (Worked by hand.)
#[test]
fn offcuts_of_both_hands_beat_a_panel_of_two() {
    let left = piece(1, Hand::Left, 30, 18);
    let right = piece(2, Hand::Right, 8, 20);
    assert!(share_a_panel(&left.spec, &right.spec, Length::ZERO));
    let rack = [
        offcut(1, Hand::Right, 20, 32),
        offcut(2, Hand::Left, 32, 38),
    ];
    let plan = Plan::of(&[left, right], &rack, Length::ZERO);
    assert_eq!(plan.new_panels(), 0);
    let stocks: Vec<_> = plan.pieces.iter().map(|piece| piece.stock).collect();
    let on_rack = |number| PlannedStock::Rack(OffcutNumber(number));
    assert_eq!(stocks, [on_rack(2), on_rack(1)]);
}

/// Clipping both lines at nose and back would pair these two: a hip panel with
/// a corner off and a valley triangle. (Worked by hand.)
#[test]
fn a_corner_off_and_a_valley_triangle_do_not_share_a_panel() {
    let pieces = [piece(1, Hand::Left, 52, 40), piece(2, Hand::Right, -2, 8)];
    assert_eq!(Plan::of(&pieces, &[], Length::ZERO).new_panels(), 2);
    assert_eq!(most_pairs(&pieces, &[], Length::ZERO), 0);
    let pieces = [piece(1, Hand::Left, 52, 40), piece(2, Hand::Right, -4, 8)];
    assert_eq!(Plan::of(&pieces, &[], Length::ZERO).new_panels(), 1);
    assert_eq!(most_pairs(&pieces, &[], Length::ZERO), 1);
}

/// Worked by hand: the first offcut that fits the first piece is the only one
/// for the second.
#[test]
fn first_fit_in_cutting_order_opens_a_panel_too_many() {
    let pieces = [piece(1, Hand::Right, 10, 10), piece(2, Hand::Right, 30, 30)];
    let rack = [
        offcut(1, Hand::Right, 30, 30),
        offcut(2, Hand::Right, 10, 10),
    ];
    assert_eq!(first_fit(&pieces, &rack, Length::ZERO), 1);
    assert_eq!(Plan::of(&pieces, &rack, Length::ZERO).new_panels(), 0);
}

#[test]
fn the_own_part_of_a_spoiled_piece_serves_a_smaller_one_of_its_hand() {
    let spoiled = piece(1, Hand::Left, 30, 18);
    // It was bent, so it is good up to its bend line: 28 and 16 in.
    let own = RackOffcut {
        offcut: Offcut::own_part(&spoiled.spec, spoiled.spec.bend),
        ..offcut(7, Hand::Left, 0, 0)
    };
    let smaller = piece(2, Hand::Left, 28, 16);
    let plan = Plan::of(&[spoiled, smaller], &[own], Length::ZERO);
    let stocks: Vec<_> = plan.pieces.iter().map(|piece| piece.stock).collect();
    assert_eq!(
        stocks,
        [PlannedStock::New, PlannedStock::Rack(OffcutNumber(7))]
    );
}

#[test]
fn full_panels_and_bent_corners_are_new_and_leave_nothing() {
    use bendmark::domain::stock::Rest;
    let pieces = [
        piece(1, Hand::Left, 70, 60),
        piece(2, Hand::Left, 60, 48),
        piece(3, Hand::Right, 1, 1),
        piece(4, Hand::Left, 60, 46),
    ];
    let plan = Plan::of(&pieces, &[], Length::ZERO);
    let rests: Vec<_> = plan.pieces.iter().map(|piece| piece.rest).collect();
    assert_eq!(plan.new_panels(), 4);
    assert_eq!(
        rests,
        [Rest::Nothing, Rest::Nothing, Rest::Waste, Rest::Waste]
    );
}

#[test]
fn panels_to_carry_are_counted_for_each_edge_and_what_is_left() {
    use bendmark::domain::bench::OpenedPanel;
    use bendmark::domain::cutting::PanelsToCarry;
    let mut pieces = [
        piece(1, Hand::Left, 20, 20),
        piece(2, Hand::Left, 40, 40),
        piece(3, Hand::Right, 20, 20),
    ];
    pieces[2].id.edge = EdgeId(2);
    let plan = Plan::of(&pieces, &[], Length::ZERO);
    // Two panels were opened at edge 1 before, one of them spoiled, one at 3.
    let opened = [1, 1, 3].map(|edge| OpenedPanel {
        edge: EdgeId(edge),
        lot: None,
    });
    let carry = PanelsToCarry::of(&opened, &plan);
    assert_eq!((carry.whole_job, carry.left), (5, 2));
    let by_edge: Vec<_> = carry.by_edge.into_iter().collect();
    assert_eq!(by_edge, [(EdgeId(1), 4), (EdgeId(2), 0), (EdgeId(3), 1)]);
}

/// Worked by hand: three pairs around one another, all there after the third
/// cut; next to each other they would wait one by one.
#[test]
fn the_most_on_the_rack_are_counted_between_the_cuts() {
    let pieces = |widths: &[(Hand, i64)]| -> Vec<_> {
        let each = (1..).zip(widths);
        each.map(|(number, (hand, width))| piece(number, *hand, *width, *width))
            .collect()
    };
    use Hand::{Left, Right};
    // 30 goes with 18 only, 20 with 28 or 18, 10 with all: nested.
    let nested = [
        (Left, 30),
        (Left, 20),
        (Left, 10),
        (Right, 38),
        (Right, 28),
        (Right, 18),
    ];
    let plan = Plan::of(&pieces(&nested), &[], Length::ZERO);
    assert_eq!(
        (plan.new_panels(), plan.waiting(), plan.most_on_rack()),
        (3, 6, 3)
    );
    let in_turn = [
        (Left, 30),
        (Right, 18),
        (Left, 20),
        (Right, 28),
        (Left, 10),
        (Right, 38),
    ];
    let plan = Plan::of(&pieces(&in_turn), &[], Length::ZERO);
    assert_eq!(
        (plan.new_panels(), plan.waiting(), plan.most_on_rack()),
        (3, 0, 1)
    );
}
