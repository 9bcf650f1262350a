//! A whole edge written in the other unit: millimetres into an inch job, or
//! inches into one in millimetres. Every reading is off by 25.4 times alike.

use super::{
    cause::Cause,
    fix::Fix,
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
    let written = match settings.unit() {
        Unit::Inch => Unit::Millimetre,
        Unit::Millimetre => Unit::Inch,
    };
    let meant = written.meant(step);
    let is_off = match written {
        // A step of four courses' height is no roof: at the sharpest corner
        // and a level slope it is under three.
        Unit::Millimetre => step.abs() > settings.exposure.times(4),
        // No course is as narrow as a tenth of a panel all the way up.
        Unit::Inch => {
            width.times(10) < settings.panel_width && step.abs() < settings.exposure.divided(10)
        }
    };
    let fits = match given.roof_step() {
        Some(roof) => (meant - roof).abs() <= settings.tolerance + settings.tolerance,
        None => {
            let leans = given.kind != EdgeKind::Rake;
            leans
                && given.fits_trend(meant)
                && meant.abs() <= settings.exposure.times(3)
                && meant.abs().times(4) >= settings.exposure
        }
    };
    let suspect = Suspect::new(
        DoubtedReading::Edge,
        meant,
        Cause::OtherUnit,
        Fix::ReadIn(written),
    );
    let basis = if given.roof_step().is_some() {
        Basis::Roof
    } else {
        Basis::Kind
    };
    (is_off && fits).then(|| Doubt::of(None, step - meant, vec![suspect], basis))?
}
