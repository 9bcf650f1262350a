//! A day of the calendar in UTC, for the names of copies.

use crate::domain::bench::Utc;
use std::fmt;

const SECONDS: i64 = 86_400;

/// A UTC day, counted from 1970-01-01.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Day(i64);

impl Day {
    /// The day in which that second lies; `None` for a clock that is centuries
    /// out, whose days would not sort by their names.
    pub fn of(time: Utc) -> Option<Self> {
        // 9999-12-31, the last day with four digits.
        const LAST: i64 = 2_932_896;
        let day = time.0.div_euclid(SECONDS);
        (0..=LAST).contains(&day).then_some(Self(day))
    }

    /// Year, month 1 to 12 and day 1 to 31 of the Gregorian calendar.
    ///
    /// Counts from 1 March of the year 0, so that the day a leap year has more
    /// is the last of its year; an era of 400 years has 146 097 days.
    const fn date(self) -> (i64, i64, i64) {
        let days = self.0 + 719_468;
        let era = days.div_euclid(146_097);
        let of_era = days.rem_euclid(146_097);
        let years = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
        let of_year = of_era - (365 * years + years / 4 - years / 100);
        let from_march = (5 * of_year + 2) / 153;
        let day = of_year - (153 * from_march + 2) / 5 + 1;
        let (month, next) = if from_march < 10 {
            (from_march + 3, 0)
        } else {
            (from_march - 9, 1)
        };
        (era * 400 + years + next, month, day)
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.date();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(seconds: i64, expected: &str) {
        let day = Day::of(Utc(seconds)).map(|day| day.to_string());
        assert_eq!(day.unwrap_or_default(), expected);
    }

    // The seconds are those of `date -u -d DATE +%s`.
    #[test]
    fn a_day_is_written_as_the_calendar_has_it() {
        check(0, "1970-01-01");
        check(86_399, "1970-01-01");
        check(951_782_400, "2000-02-29");
        check(951_868_800, "2000-03-01");
        check(1_709_164_800, "2024-02-29");
        check(1_790_000_000, "2026-09-21");
        check(4_107_456_000, "2100-02-28");
        check(4_107_542_400, "2100-03-01");
        check(253_402_300_799, "9999-12-31");
    }

    #[test]
    fn a_clock_that_is_centuries_out_gives_no_day() {
        check(-1, "");
        check(253_402_300_800, "");
        check(i64::MAX, "");
        check(i64::MIN, "");
    }
}
