//! Checks of the core against something outside the project: a geometry
//! library, printed tables, units, a code of practice. Each source stands
//! beside its check; nothing here knows how the core computes.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a failing test may panic"
)]

#[path = "../support/gaps.rs"]
mod gaps;
mod plane;
#[path = "../support/split_mix.rs"]
mod split_mix;

mod both_ends;
mod clipping;
mod laid_pieces;
mod rafter_table;
mod turn_up;
mod units;
mod roof;
