//! The plan angle between two eaves, at the foot of a hip or valley.
//!
//! Kept in whole hundred-thousandths of a degree. What it makes of a hip is in
//! [`crate::domain::roof`].

use super::angle_number::{AngleError, ONE, degrees_cut_off, of_parts, parse_parts, text_of};
use std::fmt;

/// The angle between the two eaves in plan, at the foot of a hip or valley.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Corner {
    /// Hundred-thousandths of a degree.
    parts: i64,
}

const SHAPE: &str = "is not an angle, expected degrees such as 90 or 135";
const RANGE: &str = "is no corner of two eaves, expected 15 to 165 degrees";

impl Default for Corner {
    fn default() -> Self {
        Self::SQUARE
    }
}

impl Corner {
    /// 90 degrees, as most are.
    pub const SQUARE: Self = Self { parts: 90 * ONE };

    /// An angle of `parts` hundred-thousandths of a degree.
    ///
    /// # Errors
    /// [`AngleError`] outside 15 to 165 degrees, where a slip of
    /// one degree would move the hip by more than any tape does.
    pub fn new(parts: i64) -> Result<Self, AngleError> {
        if (15 * ONE..=165 * ONE).contains(&parts) {
            Ok(Self { parts })
        } else {
            Err(AngleError::of(&text_of(parts), RANGE))
        }
    }

    /// The angle that `input` says, in degrees: `90`, `135 deg`, `112.5`.
    ///
    /// # Errors
    /// [`AngleError`] with the input and what was expected.
    pub fn parse(input: &str) -> Result<Self, AngleError> {
        let text = input.trim().to_lowercase().replace(',', ".");
        let number = degrees_cut_off(&text).unwrap_or(&text).trim();
        let parts = parse_parts(number, false).map_err(|trouble| trouble.about(input, SHAPE))?;
        Self::new(parts).map_err(|_| AngleError::of(input, RANGE))
    }

    /// Hundred-thousandths of a degree.
    pub const fn parts(self) -> i64 {
        self.parts
    }

    /// In degrees.
    pub fn degrees(self) -> f64 {
        of_parts(self.parts)
    }
}

impl fmt::Display for Corner {
    /// As [`Corner::parse`] reads it back: `90 deg`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} deg", text_of(self.parts))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_corner_is_read_in_degrees_or_refused() {
        assert_eq!(Corner::parse("90"), Ok(Corner::SQUARE));
        assert_eq!(
            Corner::parse("112,5 deg").map(Corner::parts),
            Ok(11_250_000)
        );
        let refused = |input| Corner::parse(input).map_err(|e| e.to_string());
        assert_eq!(
            refused("180"),
            Err("\"180\" is no corner of two eaves, expected 15 to 165 degrees".to_owned())
        );
        assert_eq!(
            refused("square"),
            Err("\"square\" is not an angle, expected degrees such as 90 or 135".to_owned())
        );
    }

    proptest! {
        #[test]
        fn prop_a_corner_reads_back_as_printed(parts in 1_500_000_i64..=16_500_000) {
            let corner = Corner::new(parts).unwrap();
            prop_assert_eq!(Corner::parse(&corner.to_string()), Ok(corner));
        }

        #[test]
        fn prop_any_text_is_read_or_refused(text in "[-0-9 /.,:%indeg]{0,12}") {
            let _ = Corner::parse(&text);
        }
    }
}
