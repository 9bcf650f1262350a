//! Everything the program knows while it runs.
//!
//! It is changed by messages only; what a key means is not known here.

mod field;
mod dialog;
mod earlier;
mod open_job;
mod looked_up;
mod batch;
mod pages;
mod views;
mod program;
mod selected;

pub use crate::domain::cutting::{NamedChange, ReadingAt, Spot};
pub use batch::{Batch, LeftOut, Lying, Pass};
pub use dialog::{Choice, Dialog, Prompt, Question, Spoiling};
pub use field::{Entry, Field, Figure, Purpose, Sense, said_of};
pub use open_job::{OnDisk, OpenJob};
pub use pages::{BenchPage, pages_of};
pub use program::{HOLD_MS, Notice, REPEAT_MS, State};
pub use views::{
    BenchView, EntryOrder, HipsAs, HipsFocus, HipsView, JobView, LogFocus, LogView, RackView,
    ShowExpected,
};
