//! Saving a job and reading it again, with its copies; what is in the file is
//! the matter of [`crate::storage::job_file`].

mod copies;
mod leftovers;
mod versions;
mod names;
mod found;
mod content;
mod save_error;
pub mod save;
mod rescue;
pub mod load;
mod watch;
mod open_file;

pub use content::{Content, Made, Part};
pub(crate) use copies::{Aside, set_aside};
pub use copies::{backup_path, copies_folder, older_path, on_screen_path};
pub use found::{Found, Holds, Place, found, later};
pub use load::{LoadError, Loaded, Source, Trouble, edited, load, read};
pub use names::{is_beside_a_job, is_place_of_a_job};
pub use open_file::{Held, NotMade, OpenFile, Seen, TakenFile, absolute};
pub use rescue::{Rescued, give_up, rescue};
pub use save::{Backup, Last, OnDisk, Save, create, replace, save};
pub use save_error::{SaveError, SaveStep};
pub use versions::{Version, keep, versions};
pub use watch::{Barred, Watch};
