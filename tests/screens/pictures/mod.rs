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
    picture::{shape::Picture, shear::shear},
};

/// The picture of the first cut of `spec` from its panel, or from `offcut`.
fn at_shear(spec: &PieceSpec, offcut: Option<&Offcut>, blade: Hand) -> Option<Picture> {
    shear(&CutNow::of(spec, offcut, false)?, blade)
}
