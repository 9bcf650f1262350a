//! The process's surroundings: exit codes, output, clock, folders.

mod exit;
mod parts;
mod say;
mod clock;
pub mod fault;
mod folders;
#[cfg(windows)]
pub mod windows_console;
mod console;
pub mod version;

pub use clock::{now, today};
pub use console::draws_blocks;
pub use exit::Exit;
pub use folders::Folders;
pub use parts::in_parts;
pub use say::{Unheard, put, put_in_parts, say};
