//! Whether two parts share one panel: the exact test.
//!
//! One part keeps the left edge of the panel whole, the other the right edge.
//! Each takes what lies between its whole end and its cut line, and the cut
//! line is taken as it is drawn, **unclipped**: it may run out through a side.
//! `xl(y)` is measured from the left edge, `xr(y)` from the right one, `y` up
//! from the nose, `W` is the panel's width and `Hp` how high both parts are, or
//! the lower of two:
//!
//! ```text
//!   back   +---------\--------/-------+  y = Hp
//!          |  left    \ spare/  right |
//!   whole  |   part    \<-->/   part  |  whole
//!   left   |            \  /          |  right
//!   nose   +-------------\/-----------+  y = 0
//!          |---- xl ---->|<--- xr ----|
//! ```
//!
//! Only heights where **both** parts have any width matter. They fit if there
//! are none, or if `xl + xr <= W - spare` at both ends of that range: the range
//! is one interval and the sum is linear on it, so its ends decide. Clipping
//! both lines to `0..W` at nose and back first is not the same: a panel with
//! only a corner off and a valley triangle overlap although their clipped ends
//! do not.
//!
//! All of it is decided in 128-bit integers, without a rounding anywhere. It
//! does not know what a piece or an offcut is: that is `offcut.rs`.

use crate::domain::measure::{Length, SkewLine};

/// No line of a roof comes near it (1 km); a length beyond is held to it, so
/// that no product below leaves 128 bits.
const FARTHEST: i64 = 1_000_000_000_000;

/// One panel that two parts have to share.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) struct SharedPanel {
    /// How wide both may be together: the panel's width less what must be
    /// spared between them.
    width: i64,
    height: i64,
}

impl SharedPanel {
    /// A panel `width` wide and `height` high of which `spare` is left between
    /// two parts.
    pub(super) fn new(width: Length, height: Length, spare: Length) -> Self {
        Self {
            width: held(width - spare),
            height: held(height).max(1),
        }
    }

    pub(super) const fn is_higher_than(self, other: Self) -> bool {
        self.height > other.height
    }
}

/// What one part takes of a panel: all between its own whole end and a line,
/// made ready for many tests on one panel.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) struct Share {
    /// From the whole end at the nose.
    nose: i64,
    /// How much further from it the line stands `rise` up.
    run: i64,
    /// Above zero.
    rise: i64,
    /// From the whole end at the back, rounded down and up.
    back: [i64; 2],
}

impl Share {
    /// What lies between a whole end and `line`, measured from that end.
    pub(super) fn up_to(line: &SkewLine, panel: SharedPanel) -> Self {
        let (nose, rise) = (held(line.at_nose), held(line.rise).max(1));
        let run = held(line.at_rise) - nose;
        let risen = i128::from(run) * i128::from(panel.height);
        let down = risen.div_euclid(i128::from(rise));
        let whole = risen.rem_euclid(i128::from(rise)) == 0;
        let back = nose.saturating_add(saturated(down));
        Self {
            nose,
            run,
            rise,
            back: [back, back.saturating_add(i64::from(!whole))],
        }
    }

    /// Whether this part and `other`, whole on the other edge, come out of one
    /// such panel. Touching without overlap is enough.
    pub(super) fn fits_beside(&self, other: &Self, panel: SharedPanel) -> bool {
        let [down, up] = self.back;
        let [other_down, other_up] = other.back;
        let at_nose = self.nose + other.nose <= panel.width;
        if at_nose && up.saturating_add(other_up) <= panel.width {
            // Right at both ends of the panel, so right between them.
            return true;
        }
        let both_at_nose = self.nose > 0 && other.nose > 0;
        let both_at_back = down > 0 && other_down > 0;
        let over_at_back = down.saturating_add(other_down) > panel.width;
        if (both_at_nose && !at_nose) || (both_at_back && over_at_back) {
            // Both have width there, and too much of it.
            return false;
        }
        self.fits_where_both_have_width(other, panel)
    }

    /// Whether it takes anything at all of the panel.
    pub(super) fn has_width(&self, panel: SharedPanel) -> bool {
        self.stretch(panel).is_some()
    }

    fn fits_where_both_have_width(&self, other: &Self, panel: SharedPanel) -> bool {
        let (Some(mine), Some(others)) = (self.stretch(panel), other.stretch(panel)) else {
            return true;
        };
        let from = mine.from.higher(others.from);
        let to = mine.to.lower(others.to);
        if !to.above(from) {
            return true;
        }
        [from, to]
            .into_iter()
            .all(|end| self.sum_fits(other, end, panel))
    }

    /// Where this part has any width on the panel; `None` where it has none.
    fn stretch(&self, panel: SharedPanel) -> Option<Stretch> {
        let (nose, back) = (Height::whole(0), Height::whole(panel.height));
        let run_out = Height {
            over: i128::from(self.nose) * i128::from(self.rise) * i128::from(-self.run.signum()),
            under: i128::from(self.run.abs()),
        };
        let (from, to) = match self.run.signum() {
            0 if self.nose <= 0 => return None,
            1 if self.nose < 0 => (run_out, back),
            0 | 1 => (nose, back),
            _ => (nose, run_out.lower(back)),
        };
        to.above(from).then_some(Stretch { from, to })
    }

    /// Whether both together are narrow enough at the height `at`, which is
    /// the nose, the back, or where one of the two lines runs out.
    fn sum_fits(&self, other: &Self, at: Height, panel: SharedPanel) -> bool {
        let (mine, others) = (self.width_at(at), other.width_at(at));
        if mine == 0 || others == 0 {
            // Only one of the two has a width here, and that one keeps the
            // product small: compare it alone.
            let (wide, rise) = if mine == 0 {
                (others, other.rise)
            } else {
                (mine, self.rise)
            };
            return wide <= i128::from(panel.width) * i128::from(rise) * at.under;
        }
        // Neither runs out here, so this is the nose or the back: under is 1.
        let (rise, other_rise) = (i128::from(self.rise), i128::from(other.rise));
        mine * other_rise + others * rise <= i128::from(panel.width) * rise * other_rise
    }

    /// The width at `at`, times `rise` and the height's denominator.
    fn width_at(&self, at: Height) -> i128 {
        i128::from(self.nose) * i128::from(self.rise) * at.under + i128::from(self.run) * at.over
    }
}

/// A height above the nose as an exact fraction; `under` is above zero.
#[derive(Clone, Copy, Debug)]
struct Height {
    over: i128,
    under: i128,
}

impl Height {
    fn whole(height: i64) -> Self {
        Self {
            over: height.into(),
            under: 1,
        }
    }

    fn higher(self, other: Self) -> Self {
        if self.above(other) { self } else { other }
    }

    fn lower(self, other: Self) -> Self {
        if other.above(self) { self } else { other }
    }

    fn above(self, other: Self) -> bool {
        self.over * other.under > other.over * self.under
    }
}

/// The heights between which a part has any width.
#[derive(Clone, Copy, Debug)]
struct Stretch {
    from: Height,
    to: Height,
}

fn held(length: Length) -> i64 {
    length.nm().clamp(-FARTHEST, FARTHEST)
}

fn saturated(value: i128) -> i64 {
    i64::try_from(value).unwrap_or(if value < 0 { i64::MIN } else { i64::MAX })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// A line through `nose` and, 14 in up, `back`, in inches.
    fn line(nose: i64, back: i64) -> SkewLine {
        SkewLine {
            at_nose: Length::from_inches(nose),
            at_rise: Length::from_inches(back),
            rise: Length::from_inches(14),
        }
    }

    fn fits(left: &SkewLine, right: &SkewLine, panel: SharedPanel) -> bool {
        let (left, right) = (Share::up_to(left, panel), Share::up_to(right, panel));
        let answer = left.fits_beside(&right, panel);
        assert_eq!(answer, right.fits_beside(&left, panel), "not symmetric");
        answer
    }

    #[track_caller]
    fn check(left: (i64, i64), right: (i64, i64), expected: bool) {
        let panel = SharedPanel::new(
            Length::from_inches(48),
            Length::from_inches(14),
            Length::ZERO,
        );
        let (left, right) = (line(left.0, left.1), line(right.0, right.1));
        assert_eq!(fits(&left, &right, panel), expected);
    }

    #[test]
    fn two_pieces_fit_if_both_ends_leave_room() {
        check((30, 18), (18, 30), true);
        check((30, 18), (19, 30), false);
        check((30, 18), (18, 31), false);
    }

    #[test]
    fn a_corner_off_and_a_triangle_overlap_although_their_clipped_ends_do_not() {
        // Clipped: 48 + 0 and 40 + 8 fit. At half the height the left piece is
        // 46 wide and the right one 3: 49.
        check((52, 40), (-2, 8), false);
        check((52, 40), (-4, 8), true);
    }

    #[test]
    fn a_triangle_at_the_nose_and_one_at_the_back_share_a_panel_of_any_width() {
        check((40, -40), (-40, 40), true);
        check((90, -90), (-90, 90), true);
        // The stretches overlap between a third and two thirds of the height.
        check((60, -30), (-30, 60), true);
        check((120, -60), (-60, 120), false);
    }

    #[test]
    fn a_full_panel_leaves_no_room() {
        check((60, 48), (1, 1), false);
        check((48, 48), (1, -13), false);
    }

    #[test]
    fn a_line_that_takes_nothing_fits_beside_all() {
        check((90, 80), (0, 0), true);
        check((90, 80), (0, -3), true);
        check((90, 80), (-3, 0), true);
    }

    #[test]
    fn the_spare_is_kept_between_the_two_only() {
        let spared = |spare| {
            SharedPanel::new(
                Length::from_inches(48),
                Length::from_inches(14),
                Length::from_64ths(spare),
            )
        };
        assert!(fits(&line(30, 18), &line(17, 29), spared(64)));
        assert!(!fits(&line(30, 18), &line(17, 29), spared(65)));
        // The triangle ends where the corner piece has its full width.
        assert!(fits(&line(62, 34), &line(-14, 14), spared(0)));
        assert!(!fits(&line(62, 34), &line(-14, 14), spared(1)));
    }

    #[test]
    fn a_panel_higher_than_the_rise_is_judged_over_its_own_height() {
        let panel = |height| {
            SharedPanel::new(
                Length::from_inches(48),
                Length::from_64ths(height),
                Length::ZERO,
            )
        };
        assert!(fits(&line(20, 24), &line(20, 24), panel(14 * 64)));
        assert!(!fits(&line(20, 24), &line(20, 24), panel(14 * 64 + 1)));
    }

    #[test]
    fn rises_that_differ_are_compared_without_rounding() {
        // 10 + y / 3 beside 20 - y / 3: they touch all the way up.
        let panel = SharedPanel::new(Length::from_nm(30), Length::from_nm(10), Length::ZERO);
        let skew = |nose, at_rise, rise| SkewLine {
            at_nose: Length::from_nm(nose),
            at_rise: Length::from_nm(at_rise),
            rise: Length::from_nm(rise),
        };
        assert!(fits(&skew(10, 11, 3), &skew(20, 18, 6), panel));
        assert!(!fits(&skew(10, 11, 3), &skew(20, 19, 6), panel));
        assert!(!fits(&skew(10, 11, 3), &skew(20, 9, 34), panel));
        assert!(fits(&skew(10, 11, 3), &skew(20, 9, 33), panel));
    }

    #[test]
    fn lengths_beyond_any_roof_do_not_overflow() {
        let far = SkewLine {
            at_nose: Length::from_nm(i64::MAX),
            at_rise: Length::from_nm(i64::MIN),
            rise: Length::from_nm(i64::MAX),
        };
        let panel = SharedPanel::new(
            Length::from_nm(i64::MAX),
            Length::from_nm(i64::MAX),
            -Length::from_nm(i64::MAX),
        );
        let _ = fits(&far, &far, panel);
        let _ = fits(&far, &far.mirrored(Length::from_inches(48)), panel);
    }

    proptest! {
        /// The plain reading of the rule: no height where both have width and
        /// the sum is too much, tried at every height of a coarse panel in
        /// steps that hit every end of a range exactly.
        #[test]
        fn prop_the_ends_decide_as_every_height_does(
            a in -8_i64..20, b in -8_i64..20, c in -8_i64..20, d in -8_i64..20, width in 1_i64..24,
        ) {
            // The three lines turn at heights whose denominators are at most
            // 28, 28 and 56, so any stretch of overlap is wider than one step.
            let panel = SharedPanel::new(Length::from_nm(width), Length::from_nm(1), Length::ZERO);
            let skew = |nose, at_rise| SkewLine {
                at_nose: Length::from_nm(nose), at_rise: Length::from_nm(at_rise), rise: Length::from_nm(1),
            };
            let steps = 27_720_i64;
            let overlaps = (0..=steps).any(|y| {
                let left = a * steps + (b - a) * y;
                let right = c * steps + (d - c) * y;
                left > 0 && right > 0 && left + right > width * steps
            });
            prop_assert_eq!(fits(&skew(a, b), &skew(c, d), panel), !overlaps);
        }
    }
}
