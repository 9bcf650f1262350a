//! Where a job's copies stand beside it, and how a file that is in the way gets
//! out of it without being lost.

use crate::storage::files::{Day, Fs, folder_of};
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
/// is opened in its place: `job.ron.ours-1`, one that is not taken. It is a job
/// file and opens as such.
pub fn ours_path<F: Fs>(fs: &F, path: &Path) -> PathBuf {
    (1..MOST_NAMES)
        .map(|count| beside(path, &format!(".ours-{count}")))
        .find(|ours| !fs.exists(ours).unwrap_or(true))
        .unwrap_or_else(|| beside(path, &format!(".ours-{MOST_NAMES}")))
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

/// Why a file gets a name of its own.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) enum Aside {
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
pub(super) fn set_aside<F: Fs>(fs: &F, path: &Path, why: Aside) -> io::Result<PathBuf> {
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

/// The folder in which a job's copies of earlier days are: `copies`, beside it.
pub fn copies_folder(path: &Path) -> PathBuf {
    path.with_file_name("copies")
}

/// The copy of one day: `copies/job.ron.2026-09-21`.
pub(super) fn day_path(path: &Path, day: Day) -> PathBuf {
    let name = beside(path, &format!(".{day}"));
    copies_folder(path).join(name.file_name().unwrap_or_default())
}

/// How many days have a copy.
const MOST_DAYS: usize = 7;

/// Keeps `content`, the job as `day` began, in the copy of that day, if there
/// is none yet; of more than seven days the oldest copies go.
///
/// # Errors
/// What the system says; the copies of other days are as before then.
pub(super) fn keep_day<F: Fs>(fs: &F, path: &Path, day: Day, content: &[u8]) -> io::Result<()> {
    let copy = day_path(path, day);
    if fs.exists(&copy)? {
        return Ok(());
    }
    let folder = copies_folder(path);
    if !fs.exists(&folder)? {
        fs.create_folder(&folder)?;
        fs.sync_folder(folder_of(path))?;
    }
    // On blocks of its own, not a second name for the same ones.
    let (mut file, temp) = new_temp(fs, &copy)?;
    let written = fs
        .write_all(&mut file, content)
        .and_then(|()| fs.sync_all(&mut file));
    drop(file);
    let kept = written
        .and_then(|()| fs.match_permissions(path, &temp).or(Ok(())))
        .and_then(|()| fs.rename(&temp, &copy))
        .and_then(|()| fs.sync_folder(&folder));
    if kept.is_err() {
        let _ = fs.remove(&temp);
        return kept;
    }
    for old in day_copies(fs, path)?.into_iter().skip(MOST_DAYS) {
        fs.remove(&old)?;
    }
    Ok(())
}

/// The copies of earlier days, the latest first.
///
/// # Errors
/// What the system says; no folder of copies is no error.
pub fn day_copies<F: Fs>(fs: &F, path: &Path) -> io::Result<Vec<PathBuf>> {
    let folder = copies_folder(path);
    let names = match fs.names(&folder) {
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Vec::new()),
        names => names?,
    };
    let job = path.file_name().unwrap_or_default().as_encoded_bytes();
    let mut days: Vec<_> = names
        .into_iter()
        .filter(|name| {
            let day = name.as_encoded_bytes().strip_prefix(job);
            day.is_some_and(is_day)
        })
        .collect();
    days.sort();
    Ok(days.iter().rev().map(|name| folder.join(name)).collect())
}

/// Whether it is `.2026-09-21` or such.
fn is_day(end: &[u8]) -> bool {
    const FORM: &[u8] = b".dddd-dd-dd";
    end.len() == FORM.len()
        && end.iter().zip(FORM).all(|(byte, form)| match form {
            b'd' => byte.is_ascii_digit(),
            form => byte == form,
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::bench::Utc;
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

    #[test]
    fn the_last_seven_days_have_a_copy_each_and_it_is_the_day_s_first() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("job.ron");
        let day = |count: i64| Day::of(Utc(count * 86_400)).unwrap();
        for count in [
            20_000, 20_001, 20_003, 20_004, 20_005, 20_006, 20_007, 20_009,
        ] {
            for content in ["first", "second"] {
                keep_day(&RealFs, &path, day(count), content.as_bytes()).unwrap();
            }
        }
        std::fs::write(copies_folder(&path).join("other.ron.2020-01-01"), "x").unwrap();
        std::fs::write(copies_folder(&path).join("job.ron.2020-01-01-x"), "x").unwrap();
        let copies = day_copies(&RealFs, &path).unwrap();
        let kept = [20_009, 20_007, 20_006, 20_005, 20_004, 20_003, 20_001];
        assert_eq!(copies, kept.map(|count| day_path(&path, day(count))));
        let content = std::fs::read_to_string(day_path(&path, day(20_009))).unwrap();
        assert_eq!(content, "first");
    }
}
