//! The trade itself: lengths, readings, pieces, marks, stock, progress.
//!
//! Pure: it names no file, clock, screen or thread; times arrive as values.
//! Read in this order.

pub mod length;
pub mod tape;
pub mod name;
pub mod hand;
pub mod polygon;
pub mod edge;
pub mod course;
pub mod settings;
pub mod setting;
pub mod piece;
pub mod marks;
pub mod lie;
pub mod lean;
pub mod slope;
pub mod roof;
pub mod doubt;
pub mod plane;
pub mod event;
pub mod progress;
pub mod job;
pub mod cut_list;
pub mod label;
