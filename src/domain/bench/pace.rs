//! How long a piece takes, and how long the rest will, from the bench's facts.
//!
//! The time of a piece is the time between it and the one before being
//! stacked, whatever was done in between. The pace is the median of these
//! times, so that one long talk does not move it; times longer than a pause are
//! left out altogether, and so are those on either side of a piece whose time
//! is unknown: the time across it would be that of two pieces.
//!
//! ```text
//!   stacked   9:00   9:03   9:07    ?    9:12  9:15        9:50  9:54
//!   time          3      4      -     -      3       (35)      4
//! ```
//!
//! It asks no clock and does not know the present time: nothing it says changes
//! while nothing is done.

use super::event::{BenchEvent, Fact, Utc};
use crate::domain::settings::Minutes;
use std::fmt;

/// A time span in whole seconds; never below zero.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub struct Seconds(u64);

/// How fast pieces are made.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Pace {
    pub piece: Seconds,
    /// How many times it is the median of.
    pub of: usize,
}

impl Pace {
    /// The pace of what was stacked so far, where times longer than `pause`
    /// count as pauses; `None` while there is no time to go by.
    pub fn of(events: &[BenchEvent], pause: Minutes) -> Option<Self> {
        let stacked: Vec<Option<Utc>> = events
            .iter()
            .filter(|event| matches!(event.fact, Fact::Stacked(_)))
            .map(|event| event.at)
            .collect();
        let next = stacked.iter().skip(1);
        let times = stacked
            .iter()
            .zip(next)
            .filter_map(|(before, after)| between((*before)?, (*after)?))
            .filter(|time| *time <= Seconds::from(pause))
            .collect();
        median(times)
    }

    /// How long `pieces` more will take at this pace.
    pub fn time_for(&self, pieces: usize) -> Seconds {
        let pieces = u64::try_from(pieces).unwrap_or(u64::MAX);
        Seconds(self.piece.0.saturating_mul(pieces))
    }
}

impl Seconds {
    /// A span of that many seconds.
    pub const fn new(seconds: u64) -> Self {
        Self(seconds)
    }

    /// As a number.
    pub const fn get(self) -> u64 {
        self.0
    }
}

impl From<Minutes> for Seconds {
    fn from(minutes: Minutes) -> Self {
        Self(u64::from(minutes.0) * 60)
    }
}

/// `40 s` up to two minutes, then in minutes rounded up, `1 h 05 min` from an
/// hour on.
impl fmt::Display for Seconds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 < 120 {
            return write!(f, "{} s", self.0);
        }
        let minutes = self.0.div_ceil(60);
        if minutes < 60 {
            write!(f, "{minutes} min")
        } else {
            write!(f, "{} h {:02} min", minutes / 60, minutes % 60)
        }
    }
}

/// How much later `after` is; `None` where the clock ran back.
fn between(before: Utc, after: Utc) -> Option<Seconds> {
    let seconds = after.0.checked_sub(before.0)?;
    u64::try_from(seconds).ok().map(Seconds)
}

/// The middle one, or the mean of the middle two, rounded down.
fn median(mut times: Vec<Seconds>) -> Option<Pace> {
    times.sort_unstable();
    let of = times.len();
    let upper = times.get(of / 2)?;
    let lower = times.get(of.saturating_sub(1) / 2)?;
    let piece = Seconds(lower.0.midpoint(upper.0));
    Some(Pace { piece, of })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        log::{CourseNumber, EdgeId},
        piece::PieceId,
    };

    fn piece() -> PieceId {
        PieceId {
            edge: EdgeId(1),
            course: CourseNumber::FIRST,
            number: 1,
        }
    }

    fn stacked(minutes: Option<i64>) -> BenchEvent {
        BenchEvent {
            at: minutes.map(|minutes| Utc(minutes * 60)),
            joined: false,
            fact: Fact::Stacked(piece()),
        }
    }

    #[track_caller]
    fn check(minutes: &[Option<i64>], expected: Option<(u64, usize)>) {
        let events: Vec<_> = minutes.iter().copied().map(stacked).collect();
        let pace = Pace::of(&events, Minutes(20));
        assert_eq!(pace.map(|pace| (pace.piece.get(), pace.of)), expected);
    }

    #[test]
    fn the_pace_is_the_median_of_the_times_between_stacked_pieces() {
        check(&[Some(0), Some(3), Some(7), Some(17)], Some((240, 3)));
        check(&[Some(0), Some(3), Some(8)], Some((240, 2)));
    }

    #[test]
    fn a_pause_is_left_out_and_one_just_as_long_as_allowed_is_not() {
        check(&[Some(0), Some(3), Some(24), Some(28)], Some((210, 2)));
        check(&[Some(0), Some(20)], Some((1200, 1)));
    }

    #[test]
    fn an_unknown_time_takes_both_times_beside_it_out() {
        check(&[Some(0), Some(2), None, Some(9), Some(13)], Some((180, 2)));
    }

    #[test]
    fn one_piece_or_none_gives_no_pace() {
        check(&[], None);
        check(&[Some(5)], None);
        check(&[Some(5), None, Some(9)], None);
    }

    #[test]
    fn a_clock_that_ran_back_gives_no_time() {
        check(&[Some(9), Some(5), Some(7)], Some((120, 1)));
    }

    #[test]
    fn what_is_done_between_two_stacked_pieces_does_not_matter() {
        let cut = BenchEvent {
            at: Some(Utc(60)),
            joined: false,
            fact: Fact::Bent(piece()),
        };
        let events = [stacked(Some(0)), cut, stacked(Some(3))];
        let pace = Pace::of(&events, Minutes(20));
        assert_eq!(pace.map(|pace| pace.piece), Some(Seconds::new(180)));
    }

    #[test]
    fn the_time_left_is_the_pace_times_the_pieces() {
        let pace = Pace {
            piece: Seconds::new(210),
            of: 3,
        };
        assert_eq!(pace.time_for(4), Seconds::new(840));
        assert_eq!(pace.time_for(0), Seconds::new(0));
    }

    #[test]
    fn spans_are_said_in_seconds_minutes_and_hours() {
        let said = [45, 119, 120, 121, 3540, 3541, 7500].map(|s| Seconds::new(s).to_string());
        assert_eq!(
            said,
            [
                "45 s",
                "119 s",
                "2 min",
                "3 min",
                "59 min",
                "1 h 00 min",
                "2 h 05 min"
            ]
        );
    }
}
