//! A whole edge off the lean its roof gives it, and what would explain it.
//!
//! Judged by its step `b - t` over a full exposure: `off` is the edge's step
//! less the expected one, and `likely` the expected one.

use super::{
    cause::Cause,
    fix::{Fix, WrittenIn},
    given::Given,
    verdict::{DoubtedReading, Suspect},
};
use crate::domain::{measure::Length, roof::EdgeKind, tape::Unit};

/// How far a whole edge is off, with the explanations, best first.
pub(super) fn suspects(step: Length, given: &Given<'_>) -> Option<(Length, Vec<Suspect>)> {
    let (off, expected, told) = match given.roof_step() {
        Some(expected) => {
            let off = step - expected;
            let is_off = off.abs() > given.settings.tolerance;
            is_off.then(|| (off, expected, by_slope(step, expected, given)))?
        }
        None => {
            let against = given.against_trend(step);
            against.then(|| (step + step, -step, by_trend(given.kind)))?
        }
    };
    let suspect = |(cause, fix)| Suspect::new(DoubtedReading::Edge, expected, cause, fix);
    Some((off, told.into_iter().map(suspect).collect()))
}

fn by_slope(step: Length, expected: Length, given: &Given<'_>) -> Vec<(Cause, Fix)> {
    let mut told: Vec<(Length, Cause, Fix)> = vec![(-expected, Cause::Swapped, Fix::SwapColumns)];
    let mut tell = |given: Given<'_>, cause, fix| {
        told.extend(given.roof_step().map(|step| (step, cause, fix)));
    };
    let roof = given.roof.exchanged();
    tell(
        Given { roof, ..*given },
        Cause::SlopesExchanged,
        Fix::ExchangeSlopes,
    );
    for kind in EdgeKind::ALL.into_iter().filter(|kind| *kind != given.kind) {
        tell(Given { kind, ..*given }, Cause::WrongKind, Fix::Kind(kind));
    }
    if given.settings.unit() == Unit::Inch {
        let (cm, inch) = (WrittenIn::Centimetres, Unit::Inch);
        let written = expected.scaled(Length::from_inches(1), Length::from_mm(10));
        told.push((written, Cause::Centimetres, Fix::ReadIn(cm, inch)));
    }
    told.retain(|(told, ..)| (step - *told).abs() <= given.settings.tolerance);
    told.sort_by_key(|(told, ..)| (step - *told).abs());
    if told.is_empty() {
        told.push((expected, Cause::Unknown, Fix::MeasureAgain));
    }
    let causes = told.into_iter().map(|(_, cause, fix)| (cause, fix));
    causes.collect()
}

fn by_trend(kind: EdgeKind) -> Vec<(Cause, Fix)> {
    let other = match kind {
        EdgeKind::Hip => EdgeKind::Valley,
        EdgeKind::Valley | EdgeKind::Rake => EdgeKind::Hip,
    };
    vec![
        (Cause::Swapped, Fix::SwapColumns),
        (Cause::WrongKind, Fix::Kind(other)),
    ]
}
