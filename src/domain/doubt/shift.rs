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
    joints::densest,
    line::{Basis, Line, roof_step},
    reach::Log,
    verdict::{DoubtedReading, Suspect},
};
use crate::domain::{
    log::End,
    measure::Length,
    roof::{EdgeKind, RoofLine, Trend},
    settings::Settings,
};

/// Where the readings begin to stand one place off.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Shift {
    /// The first course that holds a reading of its neighbour.
    pub(super) at: usize,
    /// The step of the edge, as both parts of the log tell it.
    pub(super) step: Length,
    /// What may have happened there, best first.
    pub(super) suspects: Vec<Suspect>,
}

/// What is known of the edge besides its log.
pub(super) struct Known<'a> {
    pub(super) kind: EdgeKind,
    pub(super) roof: &'a RoofLine,
    pub(super) settings: &'a Settings,
    pub(super) line: Option<Line>,
}

/// A move needs so many more differences for it than against: two where the
/// readings are odd in number, as one left out or too many makes them.
const FEWEST_FOR: i32 = 2;
const FEWEST_FOR_EVEN: i32 = 3;

/// Where one reading is missing or one too many, if it looks like that.
pub(super) fn find(log: &Log, known: &Known<'_>) -> Option<Shift> {
    let row = row(log);
    let differences: Vec<Length> = row
        .iter()
        .zip(row.iter().skip(1))
        .map(|(one, next)| *one - *next)
        .collect();
    if all_in_line(&differences, known) || alike_against_trend(&differences, known) {
        return last_bottom(log, known);
    }
    let best = steps(&differences, known)
        .into_iter()
        .filter_map(|step| best_place(&differences, step, known.settings.tolerance))
        .max_by_key(|place| place.speak_for)?;
    let fewest = if row.len().is_multiple_of(2) {
        FEWEST_FOR_EVEN
    } else {
        FEWEST_FOR
    };
    let placement = is_placement(&differences, &best, known.settings.tolerance);
    let told = if settled_against_trend(&differences, known) {
        best.in_step > 2 && 3 * best.in_step >= 2 * best.across
    } else {
        best.in_step > 0 && 2 * best.in_step >= best.across
    };
    (best.speak_for >= fewest && told && !placement).then(|| Shift {
        at: best.start / 2,
        step: best.step,
        suspects: explain(log, &row, &best, known),
    })
}

/// The readings going up, from the first course on, while courses follow one
/// another in full.
fn row(log: &Log) -> Vec<Length> {
    let mut row = Vec::with_capacity(2 * log.reaches.len());
    let mut expected = log.reaches.first().map(|reach| reach.number);
    for reach in &log.reaches {
        let Some(bottom) = reach.bottom.filter(|_| expected == Some(reach.number)) else {
            break;
        };
        row.push(bottom);
        let Some(top) = reach.top else { break };
        row.push(top);
        expected = Some(reach.number.next());
    }
    row
}

/// Whether no course is off at all. By the tolerance alone: where half the
/// courses hold a neighbour's reading, their scatter hides every one of them.
fn all_in_line(differences: &[Length], known: &Known<'_>) -> bool {
    known.line.is_some_and(|line| {
        fits_trend(line.step, known)
            && differences
                .iter()
                .step_by(2)
                .all(|d| (*d - line.step).abs() <= known.settings.tolerance)
    })
}

/// Whether nearly all courses agree with each other, if not with the way such
/// an edge goes: a straight edge, with something wrong about all of it.
fn alike_against_trend(differences: &[Length], known: &Known<'_>) -> bool {
    let first = first_differences(differences);
    let courses = first.len();
    densest(first, None).is_some_and(|cluster| {
        courses > 2 && 10 * cluster.count >= 9 * courses && !fits_trend(cluster.centre, known)
    })
}

/// Whether most courses agree with each other on a step that no such edge has:
/// columns swapped, or a bond read as if it were the edge. Then chance finds a
/// joint in step too easily.
fn settled_against_trend(differences: &[Length], known: &Known<'_>) -> bool {
    let first = first_differences(differences);
    let courses = first.len();
    densest(first, None)
        .is_some_and(|cluster| 2 * cluster.count >= courses && !fits_trend(cluster.centre, known))
}

fn first_differences(differences: &[Length]) -> Vec<Length> {
    differences.iter().step_by(2).copied().collect()
}

/// Whether the moved part is two courses that one placement explains as well.
fn is_placement(differences: &[Length], place: &Place, tolerance: Length) -> bool {
    match differences.get(place.start..) {
        Some([low, _, high]) => (*low + *high - place.step - place.step).abs() <= tolerance,
        _ => false,
    }
}

/// The steps the edge may have: its own line's, the one most first differences
/// agree on, and, where those hardly agree, the roof's and that of the second
/// ones.
fn steps(differences: &[Length], known: &Known<'_>) -> Vec<Length> {
    let first = first_differences(differences);
    let courses = first.len();
    let mut steps = Vec::with_capacity(4);
    steps.extend(known.line.map(|line| line.step));
    let agreed = densest(first, None);
    steps.extend(agreed.map(|cluster| cluster.centre));
    let roof = roof_step(known.kind, known.roof, known.settings);
    let settled = agreed.is_some_and(|cluster| {
        let off_roof =
            roof.is_some_and(|roof| (cluster.centre - roof).abs() > known.settings.tolerance);
        let most = 3 * cluster.count >= 2 * courses && !off_roof;
        let nearly_all = 10 * cluster.count >= 9 * courses;
        (most || nearly_all) && fits_trend(cluster.centre, known)
    });
    if !settled {
        steps.extend(roof);
        let second = differences.iter().skip(1).step_by(2).copied().collect();
        let agreed = densest(second, None).filter(|cluster| cluster.count > 2);
        steps.extend(agreed.map(|cluster| cluster.centre));
    }
    steps.retain(|step| fits_trend(*step, known));
    steps
}

fn fits_trend(step: Length, known: &Known<'_>) -> bool {
    match known.roof.trend(known.kind) {
        None => true,
        Some(Trend::Narrows) => step > Length::ZERO,
        Some(Trend::Widens) => step < Length::ZERO,
    }
}

#[derive(Clone, Copy)]
struct Place {
    /// The first difference that belongs to the moved part; always a course's.
    start: usize,
    step: Length,
    /// How many more differences speak for it than against it.
    speak_for: i32,
    /// How many across a course line are the edge's step.
    in_step: usize,
    /// How many are across a course line.
    across: usize,
}

fn best_place(differences: &[Length], step: Length, tolerance: Length) -> Option<Place> {
    let mut best: Option<Place> = None;
    let (mut speak_for, mut in_step, mut across) = (0, 0, 0);
    for (at, difference) in differences.iter().enumerate().rev() {
        let is_step = (*difference - step).abs() <= tolerance;
        let within_course = at.is_multiple_of(2);
        speak_for += if is_step == within_course { -1 } else { 1 };
        in_step += usize::from(is_step && !within_course);
        across += usize::from(!within_course);
        if within_course && best.is_none_or(|best| speak_for > best.speak_for) {
            best = Some(Place {
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

/// What may have happened at the place: the same figure twice running, or one
/// of the course's two readings left out; the joint below tells which one where
/// the bond is regular.
fn explain(log: &Log, row: &[Length], place: &Place, known: &Known<'_>) -> Vec<Suspect> {
    let at = place.start / 2;
    let read = |back: usize| place.start.checked_sub(back).and_then(|at| row.get(at));
    let (Some(reach), Some(first)) = (log.reaches.get(at), row.get(place.start).copied()) else {
        return Vec::new();
    };
    let suspect = |end: End, likely, fix| Suspect {
        reading: DoubtedReading::from(end),
        likely,
        cause: Cause::LeftOutOrTwice,
        fix,
    };
    let course = reach.number;
    let strike_out = |end| Fix::StrikeOut { course, end };
    let next = row.get(place.start + 1).copied();
    let straight = log
        .joints
        .iter()
        .take(at.saturating_sub(1))
        .any(|joint| *joint == Some(Length::ZERO));
    let mut suspects = Vec::with_capacity(3);
    if next == Some(first) {
        suspects.push(suspect(End::Top, first - place.step, strike_out(End::Top)));
    } else if read(1) == Some(&first) && !straight {
        let likely = next.unwrap_or(first);
        suspects.push(suspect(End::Bottom, likely, strike_out(End::Bottom)));
    }
    let make_room = |end| Fix::MakeRoom { course, end };
    let top = suspect(End::Top, first - place.step, make_room(End::Top));
    let bottom = suspect(End::Bottom, first + place.step, make_room(End::Bottom));
    if top_is_missing(log, at, first, place.step, known) {
        suspects.extend([top, bottom]);
    } else {
        suspects.extend([bottom, top]);
    }
    suspects
}

/// Whether what stands as the course's bottom is its bottom, so that its top is
/// the one left out. By the joint below where the part before is in a regular
/// bond, else by whether a top one step less could be one at all.
fn top_is_missing(log: &Log, at: usize, first: Length, step: Length, known: &Known<'_>) -> bool {
    let cover = known.settings.cover();
    let before = log.before(at, cover);
    let joint = at.checked_sub(1).and_then(|below| {
        let below = before.reaches.get(below)?;
        let off = before.bond?.off(below.number, below.top? - first, cover);
        Some(off.abs() <= known.settings.tolerance)
    });
    let widths = first - step + known.settings.added_to_reading(known.kind);
    joint.unwrap_or(widths + known.settings.tolerance >= known.settings.side_lap)
}

/// The last course's bottom left out, so that its top stands in its place and
/// nothing follows: only a regular bond shows it.
fn last_bottom(log: &Log, known: &Known<'_>) -> Option<Shift> {
    let line = known.line.filter(|line| line.basis == Basis::Own)?;
    let at = log.reaches.len().checked_sub(1)?;
    let last = log.reaches.get(at)?;
    let bottom = last
        .bottom
        .filter(|_| last.top.is_none() && last.step.is_none())?;
    let off = log.joint_off(at.checked_sub(1)?, known.settings.cover())?;
    let near = |length: Length| length.abs() <= known.settings.tolerance;
    (near(off - line.step) && !near(off)).then(|| Shift {
        at,
        step: line.step,
        suspects: vec![Suspect {
            reading: DoubtedReading::Bottom,
            likely: bottom + line.step,
            cause: Cause::LeftOutOrTwice,
            fix: Fix::MakeRoom {
                course: last.number,
                end: End::Bottom,
            },
        }],
    })
}
