//! Where a job's copies stand beside it, and how a damaged file gets out of the
//! way without being lost.

use super::fs::Fs;
use std::ffi::OsString;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// How many names of a kind are tried before giving up.
const MOST_NAMES: usize = 1_000;

/// The copy of the last file: `job.ron.bak` beside `job.ron`.
#[must_use]
pub fn backup_path(path: &Path) -> PathBuf {
    beside(path, ".bak")
}

/// `path` with `end` behind its file name.
fn beside(path: &Path, end: &str) -> PathBuf {
    let mut name = path.file_name().map_or_else(OsString::new, OsString::from);
    name.push(end);
    path.with_file_name(name)
}

/// A new file beside `path` for what will take its place.
///
/// # Errors
/// What the system says; [`ErrorKind::AlreadyExists`] where a thousand such
/// files lie there from crashes.
pub(super) fn new_temp<F: Fs>(fs: &F, path: &Path) -> io::Result<(F::File, PathBuf)> {
    for count in 1..=MOST_NAMES {
        let temp = beside(path, &format!(".new-{count}"));
        match fs.create_new(&temp) {
            Ok(file) => return Ok((file, temp)),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Err(ErrorKind::AlreadyExists.into())
}

/// Gives the file at `path` a name of its own, `job.ron.damaged-1`, and says
/// which; nothing of that name is overwritten.
///
/// # Errors
/// What the system says; [`ErrorKind::AlreadyExists`] where a thousand such
/// files lie there already.
pub fn set_aside<F: Fs>(fs: &F, path: &Path) -> io::Result<PathBuf> {
    for count in 1..=MOST_NAMES {
        let aside = beside(path, &format!(".damaged-{count}"));
        if !fs.exists(&aside)? {
            fs.rename(path, &aside)?;
            return Ok(aside);
        }
    }
    Err(ErrorKind::AlreadyExists.into())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::storage::fs::RealFs;

    #[test]
    fn copies_stand_beside_the_file_under_its_whole_name() {
        assert_eq!(
            backup_path(Path::new("a.b/Cedar Lane.ron")),
            Path::new("a.b/Cedar Lane.ron.bak")
        );
        assert_eq!(backup_path(Path::new("job")), Path::new("job.bak"));
    }

    #[test]
    fn a_second_damaged_file_does_not_cover_the_first() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("job.ron");
        let mut asides = Vec::new();
        for content in ["one", "two"] {
            std::fs::write(&path, content).unwrap();
            asides.push(set_aside(&RealFs, &path).unwrap());
        }
        let contents: Vec<_> = asides
            .iter()
            .map(|aside| std::fs::read_to_string(aside).unwrap())
            .collect();
        assert_eq!(contents, ["one", "two"]);
    }
}
