//! All that is doubtful about one edge, without what was answered.

use super::{
    courses::Case,
    line::{Basis, Line},
    reach::Log,
    verdict::Doubt,
};
use crate::domain::log::{Edge, SetAside};
use crate::domain::roof::RoofLine;
use crate::domain::settings::Settings;

/// What is doubtful about `edge`, a whole edge first, then going up; without
/// what was set aside. Judged on the readings as they were written.
pub fn check(
    edge: &Edge,
    roof: &RoofLine,
    settings: &Settings,
    set_aside: &[SetAside],
) -> Vec<Doubt> {
    let log = Log::of(edge, settings);
    let case = Case {
        log: &log,
        kind: edge.kind,
        roof,
        settings,
    };
    let is_answered = |doubt: &Doubt| {
        set_aside
            .iter()
            .any(|answer| answer.answers(doubt, edge, settings.tolerance))
    };
    let mut doubts = match case.shifted() {
        Some((mut below, shift)) if !is_answered(&shift) => {
            below.push(shift);
            below
        }
        // Measured again, nothing is left out: the courses above count too.
        _ => case.unshifted(),
    };
    doubts.retain(|doubt| !is_answered(doubt));
    doubts
}

/// What the courses of `edge` are judged by as its log stands.
pub fn basis(edge: &Edge, roof: &RoofLine, settings: &Settings) -> Basis {
    match Line::of(edge, roof, settings) {
        Some(line) => line.basis,
        None if roof.trend(edge.kind).is_some() => Basis::Kind,
        None => Basis::Nothing,
    }
}
