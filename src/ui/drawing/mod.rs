//! Shapes of [`crate::picture`] drawn into cells.

mod canvas;
mod picture_scale;
mod picture_grid;
mod picture_lanes;
pub mod picture_raster;
pub mod staircase;
pub mod profile;
pub mod roof_plan_signs;
mod roof_plan_side;
pub mod roof_plan;
