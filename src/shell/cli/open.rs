//! Opening a job from the command line.
//!
//! A file that is not as it was saved is never refused silently and never taken
//! silently: commands that only read say so and go on, commands that write stop
//! unless they were told to accept it.

use super::Stop;
use crate::domain::job::Job;
use crate::shell::say::say;
use crate::storage::fs::RealFs;
use crate::storage::job_file::Seal;
use crate::storage::load::{Loaded, Source, load};
use clap::{Arg, ArgAction};
use std::path::Path;

/// The option's name.
pub const ACCEPT_EDITED: &str = "accept-edited";

/// What a command is about to do with a job.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Purpose {
    /// Look at it.
    Read,
    /// Write it, whole or not.
    WriteAnyhow,
    /// Write it where it is as it was saved.
    Write,
}

/// The option that lets a command write a job that was edited by hand.
#[must_use]
pub fn accept_edited() -> Arg {
    Arg::new(ACCEPT_EDITED)
        .long(ACCEPT_EDITED)
        .action(ArgAction::SetTrue)
        .help("Go on with a job file that was edited by hand or damaged")
}

/// The job at `path`; what is unusual about its file is said.
///
/// # Errors
/// [`Stop::CouldNot`] where it is not read, or may not be written as it is.
pub fn open(path: &Path, purpose: Purpose) -> Result<Job, Stop> {
    let loaded = load(&RealFs, path).map_err(Stop::one)?;
    let unusual = unusual(&loaded);
    match unusual {
        Some(unusual) if purpose == Purpose::Write => Err(Stop::one(format!(
            "\"{}\": {unusual}; nothing was changed: look it over with \"bendmark sheet\", then go on with --{ACCEPT_EDITED}",
            path.display()
        ))),
        unusual => {
            if let Some(unusual) = unusual {
                say(&format!("\"{}\": {unusual}", path.display()));
            }
            Ok(loaded.job)
        }
    }
}

/// What is unusual about the file, if anything.
fn unusual(loaded: &Loaded) -> Option<String> {
    let backup = match &loaded.from {
        Source::File => None,
        Source::Backup(why) => Some(format!("{why}; read its .bak instead")),
    };
    let seal = match loaded.seal {
        Seal::Whole => None,
        Seal::Missing => Some("its checksum line is missing"),
        Seal::Mismatch => Some("it does not match its checksum line"),
    }
    .map(|seal| format!("{seal}: edited by hand or damaged"));
    match (backup, seal) {
        (Some(backup), Some(seal)) => Some(format!("{backup}; {seal}")),
        (backup, seal) => backup.or(seal),
    }
}
