//! The states of a job that are kept, in words.

use super::offered::age;
use crate::app::message::KeptState;
use crate::domain::bench::Utc;
use crate::domain::cutting::Job;
use crate::storage::files::{Fs, RealFs, shown};
use crate::storage::job_file::Seal;
use crate::storage::keeping::{Found, Holds, Place, found, later};
use std::path::Path;

/// Every state of the job at `path` but its file, the one with most in it first,
/// against `job`.
pub fn list(path: &Path, rescued: &Path, job: &Job, now: Option<Utc>) -> Vec<KeptState> {
    let own = RealFs.resolve(path).unwrap_or_else(|_| path.to_owned());
    let mut others = found(&RealFs, &own, Some(rescued), Some(job));
    others.retain(|found| found.place != Place::File);
    // The file of before is often a version too.
    others.dedup_by(|one, before| one.holds.is_ok() && one.holds == before.holds);
    let others = others.into_iter();
    others
        .map(|found| KeptState {
            says: words(&found, now),
            path: found.path,
            is_readable: found.holds.is_ok(),
            differs: match found.holds {
                Ok(holds) => holds.differs,
                Err(why) => vec![why],
            },
        })
        .collect()
}

/// What it is, how old, and how much is in it.
pub fn words(found: &Found, now: Option<Utc>) -> String {
    let (place, age) = (found.place.words(), age(found.saved, now));
    let holds = match &found.holds {
        Ok(holds) => in_it(holds),
        Err(_) => "cannot be read".to_owned(),
    };
    format!("{place:<16} {age:<15} {holds}")
}

/// `23 of 40 stacked, 61 steps, 96 readings`: what a version is chosen by first.
pub fn in_it(holds: &Holds) -> String {
    let plural = |count: usize, word: &str| match count {
        1 => format!("1 {word}"),
        count => format!("{count} {word}s"),
    };
    let edited = match holds.seal {
        Seal::Whole => "",
        Seal::Missing | Seal::Mismatch => ", edited",
    };
    format!(
        "{} of {} stacked, {}, {}{edited}",
        holds.stacked,
        holds.pieces,
        plural(holds.steps, "step"),
        plural(holds.readings, "reading")
    )
}

/// Which later work of the job at `path`, read from `content`, lies elsewhere.
pub fn later_work(path: &Path, rescued: &Path, job: &Job, content: &[u8]) -> Option<String> {
    let own = RealFs.resolve(path).unwrap_or_else(|_| path.to_owned());
    let found = later(&RealFs, &own, Some(rescued), job, content)?;
    let holds = found.holds.ok()?;
    let more = |there: usize, here: usize, word: &str| match there.saturating_sub(here) {
        0 => None,
        1 => Some(format!("1 {word} more")),
        count => Some(format!("{count} {word}s more")),
    };
    let counts = [
        more(holds.steps, job.steps(), "step"),
        more(holds.readings, job.readings(), "reading"),
    ];
    let counts: Vec<String> = counts.into_iter().flatten().collect();
    let (kind, more) = match holds.changes > job.changes() {
        true => ("Later", "later changes"),
        false => ("Other", "as many changes, and others"),
    };
    let counts = match counts.is_empty() {
        true => more.to_owned(),
        false => counts.join(", "),
    };
    Some(format!(
        "{kind} work of this job lies in \"{}\": {counts}",
        shown(&found.path)
    ))
}
