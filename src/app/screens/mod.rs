//! What is selected at each of the five places, and what keys do there.

pub mod bench;
pub mod doubt;
pub mod hips;
pub mod job;
pub mod log;
pub mod readings;
pub mod rack;
pub mod spoiling;
