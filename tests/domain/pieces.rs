//! Identities of pieces over random panels, gaps, heights and kinds.
//!
//! All of it in whole numbers: nothing here allows for rounding but the one
//! nearest nanometre that a mark's position is rounded to. What is measured by
//! a geometry library stands in `tests/outside`.

use crate::gaps::{any_filled, cases};
use bendmark::domain::{
    bench::Needs,
    log::{Course, CourseNumber, End, Reading},
    measure::{Hand, Length, Point, Polygon, SkewLine},
    piece::{At, Lie, Mark, Marks, Nose, Panel, Part, PieceSpec},
};
use proptest::prelude::*;

proptest! {
    #![proptest_config(cases(2_000))]

    #[test]
    fn prop_polygons_never_cross_themselves(filled in any_filled()) {
        for piece in &filled.pieces {
            let marks = Marks::of(piece);
            for part in [&marks.kept, &marks.left] {
                prop_assert!(turns_left_once_round(part), "{part:?} of {piece:?}");
            }
        }
    }

    #[test]
    fn prop_kept_and_left_are_the_stock(filled in any_filled()) {
        for piece in &filled.pieces {
            let marks = Marks::of(piece);
            let stock = piece.panel.outline();
            let none = Polygon::default().area();
            prop_assert_eq!(marks.kept.area() + marks.left.area(), stock.area());
            prop_assert!(marks.kept.area() > none, "a piece of nothing: {piece:?}");
            prop_assert!(marks.left.area() >= none);
            prop_assert_eq!(marks.cut.is_some(), marks.left.area() > none, "{:?}", piece);
        }
    }

    #[test]
    fn prop_every_mark_lies_on_the_outline_and_on_its_line(filled in any_filled()) {
        for piece in &filled.pieces {
            let marks = Marks::of(piece);
            for (line, ends) in [(piece.bend, marks.bend), (piece.cut(), marks.cut)] {
                for mark in ends.into_iter().flatten() {
                    prop_assert!(on_outline(mark, piece.panel), "{mark:?} of {piece:?}");
                    prop_assert!(on_line(mark, &line, piece.panel), "{mark:?} of {piece:?}");
                }
            }
        }
    }

    #[test]
    fn prop_marks_go_from_the_nose_end_to_the_back_end(filled in any_filled()) {
        for piece in &filled.pieces {
            let marks = Marks::of(piece);
            for [low, high] in [marks.bend, marks.cut].into_iter().flatten() {
                let y = |mark: Mark| mark.point(piece.panel.width, piece.panel.height).y;
                prop_assert!(y(low) < y(high), "{piece:?}");
                prop_assert!(low.at != At::Back && high.at != At::Nose);
            }
        }
    }

    #[test]
    fn prop_the_cut_marks_are_corners_of_both_parts(filled in any_filled()) {
        for piece in &filled.pieces {
            let marks = Marks::of(piece);
            for mark in marks.cut.into_iter().flatten() {
                let point = mark.point(piece.panel.width, piece.panel.height);
                for part in [&marks.kept, &marks.left] {
                    let nearest = part.corners().iter().map(|corner| apart(*corner, point)).min();
                    prop_assert!(nearest <= Some(1), "{mark:?} of {part:?}");
                }
            }
        }
    }

    #[test]
    fn prop_a_right_piece_is_the_mirror_of_a_left_one(filled in any_filled()) {
        for piece in &filled.pieces {
            let [left, right] = Hand::BOTH.map(|hand| PieceSpec { hand, ..*piece });
            let (marks, twin) = (Marks::of(&left), Marks::of(&right));
            prop_assert_eq!(&marks, &twin);
            prop_assert_eq!(left.skew_deg().to_bits(), right.skew_deg().to_bits());
            prop_assert_eq!(left.leg(), right.leg());
            let lie = |hand, blade| Lie::of(marks.kept.area(), marks.left.area(), hand, blade);
            for blade in Hand::BOTH {
                prop_assert_eq!(lie(Hand::Left, blade), lie(Hand::Right, blade.other()));
                prop_assert_eq!(lie(Hand::Left, blade).on_table, lie(Hand::Right, blade).on_table);
                prop_assert_ne!(lie(Hand::Left, blade).nose, lie(Hand::Right, blade).nose);
            }
        }
    }

    #[test]
    fn prop_seen_from_the_other_side_kept_and_left_change_places(filled in any_filled()) {
        for piece in &filled.pieces {
            let width = piece.panel.width;
            let marks = Marks::of(piece);
            let (near, far) = piece.panel.outline().cut_by(&piece.cut().mirrored(width));
            prop_assert!(same_shape(&near, &mirrored(&marks.left, width)), "{piece:?}");
            prop_assert!(same_shape(&far, &mirrored(&marks.kept, width)), "{piece:?}");
        }
    }

    #[test]
    fn prop_the_part_on_the_table_lies_away_from_the_blade(filled in any_filled()) {
        for piece in &filled.pieces {
            let marks = Marks::of(piece);
            if marks.cut.is_none() {
                continue;
            }
            for hand in Hand::BOTH {
                for blade in Hand::BOTH {
                    prop_assert!(lies_well(&marks, piece.panel.width, hand, blade), "{piece:?}");
                }
            }
        }
    }

    #[test]
    fn prop_a_piece_of_a_wide_gap_is_full_bent_or_cut_as_the_rule_says(filled in any_filled()) {
        let width = filled.settings.panel_width;
        let wide = |line: &SkewLine| line.at_nose.max(line.at_rise) > width;
        for piece in filled.pieces.iter().filter(|piece| wide(&piece.bend)) {
            let high = piece.panel.height;
            // A line is on the panel where it stands below the width somewhere.
            let crosses = |line: SkewLine| line.at_nose.min(line.x(high)) < width;
            let needs = Needs::of(piece);
            prop_assert_eq!(needs.bend, crosses(piece.bend), "{:?}", piece);
            prop_assert_eq!(needs.cut, crosses(piece.cut()), "{:?}", piece);
        }
    }

    #[test]
    fn prop_all_pieces_of_a_course_share_hand_allowance_and_lean(filled in any_filled()) {
        let run = filled.gap.bottom - filled.gap.top;
        for piece in &filled.pieces {
            prop_assert_eq!(piece.hand, filled.frame.hand);
            prop_assert_eq!(piece.allowance, filled.frame.allowance);
            prop_assert_eq!(piece.bend.at_nose - piece.bend.at_rise, run);
        }
    }

    #[test]
    fn prop_a_line_said_to_run_out_is_at_the_whole_edge_there(
        reading in 1_i64..=2_000_000_000, part in 0.01_f64..0.99, height in 50_000_000_i64..=500_000_000,
    ) {
        let height = Length::from_nm(height);
        let at = Length::rounded_from_mm(height.mm() * part);
        for end in End::BOTH {
            let reading = Reading::new(Length::from_nm(reading)).ok();
            let mut course = Course::unread(CourseNumber::FIRST).with(end, reading);
            course.runs_out = Reading::new(at).ok();
            let gap = course.gap(height).unwrap();
            let line = SkewLine { at_nose: gap.bottom, at_rise: gap.top, rise: height };
            // The end not read is rounded to a nanometre; on the line between
            // the two it is less than that.
            prop_assert!(line.x(at).abs() <= Length::from_nm(1));
        }
    }
}

/// Whether the corners go once round, never turning right: then no two sides
/// cross. A polygon of no corners is one of no area.
fn turns_left_once_round(polygon: &Polygon) -> bool {
    let corners = polygon.corners();
    let at = |k: usize| corners[k % corners.len()];
    let turns = (0..corners.len()).all(|k| turn(at(k), at(k + 1), at(k + 2)) >= 0);
    // Seen from one corner, the others are met in turning order as well.
    let fan = (1..corners.len().saturating_sub(1)).all(|k| turn(at(0), at(k), at(k + 1)) >= 0);
    let distinct = (0..corners.len()).all(|k| at(k) != at(k + 1));
    (corners.is_empty() || corners.len() >= 3) && turns && fan && distinct
}

/// Twice the signed area of a triangle in square nanometres.
fn turn(p: Point, q: Point, r: Point) -> i128 {
    let run = |from: Length, to: Length| i128::from((to - from).nm());
    run(p.x, q.x) * run(p.y, r.y) - run(p.y, q.y) * run(p.x, r.x)
}

fn on_outline(mark: Mark, panel: Panel) -> bool {
    let most = match mark.at {
        At::Nose | At::Back => panel.width,
        At::FarSide | At::HandSide => panel.height,
    };
    mark.position >= Length::ZERO && mark.position <= most
}

/// Within half a nanometre, along the side that the mark is on.
fn on_line(mark: Mark, line: &SkewLine, panel: Panel) -> bool {
    let off = line.side(mark.point(panel.width, panel.height)).abs();
    let nanometre = match mark.at {
        At::Nose | At::Back => line.rise,
        At::FarSide | At::HandSide => line.at_rise - line.at_nose,
    };
    2 * off <= i128::from(nanometre.nm().abs())
}

fn apart(p: Point, q: Point) -> i64 {
    (p.x - q.x).abs().max((p.y - q.y).abs()).nm()
}

fn mirrored(polygon: &Polygon, width: Length) -> Vec<Point> {
    let mirror = |corner: &Point| Point {
        x: width - corner.x,
        y: corner.y,
    };
    polygon.corners().iter().map(mirror).collect()
}

/// Whether both have the same corners, each to a nanometre.
fn same_shape(polygon: &Polygon, corners: &[Point]) -> bool {
    let has = |all: &[Point], one: &Point| all.iter().any(|corner| apart(*corner, *one) <= 1);
    polygon.corners().iter().all(|one| has(corners, one))
        && corners.iter().all(|one| has(polygon.corners(), one))
}

/// Lays the panel on the table and looks on which side of the other part the
/// one lies that stays there.
fn lies_well(marks: &Marks, width: Length, hand: Hand, blade: Hand) -> bool {
    let lie = Lie::of(marks.kept.area(), marks.left.area(), hand, blade);
    let (stays, drops) = match lie.on_table {
        Part::Kept => (&marks.kept, &marks.left),
        Part::Offcut => (&marks.left, &marks.kept),
    };
    // From the table's left end: a right-hand piece is mirrored, and a panel
    // turned end for end has its right side at the left.
    let from_left = |part: &Polygon| {
        let x = middle_x(part);
        let x = if hand == Hand::Left {
            x
        } else {
            width.mm() - x
        };
        match lie.nose {
            Nose::Toward => x,
            Nose::Away => width.mm() - x,
        }
    };
    let larger = stays.area() >= drops.area();
    let away = match blade {
        Hand::Right => from_left(stays) < from_left(drops),
        Hand::Left => from_left(stays) > from_left(drops),
    };
    larger && away
}

/// The centre of gravity's distance from the whole edge, in millimetres: the
/// mean of the triangles of a fan, weighted by their areas.
fn middle_x(polygon: &Polygon) -> f64 {
    let corners = polygon.corners();
    let (mut moment, mut area) = (0.0, 0.0);
    for pair in corners[1..].windows(2) {
        let (p, q, r) = (corners[0], pair[0], pair[1]);
        let (u, v) = (q.x - p.x, r.x - p.x);
        let doubled = u.mm() * (r.y - p.y).mm() - v.mm() * (q.y - p.y).mm();
        moment += doubled * (p.x.mm() + q.x.mm() + r.x.mm()) / 3.0;
        area += doubled;
    }
    moment / area
}
