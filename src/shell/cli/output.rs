//! Where a written page goes: standard output, or a file.

use super::args::{Stop, flag, option, result};
use crate::shell::jobs::sheets::{may_be_a_page, may_give_way};
use crate::shell::outside::{Exit, put_in_parts};
use crate::storage::files::{RealFs, shown};
use crate::storage::keeping::{Content, SaveError, save};
use clap::{Arg, ArgMatches, value_parser};
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
    let help = "Write to this file; never over another without --force";
    [
        option(OUTPUT, "FILE", help).value_parser(value_parser!(PathBuf)),
        flag(
            FORCE,
            "Overwrite the file where it is a sheet or form, or empty",
        )
        .requires(OUTPUT),
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
    /// [`Stop`] where the file is there and was not to be overwritten, where it
    /// is a job's or nobody knows whose, or the text is not written.
    pub fn write(&self, text: &str) -> Result<Exit, Stop> {
        self.write_content(text.as_bytes())
    }

    /// The same with a content made part by part.
    ///
    /// # Errors
    /// As [`Self::write`].
    pub fn write_content(&self, content: &(impl Content + ?Sized)) -> Result<Exit, Stop> {
        let Some(path) = &self.file else {
            put_in_parts(|write| content.write_to(write))?;
            return Ok(Exit::DONE);
        };
        may_be_a_page(path)
            .and_then(|()| may_give_way(path))
            .map_err(Stop::one)?;
        let done = if self.force {
            save::replace(&RealFs, path, content)
        } else {
            save::create(&RealFs, path, content)
        };
        match done {
            Ok(()) => result(&format!("\"{}\" written\n", shown(path))),
            Err(SaveError::Taken { path }) => Err(Stop::one(format!(
                "\"{}\" is already there, expected a name not yet taken: choose another, or overwrite it with --{FORCE}",
                shown(&path)
            ))),
            Err(error) => Err(Stop::one(error)),
        }
    }
}
