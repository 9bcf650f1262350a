//! A disk that fails when it is told to.

use bendmark::storage::files::{Fs, RealFs};
use std::cell::Cell;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// The machine's disk, but for what is set to go wrong.
pub(crate) struct BadFs {
    /// The operation of this number fails, counted from 1; none where 0.
    pub(crate) fails_at: usize,
    /// With which error.
    pub(crate) error: io::ErrorKind,
    /// With which number, where that is another way to say it.
    pub(crate) number: Option<i32>,
    /// Whether that operation was the sync of a folder.
    pub(crate) at_folder: Cell<bool>,
    /// Whether there are hard links.
    pub(crate) links: bool,
    /// Whether a file ever gets to the disk.
    pub(crate) syncs: bool,
    /// How many operations there were.
    pub(crate) operations: Cell<usize>,
    /// How many files were made.
    pub(crate) created: Cell<usize>,
}

impl BadFs {
    pub(crate) fn failing_at(fails_at: usize) -> Self {
        Self {
            fails_at,
            error: io::ErrorKind::StorageFull,
            number: None,
            at_folder: Cell::new(false),
            links: true,
            syncs: true,
            operations: Cell::new(0),
            created: Cell::new(0),
        }
    }

    fn step<T>(&self, done: impl FnOnce() -> io::Result<T>) -> io::Result<T> {
        self.operations.set(self.operations.get() + 1);
        if self.operations.get() == self.fails_at {
            let numbered = self.number.map(io::Error::from_raw_os_error);
            return Err(numbered.unwrap_or_else(|| self.error.into()));
        }
        done()
    }
}

impl Fs for BadFs {
    type File = fs::File;
    fn read(&self, path: &Path, cap: u64) -> io::Result<Vec<u8>> {
        self.step(|| RealFs.read(path, cap))
    }
    fn create_new(&self, path: &Path) -> io::Result<fs::File> {
        self.created.set(self.created.get() + 1);
        self.step(|| RealFs.create_new(path))
    }
    fn write_all(&self, file: &mut fs::File, bytes: &[u8]) -> io::Result<()> {
        self.step(|| RealFs.write_all(file, bytes))
    }
    fn sync_all(&self, file: &mut fs::File) -> io::Result<()> {
        if self.syncs {
            self.step(|| RealFs.sync_all(file))
        } else {
            Err(io::Error::other("Input/output error"))
        }
    }
    fn match_permissions(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step(|| RealFs.match_permissions(from, to))
    }
    fn hard_link(&self, from: &Path, to: &Path) -> io::Result<()> {
        if self.links {
            self.step(|| RealFs.hard_link(from, to))
        } else {
            Err(io::ErrorKind::Unsupported.into())
        }
    }
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step(|| RealFs.rename(from, to))
    }
    fn remove(&self, path: &Path) -> io::Result<()> {
        self.step(|| RealFs.remove(path))
    }
    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        self.at_folder
            .set(self.operations.get() + 1 == self.fails_at);
        self.step(|| RealFs.sync_folder(folder))
    }
    fn create_folder(&self, folder: &Path) -> io::Result<()> {
        self.step(|| RealFs.create_folder(folder))
    }
    fn resolve(&self, path: &Path) -> io::Result<PathBuf> {
        self.step(|| RealFs.resolve(path))
    }
    fn names(&self, folder: &Path) -> io::Result<Vec<std::ffi::OsString>> {
        self.step(|| RealFs.names(folder))
    }
    fn modified(&self, path: &Path) -> io::Result<Option<i64>> {
        self.step(|| RealFs.modified(path))
    }
    fn exists(&self, path: &Path) -> io::Result<bool> {
        self.step(|| RealFs.exists(path))
    }
}
