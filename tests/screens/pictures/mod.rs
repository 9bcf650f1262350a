//! Pictures of a panel, judged by what stands in the cells that were drawn.

mod cells;
mod snapshots;
mod marks;
mod parts;
mod mirror;
mod stairs;
mod steps;
mod svg;
