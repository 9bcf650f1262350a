//! Saving on a thread of its own, and what is saved when the program ends by
//! surprise.

mod farewell;
mod saver;
pub mod crash;
pub mod signals;

pub use farewell::Farewell;
pub use saver::{LONGEST, Saver};
