//! A setting out of its range, in words that say the range.

use crate::domain::measure::Length;
use crate::domain::tape::{Unit, exact_with_unit};
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
        write!(
            f,
            "{} of {} is out of range, expected {} to {}",
            self.what,
            say(self.value),
            say(self.least),
            say(self.most)
        )
    }
}

impl std::error::Error for OutOfRange {}
