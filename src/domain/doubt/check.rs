//! All that is doubtful about one edge, without what was answered.

use super::{
    courses::Courses,
    given::Given,
    line::{Basis, EdgeLine},
    other_unit,
    reach::EdgeLog,
    verdict::Doubt,
};
use crate::domain::log::{Edge, SetAside};
use crate::domain::settings::Settings;

/// What is doubtful about `edge`, a whole edge first, then going up; without
/// what was set aside. Judged on the readings as they were written.
pub fn check(edge: &Edge, settings: &Settings, set_aside: &[SetAside]) -> Vec<Doubt> {
    let courses = Courses {
        log: &EdgeLog::of(edge, settings),
        given: Given::of(edge, settings),
    };
    let is_answered = |doubt: &Doubt| {
        set_aside
            .iter()
            .any(|answer| answer.answers(doubt, edge, settings.tolerance))
    };
    let other_unit = other_unit::find(courses.log, &courses.given);
    if let Some(doubt) = other_unit.filter(|doubt| !is_answered(doubt)) {
        return vec![doubt];
    }
    let mut doubts = match courses.up_to_one_left_out() {
        Some((mut below, left_out)) if !is_answered(&left_out) => {
            below.push(left_out);
            below
        }
        // Measured again, nothing is left out: the courses above count too.
        _ => courses.none_left_out(),
    };
    doubts.retain(|doubt| !is_answered(doubt));
    doubts
}

/// What the courses of `edge` are judged by as its log stands.
pub fn basis(edge: &Edge, settings: &Settings) -> Basis {
    match EdgeLine::of(edge, settings) {
        Some(line) => line.basis,
        None if edge.roof.trend(edge.kind).is_some() => Basis::Kind,
        None => Basis::Nothing,
    }
}
