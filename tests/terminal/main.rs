//! The real program in a terminal of its own.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    unreachable_pub,
    reason = "a failing test may panic"
)]
#![cfg(unix)]

#[path = "../support/mod.rs"]
mod support;
mod terminal;

mod pty;
mod faults;
