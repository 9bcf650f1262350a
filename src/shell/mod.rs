//! Where the program meets the machine: arguments, output, exit code, terminal.
//!
//! The only layer that writes to standard output and standard error and that
//! calls into storage.

pub mod exit;
pub mod say;
pub mod clock;
mod fault;
pub mod folders;
pub mod offered;
pub mod cli;
pub mod jobs;
pub mod sheets;
pub mod terminal;
pub mod input;
pub mod farewell;
pub mod saver;
pub mod crash;
#[cfg(unix)]
pub mod signals;
pub mod run;
