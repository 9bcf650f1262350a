//! Everything the program knows while it runs.
//!
//! It is changed by messages only; what a key means is not known here.

mod dialog;
mod field;
mod history;
mod open_job;
mod views;
mod program;

pub use dialog::{Dialog, name_in};
pub use field::{Field, Purpose, Sense, said_of, value_of};
pub use history::{Spot, Undone};
pub use open_job::{OpenJob, Saved};
pub use program::{HOLD_MS, Notice, State};
pub use views::{
    BenchView, EntryOrder, HipsFocus, HipsView, JobView, LogFocus, LogView, PiecesAs, RackView,
    ShowExpected,
};
