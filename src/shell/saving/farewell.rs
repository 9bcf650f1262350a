//! What is said of the last change at the program's end, and where it goes when
//! it cannot be where it belongs.

use crate::domain::cutting::Job;
use crate::shell::outside::{now, say};
use crate::storage::files::{Fs, RealFs};
use crate::storage::job_file::encode;
use crate::storage::keeping::create;
use std::fmt;
use std::path::{Path, PathBuf};

/// What became of the last change at the program's end.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Farewell {
    /// It is on the disk.
    Saved,
    /// It is in another file, and why.
    Rescued(PathBuf, String),
    Lost(String),
}

impl Farewell {
    /// Says what became of it where it is not where it belongs.
    pub fn say_if_lost(&self) {
        if *self != Self::Saved {
            say(&self.to_string());
        }
    }
}

impl fmt::Display for Farewell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Saved => f.write_str("the job is saved"),
            Self::Rescued(path, why) => {
                let path = path.display();
                write!(f, "{why}; the job as it was last is in \"{path}\"")
            }
            Self::Lost(why) => write!(f, "the last change is not saved: {why}"),
        }
    }
}

/// Puts `job` into the folder for such, under the name of its file `own` and
/// the time.
pub(super) fn rescue(folder: &Path, own: &Path, job: &Job) -> Option<PathBuf> {
    let bytes = encode(job).ok()?;
    let stem = own.file_stem().unwrap_or_default().to_string_lossy();
    let at = now().map_or(0, |now| now.0);
    let path = folder.join(format!("{stem} {at}.ron"));
    RealFs.create_folder(folder).ok()?;
    create(&RealFs, &path, &bytes).ok()?;
    Some(path)
}
