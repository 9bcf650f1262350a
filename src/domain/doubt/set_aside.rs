//! Doubts the cutter has set aside: "measured again, it stands".
//!
//! What is set aside is tied to the figures it was about, so that it comes
//! back when they change.

use super::{Doubt, DoubtedReading};
use crate::domain::course::{CourseNumber, End};
use crate::domain::edge::Edge;
use crate::domain::length::Length;

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

impl SetAside {
    /// What to write down so that `doubt` about `edge` stays set aside.
    #[must_use]
    pub fn of(doubt: &Doubt, edge: &Edge) -> Self {
        let read = |course: CourseNumber, end| {
            edge.course(course)
                .and_then(|course| course.reading(end))
                .map(|reading| reading.length())
        };
        match (doubt.course, doubt.reading) {
            (None, _) | (_, DoubtedReading::Edge) => Self::Edge { off: doubt.off },
            (Some(course), DoubtedReading::Placement) => Self::Placement {
                course,
                top: read(course, End::Top),
                bottom: read(course.next(), End::Bottom),
            },
            (Some(course), DoubtedReading::Bottom | DoubtedReading::Top) => Self::Course {
                course,
                bottom: read(course, End::Bottom),
                top: read(course, End::Top),
            },
        }
    }

    /// Whether it answers `doubt` about `edge` as the log stands now.
    #[must_use]
    pub fn answers(&self, doubt: &Doubt, edge: &Edge, tolerance: Length) -> bool {
        match (*self, Self::of(doubt, edge)) {
            (Self::Edge { off: then }, Self::Edge { off: now }) => (then - now).abs() <= tolerance,
            (then, now) => then == now,
        }
    }
}
