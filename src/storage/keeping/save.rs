//! The save recipe: after it has returned, losing power loses nothing.
//!
//! Resolve links; write a new file in the same folder and sync it; keep the
//! last file as `.bak`; rename the new one over; sync the folder.
//!
//! Invariant: at every moment the file or its `.bak` can be read. A file that
//! cannot be read never becomes the `.bak` and is never overwritten; nor is one
//! that another program wrote, where the saver knows what should be there.

use super::{
    content::Content,
    copies::{Aside, backup_path, new_temp, older_path, set_aside},
    save_error::{SaveError, SaveStep},
    versions,
};
use crate::domain::bench::Utc;
use crate::storage::files::{Confirmed, Fingerprint, Fs, MOST_BYTES, confirmed, folder_of, words};
use crate::storage::job_file::{self, Seal};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// What a save relies on where it finds a file.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Last {
    /// Any job file may be followed by the new one.
    Any,
    /// There was no file; with one that came back nothing is done.
    Absent,
    /// There was no file; one that came back is set aside first.
    AbsentOrAside,
    /// Only this content; with any other nothing is done.
    Only(Fingerprint),
    /// Any other content than this is set aside first.
    OrAside(Fingerprint),
}

/// A save and what goes with it.
#[derive(Clone, Copy, Debug)]
pub struct Save<'a> {
    pub path: &'a Path,
    pub bytes: &'a [u8],
    pub last: Last,
    /// Whether what was there before is kept as a version.
    pub keeps_version: bool,
    pub now: Option<Utc>,
    pub backup: Backup,
}

/// What is known of the `.bak` that is there.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Backup {
    /// It is the file of before, and gives way.
    Own,
    /// It may hold more than the file; then it is kept as a version first.
    Unknown,
}

/// What a save came to that is on the disk.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct OnDisk {
    pub content: Fingerprint,
    /// Why what was there before was not kept as a version, where it was to be.
    pub no_copy: Option<String>,
    pub backup: Backup,
    /// Whether the disk says that the file's name is on it.
    pub confirmed: Confirmed,
}

/// What a step came to, before the path is known to the message.
type Step<T> = Result<T, Broken>;

enum Broken {
    At(SaveStep, io::Error),
    Changed,
}

trait At<T> {
    fn at(self, step: SaveStep) -> Step<T>;
}

impl<T> At<T> for io::Result<T> {
    fn at(self, step: SaveStep) -> Step<T> {
        self.map_err(|error| Broken::At(step, error))
    }
}

/// Puts `bytes` in the place of the file at `path` and keeps that as `.bak`.
///
/// A file there that is no job file any more is set aside under another name.
///
/// # Errors
/// [`SaveError::Failed`] with the step and what the system said.
pub fn save<F: Fs>(fs: &F, path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    let save = Save {
        path,
        bytes,
        last: Last::Any,
        keeps_version: false,
        now: None,
        backup: Backup::Own,
    };
    save.run(fs).map(|_| ())
}

impl Save<'_> {
    /// As [`save`], with an eye on what is there.
    ///
    /// # Errors
    /// [`SaveError::Changed`] where it is not what was expected;
    /// [`SaveError::Failed`] with the step and what the system said.
    pub fn run<F: Fs>(self, fs: &F) -> Result<OnDisk, SaveError> {
        let (mut no_copy, mut backup) = (None, self.backup);
        let confirmed = named(self.path, || {
            let path = fs.resolve(self.path).at(SaveStep::Resolve)?;
            let temp = written(fs, &path, self.bytes)?;
            let kept = self.keep_last(fs, &path, &temp).and_then(|last| {
                match last {
                    LastKept::Backup(copied) => {
                        backup = Backup::Own;
                        no_copy = copied.err();
                    }
                    LastKept::NotAt(error) => no_copy = Some(error),
                    LastKept::Elsewhere => {}
                }
                put(fs, &temp, &path)
            });
            cleared(fs, &temp, kept)
        })?;
        Ok(OnDisk {
            content: Fingerprint::of(self.bytes),
            no_copy: no_copy.map(|error| words(&error)),
            backup,
            confirmed,
        })
    }

    /// Keeps the file at `path`, if there is one, as `.bak`; or sets it aside
    /// where it is no job file any more, so that a good `.bak` stays.
    fn keep_last<F: Fs>(&self, fs: &F, path: &Path, temp: &Path) -> Step<LastKept> {
        let last = match fs.read(path, MOST_BYTES) {
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(LastKept::Elsewhere),
            last => last.at(SaveStep::Keep)?,
        };
        // Without the right to, the new file keeps the rights of new files.
        let _ = fs.match_permissions(path, temp);
        let other = |known: Fingerprint| known != Fingerprint::of(&last);
        match self.last {
            Last::Absent => return Err(Broken::Changed),
            Last::Only(known) if other(known) => return Err(Broken::Changed),
            Last::AbsentOrAside => return aside(fs, path, Aside::Other),
            Last::OrAside(known) if other(known) => return aside(fs, path, Aside::Other),
            _ => {}
        }
        let version = job_file::version_of(&last);
        let whole = job_file::seal_of(&last) == Seal::Whole && version.is_some();
        if !whole && job_file::decode(&last).is_err() {
            return aside(fs, path, Aside::Damaged);
        }
        if let Some(version) = version.filter(|version| *version < job_file::VERSION) {
            copy(fs, path, &older_path(path, version), &last)?;
        }
        let backup = backup_path(path);
        if self.backup == Backup::Unknown
            && let Err(error) = self.keep_backup(fs, path, &last, whole)
        {
            // It stays where it is, and the file of before is not kept.
            return Ok(LastKept::NotAt(error));
        }
        match fs.remove(&backup) {
            Err(error) if error.kind() != ErrorKind::NotFound => {
                return Err(error).at(SaveStep::Keep);
            }
            _ => {}
        }
        copy(fs, path, &backup, &last)?;
        let changes = job_file::changes_in(&last);
        Ok(LastKept::Backup(match self.keeps_version {
            true => versions::keep(fs, path, &last, changes, self.now),
            false => Ok(()),
        }))
    }

    /// Keeps the `.bak` of the file `last` as a version, where it may hold more.
    fn keep_backup<F: Fs>(&self, fs: &F, path: &Path, last: &[u8], whole: bool) -> io::Result<()> {
        let bytes = match fs.read(&backup_path(path), MOST_BYTES) {
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
            bytes => bytes?,
        };
        let changes = job_file::changes_in(&bytes);
        let has_more = !whole || changes >= job_file::changes_in(last);
        if has_more && bytes != last && job_file::decode(&bytes).is_ok() {
            versions::keep(fs, path, &bytes, changes, self.now)?;
        }
        Ok(())
    }
}

/// Where the file of before is after a save.
enum LastKept {
    /// In the `.bak`; and whether it is a version too, where it was to be one.
    Backup(io::Result<()>),
    /// Nowhere: the `.bak` that is there holds more and could not be kept.
    NotAt(io::Error),
    /// Under a name of its own, or there was none.
    Elsewhere,
}

/// Its new name is on the disk before the old one is given away, or a crash
/// could leave neither.
fn aside<F: Fs>(fs: &F, path: &Path, why: Aside) -> Step<LastKept> {
    set_aside(fs, path, why)
        .and_then(|_| confirmed(fs.sync_folder(folder_of(path))))
        .map(|_| LastKept::Elsewhere)
        .at(SaveStep::Keep)
}

/// A second name for the file at `path`, whose content is `last`; where there
/// are no hard links a copy, complete before it gets the name. What has the
/// name already is taken for that.
fn copy<F: Fs>(fs: &F, path: &Path, to: &Path, last: &[u8]) -> Step<()> {
    match fs.hard_link(path, to) {
        Ok(()) => Ok(()),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Ok(()),
        Err(_) => {
            let copy = written(fs, to, last)?;
            let renamed = fs.rename(&copy, to).at(SaveStep::Keep);
            cleared(fs, &copy, renamed)
        }
    }
}

/// Puts `bytes` in the place of the file at `path`, without keeping that.
///
/// # Errors
/// As [`save`].
pub fn replace<F: Fs>(
    fs: &F,
    path: &Path,
    bytes: &(impl Content + ?Sized),
) -> Result<(), SaveError> {
    named(path, || {
        let path = fs.resolve(path).at(SaveStep::Resolve)?;
        let temp = written(fs, &path, bytes)?;
        cleared(fs, &temp, put(fs, &temp, &path)).map(|_| ())
    })
}

/// Writes `bytes` to a file at `path` that is not there yet.
///
/// # Errors
/// [`SaveError::Taken`] where something of that name, or a `.bak` of it, is
/// there; else as [`save`].
pub fn create<F: Fs>(
    fs: &F,
    path: &Path,
    bytes: &(impl Content + ?Sized),
) -> Result<(), SaveError> {
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
            // No hard links here: the look before must do.
            Err(error) if error.kind() != ErrorKind::AlreadyExists => {
                fs.rename(&temp, &path).at(SaveStep::Rename)
            }
            linked => linked.at(SaveStep::Rename),
        };
        cleared(fs, &temp, linked)?;
        let _ = fs.remove(&temp);
        in_folder(fs, &path).map(|_| ())
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

fn named<T>(path: &Path, steps: impl FnOnce() -> Step<T>) -> Result<T, SaveError> {
    steps().map_err(|broken| match broken {
        Broken::Changed => SaveError::Changed {
            path: path.to_owned(),
        },
        Broken::At(step, source) => SaveError::Failed {
            path: path.to_owned(),
            step,
            source,
        },
    })
}

/// A new file beside `path` with `bytes` in it, on the disk.
///
/// A file whose sync has failed may seem well on the next try although its
/// content is lost, so the one further try is made on another.
fn written<F: Fs>(fs: &F, path: &Path, bytes: &(impl Content + ?Sized)) -> Step<PathBuf> {
    match written_once(fs, path, bytes) {
        Err(Broken::At(SaveStep::Sync, _)) => written_once(fs, path, bytes),
        done => done,
    }
}

fn written_once<F: Fs>(fs: &F, path: &Path, bytes: &(impl Content + ?Sized)) -> Step<PathBuf> {
    let (mut file, temp) = new_temp(fs, path).at(SaveStep::Create)?;
    let done = bytes
        .write_to(&mut |part| fs.write_all(&mut file, part))
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

fn put<F: Fs>(fs: &F, temp: &Path, path: &Path) -> Step<Confirmed> {
    fs.rename(temp, path).at(SaveStep::Rename)?;
    in_folder(fs, path)
}

/// The name at `path` is on the disk, as far as the disk says such things.
fn in_folder<F: Fs>(fs: &F, path: &Path) -> Step<Confirmed> {
    confirmed(fs.sync_folder(folder_of(path))).at(SaveStep::SyncFolder)
}
