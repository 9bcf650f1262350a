//! An edge whose courses do not stand where they are written, so that the rows
//! of its plane do not agree with each other at all: written from the ridge
//! down, half of them read to another line, or a course skipped low down.

use super::{
    cause::Cause,
    fix::Fix,
    forgotten,
    given::Given,
    line::{Basis, EdgeLine},
    plane_end::PlaneEnd,
    reach::Reach,
    rows::{BothEnds, Numbers, RowLine},
    verdict::{Doubt, DoubtedReading, OrAt, Suspect},
};
use crate::domain::log::CourseNumber;
use crate::domain::measure::Length;

/// With more courses every place is not tried.
const MOST_COURSES: usize = 64;

/// The doubt about the whole edge that makes its rows agree, where the other edge's
/// does not make more of them agree.
pub(super) fn find(plane: &PlaneEnd<'_>, line: &EdgeLine) -> Option<Doubt> {
    let here = best(&plane.rows, &plane.this, line)?;
    let (rows, other) = (&plane.from_other, &plane.other);
    let there = other.line.and_then(|line| best(rows, &other.given, &line));
    let there = there.map(|there| there.rows);
    let odd = |rows: RowLine| rows.rows - rows.agree;
    // Turned over at either edge, the rows agree nearly as well by chance.
    let may_be_there = here.suspect.cause != Cause::FromTheRidge;
    if may_be_there && there.is_some_and(|there| odd(there) < odd(here.rows)) {
        return None;
    }
    let as_good = there.filter(|there| odd(*there) == odd(here.rows));
    let or_at = as_good.map(|there| OrAt::of(other.edge, there.agree > here.rows.agree));
    let basis = Basis::OtherEnd {
        rows: here.rows.rows,
    };
    let doubt = Doubt::of(here.course, line.step, vec![here.suspect], basis)?;
    Some(Doubt { or_at, ..doubt })
}

/// What makes an edge's rows agree.
struct Told {
    rows: RowLine,
    course: Option<CourseNumber>,
    suspect: Suspect,
}

/// The one that makes most rows agree, and of those the closest.
// Over 60 lines: the three ways are tried side by side and the best is told.
fn best(rows: &BothEnds<'_>, given: &Given<'_>, line: &EdgeLine) -> Option<Told> {
    let reaches = &rows.this.reaches;
    let count = reaches.len();
    if count > MOST_COURSES {
        return None;
    }
    let agree = |numbers: Numbers<'_>| agreeing(rows, numbers);
    let numbers: Vec<CourseNumber> = reaches.iter().map(|reach| reach.number).collect();
    let from_top = |at: usize, reach: &Reach| {
        let mirrored = count.checked_sub(at + 1).and_then(|at| numbers.get(at));
        (mirrored.copied().unwrap_or(reach.number), Length::ZERO)
    };
    let mut told: Vec<Told> = Vec::new();
    if let Some(rows) = agree(&from_top) {
        let suspect = Suspect::new(
            DoubtedReading::Edge,
            line.step,
            Cause::FromTheRidge,
            Fix::TurnOver,
        );
        let course = None;
        told.push(Told {
            rows,
            course,
            suspect,
        });
    }
    let (cause, by) = given.other_line();
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
            let course = Some(first);
            told.push(Told {
                rows,
                course,
                suspect,
            });
        }
        let Some(rows) = one_more(rows, from, line.step, given) else {
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
        let course = Some(below);
        told.push(Told {
            rows,
            course,
            suspect,
        });
    }
    told.sort_by(|one, other| {
        let closer = one.rows.sd.total_cmp(&other.rows.sd);
        other.rows.agree.cmp(&one.rows.agree).then(closer)
    });
    told.into_iter().next()
}

/// The line of the rows with this edge's courses numbered so, where all agree but one
/// in eight, and so many that chance does not do it.
fn agreeing(rows: &BothEnds<'_>, numbers: Numbers<'_>) -> Option<RowLine> {
    let line = rows.line(numbers)?;
    (8 * (line.rows - line.agree) <= line.rows).then_some(line)
}

/// The same with a course more below the one at `from`, where the joint there has
/// room for it.
fn one_more(rows: &BothEnds<'_>, from: usize, step: Length, given: &Given<'_>) -> Option<RowLine> {
    let numbers = |at: usize, reach: &Reach| match at >= from {
        true => (reach.number.next(), Length::ZERO),
        false => (reach.number, Length::ZERO),
    };
    let line = agreeing(rows, &numbers)?;
    let is_denied = forgotten::is_denied(from - 1, rows.this, step, given)
        && forgotten::bond_holds(rows.this, given);
    (!is_denied).then_some(line)
}
