//! `bendmark sheet JOB`: the cut sheet, in cutting order.

use super::args::{Stop, job_arg, path};
use super::{
    edges,
    open::open,
    output::{self, Destination},
    width,
};
use crate::sheet::{
    format::Format,
    rows::{Choice, Rows, Shown},
};
use clap::builder::PossibleValuesParser;
use clap::{Arg, ArgAction, ArgMatches, Command};
use std::path::PathBuf;

/// The subcommand's name.
pub const NAME: &str = "sheet";

const EXAMPLES: &str = "\
Examples:
  bendmark sheet cedar.ron
  bendmark sheet cedar.ron --format html --output cedar.html
  bendmark sheet cedar.ron --left --edge H2 --width 42
  bendmark sheet cedar.ron --format csv > cedar.csv";

const LEFT: &str = "left";

/// A cut sheet to be written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Sheet {
    /// Of which job.
    pub path: PathBuf,
    /// In which form.
    pub format: Format,
    /// How wide, as text.
    pub width: usize,
    /// Only these edges, or all where none is named.
    pub edges: Vec<String>,
    /// Which pieces.
    pub shown: Shown,
    /// Where it goes.
    pub to: Destination,
}

/// The subcommand.
pub fn command() -> Command {
    let format = Arg::new("format")
        .long("format")
        .value_name("FORMAT")
        .value_parser(PossibleValuesParser::new(Format::ALL.map(Format::word)))
        .default_value(Format::Text.word())
        .help("The form of the sheet");
    let left = Arg::new(LEFT)
        .long(LEFT)
        .action(ArgAction::SetTrue)
        .help("Only what is not stacked yet");
    Command::new(NAME)
        .about("Write the cut sheet, in cutting order")
        .before_help(EXAMPLES)
        .arg(job_arg().required(true).help("The job file"))
        .arg(format)
        .arg(edges::option())
        .arg(left)
        .arg(width::option())
        .args(output::options())
}

impl Sheet {
    /// What `matches` ask for.
    ///
    /// # Errors
    /// A message where a width is given for a form that has none.
    pub fn of(matches: &ArgMatches) -> Result<Self, String> {
        let word = matches.get_one::<String>("format");
        let format = Format::ALL
            .into_iter()
            .find(|format| word.is_some_and(|word| word == format.word()))
            .unwrap_or(Format::Text);
        let text = format == Format::Text;
        Ok(Self {
            path: path(matches, "JOB"),
            format,
            width: width::only_for_text(width::of(matches), text, format.word())?,
            edges: edges::of(matches),
            shown: if matches.get_flag(LEFT) {
                Shown::Left
            } else {
                Shown::Every
            },
            to: Destination::of(matches),
        })
    }

    /// Writes the sheet.
    ///
    /// # Errors
    /// [`Stop`] where the job is not read, has no such edge, or the sheet is
    /// not written.
    pub fn run(&self) -> Result<(), Stop> {
        let job = open(&self.path)?;
        let choice = Choice {
            edges: edges::found(&job, &self.edges)?,
            shown: self.shown,
        };
        let rows = Rows::of(&job).only(&choice);
        let text = self.format.written(&rows, self.width).map_err(Stop::one)?;
        self.to.write(&text)
    }
}
