//! Pictures of a panel, judged by what stands in the cells that were drawn.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::needless_range_loop,
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    clippy::cast_possible_wrap,
    reason = "a failing test may panic, and cells are counted in small numbers"
)]

#[allow(dead_code, reason = "other test crates use the rest")]
#[path = "outside/gaps.rs"]
mod gaps;
#[path = "pictures/cells.rs"]
mod cells;
#[path = "pictures/snapshots.rs"]
mod snapshots;
#[path = "pictures/marks.rs"]
mod marks;
#[path = "pictures/parts.rs"]
mod parts;
#[path = "pictures/mirror.rs"]
mod mirror;
#[path = "pictures/stairs.rs"]
mod stairs;
#[path = "pictures/steps.rs"]
mod steps;
#[path = "pictures/svg.rs"]
mod svg;
