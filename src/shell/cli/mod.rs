//! The command line: what was asked for, and doing it.
//!
//! Exit codes: 0 done, 1 could not, 2 wrong usage or no terminal. Results go to
//! standard output, messages to standard error.

pub mod args;
pub mod open;
mod import_preview;
pub mod output;
pub mod edges;
pub mod width;
pub mod check;
pub mod new;
pub mod import;
pub mod versions;
pub mod sheet;
pub mod form;
pub mod paths;
pub mod manual;
mod usage;
mod request;

pub use request::{Request, command, request, run};
