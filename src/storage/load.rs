//! Opening a job: the file, else its `.bak`.
//!
//! It changes nothing on the disk; a damaged file is set aside by the next
//! [`super::save::save`].

use super::copies::backup_path;
use super::fs::{Fs, MOST_BYTES, words};
use super::job_file::{self, DecodeError, Decoded, Seal};
use crate::domain::job::Job;
use std::fmt;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Which file a job was read from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Source {
    /// The one that was asked for.
    File,
    /// Its `.bak`, and why.
    Backup(Trouble),
}

/// Why a file was not read as a job.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Trouble {
    /// It is not there.
    Missing,
    /// It is there, but its bytes could not be read.
    Unread(String),
    /// Its bytes are no job.
    Damaged(DecodeError),
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing => f.write_str("there is no such file"),
            Self::Unread(why) => f.write_str(why),
            Self::Damaged(why) => write!(f, "{why}"),
        }
    }
}

/// A job as it was opened.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Loaded {
    /// The job.
    pub job: Job,
    /// Whether the file it was read from is as it was saved.
    pub seal: Seal,
    /// Which file that was.
    pub from: Source,
}

/// Why a job was not opened. Nothing was changed on the disk.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum LoadError {
    /// Neither the file nor a `.bak` is there.
    Missing {
        /// What was asked for.
        path: PathBuf,
    },
    /// The file is there and is not read, and a `.bak` would not be right
    /// either, or is none.
    Refused {
        /// What was asked for.
        path: PathBuf,
        /// Why.
        why: Trouble,
    },
}

impl fmt::Display for LoadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing { path } => write!(
                f,
                "\"{}\": there is no such file, expected a job: make one with \"bendmark new\"",
                path.display()
            ),
            Self::Refused { path, why } => write!(f, "\"{}\": {why}", path.display()),
        }
    }
}

impl std::error::Error for LoadError {}

/// The job in the file at `path`, or in its `.bak` where the file is missing
/// or damaged.
///
/// # Errors
/// [`LoadError`]; a file of another version, or one that is whole and yet not
/// understood, was written by another program and is refused rather than passed
/// over for its `.bak`.
pub fn load<F: Fs>(fs: &F, path: &Path) -> Result<Loaded, LoadError> {
    let trouble = match attempt(fs, path) {
        Ok(Decoded { job, seal }) => {
            return Ok(Loaded {
                job,
                seal,
                from: Source::File,
            });
        }
        Err(Attempt::Refused(why)) => {
            return Err(LoadError::Refused {
                path: path.to_owned(),
                why,
            });
        }
        Err(Attempt::Damaged(why)) => why,
    };
    match attempt(fs, &backup_path(path)) {
        Ok(Decoded { job, seal }) => Ok(Loaded {
            job,
            seal,
            from: Source::Backup(trouble),
        }),
        Err(_) if trouble == Trouble::Missing => Err(LoadError::Missing {
            path: path.to_owned(),
        }),
        Err(_) => Err(LoadError::Refused {
            path: path.to_owned(),
            why: trouble,
        }),
    }
}

/// The bytes of any other file that is read, such as readings as CSV.
///
/// # Errors
/// [`LoadError`], among it where it is over the size cap.
pub fn read<F: Fs>(fs: &F, path: &Path) -> Result<Vec<u8>, LoadError> {
    fs.read(path, MOST_BYTES)
        .map_err(|error| LoadError::Refused {
            path: path.to_owned(),
            why: unread(&error),
        })
}

/// What one file came to.
enum Attempt {
    /// The `.bak` is worth a look.
    Damaged(Trouble),
    /// It is not.
    Refused(Trouble),
}

fn attempt<F: Fs>(fs: &F, path: &Path) -> Result<Decoded, Attempt> {
    let bytes = fs.read(path, MOST_BYTES).map_err(|error| {
        let trouble = unread(&error);
        match error.kind() {
            ErrorKind::PermissionDenied
            | ErrorKind::FileTooLarge
            | ErrorKind::IsADirectory
            | ErrorKind::NotADirectory => Attempt::Refused(trouble),
            _ => Attempt::Damaged(trouble),
        }
    })?;
    job_file::decode(&bytes).map_err(|error| {
        let other = matches!(error, DecodeError::OtherVersion { .. });
        if other || job_file::seal_of(&bytes) == Seal::Whole {
            Attempt::Refused(Trouble::Damaged(error))
        } else {
            Attempt::Damaged(Trouble::Damaged(error))
        }
    })
}

fn unread(error: &io::Error) -> Trouble {
    match error.kind() {
        ErrorKind::NotFound => Trouble::Missing,
        ErrorKind::PermissionDenied => {
            Trouble::Unread("permission denied, expected a file you may read".to_owned())
        }
        _ => Trouble::Unread(words(error)),
    }
}
