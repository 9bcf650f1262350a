//! Opening and making jobs for the full screen.

use super::folders::Folders;
use crate::app::message::{Message, Opened};
use crate::app::state::{Look, Preferences};
use crate::domain::job::Job;
use crate::domain::name::Name;
use crate::domain::progress::Progress;
use crate::storage::file_name::file_name;
use crate::storage::fs::{Fs, RealFs};
use crate::storage::job_file::{Seal, decode, encode};
use crate::storage::load::{Source, load};
use crate::storage::preferences::{self, Theme};
use crate::storage::save::{SaveError, create};
use std::path::{Path, PathBuf};

/// The job a first run starts with, so that there is something to look at.
const SAMPLE: &[u8] = include_bytes!("../../sample-jobs/alder-court-inches.ron");

/// The most file names tried for one job name.
const MOST_NAMES: u32 = 99;

/// Reads the job at `path`.
#[must_use]
pub fn open(path: &Path) -> Message {
    let loaded = match load(&RealFs, path) {
        Ok(loaded) => loaded,
        Err(error) => return Message::NotOpened(error.to_string()),
    };
    let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let odd = match (&loaded.from, loaded.seal) {
        (Source::Backup(why), _) => Some(format!("the file {why}; this is the copy before it")),
        (Source::File, Seal::Mismatch | Seal::Missing) => {
            Some("this job file was edited by hand or damaged: look it over".to_owned())
        }
        (Source::File, Seal::Whole) => None,
    };
    Message::Opened(Box::new(Opened {
        path,
        job: loaded.job,
        odd,
    }))
}

/// Reads what lies on the rack of the job at `path`.
#[must_use]
pub fn read_rack(path: &Path) -> Message {
    match load(&RealFs, path) {
        Ok(loaded) => Message::RackRead(Progress::of(loaded.job.events()).rack()),
        Err(error) => Message::NotOpened(error.to_string()),
    }
}

/// Makes a file for `job`; at `path`, or in the usual folder under a name made
/// of the job's, with a number behind it where that is taken.
#[must_use]
pub fn make(folders: &Folders, name: &Name, path: Option<PathBuf>, job: Job) -> Message {
    match try_make(folders, name, path, &job) {
        Ok(path) => Message::Opened(Box::new(Opened {
            path,
            job,
            odd: None,
        })),
        Err(why) => Message::NotOpened(why),
    }
}

fn try_make(
    folders: &Folders,
    name: &Name,
    path: Option<PathBuf>,
    job: &Job,
) -> Result<PathBuf, String> {
    let bytes = encode(job).map_err(|error| error.to_string())?;
    if let Some(path) = path {
        return create(&RealFs, &path, &bytes)
            .map(|()| path)
            .map_err(|error| error.to_string());
    }
    RealFs
        .create_folder(&folders.jobs)
        .map_err(|error| format!("\"{}\": {error}", folders.jobs.display()))?;
    let mut last = String::new();
    for number in 1..=MOST_NAMES {
        let path = folders.jobs.join(numbered(name, number));
        match create(&RealFs, &path, &bytes) {
            Ok(()) => return Ok(path),
            Err(error @ SaveError::Taken { .. }) => last = error.to_string(),
            Err(error) => return Err(error.to_string()),
        }
    }
    Err(last)
}

fn numbered(name: &Name, number: u32) -> String {
    if number == 1 {
        return file_name(name);
    }
    let text = format!("{name} {number}");
    file_name(&Name::or(&text, "job"))
}

/// A copy of the sample job in the user's folder.
#[must_use]
pub fn first_run(folders: &Folders) -> Message {
    match decode(SAMPLE) {
        Ok(decoded) => {
            let name = decoded.job.name.clone();
            make(folders, &name, None, decoded.job)
        }
        Err(error) => Message::NotOpened(error.to_string()),
    }
}

/// The user's preferences, and why they are the defaults where they were not
/// read.
#[must_use]
pub fn preferences(folders: &Folders) -> (Preferences, Option<String>) {
    let (stored, trouble) = preferences::load(&RealFs, &folders.config);
    let look = match stored.theme {
        Theme::Sun => Look::Sun,
        Theme::Dark => Look::Dark,
    };
    let mut known = Preferences {
        look,
        recent: stored.recent_jobs,
    };
    if let Some(last) = stored.last_job {
        known.opened(last);
    }
    (known, trouble)
}

/// Remembers the user's preferences. Where that fails, the next start has the
/// ones before; no job depends on it.
pub fn remember(folders: &Folders, known: &Preferences) {
    let theme = match known.look {
        Look::Sun => Theme::Sun,
        Look::Dark => Theme::Dark,
    };
    let stored = preferences::Preferences {
        theme,
        last_job: known.recent.first().cloned(),
        recent_jobs: known.recent.clone(),
    };
    let _ = preferences::save(&RealFs, &folders.config, &stored);
}
