//! Where a written page goes: standard output, or a file.

use super::args::Stop;
use crate::shell::outside::put;
use crate::storage::files::RealFs;
use crate::storage::keeping::{SaveError, save};
use clap::{Arg, ArgAction, ArgMatches, value_parser};
use std::path::PathBuf;

const OUTPUT: &str = "output";
const FORCE: &str = "force";

/// A place for what is written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Destination {
    /// The file; standard output where there is none.
    file: Option<PathBuf>,
    /// Whether a file that is there gives way.
    force: bool,
}

/// The options that say where.
pub fn options() -> [Arg; 2] {
    [
        Arg::new(OUTPUT)
            .long(OUTPUT)
            .value_name("FILE")
            .value_parser(value_parser!(PathBuf))
            .help("Write to this file; never over another without --force"),
        Arg::new(FORCE)
            .long(FORCE)
            .action(ArgAction::SetTrue)
            .requires(OUTPUT)
            .help("Overwrite the file where it is there"),
    ]
}

impl Destination {
    /// What `matches` say.
    pub fn of(matches: &ArgMatches) -> Self {
        Self {
            file: matches.get_one(OUTPUT).cloned(),
            force: matches.get_flag(FORCE),
        }
    }

    /// Writes `text` there.
    ///
    /// # Errors
    /// [`Stop`] where the file is there and was not to be overwritten, or the
    /// text is not written.
    pub fn write(&self, text: &str) -> Result<(), Stop> {
        let Some(path) = &self.file else {
            return put(text).map_err(Stop::from);
        };
        let done = if self.force {
            save::replace(&RealFs, path, text.as_bytes())
        } else {
            save::create(&RealFs, path, text.as_bytes())
        };
        match done {
            Ok(()) => put(&format!("\"{}\" written\n", path.display())).map_err(Stop::from),
            Err(SaveError::Taken { path }) => Err(Stop::one(format!(
                "\"{}\" is already there, expected a name not yet taken: choose another, or overwrite it with --{FORCE}",
                path.display()
            ))),
            Err(error) => Err(Stop::one(error)),
        }
    }
}
