//! The time of day.

use crate::domain::event::Utc;
use crate::storage::day::Day;
use std::time::{SystemTime, UNIX_EPOCH};

/// Now; `None` where the clock stands before 1970.
#[must_use]
pub fn now() -> Option<Utc> {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).ok()?;
    i64::try_from(since.as_secs()).ok().map(Utc)
}

/// The day in UTC.
#[must_use]
pub fn today() -> Option<Day> {
    now().and_then(Day::of)
}
