//! The five places, each drawn from the state alone.

pub mod bench;
pub mod hips;
pub mod job;
mod log_entry;
pub mod log;
pub mod rack;
