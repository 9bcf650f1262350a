//! Opening a job: the file, else the best copy of it.
//!
//! It changes nothing on the disk; a damaged file is set aside by the next
//! save, [`crate::storage::keeping::Save::run`].

use super::found::{Place, beside_it};
use crate::domain::{bench::Utc, cutting::Job};
use crate::storage::files::{Fs, MOST_BYTES, shown, words};
use crate::storage::job_file::{self, DecodeError, Decoded, Seal};
use std::fmt;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Which file a job was read from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Source {
    File,
    /// The best copy of it.
    Copy {
        path: PathBuf,
        /// When it was written, where the system tells.
        saved: Option<Utc>,
        why: Trouble,
        /// How many others have as many changes and another content.
        rivals: usize,
    },
}

/// Why a file was not read as a job.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Trouble {
    Missing,
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
    pub job: Job,
    /// Whether the file it was read from is as it was saved.
    pub seal: Seal,
    pub from: Source,
    pub version: u32,
    pub content: Vec<u8>,
}

/// Why a job was not opened. Nothing was changed on the disk.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum LoadError {
    /// Neither the file nor a copy is there.
    Missing { path: PathBuf },
    /// The file is there and is not read, and a copy would not be right.
    Refused { path: PathBuf, why: Trouble },
    /// The file is there and is damaged, and so is every copy, or there is none.
    Lost { path: PathBuf, why: Trouble },
}

impl fmt::Display for LoadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing { path } => write!(
                f,
                "\"{}\": there is no such file, expected a job: make one with \"bendmark new\"",
                shown(path)
            ),
            Self::Refused { path, why } => write!(f, "\"{}\": {why}", shown(path)),
            Self::Lost { path, why } => write!(
                f,
                "\"{}\": {why}; no readable copy of it is there, expected a job file",
                shown(path)
            ),
        }
    }
}

impl std::error::Error for LoadError {}

/// The job in the file at `path`, or in the best of its copies where the file
/// is missing or damaged.
///
/// # Errors
/// [`LoadError`]; a file of another version, or one that is whole and yet not
/// understood, was written by another program and is refused rather than passed
/// over for a copy.
pub fn load<F: Fs>(fs: &F, path: &Path) -> Result<Loaded, LoadError> {
    // Copies lie beside the file itself, not beside a link to it.
    let own = fs.resolve(path).unwrap_or_else(|_| path.to_owned());
    let path = path.to_owned();
    let why = match attempt(fs, &own) {
        Ok(read) => return Ok(read.loaded(Source::File)),
        Err(Attempt::Refused(why)) => return Err(LoadError::Refused { path, why }),
        Err(Attempt::Damaged(why)) => why,
    };
    match best_copy(fs, &own) {
        Some((read, copy, rivals)) => Ok(read.loaded(Source::Copy {
            saved: fs.modified(&copy).ok().flatten().map(Utc),
            path: copy,
            why,
            rivals,
        })),
        None if why == Trouble::Missing => Err(LoadError::Missing { path }),
        None => Err(LoadError::Lost { path, why }),
    }
}

/// The readable copy that is as it was saved, and of those the one with most
/// changes in it, whatever the times of the files say: clocks are set wrong.
/// Files of programs that did not count changes stand by what is in them. And
/// how many others have as much in them and are not the same.
fn best_copy<F: Fs>(fs: &F, path: &Path) -> Option<(Read, PathBuf, usize)> {
    let mut best: Option<(Read, PathBuf, usize)> = None;
    for (place, copy) in beside_it(fs, path) {
        let Ok(read) = attempt(fs, &copy) else {
            continue;
        };
        // What was not written to its end was never saved.
        if place == Place::HalfSaved && read.decoded.seal != Seal::Whole {
            continue;
        }
        match &mut best {
            Some((known, ..)) if read.rank() < known.rank() => {}
            Some((known, _, rivals)) if read.rank() == known.rank() => {
                *rivals += usize::from(read.decoded.job != known.decoded.job);
            }
            _ => best = Some((read, copy, 0)),
        }
    }
    best
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

/// A file that was read.
struct Read {
    decoded: Decoded,
    content: Vec<u8>,
}

impl Read {
    /// The more is in it, the greater.
    fn rank(&self) -> (bool, u64, usize) {
        let job = &self.decoded.job;
        let much = job.events().len() + job.readings();
        (self.decoded.seal == Seal::Whole, job.changes(), much)
    }

    fn loaded(self, from: Source) -> Loaded {
        let Decoded { job, seal, version } = self.decoded;
        Loaded {
            job,
            seal,
            from,
            version,
            content: self.content,
        }
    }
}

/// Why one file was not.
enum Attempt {
    /// The copies are worth a look.
    Damaged(Trouble),
    /// They are not.
    Refused(Trouble),
}

fn attempt<F: Fs>(fs: &F, path: &Path) -> Result<Read, Attempt> {
    let content = fs.read(path, MOST_BYTES).map_err(|error| {
        let trouble = unread(&error);
        match error.kind() {
            ErrorKind::PermissionDenied
            | ErrorKind::FileTooLarge
            | ErrorKind::IsADirectory
            | ErrorKind::NotADirectory => Attempt::Refused(trouble),
            _ => Attempt::Damaged(trouble),
        }
    })?;
    match job_file::decode(&content) {
        Ok(decoded) => Ok(Read { decoded, content }),
        Err(error) => {
            let other = matches!(error, DecodeError::OtherVersion { .. });
            let whole = job_file::seal_of(&content) == Seal::Whole;
            let trouble = Trouble::Damaged(error);
            Err(if other || whole {
                Attempt::Refused(trouble)
            } else {
                Attempt::Damaged(trouble)
            })
        }
    }
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

/// What a checksum line that is not right means; empty where it is.
pub const fn edited(seal: Seal) -> &'static str {
    match seal {
        Seal::Whole => "",
        Seal::Missing => "its checksum line is missing: edited by hand or damaged",
        Seal::Mismatch => "it does not match its checksum line: edited by hand or damaged",
    }
}
