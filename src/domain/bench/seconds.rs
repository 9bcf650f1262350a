//! A time span, as it is said to the cutter: in minutes and hours.

use crate::domain::settings::Minutes;
use std::fmt;

/// A time span in whole seconds; never below zero.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub struct Seconds(u64);

impl Seconds {
    /// A span of that many seconds.
    pub const fn new(seconds: u64) -> Self {
        Self(seconds)
    }

    /// As a number.
    pub const fn get(self) -> u64 {
        self.0
    }

    /// The nearest whole second; at most a year.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held within a year before"
    )]
    pub(super) fn rounded(seconds: f64) -> Self {
        const YEAR: f64 = 31_536_000.0;
        Self(seconds.clamp(0.0, YEAR).round() as u64)
    }

    /// As a number to reckon with.
    pub(super) fn to_f64(self) -> f64 {
        f64::from(u32::try_from(self.0).unwrap_or(u32::MAX))
    }

    /// In whole minutes, a begun one counts; at least one.
    pub(super) const fn minutes(self) -> u64 {
        let minutes = self.0.div_ceil(60);
        if minutes == 0 { 1 } else { minutes }
    }
}

impl From<Minutes> for Seconds {
    fn from(minutes: Minutes) -> Self {
        Self(u64::from(minutes.0) * 60)
    }
}

/// `40 min`, `1 h 05 min`; a begun minute counts.
impl fmt::Display for Seconds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.minutes() {
            minutes @ 0..60 => write!(f, "{minutes} min"),
            minutes => write!(f, "{} h {:02} min", minutes / 60, minutes % 60),
        }
    }
}
