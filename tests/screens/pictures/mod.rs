//! Pictures of a panel, judged by what stands in the cells that were drawn.

mod cells;
mod snapshots;
mod marks;
mod parts;
mod mirror;
mod stairs;
mod steps;
mod svg;

use bendmark::{
    domain::{cutting::CutNow, measure::Hand, piece::PieceSpec, stock::Offcut},
    picture::{cutter::cutter, shape::Picture},
};

/// The picture of the first cut of `spec` from its panel, or from `offcut`.
fn at_cutter(spec: &PieceSpec, offcut: Option<&Offcut>, blade: Hand) -> Option<Picture> {
    cutter(&CutNow::of(spec, offcut, false)?, blade)
}
