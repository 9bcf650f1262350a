//! A reading left out or written twice: all later ones stand one place off.
//!
//! Going up, a log is one row of readings `b1 t1 b2 t2 b3 ...`; within a course
//! two neighbours differ by the edge's step, across a course line by whatever
//! the joint is. Where a reading is missing or one too many, the two change
//! places from there on:
//!
//! ```text
//!   b1 t1 | b2 t2 | b3 t3 | b4 t4      step at every first difference
//!   b1 t1 | b2 b3 | t3 b4 | t4         from b2 on at every second one
//! ```
//!
//! Each difference from a place on speaks for or against a move there; the
//! place where the most of them speak for it is taken.

use super::{
    cause::Cause,
    fix::Fix,
    given::Given,
    joints::{Cluster, ONE_JOINT, densest, densest_within},
    line::{Basis, EdgeLine},
    reach::EdgeLog,
    verdict::Suspect,
};
use crate::domain::{log::End, measure::Length};

/// Where the readings begin to stand one place off.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct LeftOut {
    /// The first course that holds a reading of its neighbour.
    pub(super) at: usize,
    /// The step of the edge, as both parts of the log tell it.
    pub(super) step: Length,
    /// What may have happened there, best first.
    pub(super) suspects: Vec<Suspect>,
}

/// A move needs so many more differences for it than against: two where the
/// readings are odd in number, as one left out or too many makes them.
const FEWEST_FOR: i32 = 2;
const FEWEST_FOR_EVEN: i32 = 3;

/// Where one reading is missing or one too many, if it looks like that; given
/// the line its courses are judged by otherwise.
pub(super) fn find(log: &EdgeLog, given: &Given<'_>, line: Option<EdgeLine>) -> Option<LeftOut> {
    let row = ReadingRow::of(log, given, line);
    if row.all_in_line() || row.agrees_against_trend(9, 10) && row.courses() > 2 {
        return row.last_bottom();
    }
    let steps = row.steps().into_iter();
    let best = steps
        .filter_map(|step| row.best_move(step))
        .max_by_key(|moved| moved.speak_for)?;
    let fewest = if row.readings.len().is_multiple_of(2) {
        FEWEST_FOR_EVEN
    } else {
        FEWEST_FOR
    };
    // Where most courses agree on a step that no such edge has (columns swapped,
    // or a bond read as if it were the edge) chance finds a joint in step too
    // easily.
    let told = if row.agrees_against_trend(1, 2) {
        best.in_step > 2 && 3 * best.in_step >= 2 * best.across
    } else {
        best.in_step > 0 && 2 * best.in_step >= best.across
    };
    (best.speak_for >= fewest && told && !row.is_placement(&best)).then(|| LeftOut {
        at: best.start / 2,
        step: best.step,
        suspects: row.explain(&best),
    })
}

/// The readings of a log as one row, with what is known of the edge.
struct ReadingRow<'a> {
    log: &'a EdgeLog,
    given: &'a Given<'a>,
    line: Option<EdgeLine>,
    /// Going up, from the first course on, while courses follow one another in
    /// full.
    readings: Vec<Length>,
    /// Of each reading less the next: within a course and across the course
    /// line in turn.
    differences: Vec<Length>,
    /// What most differences within a course agree on.
    agreed: Option<Cluster>,
}

/// A part of the row that may have moved one place.
#[derive(Clone, Copy)]
struct Moved {
    /// The first difference that belongs to it; always a course's.
    start: usize,
    step: Length,
    /// How many more differences speak for it than against it.
    speak_for: i32,
    /// How many across a course line are the edge's step.
    in_step: usize,
    /// How many are across a course line.
    across: usize,
}

impl<'a> ReadingRow<'a> {
    fn of(log: &'a EdgeLog, given: &'a Given<'a>, line: Option<EdgeLine>) -> Self {
        let readings = readings(log);
        let next = readings.iter().skip(1);
        let differences: Vec<Length> = readings.iter().zip(next).map(|(a, b)| *a - *b).collect();
        let courses = differences.iter().step_by(2).copied();
        let together = given.near() + given.near();
        let agreed = densest_within(courses.collect(), None, together.max(ONE_JOINT));
        Self {
            log,
            given,
            line,
            readings,
            differences,
            agreed,
        }
    }

    /// How many courses are read in full.
    const fn courses(&self) -> usize {
        self.differences.len().div_ceil(2)
    }

    fn is_near(&self, length: Length) -> bool {
        length.abs() <= self.given.near()
    }

    /// Whether no course is off at all. By the tolerance alone: where half the
    /// courses hold a neighbour's reading, their scatter hides every one of them.
    fn all_in_line(&self) -> bool {
        self.line.is_some_and(|line| {
            let mut within = self.differences.iter().step_by(2);
            self.given.fits_trend(line.step) && within.all(|d| self.is_near(*d - line.step))
        })
    }

    /// Whether `share` of `out_of` courses agree with each other, if not with the
    /// way such an edge goes. Nearly all: a straight edge, with something wrong
    /// about all of it.
    fn agrees_against_trend(&self, share: usize, out_of: usize) -> bool {
        self.agreed.is_some_and(|cluster| {
            out_of * cluster.count >= share * self.courses()
                && !self.given.fits_trend(cluster.centre)
        })
    }

    /// Whether the moved part is two courses that one placement explains as well.
    fn is_placement(&self, moved: &Moved) -> bool {
        match self.differences.get(moved.start..) {
            Some([low, _, high]) => self.is_near(*low + *high - moved.step - moved.step),
            _ => false,
        }
    }

    /// The steps the edge may have: its own line's, the one most first differences
    /// agree on, and, where those hardly agree, the roof's and that of the second
    /// ones.
    fn steps(&self) -> Vec<Length> {
        let courses = self.courses();
        let mut steps = Vec::with_capacity(4);
        steps.extend(self.line.map(|line| line.step));
        steps.extend(self.agreed.map(|cluster| cluster.centre));
        let roof = self.given.roof_step();
        let settled = self.agreed.is_some_and(|cluster| {
            let off_roof = roof.is_some_and(|roof| !self.is_near(cluster.centre - roof));
            let most = 3 * cluster.count >= 2 * courses && !off_roof;
            let nearly_all = 10 * cluster.count >= 9 * courses;
            (most || nearly_all) && self.given.fits_trend(cluster.centre)
        });
        if !settled {
            steps.extend(roof);
            let second = self.differences.iter().skip(1).step_by(2);
            let agreed = densest(second.copied().collect(), None);
            let agreed = agreed.filter(|cluster| cluster.count > 2);
            steps.extend(agreed.map(|cluster| cluster.centre));
        }
        steps.retain(|step| self.given.fits_trend(*step));
        steps
    }

    fn best_move(&self, step: Length) -> Option<Moved> {
        let mut best: Option<Moved> = None;
        let (mut speak_for, mut in_step, mut across) = (0, 0, 0);
        for (at, difference) in self.differences.iter().enumerate().rev() {
            let is_step = self.is_near(*difference - step);
            let within_course = at.is_multiple_of(2);
            speak_for += if is_step == within_course { -1 } else { 1 };
            in_step += usize::from(is_step && !within_course);
            across += usize::from(!within_course);
            if within_course && best.is_none_or(|best| speak_for > best.speak_for) {
                best = Some(Moved {
                    start: at,
                    step,
                    speak_for,
                    in_step,
                    across,
                });
            }
        }
        best
    }

    /// What may have happened there: the same figure twice running, or one of the
    /// course's two readings left out; the joint below tells which one where the
    /// bond is regular.
    fn explain(&self, moved: &Moved) -> Vec<Suspect> {
        let Moved { start, step, .. } = *moved;
        let at = start / 2;
        let read = |at: usize| self.readings.get(at).copied();
        let (Some(reach), Some(first)) = (self.log.reaches.get(at), read(start)) else {
            return Vec::new();
        };
        let course = reach.number;
        let (before, next) = (start.checked_sub(1).and_then(read), read(start + 1));
        let mut joints = self.log.joints.iter().take(at.saturating_sub(1));
        let straight = joints.any(|joint| *joint == Some(Length::ZERO));
        let strike_out = |end| Fix::StrikeOut { course, end };
        let mut suspects = Vec::with_capacity(3);
        if next == Some(first) {
            suspects.push(suspect(End::Top, first - step, strike_out(End::Top)));
        } else if before == Some(first) && !straight {
            let likely = next.unwrap_or(first);
            suspects.push(suspect(End::Bottom, likely, strike_out(End::Bottom)));
        }
        let make_room = |end| Fix::MakeRoom { course, end };
        let top = suspect(End::Top, first - step, make_room(End::Top));
        let bottom = suspect(End::Bottom, first + step, make_room(End::Bottom));
        if self.top_is_missing(at, first, step) {
            suspects.extend([top, bottom]);
        } else {
            suspects.extend([bottom, top]);
        }
        suspects
    }

    /// Whether what stands as the course's bottom is its bottom, so that its top is
    /// the one left out. By the joint below where the part before is in a regular
    /// bond, else by whether a top one step less could be one at all.
    fn top_is_missing(&self, at: usize, first: Length, step: Length) -> bool {
        let before = self.log.before(at);
        let joint = at.checked_sub(1).and_then(|below| {
            let below = before.reaches.get(below)?;
            let joint = below.top? - first;
            let off = before.bond?.off(below.number, joint, before.cover);
            Some(self.is_near(off))
        });
        let settings = self.given.settings;
        let width = first - step + self.given.added;
        joint.unwrap_or(width + settings.tolerance >= settings.side_lap)
    }

    /// The last course's bottom left out, so that its top stands in its place and
    /// nothing follows: only a regular bond shows it.
    fn last_bottom(&self) -> Option<LeftOut> {
        let line = self.line.filter(|line| line.basis == Basis::Own)?;
        let at = self.log.reaches.len().checked_sub(1)?;
        let last = self.log.reaches.get(at)?;
        let alone = last.top.is_none() && last.step.is_none();
        let bottom = last.bottom.filter(|_| alone)?;
        let off = self.log.joint_off(at.checked_sub(1)?)?;
        let fix = Fix::MakeRoom {
            course: last.number,
            end: End::Bottom,
        };
        (self.is_near(off - line.step) && !self.is_near(off)).then(|| LeftOut {
            at,
            step: line.step,
            suspects: vec![suspect(End::Bottom, bottom + line.step, fix)],
        })
    }
}

fn readings(log: &EdgeLog) -> Vec<Length> {
    let first = log.reaches.first().map_or(1, |reach| reach.number.get());
    let row = log.reaches.iter().zip(first..);
    row.take_while(|(reach, number)| reach.number.get() == *number)
        .flat_map(|(reach, _)| [reach.bottom, reach.top])
        .map_while(|reading| reading)
        .collect()
}

fn suspect(end: End, likely: Length, fix: Fix) -> Suspect {
    Suspect::new(end, likely, Cause::LeftOutOrTwice, fix)
}
