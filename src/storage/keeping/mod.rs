//! Saving a job and reading it again, with its copies; what is in the file is
//! the matter of [`crate::storage::job_file`].

mod copies;
pub mod save;
pub mod load;
mod whole;
mod open_file;

pub use copies::{backup_path, copies_folder, day_copies, older_path, ours_path};
pub use load::{LoadError, Loaded, Source, load, read};
pub use open_file::{Held, NotMade, OpenFile, TakenFile, absolute};
pub use save::{Last, OnDisk, Save, SaveError, SaveStep, create, replace, save};
pub use whole::{Whole, edited};
