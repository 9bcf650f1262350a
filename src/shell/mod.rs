//! Where the program meets the machine: arguments, output, exit code, terminal.
//!
//! The only layer that writes to standard output and standard error and that
//! calls into storage.

pub mod outside;
pub mod jobs;
pub mod terminal;
pub mod saving;
pub mod run;
pub mod cli;
