//! An edge whose courses do not stand where they are written, so that the rows
//! of its plane do not agree with each other at all: written from the ridge
//! down, or a course skipped low down.

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

/// With more courses every place is not tried.
const MOST_COURSES: usize = 64;

/// The doubt about the whole edge that makes its rows agree.
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
        mirrored.copied().unwrap_or(reach.number)
    };
    let doubt = |rows: RowLine, course, suspect| {
        let basis = Basis::OtherEnd { rows: rows.rows };
        Doubt::of(course, line.step, vec![suspect], basis)
    };
    if let Some(rows) = agree(&from_top) {
        let (edge, turn) = (DoubtedReading::Edge, Fix::TurnOver);
        let suspect = Suspect::new(edge, line.step, Cause::FromTheRidge, turn);
        return doubt(rows, None, suspect);
    }
    (0..count.saturating_sub(1)).find_map(|below| {
        let one_more = |at: usize, reach: &Reach| match at > below {
            true => reach.number.next(),
            false => reach.number,
        };
        let rows = agree(&one_more)?;
        let reach = reaches.get(below)?;
        let fix = Fix::CourseBetween {
            below: reach.number,
        };
        let placement = DoubtedReading::Placement;
        let suspect = Suspect::new(placement, reach.top?, Cause::CourseForgotten, fix);
        doubt(rows, Some(reach.number), suspect)
    })
}
