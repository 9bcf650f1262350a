//! The terminal: its screen and its keys.

mod screen;
mod input;

pub use input::{Input, read_all};
pub use screen::{Screen, give_back, give_back_within};
