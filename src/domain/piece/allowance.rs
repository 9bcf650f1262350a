//! How far beyond the bend line an edge's pieces are cut.

use super::{lean::lean_of, spec::along};
use crate::domain::log::Edge;
use crate::domain::measure::Length;
use crate::domain::settings::{Allowance, Settings};

/// The allowance along the edge for the pieces of `edge`: the setting's own, or
/// what makes the leg stand as high as asked at the edge's lean.
pub fn allowance_of(edge: &Edge, settings: &Settings) -> Length {
    match settings.kind(edge.kind).allowance {
        Allowance::Along(length) => length,
        Allowance::Standing(height) => along(height, lean_of(edge, settings).unwrap_or(0.0)),
    }
}
