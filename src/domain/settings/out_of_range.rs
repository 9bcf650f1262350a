//! A setting out of its range, in words that say the range.

use crate::domain::measure::Length;
use crate::domain::tape::{Division, Unit, exact_with_unit};
use std::fmt;

/// A figure out of its range, with what was wanted.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct OutOfRange {
    /// The setting's label.
    pub what: &'static str,
    /// What it was set to.
    pub value: Length,
    /// The least it may be.
    pub least: Length,
    /// The most it may be.
    pub most: Length,
    /// The unit to say it in.
    pub unit: Unit,
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let say = |length| exact_with_unit(length, self.unit);
        let [least, most] = match self.unit {
            Unit::Millimetre => [self.least, self.most],
            // What no tape shows is said by the next mark within the range.
            Unit::Inch => [
                -down_to_sixteenth(-self.least),
                down_to_sixteenth(self.most),
            ],
        };
        write!(
            f,
            "{} of {} is out of range, expected {} to {}",
            self.what,
            say(self.value),
            say(least),
            say(most)
        )
    }
}

fn down_to_sixteenth(length: Length) -> Length {
    let step = Division::SixteenthInch.step().nm();
    Length::from_nm(length.nm().div_euclid(step) * step)
}

impl std::error::Error for OutOfRange {}
