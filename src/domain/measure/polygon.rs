//! Points, skew lines and polygons on a panel lying flat.
//!
//! `x` runs from the whole end on the piece's hand, `y` up from the nose, both
//! in whole nanometres. A right-hand piece is therefore the same polygon as its
//! left-hand twin; only the drawing mirrors it. Which side of a line a point
//! lies on is decided exactly, in 128-bit integers; a crossing is rounded to the
//! nearest nanometre once, and both parts of a cut share the rounded point, so
//! that their areas add up without a remainder.
//!
//! ```text
//!   y = height  +---------\----+  back
//!               |  kept    \   |
//!   whole end   |           \  |  far side
//!               |            \ |
//!   y = 0       +-------------\+  nose
//!              x = 0          x = width
//! ```

use super::length::Length;

/// A point on the panel.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Point {
    /// From the whole end on the piece's hand.
    pub x: Length,
    /// Up from the nose.
    pub y: Length,
}

/// A straight line across a course, given where it stands at `y = 0` and at
/// `y = rise`; never level, since `rise` is above zero.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct SkewLine {
    /// `x` at the nose.
    pub at_nose: Length,
    /// `x` at `rise` up from the nose.
    pub at_rise: Length,
    /// How far up the second `x` holds.
    pub rise: Length,
}

impl SkewLine {
    /// `x` at height `y`, to the nearest nanometre.
    pub fn x(&self, y: Length) -> Length {
        self.at_nose + (self.at_rise - self.at_nose).scaled(y, self.rise)
    }

    /// The height at which the line stands at `x`; `None` for a square line.
    pub fn y(&self, x: Length) -> Option<Length> {
        let run = self.at_rise - self.at_nose;
        (run != Length::ZERO).then(|| (x - self.at_nose).scaled(self.rise, run))
    }

    /// The line moved `by` further from the whole end.
    pub fn moved(&self, by: Length) -> Self {
        Self {
            at_nose: self.at_nose + by,
            at_rise: self.at_rise + by,
            rise: self.rise,
        }
    }

    /// The same line seen from the other side of a panel `width` wide.
    pub fn mirrored(&self, width: Length) -> Self {
        Self {
            at_nose: width - self.at_nose,
            at_rise: width - self.at_rise,
            rise: self.rise,
        }
    }

    /// Twice the signed area that says on which side `point` lies: below zero
    /// on the side of the whole end, zero on the line. Exact.
    pub fn side(&self, point: Point) -> i128 {
        let run = i128::from((self.at_rise - self.at_nose).nm());
        let from_nose = i128::from((point.x - self.at_nose).nm());
        from_nose * i128::from(self.rise.nm()) - run * i128::from(point.y.nm())
    }

    /// How far the line moves toward the whole end per unit of rise: positive
    /// where the course narrows going up.
    pub fn lean(&self) -> f64 {
        (self.at_nose - self.at_rise).mm() / self.rise.mm()
    }
}

/// A simple polygon, counter-clockwise seen with `x` to the right and `y` up;
/// empty where nothing is left.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Polygon(Vec<Point>);

/// An area in square nanometres, doubled so that it stays whole; exact.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub struct Area(i128);

impl Area {
    /// In square millimetres, for showing.
    pub fn mm2(self) -> f64 {
        #[expect(
            clippy::cast_precision_loss,
            reason = "shown to a tenth of a square millimetre"
        )]
        let doubled = self.0 as f64;
        doubled / 2e12
    }
}

impl std::ops::Add for Area {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl std::ops::Sub for Area {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Polygon {
    /// The outline of a panel `width` wide and `height` high.
    pub fn rectangle(width: Length, height: Length) -> Self {
        let at = |x, y| Point { x, y };
        Self(vec![
            at(Length::ZERO, Length::ZERO),
            at(width, Length::ZERO),
            at(width, height),
            at(Length::ZERO, height),
        ])
    }

    /// The same seen from the other side of a panel `width` wide.
    pub fn mirrored(&self, width: Length) -> Self {
        let corners = self.0.iter().rev();
        let mirrored = corners.map(|point| Point {
            x: width - point.x,
            y: point.y,
        });
        Self(mirrored.collect())
    }

    /// The corners, counter-clockwise.
    pub fn corners(&self) -> &[Point] {
        &self.0
    }

    /// Whether nothing is left.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The area inside; exact for the corners as they stand.
    pub fn area(&self) -> Area {
        let next = self.0.iter().cycle().skip(1);
        let doubled = self
            .0
            .iter()
            .zip(next)
            .map(|(p, q)| {
                i128::from(p.x.nm()) * i128::from(q.y.nm())
                    - i128::from(q.x.nm()) * i128::from(p.y.nm())
            })
            .sum();
        Area(doubled)
    }

    /// The part on the whole end's side of `line` and the part beyond it.
    pub fn cut_by(&self, line: &SkewLine) -> (Self, Self) {
        self.parted(|point| line.side(point))
    }

    /// The part up to `y` from the nose.
    pub fn below(&self, y: Length) -> Self {
        self.parted(|point| i128::from((point.y - y).nm())).0
    }

    /// The part where `side` is at most zero and the part where it is at least
    /// that; it must be linear.
    fn parted(&self, side: impl Fn(Point) -> i128) -> (Self, Self) {
        let mut near = Vec::with_capacity(self.0.len() + 2);
        let mut far = Vec::with_capacity(self.0.len() + 2);
        let next = self.0.iter().cycle().skip(1);
        for (p, q) in self.0.iter().zip(next) {
            let (at_p, at_q) = (side(*p), side(*q));
            if at_p <= 0 {
                near.push(*p);
            }
            if at_p >= 0 {
                far.push(*p);
            }
            if (at_p < 0 && at_q > 0) || (at_p > 0 && at_q < 0) {
                let crossing = crossing(*p, *q, at_p, at_q);
                near.push(crossing);
                far.push(crossing);
            }
        }
        (Self::tidy(near), Self::tidy(far))
    }

    /// Without repeated corners; nothing at all where no area is left.
    fn tidy(mut corners: Vec<Point>) -> Self {
        corners.dedup();
        while corners.len() > 1 && corners.first() == corners.last() {
            corners.pop();
        }
        let polygon = Self(corners);
        if polygon.area().0 == 0 {
            Self::default()
        } else {
            polygon
        }
    }
}

/// Where the side from `p` to `q` crosses a line from which they lie `at_p` and
/// `at_q` apart, on different sides.
fn crossing(p: Point, q: Point, at_p: i128, at_q: i128) -> Point {
    Point {
        x: between(p.x, q.x, at_p, at_q),
        y: between(p.y, q.y, at_p, at_q),
    }
}

/// `from + (to - from) * at_p / (at_p - at_q)`, halves away from zero.
fn between(from: Length, to: Length, at_p: i128, at_q: i128) -> Length {
    let run = i128::from((to - from).nm());
    if run == 0 {
        return from;
    }
    let under = at_p - at_q;
    // Measured from the end of the smaller coordinate, so that a side walked
    // in the other direction is crossed at the very same nanometre.
    let (start, run, at_start) = if run > 0 {
        (from, run, at_p)
    } else {
        (to, -run, -at_q)
    };
    let over = at_start.abs();
    let under = under.abs();
    let steps = (run * over + under / 2) / under;
    start + Length::from_nm(i64::try_from(steps).unwrap_or(0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn line(at_nose: i64, at_rise: i64, rise: i64) -> SkewLine {
        SkewLine {
            at_nose: Length::from_nm(at_nose),
            at_rise: Length::from_nm(at_rise),
            rise: Length::from_nm(rise),
        }
    }

    #[test]
    fn a_corner_cut_off_leaves_five_corners() {
        let panel = Polygon::rectangle(Length::from_mm(100), Length::from_mm(50));
        let cut = SkewLine {
            at_nose: Length::from_mm(120),
            at_rise: Length::from_mm(80),
            rise: Length::from_mm(50),
        };
        let (kept, left) = panel.cut_by(&cut);
        assert_eq!(kept.corners().len(), 5);
        assert_eq!(left.corners().len(), 3);
        // The triangle left is 20 mm wide at the back and 25 mm high.
        assert!((left.area().mm2() - 250.0).abs() < 1e-9);
    }

    #[test]
    fn a_line_off_the_panel_leaves_it_whole() {
        let panel = Polygon::rectangle(Length::from_mm(100), Length::from_mm(50));
        let (kept, left) = panel.cut_by(&line(200_000_000, 150_000_000, 50_000_000));
        assert_eq!(kept, panel);
        assert!(left.is_empty());
    }

    proptest! {
        #[test]
        fn prop_both_parts_of_a_cut_add_up_to_the_whole(
            width in 1_000_i64..3_000_000_000, height in 1_000_i64..2_000_000_000,
            at_nose in -5_000_000_000_i64..5_000_000_000, at_rise in -5_000_000_000_i64..5_000_000_000,
            rise in 1_000_i64..2_000_000_000,
        ) {
            let panel = Polygon::rectangle(Length::from_nm(width), Length::from_nm(height));
            let (kept, left) = panel.cut_by(&line(at_nose, at_rise, rise));
            prop_assert_eq!(kept.area() + left.area(), panel.area());
            prop_assert!(kept.area() >= Area(0) && left.area() >= Area(0));
        }

        #[test]
        fn prop_a_mirrored_line_is_as_far_from_the_other_side(
            at_nose in 0_i64..1_000_000_000, at_rise in 0_i64..1_000_000_000, y in 0_i64..400_000_000
        ) {
            let width = Length::from_mm(1_000);
            let line = line(at_nose, at_rise, 355_600_000);
            let y = Length::from_nm(y);
            let off = (line.x(y) + line.mirrored(width).x(y) - width).nm().abs();
            prop_assert!(off <= 1);
        }
    }
}
