//! Readings from a spreadsheet's CSV; all bad rows are told at once, and
//! nothing is changed if any is bad.

mod detail;
mod header;
mod error;
mod row;
mod alike;
mod runs_to;
mod import;

pub use alike::SameFigures;
pub use error::ImportError;
pub use import::{Imported, import};
