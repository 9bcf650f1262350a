//! Doubts the cutter has set aside: "measured again, it stands".
//!
//! What is set aside is tied to the figures it was about, so that it comes
//! back when they change. Which doubt an answer belongs to is told in
//! [`crate::domain::doubt`].

use super::course::CourseNumber;
use crate::domain::measure::Length;

/// A doubt that stands answered, with the figures it was about.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum SetAside {
    /// About the readings of one course.
    Course {
        /// Which course.
        course: CourseNumber,
        /// Its bottom as written.
        bottom: Option<Length>,
        /// Its top as written.
        top: Option<Length>,
    },
    /// About one placement of the tape.
    Placement {
        /// The course below the line.
        course: CourseNumber,
        /// Its top as written.
        top: Option<Length>,
        /// The next one's bottom as written.
        bottom: Option<Length>,
    },
    /// About the whole edge.
    Edge {
        /// How far its step was off the expected one; holds while that stays
        /// within the tolerance.
        off: Length,
    },
}
