//! A whole edge off the lean its roof gives it, and what would explain it.
//!
//! Judged by its step `b - t` over a full exposure: `off` is the edge's step
//! less the expected one, and `likely` the expected one.

use super::{
    cause::Cause,
    fix::Fix,
    line::roof_step,
    verdict::{DoubtedReading, Suspect},
};
use crate::domain::measure::Length;
use crate::domain::roof::{EdgeKind, RoofLine, Trend};
use crate::domain::settings::Settings;

/// How far a whole edge is off, with the explanations, best first.
pub(super) fn suspects(
    step: Length,
    kind: EdgeKind,
    roof: &RoofLine,
    settings: &Settings,
) -> Option<(Length, Vec<Suspect>)> {
    match roof_step(kind, roof, settings) {
        Some(expected) => {
            let off = step - expected;
            let explanations = || by_slope(step, expected, kind, roof, settings);
            (off.abs() > settings.tolerance).then(|| (off, explanations()))
        }
        None => {
            let against = against_trend(step, kind, roof, settings.tolerance);
            against.then(|| (step + step, by_trend(-step, kind)))
        }
    }
}

/// Whether a step goes the way an edge of its kind cannot go.
pub(super) fn against_trend(
    step: Length,
    kind: EdgeKind,
    roof: &RoofLine,
    tolerance: Length,
) -> bool {
    match roof.trend(kind) {
        None => false,
        Some(Trend::Narrows) => step < -tolerance,
        Some(Trend::Widens) => step > tolerance,
    }
}

fn by_slope(
    step: Length,
    expected: Length,
    kind: EdgeKind,
    roof: &RoofLine,
    settings: &Settings,
) -> Vec<Suspect> {
    let mut told: Vec<(Length, Cause, Fix)> = vec![(-expected, Cause::Swapped, Fix::SwapColumns)];
    if let Some(exchanged) = roof_step(kind, &roof.exchanged(), settings) {
        told.push((exchanged, Cause::SlopesExchanged, Fix::ExchangeSlopes));
    }
    for other in EdgeKind::ALL.into_iter().filter(|other| *other != kind) {
        if let Some(step) = roof_step(other, roof, settings) {
            told.push((step, Cause::WrongKind, Fix::Kind(other)));
        }
    }
    told.retain(|(told, ..)| (step - *told).abs() <= settings.tolerance);
    told.sort_by_key(|(told, ..)| (step - *told).abs());
    if told.is_empty() {
        told.push((expected, Cause::Unknown, Fix::MeasureAgain));
    }
    told.into_iter()
        .map(|(_, cause, fix)| suspect(expected, cause, fix))
        .collect()
}

fn by_trend(expected: Length, kind: EdgeKind) -> Vec<Suspect> {
    let other = match kind {
        EdgeKind::Hip => EdgeKind::Valley,
        EdgeKind::Valley | EdgeKind::Rake => EdgeKind::Hip,
    };
    vec![
        suspect(expected, Cause::Swapped, Fix::SwapColumns),
        suspect(expected, Cause::WrongKind, Fix::Kind(other)),
    ]
}

const fn suspect(likely: Length, cause: Cause, fix: Fix) -> Suspect {
    Suspect {
        reading: DoubtedReading::Edge,
        likely,
        cause,
        fix,
    }
}
