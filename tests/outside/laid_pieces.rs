//! The pieces of a gap, laid at their places, measured by the `geo` crate.
//!
//! ```text
//!   |<---- C ---->|<---- C ---->|<- W - C ->|
//!   +-------------+-------------+-----------+  last panel's far side
//!   |  piece 1    |  piece 2    *      \  o |  * bend line, o cut line
//!   |             |              \      \  o|  ^ beyond here the turn-up tapers
//!   +-------------+---------------*------\--+o
//! ```
//!
//! Piece `k` lies `k C` out from the field; neighbours overlap in the lap.
//!
//! Tolerance: 1e-6 of the panel's area, as it is delivered. The boolean
//! operation snaps to a grid of some 2^-29 of the scene, which is kept as narrow
//! as the gap: 1e-5 mm on 6 m, along some 12 m of outlines.

use super::gaps::{Filled, any_filled, cases};
use super::plane::{half_plane, mm2, nm, polygon, ring};
use bendmark::domain::measure::{Length, SkewLine};
use bendmark::domain::piece::{At, Marks, Panel};
use geo::{BooleanOps, MultiPolygon, Polygon};
use proptest::prelude::*;

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn prop_laid_pieces_cover_gap_and_turn_up_but_for_the_taper(filled in any_filled()) {
        let laid = laid(&filled);
        let taper = taper(&filled);
        let most = tolerance(&filled);
        let bare = region(&cut_of(&filled), &filled).difference(&laid);
        let unnamed = mm2(&bare.difference(&taper));
        prop_assert!(unnamed <= most, "{unnamed} mm2 bare and not named: {filled:?}");
        let wrongly = mm2(&taper.difference(&bare));
        prop_assert!(wrongly <= most, "{wrongly} mm2 named but covered: {filled:?}");
    }

    #[test]
    fn prop_the_gap_itself_is_always_covered_up_to_the_course_line(filled in any_filled()) {
        let height = rise_of(&filled);
        let course = band(&filled, height);
        let most = tolerance(&filled);
        let bare = region(&bend_of(&filled), &filled).intersection(&course).difference(&laid(&filled));
        prop_assert!(mm2(&bare) <= most, "{} mm2 of the gap bare: {filled:?}", mm2(&bare));
    }

    #[test]
    fn prop_nothing_lies_beyond_the_cut_line(filled in any_filled()) {
        let most = tolerance(&filled);
        let over = laid(&filled).difference(&region(&cut_of(&filled), &filled));
        prop_assert!(mm2(&over) <= most, "{} mm2 too much: {filled:?}", mm2(&over));
    }

    #[test]
    fn prop_a_taper_shows_as_a_cut_line_through_the_far_side_or_off_the_last_panel(
        filled in any_filled()
    ) {
        let least = tolerance(&filled);
        let Some(last) = filled.pieces.last() else { return Ok(()) };
        let cut = Marks::of(last).cut;
        let through_side = cut.is_some_and(|ends| ends.iter().any(|end| end.at == At::FarSide));
        let tapers = mm2(&taper(&filled)) > least;
        if tapers {
            prop_assert!(through_side || cut.is_none(), "{filled:?}");
        }
    }

    #[test]
    fn prop_only_the_last_piece_keeps_its_bend_line_within_the_panel(filled in any_filled()) {
        let width = filled.settings.panel_width;
        for (k, piece) in (0_i64..).zip(&filled.pieces) {
            let widest = piece.bend.at_nose.max(piece.bend.at_rise);
            let is_last = usize::try_from(k).unwrap() + 1 == filled.pieces.len();
            prop_assert!(widest <= width || !is_last || last_was_needless(&filled));
            prop_assert!(is_last || widest > width);
            prop_assert_eq!(piece.bend, bend_of(&filled).moved(-filled.settings.cover().times(k)));
        }
    }
}

/// Whether the piece after the last one would have nothing left of it.
fn last_was_needless(filled: &Filled) -> bool {
    let Some(last) = filled.pieces.last() else {
        return true;
    };
    let next = last.cut().moved(-filled.settings.cover());
    next.at_nose <= Length::ZERO && next.x(last.panel.height) <= Length::ZERO
}

fn rise_of(filled: &Filled) -> Length {
    filled.frame.short.unwrap_or(filled.settings.exposure)
}

/// In square millimetres.
fn tolerance(filled: &Filled) -> f64 {
    1e-6 * filled.settings.panel_width.mm() * filled.settings.panel_height().mm()
}

/// Beyond all pieces and lines.
fn far(filled: &Filled) -> f64 {
    let cut = cut_of(filled);
    let ends = [cut.at_nose, cut.at_rise, cut.x(panel_of(filled).height)];
    let furthest = ends.into_iter().max().unwrap().max(reach(filled));
    nm(furthest) + 1e7
}

/// Where the last panel's far side lies.
fn reach(filled: &Filled) -> Length {
    let before_last = i64::try_from(filled.pieces.len()).unwrap() - 1;
    filled.settings.cover().times(before_last) + filled.settings.panel_width
}

fn panel_of(filled: &Filled) -> Panel {
    Panel {
        width: filled.settings.panel_width,
        height: filled.frame.short.unwrap_or(filled.settings.panel_height()),
    }
}

fn bend_of(filled: &Filled) -> SkewLine {
    SkewLine {
        at_nose: filled.gap.bottom,
        at_rise: filled.gap.top,
        rise: rise_of(filled),
    }
}

fn cut_of(filled: &Filled) -> SkewLine {
    bend_of(filled).moved(filled.frame.allowance)
}

/// A strip beyond everything here, from the nose to `height`.
fn band(filled: &Filled, height: Length) -> Polygon {
    let far = far(filled);
    let top = nm(height.min(panel_of(filled).height));
    ring(&[(0.0, 0.0), (far, 0.0), (far, top), (0.0, top)])
}

/// From the side-lap line to `line`, from the nose to the panel's back.
fn region(line: &SkewLine, filled: &Filled) -> MultiPolygon {
    let panel = panel_of(filled);
    half_plane(line, panel).intersection(&band(filled, panel.height))
}

/// All pieces at their places.
fn laid(filled: &Filled) -> MultiPolygon {
    let cover = filled.settings.cover();
    let mut laid = MultiPolygon::new(Vec::new());
    for (k, piece) in (0_i64..).zip(&filled.pieces) {
        let kept = Marks::of(piece).kept;
        laid = laid.union(&polygon(&kept, cover.times(k)));
    }
    laid
}

/// What of the turn-up lies beyond the far side of the last panel.
fn taper(filled: &Filled) -> MultiPolygon {
    if filled.pieces.is_empty() {
        return MultiPolygon::new(Vec::new());
    }
    let (from, far) = (nm(reach(filled)), far(filled));
    let top = nm(panel_of(filled).height);
    let beyond = ring(&[(from, 0.0), (far, 0.0), (far, top), (from, top)]);
    region(&cut_of(filled), filled).intersection(&beyond)
}
