//! Which doubt an answer "measured again, it stands" belongs to.

use super::verdict::{Doubt, DoubtedReading};
use crate::domain::log::{CourseNumber, Edge, End, SetAside};
use crate::domain::measure::Length;

impl SetAside {
    /// What to write down so that `doubt` about `edge` stays set aside.
    pub fn of(doubt: &Doubt, edge: &Edge) -> Self {
        match (doubt.course, doubt.reading) {
            (None, _) | (_, DoubtedReading::Edge) => Self::Edge { off: doubt.off },
            (Some(course), DoubtedReading::Placement) => Self::of_placement(edge, course),
            (Some(course), DoubtedReading::Bottom | DoubtedReading::Top | DoubtedReading::Both) => {
                Self::of_course(edge, course)
            }
        }
    }

    /// The answer about one course as its readings now stand.
    pub fn of_course(edge: &Edge, course: CourseNumber) -> Self {
        Self::Course {
            course,
            bottom: edge.reading(course, End::Bottom),
            top: edge.reading(course, End::Top),
        }
    }

    /// The answer about the placement above `course` as its readings now stand.
    pub fn of_placement(edge: &Edge, course: CourseNumber) -> Self {
        Self::Placement {
            course,
            top: edge.reading(course, End::Top),
            bottom: edge.reading(course.next(), End::Bottom),
        }
    }

    /// Whether it answers `doubt` about `edge` as the log stands now.
    pub fn answers(&self, doubt: &Doubt, edge: &Edge, tolerance: Length) -> bool {
        match (*self, Self::of(doubt, edge)) {
            (Self::Edge { off: then }, Self::Edge { off: now }) => (then - now).abs() <= tolerance,
            (then, now) => then == now,
        }
    }
}
