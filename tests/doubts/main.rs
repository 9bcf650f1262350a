//! How many slips the checker points out, on simulated hips.
//!
//! Seeded; the hips and the slips come from `maker`, which shares only `Length`
//! with the checker. `BENDMARK_CASES` sets how many hips a cell of the table
//! gets; `cargo test --release --test doubts -- --nocapture` prints the table
//! that stands in docs/doubts.md. Sizes and shares of the slips are common
//! practice's list, in equal shares. Whole roofs, made apart from both, are in
//! `whole_roof`.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a failing test may panic, and the table is printed"
)]

#[path = "../support/split_mix.rs"]
mod split_mix;
mod any_log;
mod board_to_board;
mod forgotten_course;
mod maker;
mod simulated;
mod simulated_edges;
mod simulated_moves;
mod simulated_slips;
mod tally;
mod whole_roof;
mod whole_roof_growing;
mod whole_roof_job;
mod whole_roof_kinds;
mod whole_roof_plane;
mod whole_roof_scatter;
mod whole_roof_slips;
mod whole_roof_tally;
mod worked;
mod worked_courses;
mod worked_edges;
mod worked_typing;
