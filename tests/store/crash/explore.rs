//! Runs a writer on the simulated disk, cuts the power at every moment, and
//! looks at what can be read afterwards.

use super::disk::{Content, SimDisk};
use bendmark::domain::{
    cutting::Job,
    measure::{Hand, Name},
    roof::EdgeKind,
    settings::Settings,
};
use bendmark::storage::files::Fs;
use bendmark::storage::job_file::{Seal, decode, encode};
use bendmark::storage::keeping::{LoadError, backup_path, load::load, save, versions};
use std::collections::BTreeSet;
use std::path::Path;

/// The job's file on the simulated disk.
pub(crate) const FILE: &str = "/jobs/roof.ron";

/// The job after `change` changes.
pub(crate) fn job(change: usize) -> Job {
    let name = Name::or(&format!("change {change}"), "?");
    let mut job = Job::new(name, Settings::default());
    job.add_edge(Name::or("East", "?"), EdgeKind::Hip, Hand::Left);
    job.set_changes(u64::try_from(change).unwrap());
    job
}

pub(crate) fn bytes(change: usize) -> Vec<u8> {
    encode(&job(change)).unwrap()
}

/// A disk with the jobs' folder and these files in it.
pub(crate) fn content(files: &[(&str, Vec<u8>)]) -> Content {
    Content {
        folders: [Path::new("/jobs").to_owned()].into(),
        files: files
            .iter()
            .map(|(path, bytes)| (Path::new(path).to_owned(), bytes.clone()))
            .collect(),
    }
}

/// What was found after all losses of power.
#[derive(Default, Debug, PartialEq, Eq)]
pub(crate) struct Found {
    /// Moments at which power was lost.
    pub(crate) moments: usize,
    /// Different states the disk was left in.
    pub(crate) states: usize,
    /// Nothing whole could be read.
    pub(crate) unreadable: usize,
    /// Something was read that nobody had written.
    pub(crate) wrong: usize,
    /// An older state was read than the one said to be saved.
    pub(crate) lost: usize,
    /// A copy was there and could not be read.
    pub(crate) bad_copies: usize,
}

impl Found {
    pub(crate) fn troubles(&self) -> [usize; 4] {
        [self.unreadable, self.wrong, self.lost, self.bad_copies]
    }
}

/// Before the first change is acknowledged the file may be missing.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Start {
    There,
    Missing,
}

/// The writer makes changes 1, 2, ... over change 0 and acknowledges each;
/// power is lost at each moment in every way.
pub(crate) fn explore(
    start: &Content,
    at_first: Start,
    has_links: bool,
    writer: impl Fn(&SimDisk),
) -> (Found, Vec<Content>) {
    let disk = SimDisk::with(start, has_links);
    writer(&disk);
    let moments = disk.moments();
    let mut found = Found {
        moments: moments.len(),
        ..Found::default()
    };
    let mut states = BTreeSet::new();
    for moment in moments {
        for left in moment.losses() {
            let may_miss = at_first == Start::Missing && moment.acknowledged == 0;
            look(&left, moment.acknowledged, may_miss, &mut found);
            states.insert(left);
        }
    }
    found.states = states.len();
    (found, states.into_iter().collect())
}

fn look(left: &Content, acknowledged: usize, may_miss: bool, found: &mut Found) {
    let disk = SimDisk::with(left, true);
    match load(&disk, Path::new(FILE)) {
        Err(LoadError::Missing { .. }) if may_miss => {}
        Err(_) => found.unreadable += 1,
        Ok(loaded) if loaded.seal != Seal::Whole => found.unreadable += 1,
        Ok(loaded) => {
            let name = loaded.job.name.as_str();
            let change: Option<usize> = name.strip_prefix("change ").and_then(|n| n.parse().ok());
            match change {
                Some(change) if change < acknowledged => found.lost += 1,
                Some(change) if change <= acknowledged + 1 => {}
                _ => found.wrong += 1,
            }
        }
    }
    let versions = versions(&disk, Path::new(FILE)).unwrap().into_iter();
    for copy in versions
        .map(|version| version.path)
        .chain([backup_path(Path::new(FILE))])
    {
        let read = disk
            .read(&copy, u64::MAX)
            .map(|bytes| decode(&bytes).is_ok_and(|read| read.seal == Seal::Whole));
        found.bad_copies += usize::from(matches!(read, Ok(false)));
    }
}

/// On the disks that were left (each third; each with `BENDMARK_CASES`), work
/// goes on: the next change is saved and loaded, and power lost once more on the
/// way there does no harm either.
pub(crate) fn work_goes_on(left: &[Content], at_first: Start) -> usize {
    let mut states = 0;
    let every = match std::env::var_os("BENDMARK_CASES") {
        Some(_) => 1,
        None => 3,
    };
    for content in left.iter().step_by(every) {
        let next = 1_000;
        let writer = |disk: &SimDisk| save(disk, Path::new(FILE), &bytes(next)).unwrap();
        let disk = SimDisk::with(content, true);
        let before = load(&disk, Path::new(FILE)).map(|read| read.job);
        assert!(before.is_ok() || at_first == Start::Missing);
        writer(&disk);
        for moment in disk.moments() {
            for left in moment.losses() {
                states += 1;
                let disk = SimDisk::with(&left, true);
                let now = load(&disk, Path::new(FILE));
                match (now, &before) {
                    (Ok(now), Ok(before)) => {
                        assert!(now.job == *before || now.job == job(next), "{left:?}");
                    }
                    (Ok(now), Err(_)) => assert_eq!(now.job, job(next)),
                    (Err(_), Err(_)) => {}
                    (Err(error), Ok(_)) => panic!("{error}: {left:?}"),
                }
            }
        }
        let after = load(&disk, Path::new(FILE)).unwrap();
        assert_eq!(after.job, job(next));
    }
    states
}
