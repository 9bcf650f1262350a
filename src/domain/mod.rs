//! The trade itself: lengths, readings, pieces, marks, stock, progress.
//!
//! Pure: it names no file, clock, screen or thread; times arrive as values.
//! Read in this order.

pub mod measure;
pub mod tape;
pub mod roof;
pub mod log;
pub mod settings;
pub mod piece;
pub mod doubt;
pub mod stock;
pub mod bench;
pub mod cutting;
pub mod words;
