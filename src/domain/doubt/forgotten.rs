//! A course forgotten between two logged ones, so that all above it are
//! numbered one too low. In a regular bond the joint there jumps: it holds the
//! step of the forgotten course and both of its joints.

use super::{
    cause::Cause,
    fix::Fix,
    given::Given,
    joints::around,
    line::EdgeLine,
    reach::EdgeLog,
    verdict::{Doubt, DoubtedReading, Suspect},
};
use crate::domain::measure::Length;

/// Fewer joints that fit but for one tell nothing: three of five may by chance.
const FEWEST_JOINTS: usize = 4;

/// Where the roof's slope confirms the step by which the one joint jumps, and every
/// joint is read, three beside it are enough: five courses.
const FEWEST_BY_SLOPE: usize = 3;

/// Where no bond is found at all, every joint is tried of so many at most.
const MOST_TRIED: usize = 64;

/// The doubt about the one place where a course put in makes all joints fit.
pub(super) fn find(log: &EdgeLog, line: &EdgeLine, given: &Given<'_>) -> Option<Doubt> {
    let settings = given.settings;
    let off = |at: &usize| {
        let off = log.joint_off(*at);
        off.is_some_and(|off| off.abs() > settings.tolerance)
    };
    let all = 0..log.joints.len();
    // In an alternating bond all joints on one side of it are off.
    let tried: Vec<usize> = match log.bond {
        Some(_) => all
            .clone()
            .find(off)
            .into_iter()
            .chain(all.rev().find(off))
            .collect(),
        None => all.take(MOST_TRIED).collect(),
    };
    let mut fits = tried.into_iter().filter(|at| fits(*at, log, line, given));
    let at = fits.next()?;
    let reach = log.reaches.get(at)?;
    let fix = Fix::CourseBetween {
        below: reach.number,
    };
    let suspect = Suspect::new(
        DoubtedReading::Placement,
        reach.top?,
        Cause::CourseForgotten,
        fix,
    );
    Doubt::of(Some(reach.number), line.step, vec![suspect], line.basis)
}

/// Whether a course put in above `reaches[at]` makes every joint fit.
fn fits(at: usize, log: &EdgeLog, line: &EdgeLine, given: &Given<'_>) -> bool {
    let settings = given.settings;
    let fewest = fewest_joints(log, line, given);
    let near = |length: Length| around(length, log.cover).abs() <= settings.tolerance;
    let in_line = |at: usize| {
        let reach = log.reaches.get(at);
        let off = reach.and_then(|reach| reach.off(line.step, settings.exposure));
        off.is_some_and(|off| off.abs() <= settings.tolerance)
    };
    let found = || {
        let jump = (*log.joints.get(at)?)?;
        let below = log.reaches.get(at)?.number;
        let then = log.with_room_above(at);
        let bond = then.bond?;
        let known = then.joints.iter().flatten().count();
        let mut rest = (0..then.joints.len()).filter_map(|at| then.joint_off(at));
        let calm = rest.all(near) && known >= fewest;
        let joints = [below, below.next()].map(|below| bond.joint_above(below, log.cover));
        let [first, second] = joints;
        let told = first + line.step + second;
        // Where the jump hardly differs from a plain joint, nothing tells.
        let plain =
            around(told - first, log.cover).abs() <= settings.tolerance + settings.tolerance;
        Some(calm && near(jump - told) && !plain)
    };
    in_line(at) && in_line(at + 1) && found() == Some(true)
}

/// Whether the joints lie as the bond has them, but for a few.
pub(super) fn bond_holds(log: &EdgeLog, given: &Given<'_>) -> bool {
    let near = |off: &Length| off.abs() <= given.settings.tolerance;
    let offs = (0..log.joints.len()).filter_map(|at| log.joint_off(at));
    let (fit, odd): (Vec<Length>, Vec<Length>) = offs.partition(near);
    // Of the joints beside a forgotten course in an alternating bond half are odd.
    fit.len() >= 4 * odd.len()
}

/// Whether the joint above `reaches[at]` is where the bond has it, and could not be
/// with a course more in it, by which an edge narrows by `step`; that the bond
/// [holds](bond_holds) is the caller's to know.
pub(super) fn is_denied(at: usize, log: &EdgeLog, step: Length, given: &Given<'_>) -> bool {
    let near = |off: Length| off.abs() <= given.settings.tolerance;
    let denied = || {
        let (bond, off) = (log.bond?, log.joint_off(at)?);
        let below = log.reaches.get(at)?.number;
        let [joint, above] = [below, below.next()].map(|below| bond.joint_above(below, log.cover));
        let further = around(joint + step + above - joint, log.cover);
        Some(near(off) && !near(further.divided(3)))
    };
    denied() == Some(true)
}

/// How many joints must fit besides the one that jumps.
fn fewest_joints(log: &EdgeLog, line: &EdgeLine, given: &Given<'_>) -> usize {
    let by_slope = given.roof_step();
    let confirmed =
        by_slope.is_some_and(|step| (step - line.step).abs() <= given.settings.tolerance);
    let adjoining = log.joints.len().saturating_sub(1);
    let all_read = log.joints.iter().flatten().count() >= adjoining;
    match confirmed && all_read {
        true => FEWEST_BY_SLOPE,
        false => FEWEST_JOINTS,
    }
}
