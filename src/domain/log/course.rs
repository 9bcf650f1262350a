//! One course of an edge as it was read on the roof.
//!
//! ```text
//!   top reading      |<------- top ------->\          course line above
//!                    |                      \
//!   side-lap line -> |                       \  <- the edge
//!                    |                        \
//!   bottom reading   |<------- bottom -------->\      course line below
//! ```
//!
//! A course holds what was read, nothing derived: no laps, no clearance.

use super::taken::ReadTo;
use crate::domain::measure::{Length, cleaned};
use crate::domain::roof::{EdgeKind, Trend};
use crate::domain::tape::{TapeError, TapeTrouble, Unit, parse_positive};
use std::{fmt, num::NonZeroI64};

/// What an edge is called by the program; survives renaming, never used twice.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct EdgeId(pub u32);

/// A course's number, counted 1 from the eave.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct CourseNumber(u32);

impl CourseNumber {
    /// The course at the eave.
    pub const FIRST: Self = Self(1);

    /// The highest number taken; no roof comes near it.
    pub const LAST: Self = Self(99_999);

    /// The course `number` from the eave, where that is in `1..=99999`.
    pub const fn new(number: u32) -> Option<Self> {
        if number >= Self::FIRST.0 && number <= Self::LAST.0 {
            Some(Self(number))
        } else {
            None
        }
    }

    /// The course above; the last number stays.
    pub const fn next(self) -> Self {
        match Self::new(self.0 + 1) {
            Some(next) => next,
            None => self,
        }
    }

    /// The course below; the first stays.
    pub const fn before(self) -> Self {
        match Self::new(self.0 - 1) {
            Some(before) => before,
            None => self,
        }
    }

    /// As a number.
    pub const fn get(self) -> u32 {
        self.0
    }
}

impl fmt::Display for CourseNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.0, f)
    }
}

/// A tape reading: from zero to 100 m.
///
/// Kept as one nanometre more than read, so that none is zero and a reading that
/// may be missing takes no more room: a large log holds four to six of them a course.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Reading(NonZeroI64);

impl Reading {
    /// The reading that `input` says.
    ///
    /// # Errors
    /// [`TapeError`] with the input and what was expected.
    pub fn parse(input: &str, unit: Unit) -> Result<Self, TapeError> {
        let length = parse_positive(input, unit)?;
        Self::new(length).map_err(|reason| TapeError {
            input: cleaned(input),
            reason,
        })
    }

    /// A reading of `length`.
    ///
    /// # Errors
    /// [`TapeTrouble`] below zero or over 100 m.
    pub fn new(length: Length) -> Result<Self, TapeTrouble> {
        if length < Length::ZERO {
            return Err(TapeTrouble::Negative);
        }
        let one_more = NonZeroI64::new(length.nm().saturating_add(1));
        match one_more.filter(|_| length <= Length::LONGEST) {
            Some(one_more) => Ok(Self(one_more)),
            None => Err(TapeTrouble::TooLong),
        }
    }

    /// How long it is.
    pub const fn length(self) -> Length {
        Length::from_nm(self.0.get() - 1)
    }
}

impl fmt::Debug for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("Reading").field(&self.length()).finish()
    }
}

/// Which of a course's two readings is meant.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum End {
    /// At the course line below, where the nose lies.
    Bottom,
    /// At the course line above.
    Top,
}

impl End {
    /// Both, from below.
    pub const BOTH: [Self; 2] = [Self::Bottom, Self::Top];

    /// `bottom` or `top`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bottom => "bottom",
            Self::Top => "top",
        }
    }

    /// The end at which an edge of `kind` runs out of its courses: the top,
    /// but the bottom where they widen going up.
    pub const fn narrow(kind: EdgeKind) -> Self {
        match kind.usual_trend() {
            Some(Trend::Widens) => Self::Bottom,
            Some(Trend::Narrows) | None => Self::Top,
        }
    }

    /// The one at the other course line.
    pub const fn other(self) -> Self {
        match self {
            Self::Bottom => Self::Top,
            Self::Top => Self::Bottom,
        }
    }
}

/// What was read of one course; readings may still be missing.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Course {
    /// Which one.
    pub number: CourseNumber,
    /// The gap at the line below.
    pub bottom: Option<Reading>,
    /// The gap at the line above.
    pub top: Option<Reading>,
    /// How far up the course the edge's line leaves it, where one of the two
    /// readings could not be taken for that reason.
    pub runs_out: Option<Reading>,
    /// The course's own height, where it is cut down at the ridge.
    pub height: Option<Reading>,
    /// The edge at its other end, where one piece runs from board to board: both
    /// readings go from this edge to that one then, and `runs_out` says how far
    /// up the two boards meet.
    pub to: Option<EdgeId>,
    /// To what this course alone is read: to a line struck up it, at which two
    /// pieces lap. One of them is read to it as to a lap line, the other as to a
    /// panel's edge, so that the lap is in their widths once.
    pub reads_to: Option<ReadTo>,
    /// When its pieces beyond the first are cut, where that is not as the job says.
    pub trip: Option<Trip>,
}

/// When the pieces of a wide course beyond its first are cut, where somebody said
/// so.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Trip {
    /// With all others, on the cover.
    First,
    /// Some of them last, to the gap over the laid pieces.
    Second(SecondTrip),
}

/// The pieces of a course that are cut for a second trip to the roof.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct SecondTrip {
    /// The first of them, counted from the field: 2 or more.
    pub from: u32,
    /// What was read over the pieces before it, as a course is read; nothing
    /// while they are not laid.
    pub bottom: Option<Reading>,
    pub top: Option<Reading>,
    pub runs_out: Option<Reading>,
}

impl SecondTrip {
    /// The pieces from `from` on wait.
    pub const fn waiting(from: u32) -> Self {
        Self {
            from,
            bottom: None,
            top: None,
            runs_out: None,
        }
    }

    /// Whether the gap over the laid pieces was read.
    pub const fn is_read(&self) -> bool {
        self.bottom.is_some() || self.top.is_some()
    }

    /// That gap, in a course `height` high.
    pub fn gap(&self, height: Length) -> Option<Gap> {
        let read = Course {
            bottom: self.bottom,
            top: self.top,
            runs_out: self.runs_out,
            ..Course::unread(CourseNumber::FIRST)
        };
        read.gap(height)
    }
}

/// The two figures of a course that fix the edge's line across it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Gap {
    /// At the line below; below zero where the line runs out above it.
    pub bottom: Length,
    /// At the line above; below zero where the line runs out below it.
    pub top: Length,
}

impl Course {
    /// A course of which nothing is read yet.
    pub const fn unread(number: CourseNumber) -> Self {
        Self {
            number,
            bottom: None,
            top: None,
            runs_out: None,
            height: None,
            to: None,
            reads_to: None,
            trip: None,
        }
    }

    /// How high it is: its own height where it is short, else the `exposure`.
    pub fn height_in(&self, exposure: Length) -> Length {
        self.height.map_or(exposure, Reading::length)
    }

    /// One of the two readings.
    pub const fn reading(&self, end: End) -> Option<Reading> {
        match end {
            End::Bottom => self.bottom,
            End::Top => self.top,
        }
    }

    /// The same course with one reading changed. A reading typed where the
    /// line was said to run out takes the place of that.
    #[must_use]
    pub fn with(mut self, end: End, reading: Option<Reading>) -> Self {
        match end {
            End::Bottom => self.bottom = reading,
            End::Top => self.top = reading,
        }
        if self.bottom.is_some() && self.top.is_some() {
            self.runs_out = None;
        }
        self
    }

    /// The same course with every figure changed; none where one cannot be.
    pub fn each(&self, change: impl Fn(Reading) -> Option<Reading>) -> Option<Self> {
        let changed = |read: Option<Reading>| match read {
            Some(read) => change(read).map(Some),
            None => Some(None),
        };
        Some(Self {
            number: self.number,
            bottom: changed(self.bottom)?,
            top: changed(self.top)?,
            runs_out: changed(self.runs_out)?,
            height: changed(self.height)?,
            to: self.to,
            reads_to: self.reads_to,
            trip: self.trip,
        })
    }

    /// Whether nothing at all was written of it.
    pub const fn is_blank(&self) -> bool {
        self.bottom.is_none()
            && self.top.is_none()
            && self.runs_out.is_none()
            && self.height.is_none()
            && self.to.is_none()
            && self.reads_to.is_none()
            && self.trip.is_none()
    }

    /// The raw gap at both lines for a course `height` high, where enough was
    /// read: the missing end of a line that runs out `r` up the course is
    /// `t = b (1 - h / r)` from the bottom, `b = -t r / (h - r)` from the top
    /// (similar triangles; common practice is to read `r` on the tape).
    pub fn gap(&self, height: Length) -> Option<Gap> {
        match (self.bottom, self.top, self.runs_out) {
            (Some(bottom), Some(top), _) => Some(Gap {
                bottom: bottom.length(),
                top: top.length(),
            }),
            (Some(bottom), None, Some(at))
                if at.length() > Length::ZERO && (at.length() <= height || self.to.is_some()) =>
            {
                let (bottom, at) = (bottom.length(), at.length());
                Some(Gap {
                    bottom,
                    top: bottom - bottom.scaled(height, at),
                })
            }
            (None, Some(top), Some(at)) if at.length() < height => {
                let (top, at) = (top.length(), at.length());
                Some(Gap {
                    bottom: -top.scaled(at, height - at),
                    top,
                })
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(inches: i64) -> Option<Reading> {
        Reading::new(Length::from_inches(inches)).ok()
    }

    #[test]
    fn a_line_that_runs_out_halfway_up_is_as_far_off_at_the_top() {
        let mut course = Course::unread(CourseNumber::FIRST).with(End::Bottom, read(5));
        course.runs_out = read(7);
        let gap = course.gap(Length::from_inches(14));
        assert_eq!(gap.map(|gap| gap.top), Some(Length::from_inches(-5)));
    }

    #[test]
    fn in_a_valley_the_bottom_is_found_from_the_top() {
        let mut course = Course::unread(CourseNumber::FIRST).with(End::Top, read(6));
        course.runs_out = read(4);
        // h = 14, r = 4: b = -6 * 4 / 10 = -2.4 in.
        let gap = course.gap(Length::from_inches(14));
        assert_eq!(gap.map(|gap| gap.bottom.nm()), Some(-60_960_000));
    }

    #[test]
    fn a_reading_typed_over_a_run_out_takes_its_place() {
        let mut course = Course::unread(CourseNumber::FIRST).with(End::Bottom, read(5));
        course.runs_out = read(7);
        assert_eq!(course.with(End::Top, read(1)).runs_out, None);
    }

    #[test]
    fn a_missing_reading_gives_no_gap() {
        let course = Course::unread(CourseNumber::FIRST).with(End::Bottom, read(5));
        assert_eq!(course.gap(Length::from_inches(14)), None);
    }
}
