//! Every state of a job that lies on the disk: its file, its `.bak`, its
//! versions, what was put beside it, what was rescued.

use super::{
    copies::backup_path,
    versions::{Version, versions},
};
use crate::domain::{
    bench::{Progress, Stage, Utc},
    cutting::{CutList, Job, differences},
};
use crate::storage::files::{Fs, MOST_BYTES, folder_of};
use crate::storage::job_file::{self, Seal};
use std::ffi::{OsStr, OsString};
use std::path::{Path, PathBuf};

/// What a file of a job is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Place {
    File,
    /// The file of before.
    Backup,
    Version,
    /// It was on the screen when another program's file was opened in its place.
    OnScreen,
    /// Another program had written it while the job was open.
    Other,
    /// The file as it was found damaged.
    Damaged,
    /// What a save was writing when it was killed.
    HalfSaved,
    /// The work of a time when the file could not be written.
    Rescued,
}

impl Place {
    /// In a word or two, as a list says it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::File => "the file",
            Self::Backup => "the file before",
            Self::Version => "version",
            Self::OnScreen => "put aside",
            Self::Other => "other program's",
            Self::Damaged => "found damaged",
            Self::HalfSaved => "half saved",
            Self::Rescued => "rescued",
        }
    }
}

/// A state of a job that was found.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Found {
    pub place: Place,
    pub path: PathBuf,
    /// When it was kept or written, where that is known.
    pub saved: Option<Utc>,
    /// What is in it, or why it cannot be read.
    pub holds: Result<Holds, String>,
}

/// What is in a state of a job.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Holds {
    pub seal: Seal,
    pub changes: u64,
    pub pieces: usize,
    pub stacked: usize,
    /// Key presses at the bench.
    pub steps: usize,
    pub readings: usize,
    /// What it has otherwise than the job it was compared with.
    pub differs: Vec<String>,
}

impl Holds {
    fn of(job: &Job, seal: Seal, now: Option<&Job>) -> Self {
        let list = CutList::of(job, &Progress::of(job.events()));
        let stacked = list.pieces.iter();
        let stacked = stacked
            .filter(|piece| piece.stage == Stage::Stacked)
            .count();
        Self {
            seal,
            changes: job.changes(),
            pieces: list.pieces.len(),
            stacked,
            steps: job.steps(),
            readings: job.readings(),
            differs: now.map_or_else(Vec::new, |now| differences(now, job)),
        }
    }

    /// The more is in it, the greater.
    fn rank(&self) -> (bool, u64, usize) {
        let much = self.steps + self.readings;
        (self.seal == Seal::Whole, self.changes, much)
    }
}

/// Every state of the job at `path`, the file itself behind links, and in the
/// folder `rescued`; the one with most in it first, what cannot be read last.
/// Each is compared with `now`, where that is known.
pub fn found<F: Fs>(fs: &F, path: &Path, rescued: Option<&Path>, now: Option<&Job>) -> Vec<Found> {
    let file = (Place::File, path.to_owned());
    let places = std::iter::once(file).chain(beside_it(fs, path));
    let rescued = rescued.map_or_else(Vec::new, |folder| rescued_of(fs, path, folder));
    let mut all: Vec<Found> = places
        .chain(rescued)
        .filter_map(|(place, path)| look(fs, place, path, now))
        .collect();
    all.sort_by_key(|found| {
        let rank = found.holds.as_ref().ok().map(Holds::rank);
        std::cmp::Reverse((rank, found.place == Place::File))
    });
    all
}

/// What is at `path`; none where nothing is.
fn look<F: Fs>(fs: &F, place: Place, path: PathBuf, now: Option<&Job>) -> Option<Found> {
    if !fs.exists(&path).unwrap_or(true) {
        return None;
    }
    let holds = fs
        .read(&path, MOST_BYTES)
        .map_err(|error| crate::storage::files::words(&error))
        .and_then(|bytes| job_file::decode(&bytes).map_err(|error| error.to_string()))
        .map(|read| Holds::of(&read.job, read.seal, now));
    Some(Found {
        place,
        saved: kept(fs, place, &path),
        path,
        holds,
    })
}

/// When it was kept: a version's name says it, else the system.
fn kept<F: Fs>(fs: &F, place: Place, path: &Path) -> Option<Utc> {
    let named = (place == Place::Version)
        .then(|| Version::at(path))
        .flatten();
    let told = || fs.modified(path).ok().flatten().map(Utc);
    named.and_then(|version| version.kept).or_else(told)
}

/// What lies beside the file at `path`: its `.bak`, its versions, and what was
/// put aside there. None of them need be readable.
pub(super) fn beside_it<F: Fs>(fs: &F, path: &Path) -> Vec<(Place, PathBuf)> {
    let versions = versions(fs, path).unwrap_or_default().into_iter();
    let versions = versions.map(|version| (Place::Version, version.path));
    let folder = folder_of(path);
    let own = path.file_name().unwrap_or_default();
    let mut aside: Vec<(Place, OsString)> = fs
        .names(folder)
        .unwrap_or_default()
        .into_iter()
        .filter_map(|name| Some((aside_of(own, &name)?, name)))
        .collect();
    aside.sort_by(|(_, one), (_, other)| one.cmp(other));
    let aside = aside
        .into_iter()
        .map(|(place, name)| (place, folder.join(name)));
    let backup = (Place::Backup, backup_path(path));
    std::iter::once(backup)
        .chain(versions)
        .chain(aside)
        .collect()
}

/// What a file called `name` is to the job file called `own`, where it was put
/// aside for it: `job.ron.on-screen-1` and its kin.
fn aside_of(own: &OsStr, name: &OsStr) -> Option<Place> {
    let end = name
        .as_encoded_bytes()
        .strip_prefix(own.as_encoded_bytes())?;
    let (word, number) = std::str::from_utf8(end).ok()?.rsplit_once('-')?;
    let is_number = !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit());
    let place = match word {
        // The second as version 0.1.0 called it.
        ".on-screen" | ".ours" => Place::OnScreen,
        ".other" => Place::Other,
        ".damaged" => Place::Damaged,
        ".new" => Place::HalfSaved,
        _ => return None,
    };
    is_number.then_some(place)
}

/// The files of `folder` that were rescued of the job at `path`: they begin with
/// its name without the ending.
fn rescued_of<F: Fs>(fs: &F, path: &Path, folder: &Path) -> Vec<(Place, PathBuf)> {
    let own = path.file_stem().unwrap_or_default().as_encoded_bytes();
    let is_of = |name: &OsString| {
        let end = name.as_encoded_bytes().strip_prefix(own);
        end.is_some_and(|end| end.starts_with(b" ") && end.ends_with(b".ron"))
    };
    let mut names = fs.names(folder).unwrap_or_default();
    names.retain(is_of);
    names.sort();
    let names = names.into_iter();
    names
        .map(|name| (Place::Rescued, folder.join(name)))
        .collect()
}

/// The state with most in it that lies elsewhere and has more changes in it than
/// `now`, which was read from `content`, or as many and others.
///
/// Only what can have more is read, so that a start costs nothing where all is
/// as it should be.
pub fn later<F: Fs>(
    fs: &F,
    path: &Path,
    rescued: Option<&Path>,
    now: &Job,
    content: &[u8],
) -> Option<Found> {
    let rescued = rescued.map_or_else(Vec::new, |folder| rescued_of(fs, path, folder));
    let may_have_more = |(place, path): &(Place, PathBuf)| {
        let least = now.changes().max(1);
        // A version's name says how many are in it.
        let named = (*place == Place::Version)
            .then(|| Version::at(path))
            .flatten();
        if named.is_some_and(|version| version.changes.is_none_or(|changes| changes < least)) {
            return false;
        }
        let read = fs.read(path, MOST_BYTES);
        read.is_ok_and(|bytes| job_file::changes_in(&bytes) >= least && bytes != content)
    };
    let is_later = |found: &Found| {
        let holds = found.holds.as_ref();
        holds.is_ok_and(|holds| {
            holds.seal == Seal::Whole && holds.changes >= now.changes() && !holds.differs.is_empty()
        })
    };
    let places = beside_it(fs, path).into_iter().chain(rescued);
    let all = places
        .filter(may_have_more)
        .filter_map(|(place, path)| look(fs, place, path, Some(now)));
    // Another job may have had the same file name when its work was rescued.
    all.filter(is_later)
        .filter(|found| found.place != Place::Rescued || is_of_this(fs, &found.path, now))
        .max_by_key(|found| found.holds.as_ref().ok().map(Holds::rank))
}

/// Whether the job in the file at `path` goes by the same name.
fn is_of_this<F: Fs>(fs: &F, path: &Path, now: &Job) -> bool {
    let bytes = fs.read(path, MOST_BYTES).unwrap_or_default();
    job_file::decode(&bytes).is_ok_and(|read| read.job.name == now.name)
}
