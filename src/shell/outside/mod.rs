//! The process's surroundings: exit codes, output, clock, folders.

mod exit;
mod say;
mod clock;
pub mod fault;
mod folders;

pub use clock::{now, today};
pub use exit::Exit;
pub use folders::Folders;
pub use say::{Unheard, put, say};
