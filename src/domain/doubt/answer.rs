//! Which doubt an answer "measured again, it stands" belongs to.

use super::verdict::{Doubt, DoubtedReading};
use crate::domain::log::{CourseNumber, Edge, End, SetAside};
use crate::domain::measure::Length;

impl SetAside {
    /// What to write down so that `doubt` about `edge` stays set aside.
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
    pub fn answers(&self, doubt: &Doubt, edge: &Edge, tolerance: Length) -> bool {
        match (*self, Self::of(doubt, edge)) {
            (Self::Edge { off: then }, Self::Edge { off: now }) => (then - now).abs() <= tolerance,
            (then, now) => then == now,
        }
    }
}
