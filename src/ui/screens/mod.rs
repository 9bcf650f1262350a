//! The five places, each drawn from the state alone.

mod bench_mark;
mod bench_cut;
mod bench_bend;
mod bench_stack;
pub mod bench;
mod hips_pieces;
mod hips_list;
pub mod hips;
pub mod job;
mod log_words;
mod log_entry;
pub mod log;
pub mod rack;
