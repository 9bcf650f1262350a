//! `bendmark paths`: where things are kept.

use super::args::{self, Asked, folders, result};
use crate::storage::keeping::{backup_path, copies_folder};
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
        folders.jobs.display(),
        folders.config.display(),
        folders.rescued.display(),
        folders.crashes.display(),
        backup_path(job).display(),
        copies_folder(job).display()
    );
    Ok(Box::new(move || result(&text)))
}
