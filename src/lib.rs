//! bendmark: from a log of readings to the last stacked piece.
#![cfg_attr(
    test,
    allow(
        clippy::unwrap_used,
        clippy::expect_used,
        clippy::panic,
        clippy::indexing_slicing,
        reason = "a failing test may panic"
    )
)]

pub mod domain;
pub mod picture;
pub mod sheet;
pub mod app;
pub mod ui;
pub mod storage;
pub mod shell;
