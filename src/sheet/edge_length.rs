//! How long an edge is, for boards and caps.
//!
//! In its roof plane an edge that leans `(b - t) / h` is `hypot(1, lean)` long for
//! each length up the slope. Courses count one exposure each, a short one its own
//! height, one in which the boards meet as far as they go. What hangs over at the
//! eave is not in the log, so it is not in the figure.

use crate::domain::{
    cutting::Job,
    log::{Course, Edge},
    measure::Length,
    piece::lean_of,
    tape::Unit,
};

/// The length of `edge`, where anything tells how it leans.
pub(super) fn edge_length(edge: &Edge, job: &Job) -> Option<Length> {
    let lean = lean_of(edge, &job.settings)?;
    let up = up_the_slope(edge, job);
    (up > Length::ZERO).then(|| Length::rounded_from_mm(up.mm() * lean.hypot(1.0)))
}

/// How far up the slope the log of `edge` goes, the courses that run to it from
/// another edge too.
fn up_the_slope(edge: &Edge, job: &Job) -> Length {
    let exposure = job.settings.exposure;
    let others = job.edges().iter().filter(|other| other.id != edge.id);
    let met = others.flat_map(|other| other.courses().iter());
    let met = met.filter(|course| course.to == Some(edge.id));
    let courses: Vec<&Course> = edge.courses().iter().chain(met).collect();
    let last = courses.iter().map(|course| course.number.get()).max();
    let whole = exposure.times(i64::from(last.unwrap_or(0)));
    // What each is short of a full one; those not logged count as full. A line that
    // runs out of its gap goes on beside the field; boards that meet end there.
    let short = courses.iter().map(|course| {
        let height = course.height.map_or(exposure, |height| height.length());
        let meet = course.runs_out.filter(|_| course.to.is_some());
        let up = meet.map_or(height, |meet| meet.length().min(height));
        exposure - up.min(exposure)
    });
    whole - short.sum::<Length>()
}

/// In what boards are bought: feet and inches up to a whole one, metres.
pub(super) fn bought(length: Length, unit: Unit) -> String {
    match unit {
        Unit::Inch => {
            let inches = (length.mm() / 25.4).ceil();
            let feet = (inches / 12.0).floor();
            format!("{feet} ft {} in", inches - 12.0 * feet)
        }
        Unit::Millimetre => format!("{:.2} m", (length.mm() / 10.0).ceil() / 100.0),
    }
}
