//! Courses where the roof is no more: above the course in which the boards of a
//! plane's two edges meet, or wider than what is left of it there.
//!
//! How wide a plane is nobody measures; a course that was read from board to board
//! says it, and both edges' lean how it narrows from there up.

use super::{
    cause::Cause,
    fix::Fix,
    line::Basis,
    verdict::{Doubt, DoubtedReading, Suspect},
};
use crate::domain::{
    log::{Course, CourseNumber, Edge},
    measure::Length,
    settings::Settings,
};

/// What a course that was read from board to board says of the plane above it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PlaneAbove {
    /// The course that was read.
    pub read_in: CourseNumber,
    /// How wide the plane is at its top line; nothing where the boards meet in it.
    pub at_top: Length,
    /// How much the plane narrows in a course, from both ends.
    pub narrows: Length,
}

impl PlaneAbove {
    /// The boards meet in that course.
    pub const fn met_in(read_in: CourseNumber) -> Self {
        Self {
            read_in,
            at_top: Length::ZERO,
            narrows: Length::ZERO,
        }
    }

    /// How wide the plane is at the bottom line of `course`; below zero above the peak.
    fn width_below(&self, course: CourseNumber) -> Length {
        let above = i64::from(course.get()) - i64::from(self.read_in.get()) - 1;
        self.at_top - self.narrows.times(above)
    }

    /// The course in which the boards meet.
    fn meets_in(&self) -> CourseNumber {
        let mut meets_in = self.read_in;
        while self.width_below(meets_in.next()) > Length::ZERO {
            meets_in = meets_in.next();
        }
        meets_in
    }

    /// Whether a course whose gaps take `gaps` of its bottom line has no room there.
    fn has_no_room_for(&self, course: CourseNumber, gaps: Length, settings: &Settings) -> bool {
        // Two leans and three readings bring errors of their own; two pieces that
        // lap in the middle are wider together than the plane by the side lap.
        let errors = settings.tolerance + settings.tolerance;
        let width = self.width_below(course);
        let meets = self.at_top == Length::ZERO;
        let is_above = meets || width + errors <= Length::ZERO;
        course > self.read_in && (is_above || gaps > width + errors + settings.side_lap)
    }
}

/// A course as it was read, and how much of its bottom line both its gaps take.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct RowOfGaps {
    pub course: Course,
    pub gaps: Length,
}

/// The doubts about courses of `edge` for which the plane has no room, going up,
/// without what was set aside.
pub fn check_above(
    edge: &Edge,
    rows: &[RowOfGaps],
    planes: &[PlaneAbove],
    settings: &Settings,
) -> Vec<Doubt> {
    let doubt = |row: &RowOfGaps| {
        let course = row.course.number;
        let mut planes = planes.iter();
        let plane = planes.find(|plane| plane.has_no_room_for(course, row.gaps, settings))?;
        let meets_in = plane.meets_in();
        let (cause, fix) = match course > meets_in {
            true => (Cause::AbovePeak, Fix::NoCourse { course, meets_in }),
            false => (Cause::WiderThanPlane, Fix::MeasureAgain),
        };
        let suspect = Suspect {
            reading: DoubtedReading::Both,
            likely: plane.width_below(course).max(Length::ZERO),
            cause,
            fix,
        };
        let off = row.gaps - plane.width_below(course);
        Doubt::of(Some(course), off, vec![suspect], Basis::Meeting)
    };
    let answered = |doubt: &Doubt| {
        let mut answers = edge.set_aside.iter();
        answers.any(|answer| answer.answers(doubt, edge, settings.tolerance))
    };
    let doubts = rows.iter().filter_map(doubt);
    doubts.filter(|doubt| !answered(doubt)).collect()
}
