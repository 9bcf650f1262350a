//! Who may write a job: the one that holds the lock file beside it.
//!
//! The lock is the system's and goes with the program, however that ends; the
//! file itself says nothing. Two programs that both respect it never write the
//! same job; what others do is found by the file's content
//! ([`crate::storage::keeping::Last`]).

use super::patience::name_patiently;
use std::ffi::OsString;
use std::fs::{File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// How often a lock file that vanishes meanwhile is made anew.
const MOST_TRIES: usize = 20;

/// A lock that is held until it is dropped.
#[derive(Debug)]
pub struct Lock {
    /// There until it is dropped.
    file: Option<File>,
    path: PathBuf,
}

/// Why a lock was not taken.
#[derive(Debug)]
pub enum LockError {
    /// Another program, or another place in this one, holds it.
    InUse,
    /// Its file cannot be made, opened or locked; what the system said.
    Failed(io::Error),
    /// This disk knows no locks.
    Unknown,
}

impl Lock {
    /// The lock of the job whose own file (not a link to it) is at `job`.
    ///
    /// # Errors
    /// [`LockError::InUse`] at once where it is held; it does not wait.
    pub fn take(job: &Path) -> Result<Self, LockError> {
        let path = lock_path(job);
        for _ in 0..MOST_TRIES {
            let file = open(&path).map_err(LockError::Failed)?;
            match file.try_lock() {
                Ok(()) => {}
                Err(TryLockError::WouldBlock) => return Err(LockError::InUse),
                Err(TryLockError::Error(error)) if is_unknown(&error) => {
                    return Err(LockError::Unknown);
                }
                Err(TryLockError::Error(error)) => return Err(LockError::Failed(error)),
            }
            // Whoever held it before has taken the name away: this one is
            // locked, but the next program would lock another.
            if is_at(&file, &path) {
                let file = Some(file);
                return Ok(Self { file, path });
            }
        }
        Err(LockError::InUse)
    }
}

/// Whether somebody holds the lock of the job at `job`. To find out it is taken
/// for a moment where a lock file lies there, and nowhere else.
pub fn is_held(job: &Path) -> bool {
    let path = lock_path(job);
    if !path.exists() {
        return false;
    }
    let Ok(file) = open(&path) else { return true };
    let held = matches!(file.try_lock(), Err(TryLockError::WouldBlock));
    let _ = file.unlock();
    held
}

/// What "no locks available" is to Unix, as a network folder's server says it
/// that has none: on Linux, and on the systems from Berkeley.
const NO_LOCKS: [i32; 2] = [37, 77];

/// Whether a disk says by it that it knows no locks.
fn is_unknown(error: &io::Error) -> bool {
    let numbered = |number| cfg!(unix) && NO_LOCKS.contains(&number);
    matches!(
        error.kind(),
        ErrorKind::Unsupported | ErrorKind::InvalidInput
    ) || error.raw_os_error().is_some_and(numbered)
}

impl Drop for Lock {
    fn drop(&mut self) {
        if let Some(file) = self.file.take() {
            let_go(file, &self.path);
        }
    }
}

/// Unlocks the file and takes its name away.
#[cfg(unix)]
fn let_go(file: File, path: &Path) {
    // Locked still, so that whoever locks it next sees that the name is gone.
    if is_at(&file, path) {
        let _ = std::fs::remove_file(path);
    }
    drop(file);
}

/// The same where a name may go while others have the file open: it goes only
/// where nobody has, and nobody can open it on its way out. One that stays holds
/// nothing.
#[cfg(windows)]
fn let_go(file: File, path: &Path) {
    use std::os::windows::fs::OpenOptionsExt;
    const DELETE: u32 = 0x0001_0000;
    const DELETE_ON_CLOSE: u32 = 0x0400_0000;
    drop(file);
    let mut alone = OpenOptions::new();
    alone.access_mode(DELETE).share_mode(0);
    let _ = alone.custom_flags(DELETE_ON_CLOSE).open(path);
}

/// `job.ron.lock` beside `job.ron`.
pub fn lock_path(job: &Path) -> PathBuf {
    let mut name = job.file_name().map_or_else(OsString::new, OsString::from);
    name.push(".lock");
    job.with_file_name(name)
}

fn open(path: &Path) -> io::Result<File> {
    // Neither through a link nor into a pipe that never opens.
    match std::fs::symlink_metadata(path) {
        Ok(about) if !about.is_file() => {
            return Err(io::Error::other(
                "something else has the name of its lock file",
            ));
        }
        _ => {}
    }
    let mut options = OpenOptions::new();
    options.write(true).create(true).truncate(false);
    name_patiently(|| options.open(path))
}

#[cfg(unix)]
fn is_at(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let same = |one: std::fs::Metadata, other: std::fs::Metadata| {
        (one.dev(), one.ino()) == (other.dev(), other.ino())
    };
    match (file.metadata(), std::fs::symlink_metadata(path)) {
        (Ok(one), Ok(other)) => same(one, other),
        _ => false,
    }
}

/// A name goes only while nobody has the file open.
#[cfg(windows)]
const fn is_at(_: &File, _: &Path) -> bool {
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lock_is_held_by_one_and_free_again_when_let_go() {
        let folder = tempfile::tempdir().unwrap();
        let job = folder.path().join("job.ron");
        let first = Lock::take(&job).unwrap();
        assert!(matches!(Lock::take(&job), Err(LockError::InUse)));
        drop(first);
        assert!(!lock_path(&job).exists());
        Lock::take(&job).unwrap();
    }

    #[test]
    fn a_lock_file_left_behind_holds_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let job = folder.path().join("job.ron");
        std::fs::write(lock_path(&job), "").unwrap();
        Lock::take(&job).unwrap();
    }

    #[test]
    fn where_there_is_no_folder_there_is_no_lock() {
        let job = Path::new("no such folder/job.ron");
        assert!(matches!(Lock::take(job), Err(LockError::Failed(_))));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_in_the_place_of_the_lock_is_not_followed() {
        let folder = tempfile::tempdir().unwrap();
        let job = folder.path().join("job.ron");
        std::os::unix::fs::symlink("elsewhere", lock_path(&job)).unwrap();
        assert!(matches!(Lock::take(&job), Err(LockError::Failed(_))));
        assert!(!folder.path().join("elsewhere").exists());
    }
}
