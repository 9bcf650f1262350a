//! What is written to disk comes back as it was, or is refused in words.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    unreachable_pub,
    reason = "a failing test may panic"
)]

mod jobs;
mod bad_fs;
mod injected;
mod file;
mod history;
mod disk;
mod versions;
mod readings;
mod sheets;
mod refusals;
mod crash;
