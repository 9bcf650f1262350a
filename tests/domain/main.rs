//! Pieces: worked by hand, and by identities over random ones.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::cast_precision_loss,
    clippy::print_stdout,
    reason = "a failing test may panic, and cells are counted in small numbers"
)]

#[path = "../support/gaps.rs"]
mod gaps;
#[path = "../support/mod.rs"]
mod support;

mod both_ends;
#[path = "../support/split_mix.rs"]
mod split_mix;
mod cases;
mod edge_numbers;
mod expected;
mod misfit;
mod pace;
mod either_way;
mod pieces;
mod settings;
