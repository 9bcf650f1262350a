//! The trade itself: lengths, readings, pieces, marks, stock, progress.
//!
//! Pure: it names no file, clock, screen or thread; times arrive as values.
//! Read in this order.

pub mod length;
pub mod tape;
pub mod name;
pub mod hand;
pub mod polygon;
mod angle_number;
pub mod slope;
pub mod corner;
pub mod roof;
pub mod edge;
pub mod course;
pub mod edge_detail;
pub mod settings;
pub mod setting;
pub mod piece;
pub mod marks;
pub mod lie;
pub mod taper;
pub mod note;
pub mod lean;
pub mod turn_up;
pub mod doubt;
pub mod doubtful;
pub mod plane;
pub mod pair;
pub mod offcut;
pub mod fit_graph;
pub mod matching;
pub mod assignment;
pub mod waiting;
pub mod rack;
pub mod plan_group;
pub mod plan;
pub mod carry;
pub mod event;
pub mod progress;
pub mod job;
pub mod cut_list;
mod stock_plan;
pub mod label;
pub mod pace;
pub mod caution;
pub mod glossary;
