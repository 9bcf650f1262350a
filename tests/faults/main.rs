//! The real program on a real disk on which things go wrong.
//!
//! `cargo test --test faults -- --nocapture` prints each message. What a machine
//! does not allow (mounting a small disk, say) is skipped with the reason.
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

mod bench;
mod disks;
mod endings;
mod hostile;
mod kill_loop;
mod two_windows;
#[path = "../support/mod.rs"]
mod support;
#[path = "../pty/terminal.rs"]
mod terminal;
