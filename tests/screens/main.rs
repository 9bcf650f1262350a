//! What stands in the cells of a screen.
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
#[path = "../support/gaps.rs"]
mod gaps;
#[path = "../support/split_mix.rs"]
mod split_mix;
#[path = "../support/mod.rs"]
mod support;

mod notes;
mod places;
mod plan;
mod leg;
mod album;
mod themes;
mod pictures;
mod eye;
