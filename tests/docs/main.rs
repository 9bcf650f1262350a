//! What stands beside the program: the pages, what they show, the sample jobs.
//!
//! `BENDMARK_WRITE_DOCS=1 cargo test --test docs` writes the pages anew,
//! `BENDMARK_WRITE_SAMPLES=1 cargo test --test docs samples` the sample jobs.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a failing test may panic"
)]

#[path = "../support/sources.rs"]
mod sources;
#[path = "../support/mod.rs"]
mod support;

mod pages;
mod paths;
mod guide;
mod samples;
