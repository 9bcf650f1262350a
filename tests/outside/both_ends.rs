//! Pieces cut at both ends, against the `geo` crate: its own cuts give the same
//! parts, and the piece without its legs, laid between the true lines of a roof,
//! leaves nothing uncovered.
//!
//! The roof is made here: two straight edges with leans of their own, all in
//! `f64`, and readings as a tape would give them.

#![allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "whole nanometres below 2^53, and back to them"
)]

use super::gaps::cases;
use super::plane::{half_plane, mm2, nm, outline, polygon, ring};
use bendmark::domain::{
    log::{EdgeId, Gap},
    measure::{Hand, Length},
    piece::{CourseTrouble, EndLean, Marks, PieceEnd, PieceSpec, piece_of_both_ends},
    roof::EdgeKind,
    settings::{RawSettings, Settings},
};
use geo::{BooleanOps, MultiPolygon, Polygon};
use proptest::prelude::*;

/// A course between two edges, in nanometres.
#[derive(Clone, Copy, Debug)]
struct Strip {
    bottom: i64,
    /// How much each end takes off going up, near and far.
    runs: [i64; 2],
    exposure: i64,
    /// How much higher the panel is than the exposure.
    more: i64,
    allowances: [i64; 2],
    tape: Hand,
}

fn strip() -> impl Strategy<Value = Strip> {
    let mm = 1_000_000_i64;
    let run = move || -400 * mm..400 * mm;
    let hand = prop_oneof![Just(Hand::Left), Just(Hand::Right)];
    (
        20 * mm..1_100 * mm,
        [run(), run()],
        250 * mm..400 * mm,
        0..40 * mm,
        [20 * mm..80 * mm, 20 * mm..80 * mm],
        hand,
    )
        .prop_map(|(bottom, runs, exposure, more, allowances, tape)| Strip {
            bottom,
            runs,
            exposure,
            more,
            allowances,
            tape,
        })
}

impl Strip {
    fn settings(&self) -> Settings {
        let exposure = Length::from_nm(self.exposure);
        Settings::checked(RawSettings {
            exposure,
            panel_height: Some(exposure + Length::from_nm(self.more)),
            ..RawSettings::default()
        })
        .unwrap()
    }

    fn piece(&self) -> Result<PieceSpec, CourseTrouble> {
        let [near, far] = [0, 1].map(|at| PieceEnd {
            edge: EdgeId(1),
            kind: EdgeKind::Hip,
            lean: EndLean::Known(Length::from_nm(self.runs[at])),
            allowance: Length::from_nm(self.allowances[at]),
        });
        let top = self.bottom - self.runs[0] - self.runs[1];
        let gap = Gap {
            bottom: Length::from_nm(self.bottom),
            top: Length::from_nm(top),
        };
        piece_of_both_ends(gap, [near, far], self.tape, None, &self.settings())
    }
}

/// The true roof between the two lines up to `top`, the near bottom corner at
/// `base`.
fn between(strip: &Strip, base: f64, top: f64) -> Polygon<f64> {
    let rise = strip.exposure as f64;
    let [near, far] = strip.runs.map(|run| run as f64 / rise);
    let bottom = strip.bottom as f64;
    // Above the tip there is no roof of this course.
    let narrows = near + far;
    let top = if narrows > 0.0 {
        top.min(bottom / narrows)
    } else {
        top
    };
    ring(&[
        (base, 0.0),
        (base + bottom, 0.0),
        (base + bottom - far * top, top),
        (base + near * top, top),
    ])
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn prop_the_parts_of_a_piece_cut_at_both_ends_are_those_that_geo_cuts(strip in strip()) {
        let Ok(piece) = strip.piece() else { return Ok(()) };
        let marks = Marks::of(&piece);
        let near = marks.near.as_ref().unwrap();
        let panel = outline(piece.panel);
        let most = 1e-6 * mm2(&panel);
        let far = panel.difference(&half_plane(&piece.cut(), piece.panel));
        let left_of_far = panel.intersection(&half_plane(&piece.cut(), piece.panel));
        let (near_part, mut kept) = match piece.near_cut() {
            Some(cut) => (
                left_of_far.intersection(&half_plane(&cut, piece.panel)),
                left_of_far.difference(&half_plane(&cut, piece.panel)),
            ),
            None => (left_of_far.difference(&left_of_far), left_of_far),
        };
        let mut tip_area = 0.0;
        if let Some(tip) = near.tip {
            let (wide, high) = (nm(piece.panel.width), nm(piece.panel.height));
            let above = ring(&[
                (-1e9, nm(tip)),
                (wide + 1e9, nm(tip)),
                (wide + 1e9, high + 1e9),
                (-1e9, high + 1e9),
            ]);
            tip_area = mm2(&kept.intersection(&above));
            kept = kept.difference(&above);
        }
        for (ours, theirs) in [(&marks.kept, kept), (&marks.left, far), (&near.left, near_part)] {
            let apart = mm2(&polygon(ours, Length::ZERO).xor(&theirs));
            prop_assert!(apart <= most, "{apart} mm2 off in {piece:?}");
        }
        let sum = marks.kept.area() + marks.left.area() + near.left.area();
        let off = (sum.mm2() + tip_area - mm2(&panel)).abs();
        prop_assert!(off <= most, "{off} mm2 of the panel are in no part of {piece:?}");
    }

    #[test]
    fn prop_a_piece_cut_at_both_ends_leaves_nothing_of_the_roof_uncovered(strip in strip()) {
        let Ok(piece) = strip.piece() else { return Ok(()) };
        let marks = Marks::of(&piece);
        let near = piece.near.unwrap();
        // Without its legs: between the two bend lines.
        let kept = polygon(&marks.kept, Length::ZERO);
        let flat = kept
            .intersection(&half_plane(&piece.bend, piece.panel))
            .difference(&half_plane(&near.bend, piece.panel));
        let roof = between(&strip, nm(near.bend.at_nose), nm(piece.panel.height));
        let bare = mm2(&roof.difference(&flat));
        // A few nanometres along each line, most of them the library's grid.
        prop_assert!(bare <= 5e-2, "{bare} mm2 bare: {piece:?}");
        let over = mm2(&flat.difference(&MultiPolygon::from(roof)));
        prop_assert!(over <= 5e-2, "{over} mm2 over: {piece:?}");
    }
}

/// Readings and leans as a tape gives them: rounded to 1/8 in, no other error,
/// the leans from ten courses. The near bottom corner lies where it should.
#[test]
fn the_worst_corner_is_within_11_hundredths_of_an_inch_in_99_of_100() {
    use bendmark::domain::piece::level;
    let eighth = 3_175_000.0;
    let taped = |nm: f64| ((nm / eighth).round() * eighth) as i64;
    let mut random = super::split_mix::SplitMix::at(7);
    let mut within = |from: f64, to: f64| {
        let part = (random.next() >> 11) as f64 / (1_u64 << 53) as f64;
        from + part * (to - from)
    };
    let inch = 25.4e6;
    let mut worst = Vec::new();
    for _ in 0..10_000 {
        let true_runs = [within(6.0, 13.0) * inch, within(6.0, 13.0) * inch];
        let bottom = within(28.0, 43.0) * inch;
        let runs = true_runs.map(|run| {
            let steps = (0..10).map(|_| {
                let bottom = within(14.0, 46.0) * inch;
                Length::from_nm(taped(bottom) - taped(bottom - run))
            });
            level(steps.collect()).unwrap().nm()
        });
        let top = bottom - true_runs[0] - true_runs[1];
        let strip = Strip {
            bottom: taped(bottom),
            runs,
            exposure: (14.0 * inch) as i64,
            more: 0,
            allowances: [(2.0 * inch) as i64; 2],
            tape: Hand::Left,
        };
        let [near, far] = [0, 1].map(|at| PieceEnd {
            edge: EdgeId(1),
            kind: EdgeKind::Hip,
            lean: EndLean::Known(Length::from_nm(runs[at])),
            allowance: Length::from_nm(strip.allowances[at]),
        });
        let gap = Gap {
            bottom: Length::from_nm(strip.bottom),
            top: Length::from_nm(taped(top.max(0.0))),
        };
        if top < 0.0 {
            continue;
        }
        let piece =
            piece_of_both_ends(gap, [near, far], Hand::Left, None, &strip.settings()).unwrap();
        let near = piece.near.unwrap().bend;
        let base = nm(near.at_nose);
        let corners = [
            nm(near.at_rise) - (base + true_runs[0]),
            nm(piece.bend.at_nose) - (base + bottom),
            nm(piece.bend.at_rise) - (base + bottom - true_runs[1]),
        ];
        worst.push(corners.map(f64::abs).into_iter().fold(0.0, f64::max) / inch);
    }
    worst.sort_by(f64::total_cmp);
    let at = worst[worst.len() * 99 / 100];
    // 0.0695 in when it was written.
    assert!(at <= 0.11, "{at}");
}
