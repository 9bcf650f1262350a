//! `bendmark paths`: where things are kept.

use super::args::Stop;
use crate::shell::outside::{Folders, put};
use crate::storage::keeping::{backup_path, copies_folder};
use clap::Command;
use std::path::Path;

/// The subcommand's name.
pub const NAME: &str = "paths";

const EXAMPLES: &str = "\
Examples:
  bendmark paths
  bendmark --data-dir /mnt/stick/bendmark paths";

/// The subcommand.
pub fn command() -> Command {
    Command::new(NAME)
        .about("Say where jobs, settings and copies are")
        .before_help(EXAMPLES)
}

/// Writes the folders, one per line.
///
/// # Errors
/// [`Stop`] where the output is not written.
pub fn run(folders: &Folders) -> Result<(), Stop> {
    let job = Path::new("JOB.ron");
    put(&format!(
        "jobs      {}\nsettings  {}\nrescued   {}\ncrashes   {}\ncopies    beside each job: {}, and one a day in {}\n",
        folders.jobs.display(),
        folders.config.display(),
        folders.rescued.display(),
        folders.crashes.display(),
        backup_path(job).display(),
        copies_folder(job).display()
    ))
    .map_err(Stop::from)
}
