//! Readings from a spreadsheet's CSV; all bad rows are told at once, and
//! nothing is changed if any is bad.

mod detail;
mod error;
mod encoding;
mod header;
mod records;
mod row;
mod alike;
mod runs_to;
mod tally;
mod import;

pub use alike::SameFigures;
pub use error::ImportError;
pub use import::{Imported, import};
