//! The `geo` crate clips the panel by the cut line itself: a boolean operation
//! on polygons and an intersection of segments, both by other people's code.
//!
//! Tolerances. Areas: 1e-6 of the panel's area. The boolean operation snaps to
//! a grid of 2^-30 of the scene (some 5 nm on a scene of 5 m), which is
//! 1e-8 of a panel's width. Positions: the core rounds to the nearest nanometre
//! (half of one off at most); the segment intersection is computed in `f64` on
//! coordinates up to 1e11, which is wrong by some 1e-5 nm across the line, and
//! by that over the sine of the angle at which the line meets the side. A
//! quarter of a nanometre is left for it (measured: below 1e-4 nm in 50,000 random
//! gaps), and lines that lie anywhere are either square or at
//! least 1/1000 out of square.

use super::gaps::{any_filled, cases};
use super::plane::{extended, half_plane, mm2, nm, outline, polygon, sides};
use bendmark::domain::measure::{Length, SkewLine};
use bendmark::domain::piece::{Ends, Marks, Panel, PieceSpec};
use geo::line_intersection::{LineIntersection, line_intersection};
use geo::{BooleanOps, Coord, Intersects};
use proptest::prelude::*;

/// Half a nanometre of rounding, a quarter for `f64`.
const OFF_NM: f64 = 0.75;

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn prop_the_parts_of_a_cut_have_the_areas_geo_finds(filled in any_filled()) {
        for piece in &filled.pieces {
            check_areas(piece)?;
        }
    }

    #[test]
    fn prop_the_marks_stand_where_geo_crosses_the_outline(filled in any_filled()) {
        for piece in &filled.pieces {
            let marks = Marks::of(piece);
            check_marks(&piece.bend, marks.bend, piece.panel)?;
            check_marks(&piece.cut(), marks.cut, piece.panel)?;
        }
    }

    #[test]
    fn prop_a_line_without_marks_leaves_the_panel_whole(filled in any_filled()) {
        for piece in &filled.pieces {
            if Marks::of(piece).cut.is_none() {
                let kept = outline(piece.panel).intersection(&half_plane(&piece.cut(), piece.panel));
                let off = mm2(&outline(piece.panel)) - mm2(&kept);
                prop_assert!(off <= 1e-6 * mm2(&outline(piece.panel)), "{off} mm2 in {piece:?}");
            }
        }
    }
}

fn check_areas(piece: &PieceSpec) -> Result<(), TestCaseError> {
    let marks = Marks::of(piece);
    let panel = outline(piece.panel);
    let near = half_plane(&piece.cut(), piece.panel);
    let most = 1e-6 * mm2(&panel);
    let kept = panel.intersection(&near);
    let left = panel.difference(&near);
    for (ours, theirs) in [(&marks.kept, kept), (&marks.left, left)] {
        let off = (ours.area().mm2() - mm2(&theirs)).abs();
        prop_assert!(off <= most, "area {off} mm2 off in {piece:?}");
        let apart = mm2(&polygon(ours, Length::ZERO).xor(&theirs));
        prop_assert!(apart <= most, "shape {apart} mm2 off in {piece:?}");
    }
    Ok(())
}

fn check_marks(line: &SkewLine, ends: Option<Ends>, panel: Panel) -> Result<(), TestCaseError> {
    let found = crossings(line, panel);
    let along_side = sides(panel)
        .iter()
        .any(|side| found.iter().all(|point| side.intersects(point)));
    let Some(ends) = ends else {
        // Nothing, one corner, or all along one side.
        prop_assert!(
            found.len() < 2 || along_side,
            "{found:?} missed by {line:?}"
        );
        return Ok(());
    };
    prop_assert_eq!(found.len(), 2, "{:?} for {:?}", &found, line);
    prop_assert!(
        !along_side,
        "{ends:?} leave nothing on one side of {line:?}"
    );
    let (low, high) = if found[0].y <= found[1].y {
        (found[0], found[1])
    } else {
        (found[1], found[0])
    };
    for (mark, geo) in ends.into_iter().zip([low, high]) {
        let point = mark.point(panel.width, panel.height);
        let off = (nm(point.x) - geo.x).hypot(nm(point.y) - geo.y);
        prop_assert!(
            off <= OFF_NM,
            "{mark:?} is {off} nm off {geo:?} on {line:?}"
        );
    }
    Ok(())
}

/// Where `geo` finds the line crossing the panel's outline, each place once.
fn crossings(line: &SkewLine, panel: Panel) -> Vec<Coord> {
    let line = extended(line, 60);
    let mut found: Vec<Coord> = Vec::new();
    let mut add = |point: Coord| {
        let known = |other: &Coord| (other.x - point.x).hypot(other.y - point.y) < 1.0;
        if !found.iter().any(known) {
            found.push(point);
        }
    };
    for side in sides(panel) {
        match line_intersection(line, side) {
            Some(LineIntersection::SinglePoint { intersection, .. }) => add(intersection),
            Some(LineIntersection::Collinear { intersection }) => {
                add(intersection.start);
                add(intersection.end);
            }
            None => {}
        }
    }
    found
}
