//! The same slip as its edge grows: one more course must not hide it.

use crate::maker::Chance;
use crate::whole_roof::{PLANES, cases, house, laid, ways};
use crate::whole_roof_job::{Case, Clean, Ends, Seen, job, readings, rightly};
use crate::whole_roof_kinds::Slip;
use crate::whole_roof_plane::{Plane, Rows};
use crate::whole_roof_slips::{Place, Written};
use crate::whole_roof_tally::{Planes, Slips, rule, share};

/// So many courses are read of the plane.
const COURSES: [usize; 9] = [2, 3, 4, 5, 6, 7, 8, 10, 12];
/// The slip is in one of the first.
const SLIPPED: usize = 4;

const SLIPS: [Slip; 7] = [
    Slip::Swapped,
    Slip::InchBurned,
    Slip::FootDropped,
    Slip::FootAdded,
    Slip::TenOff,
    Slip::DigitsExchanged,
    Slip::WrongSide,
];

/// A house of which the first plane has as many courses as are wanted.
fn tall(rows: Rows, chance: &mut Chance) -> [Plane; PLANES] {
    loop {
        let planes = Plane::house(rows, laid(), chance);
        if planes[0].full.len() >= COURSES[COURSES.len() - 1] {
            return planes;
        }
    }
}

fn cut_off(written: &[[Written; 2]; PLANES], courses: usize) -> [[Written; 2]; PLANES] {
    let mut cut = written.clone();
    for end in &mut cut[0] {
        end.courses.truncate(courses);
    }
    cut
}

/// The house as it was read and as it was written, with the place of the slip.
fn slipped(
    planes: &[Plane; PLANES],
    right: &[[Written; 2]; PLANES],
    slip: Slip,
    at: usize,
    chance: &mut Chance,
) -> Option<([[Written; 2]; PLANES], Place, usize)> {
    let mut wrong = cut_off(right, SLIPPED);
    let place = slip.happens(&planes[0], &mut wrong[0], at, chance)?;
    for (end, right) in wrong[0].iter_mut().zip(&right[0]) {
        end.courses.extend_from_slice(&right.courses[SLIPPED..]);
    }
    let Place::Courses { to, .. } = place else {
        return None;
    };
    Some((wrong, place, to))
}

#[derive(Clone, Copy, Default)]
struct Line {
    slips: Slips,
    clean: Planes,
    /// Seen with fewer courses, and now no more.
    hidden: u64,
}

/// A line for each count of courses, with a column for each way to log.
fn lines(deviation: f64) -> Vec<[Line; 6]> {
    let mut lines = vec![[Line::default(); 6]; COURSES.len()];
    for seed in 0..4 * cases() {
        let mut chance = Chance::seeded(seed * 16 + 3);
        let rows = Rows::ALL[usize::try_from(seed % 4).unwrap()];
        let slip = SLIPS[usize::try_from(chance.whole(0, 6)).unwrap()];
        let planes = tall(rows, &mut chance);
        let right = planes.each_ref().map(|plane| {
            let read = plane.read(deviation, &mut chance);
            rightly(plane, &read)
        });
        let at = usize::from(chance.coin());
        let mut tries = 0..100;
        let wrong = tries.find_map(|_| slipped(&planes, &right, slip, at, &mut chance));
        let Some((wrong, place, to)) = wrong else {
            continue;
        };
        let mut before = [false; 6];
        for (courses, line) in COURSES.into_iter().zip(&mut lines) {
            for (((ends, slope_given), line), before) in ways().zip(line).zip(&mut before) {
                let job = |written: &[[Written; 2]; PLANES]| {
                    let cut = cut_off(written, courses);
                    job(&house(&planes, &cut), ends, at, slope_given)
                };
                let right = &job(&right);
                line.clean.count(Clean::of(right));
                if to < courses {
                    let slipped = &job(&wrong);
                    let case = Case {
                        slip,
                        place,
                        at,
                        slipped,
                        right,
                    };
                    let seen: Seen = case.seen();
                    line.slips.count(seen, readings(right));
                    line.hidden += u64::from(*before && !seen.found);
                    *before = seen.found;
                }
            }
        }
    }
    lines
}

#[test]
fn one_more_course_hides_no_slip() {
    let ends = Ends::ALL.map(|ends| format!("{}, given | not given", ends.word()));
    for deviation in [1.0 / 16.0, 1.0 / 8.0] {
        let lines = lines(deviation);
        let mut text = vec![
            format!(
                "The seven slips as the log grows, standard deviation {deviation} in: found %, hidden % that were seen one course before, doubts in 10,000 clean readings"
            ),
            format!("| courses | {} |", ends.join(" | ")),
            rule(7),
        ];
        for (courses, line) in COURSES.into_iter().zip(&lines) {
            let cells = line.map(|line| {
                let found = share(line.slips.found, line.slips.made);
                let doubted = 100.0 * share(line.clean.doubts, line.clean.readings);
                let hidden = share(line.hidden, line.slips.made);
                format!("{found:.1}, {hidden:.2}, {doubted:.1}")
            });
            text.push(format!("| {courses} | {} |", cells.join(" | ")));
        }
        println!("{}\n", text.join("\n"));
        // With both ends and slopes, as few as there are.
        let seen = lines.iter().map(|line| line[2].slips);
        assert!(
            seen.into_iter()
                .all(|slips| 10 * slips.found >= 8 * slips.made)
        );
    }
}
