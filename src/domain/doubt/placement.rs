//! One tape placement off: the top of a course and the bottom of the next one
//! are wrong alike, which is one doubt and not two.

use super::{
    cause::Cause,
    fix::Fix,
    joints::around,
    reach::Log,
    suspects::on_a_division,
    verdict::{DoubtedReading, Suspect},
};
use crate::domain::{measure::Length, settings::Settings, tape::Unit};

/// Whether courses `at` and `at + 1`, off their line by `low` and `high`, look
/// like one placement, and then how well they agree (less is better).
///
/// They must be off by the same amount the opposite way, and the joints must
/// not speak against it: a placement moves none of them.
pub(super) fn agreement(
    log: &Log,
    at: usize,
    (low, high): (Length, Length),
    settings: &Settings,
) -> Option<Length> {
    let (below, above) = (log.reaches.get(at)?, log.reaches.get(at + 1)?);
    below.top?;
    above.bottom?;
    if below.number.next() != above.number {
        return None;
    }
    let half = settings
        .tolerance
        .scaled(Length::from_nm(1), Length::from_nm(2));
    let apart = (low + high).abs();
    let opposite = (low < Length::ZERO) != (high < Length::ZERO);
    if !opposite || low.abs().min(high.abs()) <= half || apart > settings.tolerance {
        return None;
    }
    let by = (high - low).scaled(Length::from_nm(1), Length::from_nm(2));
    let calm = |joint: usize| {
        let off = log.joint_off(joint, settings.cover());
        off.is_none_or(|off| !speaks_against(off, by, settings))
    };
    let quiet = at.checked_sub(1).is_none_or(calm) && calm(at) && calm(at + 1);
    quiet.then_some(apart)
}

/// Two single slips of the same size would move a joint by it, or one by both:
/// a joint that is off by just that, and nearer to it than to the bond.
fn speaks_against(off: Length, by: Length, settings: &Settings) -> bool {
    let (tolerance, cover) = (settings.tolerance, settings.cover());
    let moved = |told: Length| around(off - told, cover).abs() <= tolerance;
    let told = moved(by) || moved(-by) || moved(by + by) || moved(-by - by);
    told && off.abs() > tolerance && off.abs() + off.abs() > around(by, cover).abs()
}

/// How much too long both readings are, and the suspicion that says so.
pub(super) fn suspect(
    log: &Log,
    at: usize,
    (low, high): (Length, Length),
    settings: &Settings,
) -> Option<(Length, Suspect)> {
    let reach = log.reaches.get(at)?;
    let by = snapped(
        (high - low).scaled(Length::from_nm(1), Length::from_nm(2)),
        settings,
    );
    let likely = reach.top? - by;
    Some((
        by,
        Suspect {
            reading: DoubtedReading::Placement,
            likely,
            cause: Cause::PlacementOff,
            fix: Fix::Placement {
                course: reach.number,
                by,
            },
        },
    ))
}

/// A tape held at a whole inch, foot or ten is off by just that.
fn snapped(by: Length, settings: &Settings) -> Length {
    let usual: &[Length] = match settings.unit() {
        Unit::Inch => &[
            Length::from_inches(1),
            Length::from_inches(10),
            Length::from_inches(12),
        ],
        Unit::Millimetre => &[Length::from_mm(100)],
    };
    let near = settings
        .tolerance
        .scaled(Length::from_nm(1), Length::from_nm(3));
    usual
        .iter()
        .find(|usual| (by.abs() - **usual).abs() <= near)
        .map_or_else(
            || on_a_division(by, settings),
            |usual| if by < Length::ZERO { -*usual } else { *usual },
        )
}
