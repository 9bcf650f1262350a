//! A leg that gets lower toward one end, because the panel ends before the cut
//! line does.
//!
//! It knows one piece; whether another is laid beyond it is not asked here.

use super::{
    marks::{At, Ends},
    spec::{PieceSpec, standing},
};
use crate::domain::measure::Length;
use crate::domain::tape::{Division, print_with_unit};

/// Where a leg gets lower, and how low.
///
/// ```text
///   back  +-----------*----o----+
///         |            \    \   |    * bend line
///         |             \    \  |    o cut line
///         |              \    \ |
///         |               \    \|  <- from
///         |                \    |
///   nose  +-----------------*---+  <- lowest
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Taper {
    /// Where the cut line runs out, up from the nose.
    pub from: Length,
    /// Toward which end it gets lower: nose or back.
    pub toward: At,
    /// How high it stands at that end, square to the bend line; never below
    /// zero.
    pub lowest: Length,
}

impl Taper {
    /// How the leg of `spec` tapers whose cut line has these `cut` ends; `None`
    /// where neither is on the far side.
    pub fn of(spec: &PieceSpec, cut: Ends) -> Option<Self> {
        let [nose_end, back_end] = cut;
        let (from, toward, corner) = if nose_end.at == At::FarSide {
            (nose_end.position, At::Nose, Length::ZERO)
        } else if back_end.at == At::FarSide {
            (back_end.position, At::Back, spec.panel.height)
        } else {
            return None;
        };
        Some(Self {
            from,
            toward,
            lowest: room(spec, corner),
        })
    }

    /// In few words: `leg short at the nose: 15/16 in`.
    pub fn brief(&self, division: Division) -> String {
        let lowest = print_with_unit(self.lowest, division);
        format!("leg short at the {}: {lowest}", self.toward.word())
    }

    /// In words: `leg narrows toward the nose: full from 1 in up, 11/16 in at the nose`.
    pub fn words(&self, division: Division) -> String {
        let from = print_with_unit(self.from, division);
        let full = if self.toward == At::Nose {
            format!("full from {from} up")
        } else {
            format!("full up to {from}")
        };
        let (end, lowest) = (self.toward.word(), print_with_unit(self.lowest, division));
        format!("leg narrows toward the {end}: {full}, {lowest} at the {end}")
    }
}

/// How high a leg can stand that ends in the panel's far corner at height `y`:
/// the corner's distance from the bend line, `(W - x(y)) / hypot(1, lean)`.
pub fn room(spec: &PieceSpec, y: Length) -> Length {
    let along = (spec.panel.width - spec.bend.x(y)).max(Length::ZERO);
    standing(along, spec.bend.lean())
}

/// How high a piece's leg stands where it is highest: as the allowance has it, or
/// less where all that lies beyond the bend line is lower, as a bent corner is.
pub fn stands(spec: &PieceSpec) -> Length {
    let [nose, back] = [Length::ZERO, spec.panel.height].map(|up| room(spec, up));
    spec.leg().min(nose.max(back))
}
