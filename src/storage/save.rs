//! The save recipe: after it has returned, losing power loses nothing.
//!
//! Resolve links; write a new file in the same folder and sync it; keep the
//! last file as `.bak`; rename the new one over; sync the folder.
//!
//! Invariant: at every moment the file or its `.bak` can be read. A file that
//! cannot be read never becomes the `.bak` and is never overwritten.

use super::copies::{backup_path, new_temp, set_aside};
use super::fs::{Fs, MOST_BYTES, folder_of, words};
use super::job_file::{self, Seal};
use std::fmt;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// A step of the recipe.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum SaveStep {
    /// Finding the file behind links.
    Resolve,
    /// Making the new file.
    Create,
    /// Writing it.
    Write,
    /// Waiting until it is on the disk.
    Sync,
    /// Keeping the last file.
    Keep,
    /// Putting the new one in its place.
    Rename,
    /// Waiting until the names are on the disk.
    SyncFolder,
}

impl SaveStep {
    /// In words, as in "could not be saved while ...".
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Resolve => "finding its folder",
            Self::Create => "making a new file beside it",
            Self::Write => "writing the new file",
            Self::Sync => "syncing the new file",
            Self::Keep => "keeping the last file",
            Self::Rename => "putting the new file in its place",
            Self::SyncFolder => "syncing the folder",
        }
    }
}

/// Why a file was not saved. The one of before is still there, under its own
/// name or as `.bak`.
#[derive(Debug)]
pub enum SaveError {
    /// Something of that name is there and must not be overwritten.
    Taken {
        /// What is there.
        path: PathBuf,
    },
    /// A step failed.
    Failed {
        /// The file that was to be saved.
        path: PathBuf,
        /// Where in the recipe.
        step: SaveStep,
        /// What the system said.
        source: io::Error,
    },
}

impl fmt::Display for SaveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Taken { path } => write!(
                f,
                "\"{}\" is already there, expected a name not yet taken: open it, or choose another",
                path.display()
            ),
            Self::Failed { path, step, source } => write!(
                f,
                "\"{}\" could not be saved while {}: {}",
                path.display(),
                step.words(),
                words(source)
            ),
        }
    }
}

impl std::error::Error for SaveError {}

/// What a step came to, before the path is known to the message.
type Step<T> = Result<T, (SaveStep, io::Error)>;

trait At<T> {
    fn at(self, step: SaveStep) -> Step<T>;
}

impl<T> At<T> for io::Result<T> {
    fn at(self, step: SaveStep) -> Step<T> {
        self.map_err(|error| (step, error))
    }
}

/// Puts `bytes` in the place of the file at `path` and keeps that as `.bak`.
///
/// A file there that is no job file any more is set aside under another name.
///
/// # Errors
/// [`SaveError::Failed`] with the step and what the system said.
pub fn save<F: Fs>(fs: &F, path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    named(path, || {
        let path = fs.resolve(path).at(SaveStep::Resolve)?;
        let temp = written(fs, &path, bytes)?;
        let kept = keep_last(fs, &path, &temp).and_then(|()| put(fs, &temp, &path));
        cleared(fs, &temp, kept)
    })
}

/// Puts `bytes` in the place of the file at `path`, without keeping that.
///
/// # Errors
/// As [`save`].
pub fn replace<F: Fs>(fs: &F, path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    named(path, || {
        let path = fs.resolve(path).at(SaveStep::Resolve)?;
        let temp = written(fs, &path, bytes)?;
        cleared(fs, &temp, put(fs, &temp, &path))
    })
}

/// Writes `bytes` to a file at `path` that is not there yet.
///
/// # Errors
/// [`SaveError::Taken`] where something of that name, or a `.bak` of it, is
/// there; else as [`save`].
pub fn create<F: Fs>(fs: &F, path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    // The next save would write over a `.bak` whose own file was lost.
    for taken in [path.to_owned(), backup_path(path)] {
        if fs.exists(&taken).unwrap_or(false) {
            return Err(SaveError::Taken { path: taken });
        }
    }
    let made = named(path, || {
        let path = fs.resolve(path).at(SaveStep::Resolve)?;
        let temp = written(fs, &path, bytes)?;
        // Unlike a rename, a link fails where the name was taken meanwhile.
        let linked = match fs.hard_link(&temp, &path) {
            Err(error) if error.kind() != ErrorKind::AlreadyExists => {
                create_in_place(fs, &path, bytes)
            }
            linked => linked.at(SaveStep::Rename),
        };
        let _ = fs.remove(&temp);
        linked?;
        fs.sync_folder(folder_of(&path)).at(SaveStep::SyncFolder)
    });
    match made {
        Err(SaveError::Failed { path, source, .. })
            if source.kind() == ErrorKind::AlreadyExists =>
        {
            Err(SaveError::Taken { path })
        }
        made => made,
    }
}

fn named(path: &Path, steps: impl FnOnce() -> Step<()>) -> Result<(), SaveError> {
    steps().map_err(|(step, source)| SaveError::Failed {
        path: path.to_owned(),
        step,
        source,
    })
}

/// A new file beside `path` with `bytes` in it, on the disk.
///
/// A file whose sync has failed may seem well on the next try although its
/// content is lost, so the one further try is made on another.
fn written<F: Fs>(fs: &F, path: &Path, bytes: &[u8]) -> Step<PathBuf> {
    match written_once(fs, path, bytes) {
        Err((SaveStep::Sync, _)) => written_once(fs, path, bytes),
        done => done,
    }
}

fn written_once<F: Fs>(fs: &F, path: &Path, bytes: &[u8]) -> Step<PathBuf> {
    let (mut file, temp) = new_temp(fs, path).at(SaveStep::Create)?;
    let done = fs
        .write_all(&mut file, bytes)
        .at(SaveStep::Write)
        .and_then(|()| fs.sync_all(&mut file).at(SaveStep::Sync));
    drop(file);
    cleared(fs, &temp, done)?;
    Ok(temp)
}

/// Passes `done` on; the file at `temp` goes where it failed. If it cannot be
/// removed either, it lies there, and the next save takes another name.
fn cleared<F: Fs, T>(fs: &F, temp: &Path, done: Step<T>) -> Step<T> {
    if done.is_err() {
        let _ = fs.remove(temp);
    }
    done
}

fn put<F: Fs>(fs: &F, temp: &Path, path: &Path) -> Step<()> {
    fs.rename(temp, path).at(SaveStep::Rename)?;
    fs.sync_folder(folder_of(path)).at(SaveStep::SyncFolder)
}

/// Keeps the file at `path`, if there is one, as `.bak`; or sets it aside where
/// it is no job file any more, so that a good `.bak` stays.
fn keep_last<F: Fs>(fs: &F, path: &Path, temp: &Path) -> Step<()> {
    let last = match fs.read(path, MOST_BYTES) {
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
        last => last.at(SaveStep::Keep)?,
    };
    // Without the right to, the new file keeps the rights of new files.
    let _ = fs.match_permissions(path, temp);
    let readable = job_file::seal_of(&last) == Seal::Whole || job_file::decode(&last).is_ok();
    if !readable {
        return set_aside(fs, path).map(|_| ()).at(SaveStep::Keep);
    }
    let backup = backup_path(path);
    match fs.remove(&backup) {
        Err(error) if error.kind() != ErrorKind::NotFound => return Err(error).at(SaveStep::Keep),
        _ => {}
    }
    match fs.hard_link(path, &backup) {
        Ok(()) => Ok(()),
        // No hard links here: a copy, complete before it gets the name.
        Err(_) => {
            let copy = written(fs, &backup, &last)?;
            let renamed = fs.rename(&copy, &backup).at(SaveStep::Keep);
            cleared(fs, &copy, renamed)
        }
    }
}

/// Where there are no hard links: straight under the name, removed again where
/// that fails, as nothing was there before.
fn create_in_place<F: Fs>(fs: &F, path: &Path, bytes: &[u8]) -> Step<()> {
    let mut file = fs.create_new(path).at(SaveStep::Create)?;
    let done = fs
        .write_all(&mut file, bytes)
        .at(SaveStep::Write)
        .and_then(|()| fs.sync_all(&mut file).at(SaveStep::Sync));
    drop(file);
    cleared(fs, path, done)
}
