//! The program without a terminal: what keys do to a job, and what is said.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a failing test may panic"
)]

#[path = "../support/mod.rs"]
mod support;

#[path = "../support/split_mix.rs"]
mod split_mix;
mod keys;
mod board_to_board;
mod details;
mod fields;
mod growing;
mod histories;
mod hands;
mod typing;
mod places;
mod safekeeping;
mod second_trip;
mod sheets;
mod short_courses;
mod misfit;
mod batch;
mod lots;
mod spoiled;
mod follows;
mod job_settings;
mod first_day;
mod doubt_box;
mod said_in_time;
mod which_hip;
mod log_words;
