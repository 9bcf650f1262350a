//! What the roof's slopes make of an edge: how it leans across the courses and
//! how far a piece is bent to stand plumb.
//!
//! ```text
//!   plan, seen from above              on the roof's surface
//!
//!            \ hip                        course line above
//!    this     \                           ----------\-----
//!    side      \  other side                         \      E, up the slope
//!               \                         ------------\---
//!   eave --------\  ) corner                           |<->| b - t = E * lean
//!              δ  \
//!                  \ eave
//! ```
//!
//! `θ1` is this side's slope, `m = tan θ`, `ω` the corner. The plan angle from
//! this side's eave to the hip is `δ = atan(sin ω / (m1 / m2 + cos ω))` and the
//! lean `cos θ1 / tan δ`. Formulas: "Angle descriptions" and "Fascia wedges", of
//! a set of pages on hip and valley dimensioning; checked against rafter tables
//! and old books in tests/outside/roof. It reads no log: see [`crate::domain::doubt`].

use super::{
    corner::Corner,
    kind::{Bend, EdgeKind, Trend},
    slope::Slope,
};

/// The roof beside an edge, as far as it is known.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub struct RoofLine {
    /// The slope of the side the readings were taken on.
    pub slope: Option<Slope>,
    /// The slope of the other side; the same where it is not given.
    pub other: Option<Slope>,
    /// The angle between the two eaves.
    pub corner: Corner,
}

impl RoofLine {
    /// A roof of one slope on both sides of a square corner.
    pub const fn even(slope: Slope) -> Self {
        Self {
            slope: Some(slope),
            other: None,
            corner: Corner::SQUARE,
        }
    }

    /// The same roof seen from the other side of the edge.
    #[must_use]
    pub fn exchanged(self) -> Self {
        Self {
            slope: self.other.or(self.slope),
            other: self.slope,
            corner: self.corner,
        }
    }

    /// The lean an edge of `kind` has here, `(b - t) / h`: positive where its
    /// courses narrow going up. A hip `cos θ1 (m1 / m2 + cos ω) / sin ω`, a
    /// valley the same size and the opposite sign, a rake zero.
    ///
    /// `None` where the slope is not known; a rake needs none.
    pub fn lean(self, kind: EdgeKind) -> Option<f64> {
        match kind.usual_trend() {
            Some(Trend::Narrows) => self.hip_lean(),
            Some(Trend::Widens) => self.hip_lean().map(|lean| -lean),
            None => Some(0.0),
        }
    }

    fn hip_lean(self) -> Option<f64> {
        let this = self.slope?;
        let other = self.other.unwrap_or(this);
        let corner = self.corner.degrees().to_radians();
        let cos = (1.0 + this.tan().powi(2)).sqrt().recip();
        Some(cos * (this.tan() / other.tan() + corner.cos()) / corner.sin())
    }

    /// The angle of a piece's bend line from square, in degrees: `atan |lean|`.
    /// From the course line it is the complement.
    pub fn skew_deg(self, kind: EdgeKind) -> Option<f64> {
        self.lean(kind).map(|lean| lean.abs().atan().to_degrees())
    }

    /// Which way an edge of `kind` must go. Known without a slope where the
    /// corner is 90 degrees or less: no two slopes make a hip widen there. In a
    /// wider corner a hip can widen beside a much steeper side.
    pub fn trend(self, kind: EdgeKind) -> Option<Trend> {
        let usual = kind.usual_trend()?;
        let Some(lean) = self.lean(kind) else {
            return (self.corner <= Corner::SQUARE).then_some(usual);
        };
        // An edge this near to square may be read either way.
        if lean.abs() < 0.05 {
            None
        } else if lean > 0.0 {
            Some(Trend::Narrows)
        } else {
            Some(Trend::Widens)
        }
    }

    /// The plan angle from this side's eave to the hip or valley, in degrees:
    /// `atan(sin ω / (m1 / m2 + cos ω))`, above 90 where the hip widens.
    pub fn plan_deg(self) -> Option<f64> {
        let this = self.slope?;
        let other = self.other.unwrap_or(this);
        let corner = self.corner.degrees().to_radians();
        let over = this.tan() / other.tan() + corner.cos();
        Some(corner.sin().atan2(over).to_degrees())
    }

    /// How steep the hip or valley itself runs, in degrees from level:
    /// `tan = m1 sin δ`; the same from both sides.
    pub fn edge_pitch_deg(self) -> Option<f64> {
        let plan = self.plan_deg()?.to_radians();
        Some((self.slope?.tan() * plan.sin()).atan().to_degrees())
    }

    /// The backing angle of the hip, in degrees: `asin(sin θ cos δ)`.
    pub fn backing_deg(self) -> Option<f64> {
        let plan = self.plan_deg()?.to_radians();
        let slope = self.slope?.tan().atan();
        Some((slope.sin() * plan.cos()).asin().to_degrees())
    }

    /// How far a hip's or rake's piece is bent from flat to stand against a
    /// plumb board, in degrees: `90 - asin(sin θ cos δ)`; a rake, square to
    /// its eave, 90. A valley is bent down to its own floor, not to a board.
    pub fn bend_deg(self, kind: EdgeKind) -> Option<f64> {
        match (kind.bend(), kind.usual_trend()) {
            (Bend::Down, _) => None,
            (Bend::Up, Some(_)) => self.backing_deg().map(|backing| 90.0 - backing),
            (Bend::Up, None) => Some(90.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn slope(text: &str) -> Slope {
        Slope::parse(text).unwrap()
    }

    #[test]
    fn a_true_hip_can_widen_in_a_wide_corner() {
        let roof = RoofLine {
            slope: Some(slope("6")),
            other: Some(slope("12")),
            corner: Corner::parse("135").unwrap(),
        };
        // 6 in 12 beside 12 in 12 at a 135-degree corner: -0.262.
        let lean = roof.lean(EdgeKind::Hip).unwrap();
        assert!((lean + 0.262).abs() < 5e-4, "{lean}");
        assert_eq!(roof.trend(EdgeKind::Hip), Some(Trend::Widens));
    }

    #[test]
    fn without_a_slope_only_a_narrow_corner_tells_the_way() {
        let unknown = RoofLine::default();
        assert_eq!(unknown.trend(EdgeKind::Hip), Some(Trend::Narrows));
        assert_eq!(unknown.trend(EdgeKind::Valley), Some(Trend::Widens));
        assert_eq!(unknown.trend(EdgeKind::Rake), None);
        let wide = RoofLine {
            corner: Corner::parse("135").unwrap(),
            ..unknown
        };
        assert_eq!(wide.trend(EdgeKind::Hip), None);
    }

    fn any_roof() -> impl Strategy<Value = RoofLine> {
        (1_i64..=24, 1_i64..=24, 30_i64..=150).prop_map(|(this, other, corner)| RoofLine {
            slope: Some(slope(&this.to_string())),
            other: Some(slope(&other.to_string())),
            corner: Corner::new(corner * 100_000).unwrap(),
        })
    }

    proptest! {
        #[test]
        fn prop_both_sides_agree_on_the_edge(roof in any_roof()) {
            let (one, two) = (roof, roof.exchanged());
            let pitch = |roof: RoofLine| roof.edge_pitch_deg().unwrap();
            prop_assert!((pitch(one) - pitch(two)).abs() < 1e-9);
            let plan = one.plan_deg().unwrap() + two.plan_deg().unwrap();
            prop_assert!((plan - roof.corner.degrees()).abs() < 1e-9);
            prop_assert_eq!(two.exchanged(), one);
        }

        #[test]
        fn prop_a_valley_leans_as_its_hip_but_the_other_way(roof in any_roof()) {
            let lean = |kind| roof.lean(kind).unwrap();
            prop_assert!((lean(EdgeKind::Hip) + lean(EdgeKind::Valley)).abs() < 1e-12);
        }

        #[test]
        fn prop_the_lean_is_the_cosine_over_the_plan_angle(roof in any_roof()) {
            let plan = roof.plan_deg().unwrap().to_radians();
            let cos = roof.slope.unwrap().degrees().to_radians().cos();
            let lean = roof.lean(EdgeKind::Hip).unwrap();
            prop_assert!((lean - cos / plan.tan()).abs() < 1e-9);
        }
    }
}
