//! The time of day.

use crate::domain::bench::Utc;
use crate::storage::files::Day;
use std::time::{SystemTime, UNIX_EPOCH};

/// Now; `None` where the clock stands before 1970.
pub fn now() -> Option<Utc> {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).ok()?;
    i64::try_from(since.as_secs()).ok().map(Utc)
}

/// The day in UTC.
pub fn today() -> Option<Day> {
    now().and_then(Day::of)
}
