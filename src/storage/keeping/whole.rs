//! Whether a job's file is whole, and what copies of it there are.
//!
//! For `bendmark check`: it reads, and changes nothing.

use super::{
    copies::{backup_path, day_copies},
    load::{LoadError, Loaded, Source},
};
use crate::storage::files::{Fs, MOST_BYTES};
use crate::storage::job_file::{self, Seal};
use std::path::{Path, PathBuf};

/// What is known of a job's file on the disk.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Whole {
    /// In words: `the file is whole`, or what is wrong with it and what to do.
    pub file: String,
    /// Whether there is nothing wrong with it.
    pub is_whole: bool,
    /// The copies that are as they were saved, the latest first.
    pub copies: Vec<PathBuf>,
}

impl Whole {
    /// Looks at the file at `path`; `loaded` is what [`crate::storage::keeping::load()`] made
    /// of it.
    pub fn of<F: Fs>(fs: &F, path: &Path, loaded: &Result<Loaded, LoadError>) -> Self {
        let path = &fs.resolve(path).unwrap_or_else(|_| path.to_owned());
        let (is_whole, file) = match loaded {
            Ok(loaded) => of_loaded(loaded),
            Err(error) => (false, error.to_string()),
        };
        let days = day_copies(fs, path).unwrap_or_default();
        let copies = std::iter::once(backup_path(path))
            .chain(days)
            .filter(|copy| {
                let read = fs.read(copy, MOST_BYTES);
                read.is_ok_and(|bytes| job_file::seal_of(&bytes) == Seal::Whole)
            })
            .collect();
        Self {
            file,
            is_whole,
            copies,
        }
    }
}

fn of_loaded(loaded: &Loaded) -> (bool, String) {
    match (&loaded.from, loaded.seal) {
        (Source::File, Seal::Whole) => (true, "the file is whole, as it was saved".to_owned()),
        (Source::File, seal) => (false, edited(seal).to_owned()),
        (Source::Copy { path, why, .. }, _) => {
            let copy = path.display();
            (
                false,
                format!("the file cannot be read: {why}; its copy \"{copy}\" can"),
            )
        }
    }
}

/// What a checksum line that is not right means; empty where it is.
pub const fn edited(seal: Seal) -> &'static str {
    match seal {
        Seal::Whole => "",
        Seal::Missing => "its checksum line is missing: edited by hand or damaged",
        Seal::Mismatch => "it does not match its checksum line: edited by hand or damaged",
    }
}
