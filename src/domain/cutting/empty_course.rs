//! A course of the log that gives no piece, or none yet.

use crate::domain::{
    log::{CourseNumber, EdgeId, End},
    piece::CourseTrouble,
};

/// A course without pieces, or a run of them, and why.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct EmptyCourse {
    pub edge: EdgeId,
    pub course: CourseNumber,
    /// The last of a run that the log passes over; else the same course.
    pub to: CourseNumber,
    pub why: CourseTrouble,
}

impl EmptyCourse {
    /// Whether a piece is still to come of it, once it is read.
    pub fn is_hole(&self) -> bool {
        self.why != CourseTrouble::NothingToCut
    }

    /// `course 4`, `courses 4 to 6`.
    pub fn place(&self) -> String {
        match (self.course, self.to) {
            (course, to) if course == to => format!("course {course}"),
            (course, to) => format!("courses {course} to {to}"),
        }
    }

    /// Why, in few words and without figures.
    pub const fn briefly(&self) -> &'static str {
        match self.why {
            CourseTrouble::NotRead(End::Bottom) => "bottom not read",
            CourseTrouble::NotRead(End::Top) => "top not read",
            CourseTrouble::Unread => "not read yet",
            CourseTrouble::RunsOutNowhere => "runs out nowhere",
            CourseTrouble::TooHigh { .. } => "course too high",
            CourseTrouble::NoHeight => "course height 0",
            CourseTrouble::TooFlat => "runs out too low",
            CourseTrouble::NothingToCut => "no gap: no piece",
            CourseTrouble::NoLean => "lean not known",
            CourseTrouble::NoOtherEdge => "runs to no edge",
            CourseTrouble::NoWidthBelow => "no width below",
            CourseTrouble::TooWide { .. } => "too wide for one panel",
        }
    }

    /// `course 4, not read yet`, `course 9, too wide for one panel`.
    pub fn place_and_why(&self) -> String {
        format!("{}, {}", self.place(), self.briefly())
    }
}
