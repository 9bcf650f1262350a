//! What is handed over on paper and to other programs, for both sample jobs:
//! every format as a snapshot, read back by somebody else's readers, printed by
//! somebody else's browser.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a failing test may panic"
)]
#![allow(clippy::print_stderr, reason = "a test says that it was skipped")]

#[path = "../support/mod.rs"]
mod support;

mod bench;
mod formats;
mod sheet;
mod readers;
mod figures;
mod list;
mod print;
mod phone;
mod fill;
mod import;
mod command_line;
mod screen;
