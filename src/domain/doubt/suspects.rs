//! Which of a course's two readings is likely wrong, and how it came about.
//!
//! Each suspicion says by how much the bottom (`x`) and the top (`y`) would be
//! too long. If it is right, the course is off its line by `x - y`, the joint
//! below by `-x` and the joint above by `y`; how well that agrees with what is
//! seen ranks it, as a sum of squared misfits in standard deviations. Where the
//! bond is regular the joints so tell which reading it is. Joints count only up
//! to [`MOST_PER_JOINT`], since the neighbour's reading may be the wrong one.

use super::{
    cause::Cause,
    fix::Fix,
    given::Given,
    joints::around,
    reach::{EdgeLog, Reach, signed},
    rows::RowOff,
    slips::{Rarity, on_a_division, slips},
    verdict::Suspect,
};
use crate::domain::{log::End, measure::Length};

/// A joint that contradicts counts no more than this.
const MOST_PER_JOINT: f64 = 12.0;
/// A row at one course line scatters more than by both together.
const ONE_LINE: f64 = 1.25;
/// What no slip explains must be three standard deviations off all of them.
const UNKNOWN: f64 = 9.0;
/// The other way round, as an inch taken off that was never burned.
const SELDOM: f64 = 3.0;
/// Another panel would fit, or the last full one would not lie.
const ODD_WIDTH: f64 = 4.0;
/// A slip further off than this many standard deviations does not explain it.
const FURTHEST: f64 = 16.0;
/// Suspicions this much worse than the best are not worth showing.
const NOT_WORTH: f64 = 16.0;
/// So many are shown at most, and of one reading half as many.
const MOST_SUSPECTS: usize = 4;

/// What is seen around one course.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Evidence {
    /// How far the course is off its line.
    pub(super) off: Length,
    /// How far the joint below it is off the bond.
    pub(super) below: Option<Length>,
    /// How far the joint above it is off the bond.
    pub(super) above: Option<Length>,
    /// How far its row is off the plane's line, and how much a row scatters there
    /// in mm, where the row's other end is in line.
    pub(super) row: Option<(RowOff, f64)>,
    /// How much a course of this height narrows, where that is known.
    pub(super) step: Option<Length>,
}

impl Evidence {
    /// What is seen around the `at`-th course, `off` its line.
    pub(super) fn of(log: &EdgeLog, at: usize, off: Length) -> Self {
        Self {
            off,
            below: at.checked_sub(1).and_then(|below| log.joint_off(below)),
            above: log.joint_off(at),
            row: None,
            step: None,
        }
    }
}

/// A suspicion and what it costs to believe it.
type Scored = (f64, Suspect);

/// The suspicions about one course, best first; at least one where it has any
/// reading at all.
pub(super) fn suspects(reach: &Reach, seen: Evidence, given: &Given<'_>) -> Vec<Suspect> {
    let course = OddCourse { reach, seen, given };
    let mut scored = Vec::with_capacity(24);
    for end in End::BOTH {
        if let Some(read) = reach.reading(end) {
            course.explain_by(end, read, &mut scored);
        }
    }
    if let (Some(bottom), Some(top)) = (reach.bottom, reach.top) {
        course.explain_by_swap(bottom, top, &mut scored);
    }
    ranked(scored)
}

/// Less than this in what is seen does not tell two suspicions apart: one is then
/// not five times as likely as the other.
const TELLS: f64 = 3.0;

/// Whether nothing that is seen speaks for the first of the `suspects` more than for
/// the second, which is about the other reading: how far off, joints, row, widths.
/// That a slip is rarer the other way round is no sign of which was made.
pub(super) fn are_even(
    reach: &Reach,
    seen: Evidence,
    given: &Given<'_>,
    suspects: &[Suspect],
) -> bool {
    let [first, second, ..] = suspects else {
        return false;
    };
    let course = OddCourse { reach, seen, given };
    let told = |suspect: &Suspect| match suspect.fix {
        Fix::Reading { end, to, .. } => {
            let read = reach.reading(end)?;
            let misfit = course.squared(signed(end, seen.off) - (read - to));
            Some(misfit + course.around_it(end, read, to))
        }
        _ => None,
    };
    let is_unknown = |suspect: &Suspect| suspect.cause == Cause::Unknown;
    let apart = told(first)
        .zip(told(second))
        .map(|(one, other)| one - other);
    first.reading != second.reading
        && is_unknown(first) == is_unknown(second)
        && apart.is_some_and(|apart| apart.abs() < TELLS)
}

/// A course that is off, with all that tells why.
struct OddCourse<'a> {
    reach: &'a Reach,
    seen: Evidence,
    given: &'a Given<'a>,
}

impl OddCourse<'_> {
    /// The slips at one end that would explain it, and that something else is
    /// wrong there.
    fn explain_by(&self, end: End, read: Length, scored: &mut Vec<Scored>) {
        let (course, off) = (self.reach.number, signed(end, self.seen.off));
        for slip in slips(read, self.given) {
            let misfit = self.squared(off - (read - slip.likely));
            if misfit > FURTHEST {
                continue;
            }
            let rarity = match slip.rarity {
                Rarity::Common => 0.0,
                Rarity::Seldom => SELDOM,
            };
            let cost = misfit + rarity + self.around_it(end, read, slip.likely);
            scored.push((
                cost,
                Suspect::of_reading(course, end, slip.likely, slip.cause),
            ));
        }
        if let Some(step) = self.seen.step.filter(|_| end == End::Top) {
            // Read at the line of the course above, and that one forgotten.
            let misfit = self.squared(self.seen.off - step);
            if misfit <= FURTHEST && step.abs() > self.given.near() {
                let likely = read + step;
                let cost = misfit + self.around_it(end, read, likely);
                let (forgotten, fix) = (Cause::CourseForgotten, Fix::MeasureAgain);
                scored.push((cost, Suspect::new(end, likely, forgotten, fix)));
            }
        }
        let likely = on_a_division(read - off, self.given.settings);
        if likely >= Length::ZERO {
            let cost = UNKNOWN + self.around_it(end, read, read - off);
            scored.push((
                cost,
                Suspect::of_reading(course, end, likely, Cause::Unknown),
            ));
        }
    }

    /// Bottom and top swapped: both are wrong, and each is the other's figure.
    fn explain_by_swap(&self, bottom: Length, top: Length, scored: &mut Vec<Scored>) {
        let (x, y) = (bottom - top, top - bottom);
        let misfit = self.squared(self.seen.off - (x - y));
        if misfit > FURTHEST {
            return;
        }
        let cost = misfit + self.joints(x, y);
        let fix = Fix::Swap {
            course: self.reach.number,
        };
        for (end, likely) in [(End::Bottom, top), (End::Top, bottom)] {
            scored.push((cost, Suspect::new(end, likely, Cause::Swapped, fix)));
        }
    }

    /// What the joints and the panel say of `likely` in the place of `read`.
    fn around_it(&self, end: End, read: Length, likely: Length) -> f64 {
        let too_long = read - likely;
        let joints = match end {
            End::Bottom => self.joints(too_long, Length::ZERO),
            End::Top => self.joints(Length::ZERO, too_long),
        };
        joints + self.width(end, likely)
    }

    fn joints(&self, x: Length, y: Length) -> f64 {
        let cover = self.given.settings.cover();
        let misfit = |off: Option<Length>, told: Length| {
            off.map_or(0.0, |off| {
                self.squared(around(off - told, cover)).min(MOST_PER_JOINT)
            })
        };
        let joints = misfit(self.seen.below, -x) + misfit(self.seen.above, y);
        joints + self.row(x, y)
    }

    fn row(&self, x: Length, y: Length) -> f64 {
        let Some((row, sd)) = self.seen.row else {
            return 0.0;
        };
        let cover = self.given.settings.cover();
        let misfit = |off: Length, told: Length| {
            let misfit = around(off - told, cover).mm() / (ONE_LINE * sd);
            misfit.powi(2).min(MOST_PER_JOINT)
        };
        misfit(row.at_bottom, x) + misfit(row.at_top, y)
    }

    /// Whether the panels leave such a gap.
    fn width(&self, end: End, likely: Length) -> f64 {
        let other = self.reach.reading(end.other());
        let narrow = other.map(|other| likely.min(other) + self.given.added);
        match narrow {
            Some(narrow) if !self.given.panels_leave(narrow) => ODD_WIDTH,
            _ => 0.0,
        }
    }

    /// In standard deviations of a step, squared: that of the job's tape, a
    /// quarter of the tolerance at least, for that is what it was made for.
    fn squared(&self, misfit: Length) -> f64 {
        let least = self.given.settings.tolerance.mm() / 4.0;
        (misfit.mm() / self.given.scatter.mm().max(least)).powi(2)
    }
}

/// How much worse the other reading's best may be and still come second.
const NEARLY_AS_GOOD: f64 = 8.0;

/// Best first; of one reading the best two; and where the best of the other
/// reading is nearly as good it comes second, since one must be measured again.
fn ranked(mut scored: Vec<Scored>) -> Vec<Suspect> {
    scored.sort_by(|(one, _), (other, _)| one.total_cmp(other));
    let Some((least, best)) = scored.first().copied() else {
        return Vec::new();
    };
    let mut told: Vec<Scored> = Vec::with_capacity(MOST_SUSPECTS);
    for (cost, suspect) in scored {
        let Suspect { reading, fix, .. } = suspect;
        // Nobody is told the same thing twice.
        let again =
            matches!(fix, Fix::Reading { .. }) && told.iter().any(|(_, told)| told.fix == fix);
        let same = told.iter().filter(|(_, told)| told.reading == reading);
        if cost <= least + NOT_WORTH && !again && same.count() < MOST_SUSPECTS / 2 {
            told.push((cost, suspect));
        }
    }
    let other = told.iter().position(|(cost, suspect)| {
        suspect.reading != best.reading && *cost <= least + NEARLY_AS_GOOD
    });
    if let Some(part) = other.and_then(|at| told.get_mut(1..=at)) {
        part.rotate_right(1);
    }
    told.into_iter().map(|(_, suspect)| suspect).collect()
}
