//! What was asked for on the command line, and doing it.

use super::args::{Asked, Stop, data_dir, file, folders};
use super::{check, form, import, manual, new, paths, sheet, usage, versions};
use crate::shell::outside::{Exit, Unheard, put, say, version::VERSION};
use crate::shell::run;
use clap::error::ErrorKind;
use clap::{ArgMatches, Command};
use std::ffi::OsString;
use std::path::PathBuf;

/// What the program was asked to do.
pub type Request = Box<dyn FnOnce() -> Exit>;

/// A command's arguments, what they ask for, and the exit code where that could
/// not be done.
type Row = (fn() -> Command, fn(&ArgMatches) -> Asked, Exit);

/// The commands in the order of the help.
const COMMANDS: [Row; 9] = [
    (new::command, new::asked, Exit::COULD_NOT),
    (import::command, import::asked, Exit::COULD_NOT),
    // Of a check, 1 means that something is doubtful.
    (check::command, check::asked, Exit::UNREADABLE),
    (sheet::command, sheet::asked, Exit::COULD_NOT),
    (form::command, form::asked, Exit::COULD_NOT),
    (versions::command, versions::asked, Exit::COULD_NOT),
    (paths::command, paths::asked, Exit::COULD_NOT),
    (
        manual::completions_command,
        |matches| manual::completions(matches, command()),
        Exit::COULD_NOT,
    ),
    (
        manual::man_command,
        |_| manual::man(command()),
        Exit::COULD_NOT,
    ),
];

const EXAMPLES: &str = "\
Examples:
  bendmark                                 open the last job at the full screen
  bendmark cedar.ron                       open this one
  bendmark new cedar.ron --panel-width 48 --exposure 14
  bendmark import cedar.ron readings.csv   add readings from a spreadsheet
  bendmark check cedar.ron                 which readings are doubtful, and why
  bendmark sheet cedar.ron                 the cut sheet, to print
  bendmark sheet cedar.ron --format html --output cedar.html
                                           the same with pictures, for paper and phone
  bendmark sheet cedar.ron --format json   the same for other programs
  bendmark form cedar.ron                  a blank roof log, to print
  bendmark versions cedar.ron              the states of it that are kept
  bendmark ./new                           a job file named like a command";

const AFTER: &str = "\
Exit codes: 0 done, 1 could not, 2 wrong usage or no terminal.
The figures are an aid: the panel maker's instructions, local codes and licensed
practice come first.";

/// Does what `args` ask for; the first of them is the program's own name.
pub fn run(args: impl IntoIterator<Item = OsString>) -> Exit {
    match request(args) {
        Ok(request) => request(),
        Err(error) => refuse(&error),
    }
}

/// What `args` ask for.
///
/// # Errors
/// Wrong usage, or that help or version was asked for.
pub fn request(args: impl IntoIterator<Item = OsString>) -> Result<Request, clap::Error> {
    let mut whole = command();
    let matches = whole.try_get_matches_from_mut(args)?;
    let job = matches.get_one::<PathBuf>("JOB").cloned();
    let Some((name, of_it)) = matches.subcommand() else {
        let folders = folders(&matches);
        return Ok(Box::new(move || run::full_screen(job.as_deref(), folders)));
    };
    if job.is_some() {
        let why = format!("\"{name}\" stands behind a job, expected it first: bendmark {name} JOB");
        return Err(whole.error(ErrorKind::ArgumentConflict, why));
    }
    let is_it = |command: &fn() -> Command| command().get_name() == name;
    let mut commands = COMMANDS.into_iter();
    let Some((_, asked, could_not)) = commands.find(|(command, ..)| is_it(command)) else {
        return Err(whole.error(ErrorKind::InvalidSubcommand, name));
    };
    let done = asked(of_it).map_err(|why| {
        // A wrong usage that clap cannot see by itself.
        let of = whole.find_subcommand_mut(name).cloned();
        of.unwrap_or(whole).error(ErrorKind::ValueValidation, why)
    })?;
    Ok(Box::new(move || match done() {
        Ok(exit) => exit,
        Err(Stop::Closed) => Exit::DONE,
        Err(Stop::CouldNot(messages)) => {
            messages.iter().for_each(|message| say(message));
            could_not
        }
    }))
}

/// The whole command line, as it is parsed and as help shows it.
pub fn command() -> Command {
    Command::new("bendmark")
        // Whatever its file is called: Windows has an end to it.
        .bin_name("bendmark")
        .version(VERSION)
        .before_help(EXAMPLES)
        .about("From a log of roof readings to the last stacked piece")
        .after_help(AFTER)
        .disable_help_subcommand(true)
        .override_usage("bendmark [JOB]\n       bendmark <COMMAND>")
        .arg(file(
            "JOB",
            "The job to open at the full screen; the last one where none is given",
        ))
        .arg(data_dir())
        .subcommands(COMMANDS.map(|(command, ..)| command()))
}

/// Help and version are results; anything else is a message.
fn refuse(error: &clap::Error) -> Exit {
    if !error.use_stderr() {
        return match put(&error.render().to_string()) {
            Ok(()) | Err(Unheard::Closed) => Exit::DONE,
            Err(Unheard::Failed(_)) => Exit::COULD_NOT,
        };
    }
    say(&usage::said(error));
    Exit::USAGE
}
