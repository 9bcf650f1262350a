//! Opening and making jobs for the full screen.

use super::{kept, offered};
use crate::app::{
    dialogs::saving::IN_USE,
    effect::ToSave,
    message::{Message, Opened},
    place::{Glyphs, Look, Preferences},
};
use crate::domain::{bench::Progress, cutting::Job, measure::Name};
use crate::shell::outside::{Folders, draws_blocks, now};
use crate::storage::{
    files::{Fs, RealFs, file_name, shown, words},
    job_file::{decode, encode},
    keeping::{
        Barred, Held, OpenFile, TakenFile, Watch, absolute, load, load::load as load_job,
        on_screen_path,
    },
    preferences::{self, Characters, Theme},
};
use anyhow::Context;
use std::path::{Path, PathBuf};

/// The job a first run starts with, so that there is something to look at.
const SAMPLE: &[u8] = include_bytes!("../../../sample-jobs/alder-court-inches.ron");

/// The most file names tried for one job name.
const MOST_NAMES: u32 = 99;

/// What came of opening or making a job; nothing at all by default.
#[derive(Default)]
pub struct Answer {
    /// What is said of it, in that order.
    pub messages: Vec<Message>,
    /// Its file; none where nothing was opened, or it may only be read.
    pub file: Option<Box<OpenFile>>,
    /// Its file where it may only be read.
    pub watch: Option<Box<Watch>>,
}

impl Answer {
    fn no(why: impl ToString) -> Self {
        Self {
            messages: vec![Message::NotOpened(why.to_string())],
            ..Self::default()
        }
    }
}

/// Why a job may only be looked at.
fn read_only(why: &Barred) -> String {
    match why {
        Barred::InUse => IN_USE.to_owned(),
        Barred::Because(why) => {
            format!("reading only: {why}; k tries again, f saves it in another file")
        }
    }
}

/// Reads the job at `path` and takes its file; `before` is the one that is let
/// go, and comes back where nothing is opened.
pub fn open(path: &Path, rescued: &Path, before: Option<Box<OpenFile>>) -> Answer {
    let TakenFile { loaded, held } = match OpenFile::take(path, before) {
        Ok(taken) => taken,
        Err((error, before)) => {
            return Answer {
                file: before,
                ..Answer::no(error)
            };
        }
    };
    let path = absolute(path);
    let odd = offered::unusual(&path, &loaded, now()).map(|unusual| format!("The file: {unusual}"));
    let later = match held {
        Held::ByUs(_) if odd.is_none() => {
            kept::later_work(&path, rescued, &loaded.job, &loaded.content)
        }
        _ => None,
    };
    let (file, watch) = match held {
        Held::ByUs(file) => (Some(file), None),
        Held::No(watch) => (None, Some(watch)),
    };
    let opened = Message::Opened(Box::new(Opened {
        path,
        job: loaded.job,
        odd,
        later,
        read_only: watch.as_ref().map(|watch| read_only(&watch.why)),
    }));
    Answer {
        messages: vec![opened],
        file,
        watch,
    }
}

/// Lists the states of the job at `path` that are kept.
pub fn list_kept(path: &Path, rescued: &Path, job: &Job) -> Message {
    Message::KeptListed(kept::list(path, rescued, job, now()))
}

/// Reads the one at `path`.
pub fn read_kept(path: &Path) -> Message {
    let bytes = load::read(&RealFs, path).map_err(|error| error.to_string());
    let job = bytes.and_then(|bytes| decode(&bytes).map_err(|error| error.to_string()));
    match job {
        Ok(read) => Message::KeptRead(Box::new(read.job)),
        Err(why) => Message::NotOpened(why),
    }
}

/// Reads what lies on the rack of the job at `path`.
pub fn read_rack(path: &Path) -> Message {
    match load_job(&RealFs, path) {
        Ok(loaded) => Message::RackRead(Progress::of(loaded.job.events()).rack()),
        Err(error) => Message::NotOpened(error.to_string()),
    }
}

/// Makes a file for `job` in the usual folder under a name made of the job's,
/// with a number behind it where that is taken.
pub fn make(folders: &Folders, job: Job) -> Answer {
    match try_make(folders, &job) {
        Ok((path, file)) => Answer {
            messages: vec![Message::Opened(Box::new(Opened {
                path,
                job,
                odd: None,
                later: None,
                read_only: None,
            }))],
            file: Some(file),
            watch: None,
        },
        Err(why) => Answer::no(why),
    }
}

fn try_make(folders: &Folders, job: &Job) -> Result<(PathBuf, Box<OpenFile>), String> {
    let bytes = encode(job).map_err(|error| error.to_string())?;
    RealFs
        .create_folder(&folders.jobs)
        .map_err(|error| format!("\"{}\": {}", shown(&folders.jobs), words(&error)))?;
    let mut last = String::new();
    for number in 1..=MOST_NAMES {
        let path = folders.jobs.join(numbered(&job.name, number));
        match OpenFile::make(&path, &bytes) {
            Ok(file) => return Ok((absolute(&path), file)),
            Err(error) if error.is_taken() => last = error.to_string(),
            Err(error) => return Err(error.to_string()),
        }
    }
    Err(last)
}

/// Puts `ours` into a file at `path`, or in that folder under the name of its
/// present file; never over another.
pub fn move_to(path: &Path, ours: &ToSave) -> Answer {
    let typed = path.to_string_lossy().into_owned();
    let path = match ours.path.file_name() {
        Some(name) if path.is_dir() => path.join(name),
        _ => path.to_owned(),
    };
    let path = absolute(&path);
    let made = encode(&ours.job)
        .map_err(|error| error.to_string())
        .and_then(|bytes| OpenFile::make(&path, &bytes).map_err(|error| error.brief()));
    let (message, file) = match made {
        Ok(file) => (Message::SavedElsewhere(path, ours.change), Some(file)),
        Err(why) => (Message::NotSavedElsewhere(typed, why), None),
    };
    Answer {
        messages: vec![message],
        file,
        watch: None,
    }
}

fn numbered(name: &Name, number: u32) -> String {
    match number {
        1 => file_name(name),
        _ => file_name(&Name::or(&format!("{name} {number}"), "job")),
    }
}

/// Writes `ours`, which is on the screen, beside its file; says where.
///
/// # Errors
/// Why it could not be written; nothing is opened in its place then.
pub fn keep_screen(ours: &ToSave) -> anyhow::Result<PathBuf> {
    let not_kept = "what is on the screen could not be kept";
    let path = on_screen_path(&RealFs, &ours.path);
    let bytes = encode(&ours.job).context(not_kept)?;
    OpenFile::make(&path, &bytes).context(not_kept)?;
    Ok(path)
}

/// A copy of the sample job in the user's folder; nothing for whoever has
/// preferences, and so was here before.
pub fn first_run(folders: &Folders) -> Answer {
    if preferences::is_there(&RealFs, &folders.config) {
        return Answer::default();
    }
    let job = match decode(SAMPLE) {
        Ok(decoded) => decoded.job,
        Err(error) => return Answer::no(error),
    };
    let made = folders.jobs.join(file_name(&job.name));
    // A first start that was ended before it noted its job has made it already.
    match RealFs.exists(&made) {
        Ok(true) => open(&made, &folders.rescued, None),
        _ => make(folders, job),
    }
}

/// The user's preferences, and why they are the defaults where they were not
/// read.
pub fn preferences(folders: &Folders) -> (Preferences, Option<String>) {
    let usual = match draws_blocks() {
        true => Characters::Blocks,
        false => Characters::Ascii,
    };
    let (stored, trouble) = preferences::load_or_put_right(&RealFs, &folders.config, usual);
    let mut known = Preferences {
        look: match stored.theme {
            Theme::Sun => Look::Sun,
            Theme::Dark => Look::Dark,
        },
        glyphs: match stored.characters {
            Characters::Blocks => Glyphs::Blocks,
            Characters::Ascii => Glyphs::Ascii,
        },
        recent: stored.recent_jobs,
    };
    if let Some(last) = stored.last_job {
        known.opened(last);
    }
    (known, trouble)
}

/// Remembers the user's preferences. Where that fails, the next start has the
/// ones before; no job depends on it. A file that was not understood, perhaps
/// of a later version, is left as it is.
pub fn remember(folders: &Folders, known: &Preferences) {
    let (before, trouble) = preferences::load(&RealFs, &folders.config);
    if trouble.is_some() {
        return;
    }
    let stored = preferences::Preferences {
        theme: match known.look {
            Look::Sun => Theme::Sun,
            Look::Dark => Theme::Dark,
        },
        characters: match known.glyphs {
            Glyphs::Blocks => Characters::Blocks,
            Glyphs::Ascii => Characters::Ascii,
        },
        last_job: known.recent.first().cloned(),
        recent_jobs: known.recent.clone(),
    };
    // Mostly nothing is new, and the first frame waits for no disk.
    if stored != before || !preferences::is_there(&RealFs, &folders.config) {
        let _ = preferences::save(&RealFs, &folders.config, &stored);
    }
}
