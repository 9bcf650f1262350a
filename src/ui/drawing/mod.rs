//! Shapes of [`crate::picture`] drawn into cells.

mod canvas;
mod picture_scale;
pub mod picture_raster;
mod picture_lanes;
pub mod staircase;
