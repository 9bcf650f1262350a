//! A course put in or taken out, and what becomes of the numbers above it.

use super::course::CourseNumber;

/// What is done to an edge's courses.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum CourseShift {
    /// An unread course is put in at this number; it and those above move up.
    In(CourseNumber),
    /// The course of this number is taken out; those above move down.
    Out(CourseNumber),
}

impl CourseShift {
    /// Where `number` goes; nowhere where it is the one that is taken out.
    pub fn moved(self, number: CourseNumber) -> Option<CourseNumber> {
        match self {
            Self::In(at) if number >= at => Some(number.next()),
            Self::Out(at) if number == at => None,
            Self::Out(at) if number > at => Some(number.before()),
            Self::In(_) | Self::Out(_) => Some(number),
        }
    }
}
