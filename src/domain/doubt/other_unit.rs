//! A whole edge written in another unit: millimetres or centimetres into an inch
//! job, or inches or centimetres into one in millimetres. Every reading is off by
//! the same factor.

use super::{
    cause::Cause,
    fix::{Fix, WrittenIn},
    given::Given,
    line::Basis,
    reach::EdgeLog,
    verdict::{Doubt, DoubtedReading, Suspect},
};
use crate::domain::{measure::Length, piece::median, roof::EdgeKind, tape::Unit};

/// Fewer courses tell nothing of an edge as a whole.
const FEWEST: usize = 2;

/// The doubt about an edge whose readings make no roof as they stand, and one
/// in the other unit.
pub(super) fn find(log: &EdgeLog, given: &Given<'_>) -> Option<Doubt> {
    let settings = given.settings;
    let full = log.reaches.iter();
    let full = full.filter(|reach| reach.height == settings.exposure);
    let both = full.filter(|reach| reach.bottom.is_some() && reach.top.is_some());
    let mut steps: Vec<Length> = both.clone().filter_map(|reach| reach.step).collect();
    let mut widths: Vec<Length> = both
        .filter_map(|reach| reach.bottom.max(reach.top))
        .collect();
    if steps.len() < FEWEST {
        return None;
    }
    let (step, width) = (median(&mut steps)?, median(&mut widths)?);
    let unit = settings.unit();
    let as_meant = |written: WrittenIn| {
        let meant = written.meant(step, unit);
        let (apart, fits) = match given.roof_step() {
            Some(roof) => {
                let apart = (meant - roof).abs();
                (apart, apart <= settings.tolerance + settings.tolerance)
            }
            None => (
                (meant.abs() - settings.exposure).abs(),
                given.may_lean(meant),
            ),
        };
        let is_off = given.no_roof(written, step, width);
        (is_off && fits).then_some((apart, written, meant))
    };
    let (_, written, meant) = WrittenIn::ALL
        .into_iter()
        .filter_map(as_meant)
        .min_by_key(|(apart, ..)| *apart)?;
    let cause = match written {
        WrittenIn::Centimetres => Cause::Centimetres,
        WrittenIn::Inches | WrittenIn::Millimetres => Cause::OtherUnit,
    };
    let fix = Fix::ReadIn(written, unit);
    let suspect = Suspect::new(DoubtedReading::Edge, meant, cause, fix);
    let basis = match given.roof_step() {
        Some(_) => Basis::Roof,
        None => Basis::Kind,
    };
    Doubt::of(None, step - meant, vec![suspect], basis)
}

impl Given<'_> {
    /// Whether readings with this `step` and `width` in the middle are none of the
    /// job's unit, if they were written so.
    fn no_roof(&self, written: WrittenIn, step: Length, width: Length) -> bool {
        let settings = self.settings;
        // No course is as narrow as a tenth of a panel all the way up.
        let tiny =
            width.times(10) < settings.panel_width && step.abs() < settings.exposure.divided(10);
        match (settings.unit(), written) {
            (Unit::Inch, WrittenIn::Inches) | (Unit::Millimetre, WrittenIn::Millimetres) => false,
            // A step of four courses' height is no roof: at the sharpest corner
            // and a level slope it is under three.
            (Unit::Inch, WrittenIn::Millimetres) => step.abs() > settings.exposure.times(4),
            // Two and a half times too long is another roof's: `whole_edge.rs` asks.
            (Unit::Inch, WrittenIn::Centimetres) => false,
            (Unit::Millimetre, WrittenIn::Inches | WrittenIn::Centimetres) => tiny,
        }
    }

    /// Whether an edge of this kind may narrow so, as far as its kind tells.
    fn may_lean(&self, step: Length) -> bool {
        let exposure = self.settings.exposure;
        self.kind != EdgeKind::Rake
            && self.fits_trend(step)
            && step.abs() <= exposure.times(3)
            && step.abs().times(4) >= exposure
    }
}
