//! Exact lengths.
//!
//! A [`Length`] is a whole number of nanometres, so that an inch (25.4 mm
//! exactly, NIST SP 811 App. B.8), every 64th of it (0.396875 mm) and every
//! micrometre are held without rounding. It does not know how a tape shows it:
//! that is [`crate::domain::tape`].

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Neg, Sub};

/// A length or a position along a line, in whole nanometres; may be negative.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

/// Nanometres in one inch: 1 in = 25.4 mm exactly (NIST SP 811, App. B.8).
pub const NM_PER_INCH: i64 = 25_400_000;

/// Nanometres in one millimetre.
pub const NM_PER_MM: i64 = 1_000_000;

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0);

    /// The longest length anyone may enter: 100 m.
    ///
    /// Sums of entered lengths stay far below what an `i64` holds, which is why
    /// the arithmetic below may saturate: no valid job ever reaches the limit.
    pub const LONGEST: Self = Self(100_000 * NM_PER_MM);

    /// A length of `nm` nanometres.
    pub const fn from_nm(nm: i64) -> Self {
        Self(nm)
    }

    /// A length of `um` micrometres.
    pub const fn from_um(um: i64) -> Self {
        Self(um.saturating_mul(1_000))
    }

    /// A length of `mm` whole millimetres.
    pub const fn from_mm(mm: i64) -> Self {
        Self(mm.saturating_mul(NM_PER_MM))
    }

    /// A length of `n` sixty-fourths of an inch (396,875 nm each).
    pub const fn from_64ths(n: i64) -> Self {
        Self(n.saturating_mul(NM_PER_INCH / 64))
    }

    /// A length of `n` whole inches.
    pub const fn from_inches(n: i64) -> Self {
        Self(n.saturating_mul(NM_PER_INCH))
    }

    /// The nearest nanometre to `mm` millimetres: the one way back from `f64`.
    ///
    /// Not a number gives zero; anything outside the range saturates.
    pub fn rounded_from_mm(mm: f64) -> Self {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "float to integer casts saturate, which is what is wanted"
        )]
        Self((mm * 1e6).round() as i64)
    }

    /// In whole nanometres.
    pub const fn nm(self) -> i64 {
        self.0
    }

    /// In millimetres, for angles, areas and output; exact to 15 digits.
    pub fn mm(self) -> f64 {
        #[expect(
            clippy::cast_precision_loss,
            reason = "100 m is 1e11 nm, far below 2^53"
        )]
        let nm = self.0 as f64;
        nm / 1e6
    }

    /// Without its sign.
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }

    /// `self * count`.
    pub const fn times(self, count: i64) -> Self {
        Self(self.0.saturating_mul(count))
    }

    /// Half of it, to the nearest nanometre, halves away from zero.
    pub fn half(self) -> Self {
        self.divided(2)
    }

    /// A `count`th of it, to the nearest nanometre, halves away from zero; a
    /// `count` of zero gives zero.
    pub fn divided(self, count: i64) -> Self {
        self.scaled(Self(1), Self(count))
    }

    /// `self * over / under` to the nearest nanometre, halves away from zero;
    /// the product is formed in 128 bits. `under` of zero gives zero.
    pub fn scaled(self, over: Self, under: Self) -> Self {
        if under.0 == 0 {
            return Self::ZERO;
        }
        let product = i128::from(self.0) * i128::from(over.0);
        let under = i128::from(under.0);
        let half = under.abs() / 2;
        let shifted = if (product < 0) == (under < 0) {
            product.abs() + half
        } else {
            -(product.abs() + half)
        };
        let quotient = shifted / under.abs();
        Self(i64::try_from(quotient).unwrap_or(if quotient < 0 { i64::MIN } else { i64::MAX }))
    }

    /// The remainder after taking away whole `circumference`s, in
    /// `0..circumference`; the length itself where that is not above zero.
    pub const fn modulo(self, circumference: Self) -> Self {
        if circumference.0 <= 0 {
            return self;
        }
        Self(self.0.rem_euclid(circumference.0))
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

impl fmt::Debug for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.mm())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn scaling_rounds_halves_away_from_zero() {
        let one = Length::from_nm(1);
        let two = Length::from_nm(2);
        let three = Length::from_nm(3);
        assert_eq!(three.scaled(one, two).nm(), 2);
        assert_eq!((-three).scaled(one, two).nm(), -2);
        assert_eq!(three.scaled(-one, two).nm(), -2);
        assert_eq!(three.scaled(one, -two).nm(), -2);
        assert_eq!(three.scaled(one, Length::ZERO), Length::ZERO);
    }

    proptest! {
        #[test]
        fn prop_millimetres_round_trip(nm in -100_000_000_000_i64..=100_000_000_000) {
            let length = Length::from_nm(nm);
            prop_assert_eq!(Length::rounded_from_mm(length.mm()), length);
        }

        #[test]
        fn prop_scaling_by_a_ratio_of_one_changes_nothing(nm in any::<i32>(), k in 1_i64..1_000_000) {
            let length = Length::from_nm(i64::from(nm));
            prop_assert_eq!(length.scaled(Length::from_nm(k), Length::from_nm(k)), length);
        }
    }
}
