//! A course read from board to board: two readings, judged by how much both of
//! its ends together lean, and its bottom by the course below.

use super::{
    cause::Cause,
    fix::Fix,
    given::Given,
    line::Basis,
    reach::Reach,
    scatter::Scatter,
    slips::{of_fixed_size, on_a_division},
    suspects::{Evidence, are_even, suspects},
    verdict::{Doubt, DoubtedReading, Suspect},
};
use crate::domain::log::{Course, CourseNumber, Edge};
use crate::domain::measure::Length;
use crate::domain::settings::Settings;

/// What is seen of a course that runs from board to board.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct BoardToBoard {
    /// The course as it was read.
    pub course: Course,
    /// How much more it narrows than both ends together lean over its height.
    pub off: Length,
    /// How much longer its bottom is than the course below lets expect, where
    /// that one is read: its two gaps and full panels, modulo the cover.
    pub bottom_off: Option<Length>,
}

impl BoardToBoard {
    fn stands_out(&self, tolerance: Length) -> bool {
        // The two leans, and the readings of the course below, bring errors of
        // their own: at the tolerance itself 1.1 of 10,000 clean readings would
        // be doubted.
        self.off.abs() > tolerance.times(9).divided(8) || self.bottom_stands_out(tolerance)
    }

    fn bottom_stands_out(&self, tolerance: Length) -> bool {
        let by_below = tolerance.times(4).divided(3);
        self.bottom_off.is_some_and(|off| off.abs() > by_below)
    }

    /// By how much both its readings are too long: it narrows as it should, and yet
    /// is longer, or shorter, than the course below has it. One reading alone that is
    /// wrong by so much would make it narrow otherwise.
    fn both_off(&self, tolerance: Length) -> Option<Length> {
        let narrows_right = self.off.abs() <= tolerance && self.course.top.is_some();
        self.bottom_off
            .filter(|_| narrows_right && self.bottom_stands_out(tolerance))
    }
}

/// What is doubtful about the courses of `edge` that run from board to board,
/// going up, without what was set aside. A line at which the tape was held wrong
/// is one doubt about both courses beside it.
pub fn check_both_ends(
    edge: &Edge,
    courses: &[BoardToBoard],
    settings: &Settings,
    scatter: Scatter,
) -> Vec<Doubt> {
    let given = Given::of(edge, settings, scatter);
    let mut doubts = Vec::new();
    let mut courses = courses.iter().peekable();
    let mut doubted_below = None;
    while let Some(seen) = courses.next() {
        let number = seen.course.number;
        // One that is doubted itself tells nothing of the next.
        let seen = &BoardToBoard {
            bottom_off: seen
                .bottom_off
                .filter(|_| doubted_below != Some(number.before())),
            ..*seen
        };
        let above = courses.next_if(|above| is_one_placement(seen, above, settings.tolerance));
        if above.is_some() {
            doubts.extend(one_placement(seen, number));
            doubted_below = Some(number.next());
        } else if let Some(by) = seen.both_off(settings.tolerance) {
            doubted_below = Some(number);
            doubts.extend(both_readings(seen, by, settings));
        } else if seen.stands_out(settings.tolerance) {
            doubted_below = Some(number);
            let alone = Course {
                to: None,
                ..seen.course
            };
            let evidence = Evidence {
                // Where only the bottom is off, that is all that is known.
                off: match seen.bottom_off {
                    Some(off) if seen.off.abs() <= settings.tolerance => off,
                    _ => seen.off,
                },
                below: seen.bottom_off.map(|off| -off),
                above: None,
                row: None,
                step: None,
            };
            let reach = Reach::of(&alone, settings.exposure);
            let suspects = suspects(&reach, evidence, &given);
            let is_even = are_even(&reach, evidence, &given, &suspects);
            let doubt = Doubt::of(Some(number), evidence.off, suspects, Basis::Own);
            doubts.extend(doubt.map(|doubt| doubt.even(is_even)));
        }
    }
    doubts.retain(|doubt| {
        let mut answers = edge.set_aside.iter();
        !answers.any(|answer| answer.answers(doubt, edge, settings.tolerance))
    });
    doubts
}

/// The top of one course and the bottom of the next are off alike.
fn is_one_placement(below: &BoardToBoard, above: &BoardToBoard, tolerance: Length) -> bool {
    let adjoining = below.course.number.next() == above.course.number;
    let both_off = below.off.abs() > tolerance && above.off.abs() > tolerance;
    adjoining && both_off && (below.off + above.off).abs() <= tolerance
}

fn one_placement(below: &BoardToBoard, number: CourseNumber) -> Option<Doubt> {
    // The course below narrows too much by what its top is short.
    let by = -below.off;
    let top = below.course.top?.length();
    let suspect = Suspect {
        reading: DoubtedReading::Placement,
        likely: top - by,
        cause: Cause::PlacementOff,
        fix: Fix::Placement { course: number, by },
    };
    Doubt::of(Some(number), by, vec![suspect], Basis::Own)
}

/// Both readings of a course are off alike: by the slip that has this size, where
/// there is one, else by what it comes to on the tape.
fn both_readings(seen: &BoardToBoard, by: Length, settings: &Settings) -> Option<Doubt> {
    let number = seen.course.number;
    let bottom = seen.course.bottom?.length();
    let near = |size: Length| (by - size).abs() <= settings.tolerance;
    let sized = of_fixed_size(settings.unit()).into_iter();
    let slip = sized
        .filter(|(_, size, _)| near(*size))
        .min_by_key(|(_, size, _)| (by - *size).abs());
    let unknown = (Cause::Unknown, on_a_division(by, settings));
    let (cause, by) = slip.map_or(unknown, |(cause, size, _)| (cause, size));
    let fix = Fix::Both {
        first: number,
        last: number,
        by,
    };
    let suspect = Suspect::new(DoubtedReading::Both, bottom - by, cause, fix);
    Doubt::of(Some(number), by, vec![suspect], Basis::Below)
}
