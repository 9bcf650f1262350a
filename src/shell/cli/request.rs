//! What was asked for on the command line, and doing it.

use super::{
    args::{Stop, job_arg},
    check::{self, Check},
    form::{self, BlankLog},
    import::{self, Import},
    manual,
    new::{self, New},
    paths,
    sheet::{self, Sheet},
};
use crate::shell::outside::{Exit, Folders, Unheard, put, say};
use crate::shell::run;
use clap::error::ErrorKind;
use clap::{Arg, Command, value_parser};
use clap_complete::Shell;
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// What the program was asked to do.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Request {
    /// Open the full screen on this job, or on the last one.
    FullScreen {
        job: Option<PathBuf>,
        /// Where jobs and settings are, if not in the usual folders.
        data_dir: Option<PathBuf>,
    },
    New(Box<New>),
    Import(Import),
    Check(Check),
    Sheet(Sheet),
    BlankLog(BlankLog),
    /// Say where things are kept, given a folder of one's own for them.
    Paths(Option<PathBuf>),
    Completions(Shell),
    Manual,
}

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
  bendmark ./new                           a job file named like a command";

const AFTER: &str = "\
Exit codes: 0 done, 1 could not, 2 wrong usage or no terminal.
The figures are an aid: the panel maker's instructions, local codes and licensed
practice come first.";

/// Does what `args` ask for; the first of them is the program's own name.
pub fn run(args: impl IntoIterator<Item = OsString>) -> Exit {
    let request = match request(args) {
        Ok(request) => request,
        Err(error) => return refuse(&error),
    };
    let done = match &request {
        Request::FullScreen { job, data_dir } => {
            return run::full_screen(job.as_deref(), folders(data_dir.as_deref()));
        }
        Request::New(new) => new.run().map(|()| Exit::DONE),
        Request::Import(import) => import.run().map(|()| Exit::DONE),
        Request::Check(check) => check.run(),
        Request::Sheet(sheet) => sheet.run().map(|()| Exit::DONE),
        Request::BlankLog(form) => form.run().map(|()| Exit::DONE),
        Request::Paths(data_dir) => paths::run(&folders(data_dir.as_deref())).map(|()| Exit::DONE),
        Request::Completions(shell) => manual::completions(*shell, command()).map(|()| Exit::DONE),
        Request::Manual => manual::man(command()).map(|()| Exit::DONE),
    };
    match done {
        Ok(exit) => exit,
        Err(Stop::Closed) => Exit::DONE,
        Err(Stop::CouldNot(messages)) => {
            for message in messages {
                say(&message);
            }
            // Of a check, 1 means that something is doubtful.
            match request {
                Request::Check(_) => Exit::UNREADABLE,
                _ => Exit::COULD_NOT,
            }
        }
    }
}

/// The folders asked for, or the usual ones.
fn folders(data_dir: Option<&Path>) -> Folders {
    data_dir.map_or_else(Folders::usual, Folders::under)
}

/// What `args` ask for.
///
/// # Errors
/// Wrong usage, or that help or version was asked for.
pub fn request(args: impl IntoIterator<Item = OsString>) -> Result<Request, clap::Error> {
    let mut command = command();
    let matches = command.try_get_matches_from_mut(args)?;
    let job = matches.get_one("JOB").cloned();
    let data_dir = matches.get_one(DATA_DIR).cloned();
    if let (Some(_), Some((name, _))) = (&job, matches.subcommand()) {
        let why = format!("\"{name}\" stands behind a job, expected it first: bendmark {name} JOB");
        return Err(command.error(ErrorKind::ArgumentConflict, why));
    }
    match matches.subcommand() {
        Some((new::NAME, matches)) => {
            let new = New::of(matches).map_err(|why| usage(&mut command, new::NAME, &why))?;
            Ok(Request::New(Box::new(new)))
        }
        Some((import::NAME, matches)) => Ok(Request::Import(Import::of(matches))),
        Some((check::NAME, matches)) => Ok(Request::Check(Check::of(matches))),
        Some((sheet::NAME, matches)) => Sheet::of(matches)
            .map(Request::Sheet)
            .map_err(|why| usage(&mut command, sheet::NAME, &why)),
        Some((form::NAME, matches)) => BlankLog::of(matches)
            .map(Request::BlankLog)
            .map_err(|why| usage(&mut command, form::NAME, &why)),
        Some((paths::NAME, _)) => Ok(Request::Paths(data_dir)),
        Some((manual::COMPLETIONS, matches)) => Ok(Request::Completions(
            matches.get_one("SHELL").copied().unwrap_or(Shell::Bash),
        )),
        Some((manual::MAN, _)) => Ok(Request::Manual),
        _ => Ok(Request::FullScreen { job, data_dir }),
    }
}

/// The whole command line, as it is parsed and as help shows it.
pub fn command() -> Command {
    Command::new("bendmark")
        .version(env!("CARGO_PKG_VERSION"))
        .before_help(EXAMPLES)
        .about("From a log of roof readings to the last stacked piece")
        .after_help(AFTER)
        .disable_help_subcommand(true)
        .override_usage("bendmark [JOB]\n       bendmark <COMMAND>")
        .arg(job_arg().help("The job to open at the full screen; the last one where none is given"))
        .arg(data_dir_arg())
        .subcommands([
            new::command(),
            import::command(),
            check::command(),
            sheet::command(),
            form::command(),
            paths::command(),
        ])
        .subcommands(manual::commands())
}

const DATA_DIR: &str = "data-dir";

fn data_dir_arg() -> Arg {
    Arg::new(DATA_DIR)
        .long(DATA_DIR)
        .value_name("FOLDER")
        .value_parser(value_parser!(PathBuf))
        .global(true)
        .help("Keep settings and new jobs in this folder, not in the usual ones")
}

/// A wrong usage that clap cannot see by itself.
fn usage(command: &mut Command, name: &str, why: &str) -> clap::Error {
    let of = command.find_subcommand_mut(name);
    match of {
        Some(of) => of.error(ErrorKind::ValueValidation, why),
        None => command.error(ErrorKind::ValueValidation, why),
    }
}

/// Help and version are results; anything else is a message.
fn refuse(error: &clap::Error) -> Exit {
    let text = error.render().to_string();
    if !error.use_stderr() {
        return match put(&text) {
            Ok(()) | Err(Unheard::Closed) => Exit::DONE,
            Err(Unheard::Failed(_)) => Exit::COULD_NOT,
        };
    }
    say(text.strip_prefix("error: ").unwrap_or(&text).trim_end());
    Exit::USAGE
}
