//! The few file operations that saving and loading are made of.
//!
//! Everything above goes through [`Fs`], so that a simulator can stand in for
//! the disk and lose what was not synced. It knows nothing of jobs.

use super::patience::{is_in_use, name_patiently, open_patiently};
use std::ffi::OsString;
use std::fs::{File, OpenOptions};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

/// The most bytes any file may have that is read: 128 MiB.
pub const MOST_BYTES: u64 = 128 * 1024 * 1024;

/// How many links in a row are followed; more are taken for a circle.
const MOST_LINKS: usize = 40;

/// The file operations of the save recipe, each one step a crash can part.
pub trait Fs {
    /// A file open for writing.
    type File;

    /// All bytes of the file at `path`.
    ///
    /// # Errors
    /// [`ErrorKind::FileTooLarge`] where it has more than `cap` bytes, found
    /// before they are read; else what the system says.
    fn read(&self, path: &Path, cap: u64) -> io::Result<Vec<u8>>;

    /// A new, empty file.
    ///
    /// # Errors
    /// [`ErrorKind::AlreadyExists`] where anything has that name already.
    fn create_new(&self, path: &Path) -> io::Result<Self::File>;

    /// Writes all of `bytes`.
    ///
    /// # Errors
    /// What the system says; the file may then hold a part of them.
    fn write_all(&self, file: &mut Self::File, bytes: &[u8]) -> io::Result<()>;

    /// Returns once the file's content is on the disk.
    ///
    /// # Errors
    /// What the system says; the file must not be used any further then.
    fn sync_all(&self, file: &mut Self::File) -> io::Result<()>;

    /// Gives the file at `to` the permissions of the one at `from`.
    ///
    /// # Errors
    /// What the system says.
    fn match_permissions(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// A second name for the same file.
    ///
    /// # Errors
    /// [`ErrorKind::AlreadyExists`] where `to` is taken; else what the system
    /// says, among it that there are no hard links here.
    fn hard_link(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Gives the file another name, over any file of that name.
    ///
    /// # Errors
    /// What the system says.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Takes a file's name away.
    ///
    /// # Errors
    /// What the system says.
    fn remove(&self, path: &Path) -> io::Result<()>;

    /// Returns once the names in `folder` are on the disk.
    ///
    /// # Errors
    /// What the system says.
    fn sync_folder(&self, folder: &Path) -> io::Result<()>;

    /// Makes `folder` and those above it, where they are missing.
    ///
    /// # Errors
    /// What the system says.
    fn create_folder(&self, folder: &Path) -> io::Result<()>;

    /// The absolute path of the file itself that `path` leads to through links;
    /// its folder must exist, the file need not.
    ///
    /// # Errors
    /// What the system says, among it that the folder is missing.
    fn resolve(&self, path: &Path) -> io::Result<PathBuf>;

    /// Whether anything has that name, a link that leads nowhere included.
    ///
    /// # Errors
    /// What the system says.
    fn exists(&self, path: &Path) -> io::Result<bool>;

    /// The names in `folder`, in any order.
    ///
    /// # Errors
    /// What the system says.
    fn names(&self, folder: &Path) -> io::Result<Vec<OsString>>;

    /// When the content of the file at `path` was last written, in seconds
    /// since 1970; `None` where the system does not tell.
    ///
    /// # Errors
    /// What the system says.
    fn modified(&self, path: &Path) -> io::Result<Option<i64>>;
}

/// The file system of the machine.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct RealFs;

impl Fs for RealFs {
    type File = File;

    fn read(&self, path: &Path, cap: u64) -> io::Result<Vec<u8>> {
        // Looked at before it is opened: a pipe may never open, a device never
        // end.
        let about = std::fs::metadata(path)?;
        if about.is_dir() {
            return Err(ErrorKind::IsADirectory.into());
        }
        if !about.is_file() {
            return Err(io::Error::other(
                "it is a pipe or a device, expected a file",
            ));
        }
        if about.len() > cap {
            return Err(ErrorKind::FileTooLarge.into());
        }
        let mut bytes = Vec::with_capacity(usize::try_from(about.len()).unwrap_or(0));
        // The file may grow between the two looks at it.
        open_patiently(|| File::open(path))?
            .take(cap.saturating_add(1))
            .read_to_end(&mut bytes)?;
        if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > cap {
            return Err(ErrorKind::FileTooLarge.into());
        }
        Ok(bytes)
    }

    fn create_new(&self, path: &Path) -> io::Result<File> {
        name_patiently(|| OpenOptions::new().write(true).create_new(true).open(path))
    }

    fn write_all(&self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
        file.write_all(bytes)
    }

    fn sync_all(&self, file: &mut File) -> io::Result<()> {
        file.sync_all()
    }

    fn match_permissions(&self, from: &Path, to: &Path) -> io::Result<()> {
        std::fs::set_permissions(to, std::fs::metadata(from)?.permissions())
    }

    fn hard_link(&self, from: &Path, to: &Path) -> io::Result<()> {
        name_patiently(|| std::fs::hard_link(from, to))?;
        // As for a rename, there: syncing a file syncs its names (from memory).
        if cfg!(windows) {
            open_patiently(|| OpenOptions::new().write(true).open(to))?.sync_all()?;
        }
        Ok(())
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        name_patiently(|| replace(from, to))
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        name_patiently(|| std::fs::remove_file(path))
    }

    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        // A folder cannot be synced on Windows: there a rename returns once the
        // new name is on the disk.
        if cfg!(unix) {
            File::open(folder)?.sync_all()?;
        }
        Ok(())
    }

    fn create_folder(&self, folder: &Path) -> io::Result<()> {
        std::fs::create_dir_all(folder)
    }

    fn resolve(&self, path: &Path) -> io::Result<PathBuf> {
        let mut path = path.to_owned();
        for _ in 0..MOST_LINKS {
            match std::fs::symlink_metadata(&path) {
                Ok(about) if about.is_symlink() => {
                    path = folder_of(&path).join(std::fs::read_link(&path)?);
                }
                Ok(_) => return path.canonicalize(),
                Err(error) if error.kind() == ErrorKind::NotFound => {
                    let name = path.file_name().ok_or(ErrorKind::InvalidFilename)?;
                    return Ok(folder_of(&path).canonicalize()?.join(name));
                }
                Err(error) => return Err(error),
            }
        }
        Err(io::Error::other("links that lead in a circle"))
    }

    fn exists(&self, path: &Path) -> io::Result<bool> {
        match std::fs::symlink_metadata(path) {
            Ok(_) => Ok(true),
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
            Err(error) => Err(error),
        }
    }

    fn names(&self, folder: &Path) -> io::Result<Vec<OsString>> {
        std::fs::read_dir(folder)?
            .map(|entry| entry.map(|entry| entry.file_name()))
            .collect()
    }

    #[cfg(unix)]
    fn modified(&self, path: &Path) -> io::Result<Option<i64>> {
        use std::os::unix::fs::MetadataExt;
        std::fs::metadata(path).map(|about| Some(about.mtime()))
    }

    #[cfg(windows)]
    fn modified(&self, path: &Path) -> io::Result<Option<i64>> {
        use std::os::windows::fs::MetadataExt;
        // Counted there in tenths of a thousandth of a thousandth, from 1601.
        let seconds = std::fs::metadata(path)?.last_write_time() / 10_000_000;
        let seconds = i64::try_from(seconds).ok();
        Ok(seconds.map(|seconds| seconds - 11_644_473_600))
    }
}

#[cfg(unix)]
use std::fs::rename as replace;

#[cfg(windows)]
use super::windows::replace;

/// Whether a disk says of names that they are on it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Confirmed {
    Yes,
    /// It knows no such thing: some network and stick file systems.
    No,
}

/// What "inappropriate operation" is to Unix, which has no kind of its own.
const INAPPROPRIATE: i32 = 25;

/// What syncing a folder came to. That a disk knows no such thing is no failure:
/// nothing is amiss with what was written, and trying again would not help.
///
/// # Errors
/// Any other than that.
pub fn confirmed(synced: io::Result<()>) -> io::Result<Confirmed> {
    let unknown = |error: &io::Error| {
        matches!(
            error.kind(),
            ErrorKind::InvalidInput | ErrorKind::Unsupported
        ) || cfg!(unix) && error.raw_os_error() == Some(INAPPROPRIATE)
    };
    match synced {
        Err(error) if unknown(&error) => Ok(Confirmed::No),
        synced => synced.map(|()| Confirmed::Yes),
    }
}

/// The folder a file is in; `.` where its path names none.
pub fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// What the system said, in words, with what can be done about it.
pub fn words(error: &io::Error) -> String {
    match error.kind() {
        _ if is_in_use(error) => {
            "another program has the file open, close it there or wait a moment".to_owned()
        }
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
            "the disk is full, make room or save under another path".to_owned()
        }
        ErrorKind::PermissionDenied => {
            "permission denied, choose a folder you may write to".to_owned()
        }
        ErrorKind::ReadOnlyFilesystem => "the disk is read-only, choose another folder".to_owned(),
        ErrorKind::NotFound => {
            "the folder or the disk is gone, bring it back or choose another path".to_owned()
        }
        ErrorKind::FileTooLarge => {
            format!(
                "the file is too large, expected at most {} MiB",
                MOST_BYTES / (1024 * 1024)
            )
        }
        ErrorKind::IsADirectory => "it is a folder, expected a file".to_owned(),
        ErrorKind::NotADirectory => "a part of the path is a file, expected a folder".to_owned(),
        ErrorKind::InvalidFilename => {
            "the file name is too long, with the ends that its copies' names have".to_owned()
        }
        _ => {
            let said = lower(&error.to_string());
            // The number behind it is for programmers.
            said.split(" (os error").next().unwrap_or(&said).to_owned()
        }
    }
}

/// `text` as messages here begin: without a capital.
pub(crate) fn lower(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(char::to_lowercase);
    first.into_iter().flatten().chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_over_the_cap_is_not_read() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a");
        std::fs::write(&path, b"12345").unwrap();
        assert_eq!(RealFs.read(&path, 5).unwrap(), b"12345");
        let error = RealFs.read(&path, 4).unwrap_err();
        assert_eq!(error.kind(), ErrorKind::FileTooLarge);
    }

    #[test]
    fn a_folder_is_no_file() {
        let folder = tempfile::tempdir().unwrap();
        let error = RealFs.read(folder.path(), 4).unwrap_err();
        assert_eq!(words(&error), "it is a folder, expected a file");
    }

    #[test]
    fn a_file_says_when_it_was_written() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a");
        let now = std::time::UNIX_EPOCH.elapsed().unwrap().as_secs();
        std::fs::write(&path, b"").unwrap();
        let written = RealFs.modified(&path).unwrap().unwrap();
        assert!(written.abs_diff(i64::try_from(now).unwrap()) <= 2);
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn what_never_ends_is_not_read() {
        let error = RealFs.read(Path::new("/dev/zero"), 4).unwrap_err();
        assert_eq!(words(&error), "it is a pipe or a device, expected a file");
    }

    #[cfg(unix)]
    #[test]
    fn links_are_followed_also_to_a_file_not_yet_there() {
        let folder = tempfile::tempdir().unwrap();
        let real = folder.path().canonicalize().unwrap().join("real");
        let link = folder.path().join("link");
        std::os::unix::fs::symlink("real", &link).unwrap();
        assert_eq!(RealFs.resolve(&link).unwrap(), real);
        std::fs::write(&real, b"").unwrap();
        assert_eq!(RealFs.resolve(&link).unwrap(), real);
    }

    #[cfg(unix)]
    #[test]
    fn links_in_a_circle_are_refused() {
        let folder = tempfile::tempdir().unwrap();
        let (one, two) = (folder.path().join("one"), folder.path().join("two"));
        std::os::unix::fs::symlink(&two, &one).unwrap();
        std::os::unix::fs::symlink(&one, &two).unwrap();
        assert!(RealFs.resolve(&one).is_err());
    }
}
