//! Where a job's copies stand beside it, and how a file that is in the way gets
//! out of it without being lost.

use crate::storage::files::Fs;
use std::ffi::OsString;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// How many names of a kind are tried before giving up.
const MOST_NAMES: usize = 1_000;

/// The copy of the last file: `job.ron.bak` beside `job.ron`.
pub fn backup_path(path: &Path) -> PathBuf {
    beside(path, ".bak")
}

/// A name beside `path` for the job on the screen where another program's file
/// is opened in its place: `job.ron.on-screen-1`, one that is not taken. It is a job
/// file and opens as such.
pub fn on_screen_path<F: Fs>(fs: &F, path: &Path) -> PathBuf {
    (1..MOST_NAMES)
        .map(|count| beside(path, &format!(".on-screen-{count}")))
        .find(|ours| !fs.exists(ours).unwrap_or(true))
        .unwrap_or_else(|| beside(path, &format!(".on-screen-{MOST_NAMES}")))
}

/// `path` with `end` behind its file name.
pub(super) fn beside(path: &Path, end: &str) -> PathBuf {
    let mut name = path.file_name().map_or_else(OsString::new, OsString::from);
    name.push(end);
    path.with_file_name(name)
}

/// A new file beside `path` for what will take its place.
///
/// # Errors
/// What the system says; in words where a thousand such files lie there from
/// crashes.
pub(super) fn new_temp<F: Fs>(fs: &F, path: &Path) -> io::Result<(F::File, PathBuf)> {
    for count in 1..=MOST_NAMES {
        let temp = beside(path, &format!(".new-{count}"));
        match fs.create_new(&temp) {
            Ok(file) => return Ok((file, temp)),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Err(io::Error::other(format!(
        "{MOST_NAMES} files whose names end in .new- and a number lie beside it: take them away"
    )))
}

/// Why a file gets a name of its own.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(crate) enum Aside {
    /// It cannot be read as a job any more.
    Damaged,
    /// Another program wrote it while the job was open here.
    Other,
}

impl Aside {
    const fn word(self) -> &'static str {
        match self {
            Self::Damaged => "damaged",
            Self::Other => "other",
        }
    }
}

/// Gives the file at `path` a name of its own, `job.ron.damaged-1`, and says
/// which; nothing of that name is overwritten.
///
/// # Errors
/// What the system says; [`ErrorKind::AlreadyExists`] where a thousand such
/// files lie there already.
pub(crate) fn set_aside<F: Fs>(fs: &F, path: &Path, why: Aside) -> io::Result<PathBuf> {
    for count in 1..=MOST_NAMES {
        let aside = beside(path, &format!(".{}-{count}", why.word()));
        if !fs.exists(&aside)? {
            fs.rename(path, &aside)?;
            return Ok(aside);
        }
    }
    Err(ErrorKind::AlreadyExists.into())
}

/// The file as an older version of the program wrote it: `job.ron.version-1`.
pub fn older_path(path: &Path, version: u32) -> PathBuf {
    beside(path, &format!(".version-{version}"))
}

/// The folder in which a job's versions are: `copies`, beside it.
pub fn copies_folder(path: &Path) -> PathBuf {
    path.with_file_name("copies")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::storage::files::RealFs;

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
            asides.push(set_aside(&RealFs, &path, Aside::Damaged).unwrap());
        }
        let contents: Vec<_> = asides
            .iter()
            .map(|aside| std::fs::read_to_string(aside).unwrap())
            .collect();
        assert_eq!(contents, ["one", "two"]);
    }
}
