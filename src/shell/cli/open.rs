//! Opening a job from the command line.
//!
//! A file that is not as it was saved is never refused silently and never taken
//! silently: commands that only read say so and go on, commands that write stop
//! unless they were told to accept it.

use super::args::{Stop, flag};
use crate::domain::cutting::Job;
use crate::shell::jobs::offered;
use crate::shell::outside::{now, say};
use crate::storage::files::{RealFs, shown};
use crate::storage::keeping::{Barred, Held, OpenFile, load};
use clap::Arg;
use std::path::Path;

/// The option's name.
pub const ACCEPT_EDITED: &str = "accept-edited";

/// What a command is about to do with a job.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Purpose {
    /// Write it, whole or not.
    WriteAnyhow,
    /// Write it where it is as it was saved.
    Write,
}

/// The option that lets a command write a job that was edited by hand.
pub fn accept_edited() -> Arg {
    let help = "Go on with a job file that was edited by hand or damaged";
    flag(ACCEPT_EDITED, help)
}

/// The job at `path`, to look at; what is unusual about its file is said.
///
/// # Errors
/// [`Stop::CouldNot`] where it is not read.
pub fn open(path: &Path) -> Result<Job, Stop> {
    open_with_its_file(path).map(|(job, _)| job)
}

/// The same, with what is unusual about its file.
///
/// # Errors
/// As [`open`].
pub fn open_with_its_file(path: &Path) -> Result<(Job, Option<String>), Stop> {
    let loaded = load(&RealFs, path).map_err(Stop::one)?;
    let unusual = offered::unusual(path, &loaded, now());
    tell(path, unusual.clone());
    Ok((loaded.job, unusual))
}

/// The job at `path`, to be written, and its file.
///
/// # Errors
/// [`Stop::CouldNot`] where it is not read, may not be written as it is, or is
/// in use.
pub fn open_to_write(path: &Path, purpose: Purpose) -> Result<(Job, Box<OpenFile>), Stop> {
    let taken = OpenFile::take(path, None).map_err(|(error, _)| Stop::one(error))?;
    let file = match taken.held {
        Held::ByUs(file) => file,
        Held::No(watch) => return Err(Stop::one(not_written(path, &watch.why))),
    };
    let unusual = offered::unusual(path, &taken.loaded, now());
    if let (Some(unusual), Purpose::Write) = (&unusual, purpose) {
        return Err(Stop::one(format!(
            "\"{}\": {unusual}; nothing was changed: look it over with \"bendmark sheet\", then go on with --{ACCEPT_EDITED}",
            shown(path)
        )));
    }
    tell(path, unusual);
    Ok((taken.loaded.job, file))
}

fn not_written(path: &Path, why: &Barred) -> String {
    let path = shown(path);
    match why {
        Barred::InUse => format!(
            "\"{path}\" is in use by another bendmark; nothing was changed: close it there, then try again"
        ),
        Barred::Because(why) => format!(
            "\"{path}\" may only be read: {why}; nothing was changed: put that right, then try again"
        ),
    }
}

/// What is said where a version was not kept.
pub fn no_copy(why: String) -> String {
    format!("no version was kept of what was there before: {why}")
}

/// Says `words` of the file at `path`, if there are any.
pub fn tell(path: &Path, words: Option<String>) {
    if let Some(words) = words {
        say(&format!("\"{}\": {words}", shown(path)));
    }
}
