//! A course forgotten between two logged ones, so that all above it are
//! numbered one too low. In a regular bond the joint there jumps: it holds the
//! step of the forgotten course and both of its joints.

use super::{
    cause::Cause,
    fix::Fix,
    joints::around,
    line::EdgeLine,
    reach::EdgeLog,
    verdict::{Doubt, DoubtedReading, Suspect},
};
use crate::domain::measure::Length;
use crate::domain::settings::Settings;

/// Fewer joints that fit but for one tell nothing: three of five may by chance.
const FEWEST_JOINTS: usize = 4;

/// Where no bond is found at all, every joint is tried of so many at most.
const MOST_TRIED: usize = 64;

/// The doubt about the one place where a course put in makes all joints fit.
pub(super) fn find(log: &EdgeLog, line: &EdgeLine, settings: &Settings) -> Option<Doubt> {
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
    let mut fits = tried
        .into_iter()
        .filter(|at| fits(*at, log, line, settings));
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
fn fits(at: usize, log: &EdgeLog, line: &EdgeLine, settings: &Settings) -> bool {
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
        let calm = rest.all(near) && known >= FEWEST_JOINTS;
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
