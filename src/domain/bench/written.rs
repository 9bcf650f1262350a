//! The course number that is written on steel.

use crate::domain::log::CourseNumber;
use std::fmt;

/// A course as a label says it: `5`, or `5b` where marked steel of another
/// course bears a 5 already.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct WrittenCourse {
    pub course: CourseNumber,
    /// How many courses had that number before it; a `b` is written for each.
    pub before: u8,
}

impl WrittenCourse {
    /// As it is written where no other steel bears the number.
    pub const fn plain(course: CourseNumber) -> Self {
        Self { course, before: 0 }
    }

    /// The next way to write the same number.
    pub const fn after(self) -> Self {
        Self {
            before: self.before.saturating_add(1),
            ..self
        }
    }
}

impl fmt::Display for WrittenCourse {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.course, "b".repeat(usize::from(self.before)))
    }
}
