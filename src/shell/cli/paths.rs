//! `bendmark paths`: where things are kept.

use super::args::{self, Asked, folders, result};
use crate::storage::{
    files::shown,
    keeping::{backup_path, copies_folder},
};
use clap::{ArgMatches, Command};
use std::path::Path;

const EXAMPLES: &str = "\
Examples:
  bendmark paths
  bendmark --data-dir /mnt/stick/bendmark paths";

pub(super) fn command() -> Command {
    args::command("paths", "Say where jobs, settings and copies are", EXAMPLES)
}

/// The folders, one per line.
pub(super) fn asked(matches: &ArgMatches) -> Asked {
    let folders = folders(matches);
    let job = Path::new("JOB.ron");
    let text = format!(
        "jobs      {}\nsettings  {}\nrescued   {}\ncrashes   {}\ncopies    beside each job: {}, and versions of it in {}\n",
        shown(&folders.jobs),
        shown(&folders.config),
        shown(&folders.rescued),
        shown(&folders.crashes),
        shown(&backup_path(job)),
        shown(&copies_folder(job))
    );
    Ok(Box::new(move || result(&text)))
}
