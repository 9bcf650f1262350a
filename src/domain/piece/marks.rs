//! Where a piece is marked: bend and cut line on the panel's outline.
//!
//! The panel lies face up, the nose toward you, and is looked at from the whole
//! end on the piece's hand: `x` runs from there, `y` up from the nose. A
//! right-hand piece therefore has the very same marks as its left-hand twin,
//! measured from the other side.
//!
//! ```text
//!                 x(Hp)   x(Hp) + a
//!   back   +--------*--------o--------+   * bend line  x(y) = b + (t - b) y / h
//!          |         \        \       |   o cut line   the same, a further out
//!   hand   |          \        \      |  far
//!   side   |           \        \     |  side
//!          |            \        \    |
//!   nose   +-------------*--------o---+
//!                        b      b + a
//! ```
//!
//! The formulas are common practice; docs/formulas.md derives them.

use super::spec::PieceSpec;
use crate::domain::measure::{Length, Point, Polygon, SkewLine};
use crate::domain::tape::{Division, print};

/// Which side of the panel's outline a mark lies on.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum At {
    /// The folded front edge, toward the eave.
    Nose,
    /// The back flange, toward the ridge.
    Back,
    /// The side away from the piece's hand.
    FarSide,
    /// The side that stays whole, on the piece's hand.
    HandSide,
}

impl At {
    /// `nose`, `back`, `other end` or `whole end`, as a roofer says it.
    pub const fn said(self) -> &'static str {
        match self {
            Self::Nose | Self::Back => self.word(),
            Self::FarSide => "other end",
            Self::HandSide => "whole end",
        }
    }

    /// `nose`, `back`, `far side` or `hand side`, as files have it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Nose => "nose",
            Self::Back => "back",
            Self::FarSide => "far side",
            Self::HandSide => "hand side",
        }
    }
}

/// A mark on the outline.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Mark {
    /// Which side of the outline.
    pub at: At,
    /// On nose and back from the whole end on the piece's hand; on the sides
    /// up from the nose. To the nearest nanometre.
    pub position: Length,
}

impl Mark {
    /// Where it lies on a panel `width` wide and `height` high.
    pub fn point(&self, width: Length, height: Length) -> Point {
        let (x, y) = match self.at {
            At::Nose => (self.position, Length::ZERO),
            At::Back => (self.position, height),
            At::FarSide => (width, self.position),
            At::HandSide => (Length::ZERO, self.position),
        };
        Point { x, y }
    }

    /// `nose 18 3/4`, `other end 10 15/16- up`.
    pub fn words(&self, division: Division) -> String {
        let up = match self.at {
            At::Nose | At::Back => "",
            At::FarSide | At::HandSide => " up",
        };
        format!("{} {}{up}", self.at.said(), print(self.position, division))
    }
}

/// Which end of a piece: a piece cut at one end only has its line at the far
/// one.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum LineAt {
    /// At the tape's side.
    Near,
    Far,
}

impl LineAt {
    /// `near` or `far`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Near => "near",
            Self::Far => "far",
        }
    }

    /// The one at the other end.
    pub const fn other(self) -> Self {
        match self {
            Self::Near => Self::Far,
            Self::Far => Self::Near,
        }
    }
}

/// What is marked of one line.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct LineMarks {
    pub at: LineAt,
    pub bend: Option<Ends>,
    pub cut: Option<Ends>,
}

/// The two ends of a line on the panel, the nose end first.
pub type Ends = [Mark; 2];

/// Everything about a piece that the bench marks, shows or hands on.
#[derive(Clone, PartialEq, Debug)]
pub struct Marks {
    /// The bend line's ends; `None` where it misses the panel.
    pub bend: Option<Ends>,
    /// The cut line's ends; `None` where it misses the panel.
    pub cut: Option<Ends>,
    /// The part on the whole end's side of the cut line.
    pub kept: Polygon,
    /// The rest of the panel.
    pub left: Polygon,
    /// The near end's, of a piece cut at both; the above are the far end's then.
    pub near: Option<NearMarks>,
}

/// The marks of the end at the tape's side, of a piece cut at both.
#[derive(Clone, PartialEq, Debug)]
pub struct NearMarks {
    pub bend: Option<Ends>,
    /// `None` where it is not made, or misses the panel.
    pub cut: Option<Ends>,
    /// What this cut takes off.
    pub left: Polygon,
    /// How far up the tip is nipped off, of a triangle.
    pub tip: Option<Length>,
}

impl Marks {
    /// The marks of `spec` on its whole panel.
    pub fn of(spec: &PieceSpec) -> Self {
        let (width, height) = (spec.panel.width, spec.panel.height);
        let cut = spec.cut();
        // The far cut comes first in this reckoning: its offcut is of full height.
        let (mut kept, left) = spec.panel.outline().cut_by(&cut);
        let near = spec.near.map(|near| {
            let mut taken = Polygon::default();
            if let Some(line) = spec.near_cut() {
                (taken, kept) = kept.cut_by(&line);
            }
            let tip = spec.tip();
            if let Some(tip) = tip {
                kept = kept.below(tip);
            }
            NearMarks {
                bend: ends(&near.bend, width, height),
                cut: spec.near_cut().and_then(|line| ends(&line, width, height)),
                left: taken,
                tip,
            }
        });
        Self {
            bend: ends(&spec.bend, width, height),
            cut: ends(&cut, width, height),
            kept,
            left,
            near,
        }
    }

    /// What is marked, line by line, in the order in which it is marked.
    pub fn lines(&self) -> impl Iterator<Item = LineMarks> + Clone {
        let near = self.near.as_ref().map(|near| LineMarks {
            at: LineAt::Near,
            bend: near.bend,
            cut: near.cut,
        });
        let far = LineMarks {
            at: LineAt::Far,
            bend: self.bend,
            cut: self.cut,
        };
        near.into_iter().chain([far])
    }

    /// The lines to cut, in the order in which they are cut: the smaller offcut
    /// first; of a triangle the far one, so that its offcut keeps its height.
    pub fn cuts(&self) -> Vec<LineAt> {
        let mut cuts: Vec<LineAt> = self
            .lines()
            .filter(|line| line.cut.is_some())
            .map(|line| line.at)
            .collect();
        let far_first = self
            .near
            .as_ref()
            .is_some_and(|near| near.tip.is_some() || self.left.area() < near.left.area());
        if far_first {
            cuts.reverse();
        }
        cuts
    }
}

/// How long a line is between its two ends, in millimetres.
pub fn length_mm(ends: Option<Ends>, width: Length, height: Length) -> f64 {
    let Some([nose_end, back_end]) = ends else {
        return 0.0;
    };
    let (p, q) = (nose_end.point(width, height), back_end.point(width, height));
    (q.x - p.x).mm().hypot((q.y - p.y).mm())
}

/// Where `line` meets the outline of a panel, nose end first; `None` where it
/// misses the panel, touches it in one point only or runs along one of its
/// sides: there is nothing to bend or cut then.
///
/// A line through a corner counts as meeting the nose or the back. Which side
/// is met is decided exactly; only the position is rounded.
pub(super) fn ends(line: &SkewLine, width: Length, height: Length) -> Option<Ends> {
    let nose_end = end(line, Length::ZERO, width, height)?;
    let back_end = end(line, height, width, height)?;
    let (p, q) = (nose_end.point(width, height), back_end.point(width, height));
    let along_side = p.x == q.x && (p.x == Length::ZERO || p.x == width);
    // Equal heights are one point: no line lies level.
    (p.y != q.y && !along_side).then_some([nose_end, back_end])
}

/// One end: at the level `y` (nose or back) if the line meets it there, else
/// on the side through which the line comes back onto the panel.
fn end(line: &SkewLine, y: Length, width: Length, height: Length) -> Option<Mark> {
    let at = |x, y| line.side(Point { x, y });
    let level = if y == Length::ZERO {
        At::Nose
    } else {
        At::Back
    };
    // side() is positive to the right of the line; the line stands between
    // the two corners of this level if they lie on different sides of it.
    if at(Length::ZERO, y) <= 0 && at(width, y) >= 0 {
        let x = line.x(y).clamp(Length::ZERO, width);
        return Some(Mark {
            at: level,
            position: x,
        });
    }
    let other = height - y;
    let (side, x, comes_back) = if at(Length::ZERO, y) > 0 {
        (At::HandSide, Length::ZERO, at(Length::ZERO, other) < 0)
    } else {
        (At::FarSide, width, at(width, other) > 0)
    };
    if !comes_back {
        return None;
    }
    Some(Mark {
        at: side,
        position: line.y(x)?.clamp(Length::ZERO, height),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{measure::Hand, piece::Panel, roof::EdgeKind};

    fn spec(b: i64, t: i64, hp: i64) -> PieceSpec {
        PieceSpec {
            kind: EdgeKind::Hip,
            hand: Hand::Left,
            bend: SkewLine {
                at_nose: Length::from_inches(b),
                at_rise: Length::from_inches(t),
                rise: Length::from_inches(14),
            },
            allowance: Length::from_inches(2),
            panel: Panel {
                width: Length::from_inches(48),
                height: Length::from_inches(hp),
            },
            across: None,
            near: None,
        }
    }

    #[track_caller]
    fn check(ends: Option<Ends>, expected: &[(At, f64)]) {
        let found: Vec<_> = ends
            .into_iter()
            .flatten()
            .map(|mark| (mark.at, mark.position.mm() / 25.4))
            .collect();
        assert_eq!(found.len(), expected.len(), "{found:?}");
        for ((at, inches), (expected_at, expected_inches)) in found.iter().zip(expected) {
            assert_eq!(at, expected_at);
            assert!((inches - expected_inches).abs() < 1e-6, "{found:?}");
        }
    }

    #[test]
    fn a_plain_piece_is_marked_on_nose_and_back() {
        let marks = Marks::of(&spec(24, 12, 14));
        check(marks.bend, &[(At::Nose, 24.0), (At::Back, 12.0)]);
        check(marks.cut, &[(At::Nose, 26.0), (At::Back, 14.0)]);
    }

    #[test]
    fn a_corner_is_marked_on_the_far_side_and_the_back() {
        // The bend line reaches x = 48 where 55 - y = 48, so 7 in up.
        let marks = Marks::of(&spec(55, 41, 14));
        check(marks.bend, &[(At::FarSide, 7.0), (At::Back, 41.0)]);
        check(marks.cut, &[(At::FarSide, 9.0), (At::Back, 43.0)]);
        assert_eq!(marks.kept.corners().len(), 5);
    }

    #[test]
    fn a_triangle_is_marked_on_the_nose_and_the_hand_side() {
        let marks = Marks::of(&spec(5, -9, 14));
        check(marks.bend, &[(At::Nose, 5.0), (At::HandSide, 5.0)]);
        check(marks.cut, &[(At::Nose, 7.0), (At::HandSide, 7.0)]);
        assert_eq!(marks.kept.corners().len(), 3);
    }

    #[test]
    fn a_full_panel_has_no_marks() {
        let marks = Marks::of(&spec(110, 98, 14));
        check(marks.bend, &[]);
        check(marks.cut, &[]);
        assert!(marks.left.is_empty());
    }

    #[test]
    fn a_line_through_a_corner_counts_as_nose_or_back() {
        check(
            Marks::of(&spec(48, 34, 14)).bend,
            &[(At::Nose, 48.0), (At::Back, 34.0)],
        );
        check(
            Marks::of(&spec(14, 0, 14)).bend,
            &[(At::Nose, 14.0), (At::Back, 0.0)],
        );
    }

    #[test]
    fn a_line_that_touches_one_corner_only_misses_the_panel() {
        check(Marks::of(&spec(62, 48, 14)).bend, &[]);
        check(Marks::of(&spec(0, -14, 14)).bend, &[]);
    }

    #[test]
    fn a_line_along_a_side_leaves_nothing_to_bend_or_cut() {
        let marks = Marks::of(&spec(46, 46, 14));
        check(marks.bend, &[(At::Nose, 46.0), (At::Back, 46.0)]);
        check(marks.cut, &[]);
        assert!(marks.left.is_empty());
        check(Marks::of(&spec(0, 0, 14)).bend, &[]);
    }

    #[test]
    fn a_higher_panel_is_marked_where_the_line_runs_on_to() {
        // 24 - 12 * 15 / 14 = 11 1/7 in.
        check(
            Marks::of(&spec(24, 12, 15)).bend,
            &[(At::Nose, 24.0), (At::Back, 24.0 - 12.0 * 15.0 / 14.0)],
        );
    }
}
