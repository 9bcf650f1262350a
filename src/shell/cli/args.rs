//! What every command shares: how its arguments are declared and read, and how
//! it ends.

use crate::shell::outside::{Exit, Folders, Unheard, put};
use crate::storage::files::words;
use clap::builder::Str;
use clap::{Arg, ArgAction, ArgMatches, Command, value_parser};
use std::path::PathBuf;

/// Why a command ended early.
#[derive(Debug)]
pub enum Stop {
    /// It could not be done: one message or more.
    CouldNot(Vec<String>),
    /// The reader of the output has gone; that is no trouble.
    Closed,
}

impl Stop {
    /// One message.
    pub fn one(message: impl ToString) -> Self {
        Self::CouldNot(vec![message.to_string()])
    }
}

impl From<Unheard> for Stop {
    fn from(unheard: Unheard) -> Self {
        match unheard {
            Unheard::Closed => Self::Closed,
            Unheard::Failed(error) => Self::one(format!(
                "the output could not be written: {}",
                words(&error)
            )),
        }
    }
}

/// A command whose arguments are understood, to be carried out.
pub type Run = Box<dyn FnOnce() -> Result<Exit, Stop>>;

/// A command to be carried out, or what is wrong with its arguments.
pub type Asked = Result<Run, String>;

/// Ends a command with `text` as its result.
///
/// # Errors
/// [`Stop`] where the output is not written.
pub(super) fn result(text: &str) -> Result<Exit, Stop> {
    put(text)?;
    Ok(Exit::DONE)
}

/// A command as the list of all of them shows it.
///
/// What it takes is said in a step of its own ([`Command::defer`]): to open a job
/// nobody waits for the options of commands that were not asked for.
pub(super) fn command(name: &'static str, about: &'static str, examples: &'static str) -> Command {
    Command::new(name).about(about).before_help(examples)
}

/// The job's path, used exactly as written.
pub(super) fn job(help: &'static str) -> Arg {
    file("JOB", help).required(true)
}

/// A path that is given without an option.
pub(super) fn file(name: &'static str, help: &'static str) -> Arg {
    let arg = Arg::new(name).help(help);
    arg.value_parser(value_parser!(PathBuf))
}

/// `--name VALUE`.
pub(super) fn option(name: &'static str, value: impl Into<Str>, help: impl ToString) -> Arg {
    let arg = Arg::new(name).long(name).value_name(value);
    arg.help(help.to_string())
}

/// `--name`.
pub(super) fn flag(name: &'static str, help: &'static str) -> Arg {
    let arg = Arg::new(name).long(name).help(help);
    arg.action(ArgAction::SetTrue)
}

/// A path that clap has made sure is there.
pub(super) fn path(matches: &ArgMatches, name: &str) -> PathBuf {
    matches.get_one(name).cloned().unwrap_or_default()
}

/// A word that clap has made sure is there.
pub(super) fn word(matches: &ArgMatches, name: &str) -> String {
    matches.get_one(name).cloned().unwrap_or_default()
}

const DATA_DIR: &str = "data-dir";

/// The option for a folder of one's own; it goes with every command.
pub(super) fn data_dir() -> Arg {
    let help = "Keep settings and new jobs in this folder, not in the usual ones";
    option(DATA_DIR, "FOLDER", help)
        .value_parser(value_parser!(PathBuf))
        .global(true)
}

/// The folders asked for, or the usual ones.
pub(super) fn folders(matches: &ArgMatches) -> Folders {
    let own = matches.get_one::<PathBuf>(DATA_DIR);
    own.map_or_else(Folders::usual, |own| Folders::under(own))
}
