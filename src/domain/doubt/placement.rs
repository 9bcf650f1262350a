//! One tape placement off: the top of a course and the bottom of the next one
//! are wrong alike, which is one doubt and not two.

use super::{
    cause::Cause,
    fix::Fix,
    given::Given,
    joints::around,
    line::Basis,
    reach::EdgeLog,
    slips::on_a_division,
    verdict::{Doubt, DoubtedReading, Suspect},
};
use crate::domain::{measure::Length, settings::Settings, tape::Unit};

/// Two neighbouring courses that look like one placement held wrong.
pub(super) struct Placement {
    at: usize,
    /// How much too long both readings are.
    by: Length,
    /// How well the two courses agree; less is better.
    pub(super) apart: Length,
}

impl Placement {
    /// What courses `at` and `at + 1` look like that are off their line by
    /// `low` and `high`.
    ///
    /// They must be off by the same amount the opposite way, and the joints must
    /// not speak against it: a placement moves none of them.
    pub(super) fn at(
        at: usize,
        (low, high): (Length, Length),
        log: &EdgeLog,
        given: &Given<'_>,
    ) -> Option<Self> {
        let (below, above) = (log.reaches.get(at)?, log.reaches.get(at + 1)?);
        below.top?;
        above.bottom?;
        if below.number.next() != above.number {
            return None;
        }
        let (near, settings) = (given.near(), given.settings);
        let half = near.half();
        let apart = (low + high).abs();
        let opposite = (low < Length::ZERO) != (high < Length::ZERO);
        if !opposite || low.abs().min(high.abs()) <= half || apart > near.times(4).divided(3) {
            return None;
        }
        let by = (high - low).half();
        let calm = |joint: usize| {
            let off = log.joint_off(joint);
            off.is_none_or(|off| !speaks_against(off, by, settings))
        };
        let quiet = at.checked_sub(1).is_none_or(calm) && calm(at) && calm(at + 1);
        quiet.then_some(Self { at, by, apart })
    }

    /// The one doubt it makes of the two courses.
    pub(super) fn doubt(&self, log: &EdgeLog, settings: &Settings, basis: Basis) -> Option<Doubt> {
        let reach = log.reaches.get(self.at)?;
        let by = snapped(self.by, settings);
        let course = reach.number;
        let fix = Fix::Placement { course, by };
        let (placement, likely) = (DoubtedReading::Placement, reach.top? - by);
        let suspect = Suspect::new(placement, likely, Cause::PlacementOff, fix);
        Doubt::of(Some(course), by, vec![suspect], basis)
    }
}

/// Two single slips of the same size would move a joint by it, or one by both:
/// a joint that is off by just that, and nearer to it than to the bond.
fn speaks_against(off: Length, by: Length, settings: &Settings) -> bool {
    let (tolerance, cover) = (settings.tolerance, settings.cover());
    let moved = |told: Length| around(off - told, cover).abs() <= tolerance;
    let told = moved(by) || moved(-by) || moved(by + by) || moved(-by - by);
    told && off.abs() > tolerance && off.abs() + off.abs() > around(by, cover).abs()
}

/// A tape held at a whole inch, foot or ten is off by just that.
fn snapped(by: Length, settings: &Settings) -> Length {
    let usual = match settings.unit() {
        Unit::Inch => [1, 10, 12].map(Length::from_inches).to_vec(),
        Unit::Millimetre => vec![Length::from_mm(100)],
    };
    let near = settings.tolerance.divided(3);
    let mut either_way = usual.into_iter().flat_map(|usual| [usual, -usual]);
    either_way
        .find(|usual| (by - *usual).abs() <= near)
        .unwrap_or_else(|| on_a_division(by, settings))
}
