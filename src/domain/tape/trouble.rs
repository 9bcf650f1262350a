//! Why a text was not read as a length, in words that quote it.

use super::division::Unit;
use std::fmt;

/// Why a text was not read as a length.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TapeError {
    /// What was typed, cleaned for showing.
    pub input: String,
    /// What is wrong with it.
    pub reason: TapeTrouble,
}

/// The ways in which a text is not a length.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum TapeTrouble {
    /// Nothing was typed.
    Empty,
    /// Not the shape of a length.
    Shape(Unit),
    /// A date, as a spreadsheet makes one of a fraction, where it can be told of
    /// which.
    Date { of: Option<[u8; 2]> },
    /// A fraction over nothing.
    NothingUnder,
    /// A fraction of one or more beside or without a whole number.
    FractionTooLarge,
    /// A denominator no tape has.
    NotATapeFraction,
    /// A fraction where the unit is millimetres.
    FractionOfMillimetres,
    /// A decimal that is not a whole number of nanometres.
    NotExact,
    /// Twelve inches or more beside feet.
    InchesBesideFeet,
    /// A comma before three digits, which some write to part thousands.
    CommaBeforeThree,
    /// Beyond 100 m.
    TooLong,
    /// Below zero where only zero and up makes sense.
    Negative,
}

impl fmt::Display for TapeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let reason = self.reason;
        match reason {
            TapeTrouble::Empty => {
                f.write_str("nothing was typed, expected a length such as 13 5/8")
            }
            TapeTrouble::Date { of } => {
                write!(f, "\"{}\": the spreadsheet made a date of ", self.input)?;
                match of {
                    Some([over, under]) => write!(f, "{over}/{under}")?,
                    None => f.write_str("what was typed")?,
                }
                write!(f, ", {}", reason.words())
            }
            reason => write!(f, "\"{}\" {}", self.input, reason.words()),
        }
    }
}

impl TapeTrouble {
    /// What the input is or has, and what was expected.
    const fn words(self) -> &'static str {
        match self {
            Self::Date { .. } => "expected it as text: set its cells to text and write it again",
            Self::Empty => "is no length, expected one such as 13 5/8",
            Self::CommaBeforeThree => "may be thousands or thousandths, expected 1219 or 1.219",
            Self::Shape(Unit::Inch) => {
                "is not a length, expected one such as 13 5/8, 13.625 or 346 mm"
            }
            Self::Shape(Unit::Millimetre) => {
                "is not a length, expected one such as 346, 346.5 or 13 5/8 in"
            }
            Self::NothingUnder => "has a fraction over 0, expected a tape fraction such as 5/8",
            Self::FractionTooLarge => {
                "has a fraction of 1 or more, expected one below 1 such as 5/8"
            }
            Self::NotATapeFraction => {
                "has a fraction no tape shows exactly, expected halves, 4ths, 8ths, 16ths, 32nds or 64ths"
            }
            Self::FractionOfMillimetres => {
                "has a fraction but this job reads millimetres, expected 346.5 or 13 5/8 in"
            }
            Self::NotExact => {
                "has more decimals than can be held exactly, expected at most 5 of an inch or 6 of a millimetre"
            }
            Self::InchesBesideFeet => "has 12 inches or more beside feet, expected fewer than 12",
            Self::TooLong => "is over 100 m, expected at most 100 m",
            Self::Negative => "is below zero, expected zero or more",
        }
    }
}

impl std::error::Error for TapeError {}
