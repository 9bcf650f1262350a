//! What keys do at each of the five places.
//!
//! A screen changes what is selected at its own place only; to go to another
//! it returns the spot, and update goes there.

pub mod readings;
pub mod courses;
pub mod doubt;
pub mod two_readings;
pub mod taking;
pub mod edges;
pub mod log;
pub mod spoiling;
pub mod second_trip;
pub mod misfit;
pub mod batch;
pub mod bench;
pub mod hips;
pub mod rack;
pub mod job;
