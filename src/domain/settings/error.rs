//! Why a setting was not taken, in words that quote what was written.

use super::{minutes::Minutes, out_of_range::OutOfRange, spare_per_cent::SparePerCent};
use crate::domain::tape::{Division, TapeError, Unit};
use std::fmt;

/// Why a setting was not taken.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum SettingError {
    /// Not a length.
    Length(&'static str, TapeError),
    /// Not one of the choices.
    Choice {
        /// The setting's label.
        what: &'static str,
        /// What was written, cleaned for showing.
        input: String,
        /// What may be written.
        choices: Vec<&'static str>,
    },
    /// A division of the other unit.
    OtherUnit {
        /// The division that was asked for.
        division: Division,
        /// The job's unit.
        unit: Unit,
    },
    /// Not a number of minutes.
    Minutes(String),
    /// Not a whole number of per cent.
    PerCent(String),
    /// A figure out of range.
    Range(OutOfRange),
}

impl fmt::Display for SettingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(what, error) => write!(f, "{what}: {error}"),
            Self::Choice {
                what,
                input,
                choices,
            } => write!(
                f,
                "{what}: \"{input}\" is not one of the choices, expected {}",
                choices.join(" or ")
            ),
            Self::OtherUnit { division, unit } => write!(
                f,
                "division: \"{}\" does not go with units {}, expected {}",
                division.word(),
                unit.word(),
                match unit {
                    Unit::Inch => "1/8, 1/16 or 1/32",
                    Unit::Millimetre => "1 or 0.5",
                }
            ),
            Self::Minutes(input) => write!(
                f,
                "pause: \"{input}\" is not a whole number of minutes, expected 1 to {}",
                Minutes::LONGEST_PAUSE
            ),
            Self::PerCent(input) => write!(
                f,
                "carry more panels: \"{input}\" is not a whole number of per cent, expected 0 to {}",
                SparePerCent::MOST
            ),
            Self::Range(error) => write!(f, "{error}"),
        }
    }
}

impl std::error::Error for SettingError {}
