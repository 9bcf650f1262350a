//! A job that may only be read: why, what its file has become since, and
//! whether the other program has let it go.
//!
//! It looks and never writes; whoever wants to work on the job opens it again.

use super::{
    leftovers::room_beside,
    load::{Loaded, Source, load},
};
use crate::domain::measure::cleaned;
use crate::storage::files::{
    Fingerprint, Lock, LockError, RealFs, folder_of, is_held, lock_path, words,
};
use std::fmt;
use std::fs::{File, Metadata, OpenOptions, metadata, symlink_metadata};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// What can be seen of a file without reading it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Look {
    bytes: u64,
    written: Option<(i64, i64)>,
    number: u64,
}

/// Why a job may only be read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Barred {
    /// Another program, or another place in this one, has it open.
    InUse,
    /// What keeps it from being written, in words.
    Because(String),
}

impl fmt::Display for Barred {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::InUse => f.write_str("another bendmark has this job open"),
            Self::Because(why) => f.write_str(why),
        }
    }
}

/// A job's file that is only read.
#[derive(Debug)]
pub struct Watch {
    path: PathBuf,
    /// Why it is not written.
    pub why: Barred,
    look: Option<Look>,
    content: Fingerprint,
    /// Whether it was free for work when that was last asked.
    is_free: bool,
}

impl Watch {
    pub(super) fn of(path: &Path, loaded: &Loaded, why: Barred) -> Self {
        Self {
            path: path.to_owned(),
            why,
            look: look(path),
            content: Fingerprint::of(&loaded.content),
            is_free: false,
        }
    }

    /// The job as it stands in its file now, where that is another than the one
    /// read last.
    pub fn newer(&mut self) -> Option<Loaded> {
        let now = look(&self.path);
        if now.is_none() || now == self.look {
            return None;
        }
        self.look = now;
        let loaded = load(&RealFs, &self.path).ok()?;
        let content = Fingerprint::of(&loaded.content);
        let is_new = loaded.from == Source::File && content != self.content;
        self.content = if is_new { content } else { self.content };
        is_new.then_some(loaded)
    }

    /// Whether the other program has let the job go, or one has it again; only
    /// where that is news.
    pub fn freed(&mut self) -> Option<bool> {
        if self.why != Barred::InUse {
            return None;
        }
        let free = !is_held(&self.path);
        (std::mem::replace(&mut self.is_free, free) != free).then_some(free)
    }
}

/// The lock of the job whose own file is at `path`; none where the disk knows
/// no locks.
///
/// # Errors
/// Why nothing may be written there, by this program now.
pub(super) fn to_write(path: &Path) -> Result<Option<Lock>, Barred> {
    let lock = match Lock::take(path) {
        Ok(lock) => Some(lock),
        Err(LockError::InUse) => return Err(Barred::InUse),
        Err(LockError::Unknown) => None,
        Err(LockError::Failed(error)) => return Err(Barred::Because(no_lock(path, &error))),
    };
    match protected(path) {
        Some(why) => Err(Barred::Because(why)),
        None => Ok(lock),
    }
}

/// Why the lock file beside `path` could not be opened.
fn no_lock(path: &Path, error: &io::Error) -> String {
    let lock = lock_path(path);
    // One that is there belongs to somebody; one that is not cannot be made.
    if error.kind() == ErrorKind::PermissionDenied && symlink_metadata(&lock).is_ok() {
        let name = cleaned(&lock.file_name().unwrap_or_default().to_string_lossy());
        return format!(
            "\"{name}\" beside it may not be opened: another user has this job open, or left that file behind"
        );
    }
    protected(path).unwrap_or_else(|| words(error))
}

/// What keeps a file, or any beside it, from being written; found by asking the
/// system, and by the rights that were taken away from everybody, which the
/// superuser is not held to and means all the same.
fn protected(path: &Path) -> Option<String> {
    let about = metadata(path).ok().filter(Metadata::is_file);
    if about.is_some_and(|about| {
        let open = || OpenOptions::new().write(true).open(path);
        about.permissions().readonly()
            || open().is_err_and(|error| error.kind() == ErrorKind::PermissionDenied)
    }) {
        return Some("its file is write-protected".to_owned());
    }
    let folder = metadata(folder_of(path));
    let is_closed = folder.is_ok_and(|about| cfg!(unix) && about.permissions().readonly());
    match room_beside(&RealFs, path) {
        Err(error) if error.kind() == ErrorKind::PermissionDenied => {
            Some("its folder is write-protected".to_owned())
        }
        _ if is_closed => Some("its folder is write-protected".to_owned()),
        // Else no name in it could be brought onto the disk for sure.
        Ok(()) if !can_be_synced(folder_of(path)) => Some("its folder may not be read".to_owned()),
        done => done.err().map(|error| words(&error)),
    }
}

fn can_be_synced(folder: &Path) -> bool {
    let opened = File::open(folder);
    cfg!(not(unix)) || !opened.is_err_and(|error| error.kind() == ErrorKind::PermissionDenied)
}

pub(super) fn look(path: &Path) -> Option<Look> {
    symlink_metadata(path).ok().map(|about| look_of(&about))
}

#[cfg(unix)]
fn look_of(about: &Metadata) -> Look {
    use std::os::unix::fs::MetadataExt;
    Look {
        bytes: about.len(),
        written: Some((about.mtime(), about.mtime_nsec())),
        number: about.ino(),
    }
}

/// There is no number to ask for, there; a file in another's place was made at
/// another time, but where that one has only just gone.
#[cfg(windows)]
fn look_of(about: &Metadata) -> Look {
    use std::os::windows::fs::MetadataExt;
    let written = i64::try_from(about.last_write_time());
    Look {
        bytes: about.len(),
        written: written.ok().map(|written| (written, 0)),
        number: about.creation_time(),
    }
}
