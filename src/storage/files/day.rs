//! A day of the calendar in UTC, for the names of versions.

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

    /// The day that `2026-11-26` names, where the calendar has it.
    pub fn named(text: &str) -> Option<Self> {
        let parts: Vec<&str> = text.split('-').collect();
        let [year, month, day] = parts.as_slice() else {
            return None;
        };
        let digits = |part: &str, count| {
            let is_number = part.len() == count && part.bytes().all(|byte| byte.is_ascii_digit());
            is_number.then(|| part.parse::<i64>().ok()).flatten()
        };
        let named = Self::on(digits(year, 4)?, digits(month, 2)?, digits(day, 2)?)?;
        (named.to_string() == text).then_some(named)
    }

    /// The inverse of [`Self::date`], where the month is one of twelve.
    fn on(year: i64, month: i64, day: i64) -> Option<Self> {
        let from_march = match month {
            1 | 2 => month + 9,
            3..=12 => month - 3,
            _ => return None,
        };
        let year = if month <= 2 { year - 1 } else { year };
        let (era, of_era) = (year.div_euclid(400), year.rem_euclid(400));
        let of_year = (153 * from_march + 2) / 5 + day - 1;
        let days = of_era * 365 + of_era / 4 - of_era / 100 + of_year;
        Some(Self(era * 146_097 + days - 719_468)).filter(|day| day.0 >= 0)
    }

    /// Its first second.
    pub const fn begin(self) -> Utc {
        Utc(self.0 * SECONDS)
    }

    /// Which week it is of, of those that begin on a Thursday as 1970 did.
    pub const fn week(self) -> i64 {
        self.0.div_euclid(7)
    }

    /// How many seconds of its day have passed at `time`.
    pub const fn seconds(time: Utc) -> i64 {
        time.0.rem_euclid(SECONDS)
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
    fn a_day_is_known_by_its_name() {
        for day in (0..2_932_896).step_by(17).map(Day) {
            assert_eq!(Day::named(&day.to_string()), Some(day));
        }
        for none in [
            "2026-02-29",
            "2026-13-01",
            "2026-00-10",
            "26-01-01",
            "2026-1-01",
            "1969-12-31",
        ] {
            assert_eq!(Day::named(none), None, "{none}");
        }
    }

    #[test]
    fn a_clock_that_is_centuries_out_gives_no_day() {
        check(-1, "");
        check(253_402_300_800, "");
        check(i64::MAX, "");
        check(i64::MIN, "");
    }
}
