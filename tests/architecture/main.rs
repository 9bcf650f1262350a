//! The house itself, read from its source: layers, rooms, sizes, docs.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a failing test may panic"
)]

#[path = "../support/sources.rs"]
mod sources;
mod source;
mod layers;
mod lists;
mod rooms;
mod sizes;
