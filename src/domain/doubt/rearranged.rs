//! An edge whose courses do not stand where they are written, so that the rows
//! of its plane do not agree with each other at all: written from the ridge
//! down, half of them read to another line, or a course skipped low down.

use super::{
    cause::Cause,
    fix::Fix,
    line::{Basis, EdgeLine},
    plane_end::PlaneEnd,
    reach::Reach,
    rows::{Numbers, RowLine},
    verdict::{Doubt, DoubtedReading, Suspect},
};
use crate::domain::log::CourseNumber;
use crate::domain::measure::Length;

/// With more courses every place is not tried.
const MOST_COURSES: usize = 64;

/// The doubt about the whole edge that makes its rows agree.
// Over 60 lines: the three ways are tried side by side and the best is told.
pub(super) fn find(plane: &PlaneEnd<'_>, line: &EdgeLine) -> Option<Doubt> {
    let reaches = &plane.rows.this.reaches;
    let count = reaches.len();
    if count > MOST_COURSES {
        return None;
    }
    let agree = |numbers: Numbers<'_>| {
        let line = plane.rows.line(numbers)?;
        // All rows but one in eight, and so many that chance does not do it.
        (8 * (line.rows - line.agree) <= line.rows).then_some(line)
    };
    let numbers: Vec<CourseNumber> = reaches.iter().map(|reach| reach.number).collect();
    let from_top = |at: usize, reach: &Reach| {
        let mirrored = count.checked_sub(at + 1).and_then(|at| numbers.get(at));
        (mirrored.copied().unwrap_or(reach.number), Length::ZERO)
    };
    let mut told: Vec<(RowLine, Option<CourseNumber>, Suspect)> = Vec::new();
    if let Some(rows) = agree(&from_top) {
        let suspect = Suspect::new(
            DoubtedReading::Edge,
            line.step,
            Cause::FromTheRidge,
            Fix::TurnOver,
        );
        told.push((rows, None, suspect));
    }
    let (cause, by) = plane.this.other_line();
    for from in 1..count {
        for run in [from..count, 0..from] {
            let moved = |at: usize, reach: &Reach| match run.contains(&at) {
                true => (reach.number, by),
                false => (reach.number, Length::ZERO),
            };
            let Some(rows) = agree(&moved) else { continue };
            let (first, last) = (reaches.get(run.start)?, reaches.get(run.end - 1)?);
            let (both, likely) = (DoubtedReading::Both, first.bottom? - by);
            let (first, last) = (first.number, last.number);
            let suspect = Suspect::new(both, likely, cause, Fix::Both { first, last, by });
            told.push((rows, Some(first), suspect));
        }
        let one_more = |at: usize, reach: &Reach| match at >= from {
            true => (reach.number.next(), Length::ZERO),
            false => (reach.number, Length::ZERO),
        };
        let Some(rows) = agree(&one_more) else {
            continue;
        };
        let reach = reaches.get(from - 1)?;
        let (line, likely, below) = (DoubtedReading::Placement, reach.top?, reach.number);
        let suspect = Suspect::new(
            line,
            likely,
            Cause::CourseForgotten,
            Fix::CourseBetween { below },
        );
        told.push((rows, Some(below), suspect));
    }
    // The one that makes most rows agree, and of those the closest.
    told.sort_by(|(one, ..), (other, ..)| {
        let closer = one.sd.total_cmp(&other.sd);
        other.agree.cmp(&one.agree).then(closer)
    });
    let (rows, course, suspect) = told.first().copied()?;
    let basis = Basis::OtherEnd { rows: rows.rows };
    Doubt::of(course, line.step, vec![suspect], basis)
}
