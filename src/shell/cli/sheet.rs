//! `bendmark sheet JOB`: the cut sheet, in cutting order.

use super::open::open;
use super::{Stop, job_arg, path};
use crate::domain::job::Job;
use crate::sheet::csv::csv;
use crate::sheet::json::json;
use crate::sheet::text::text;
use crate::shell::say::put;
use clap::builder::PossibleValuesParser;
use clap::{Arg, ArgMatches, Command};
use std::path::PathBuf;

/// The subcommand's name.
pub const NAME: &str = "sheet";

const EXAMPLES: &str = "\
Examples:
  bendmark sheet cedar.ron
  bendmark sheet cedar.ron --format csv > cedar.csv";

/// A form of the cut sheet.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Format {
    /// To print.
    Text,
    /// For a spreadsheet.
    Csv,
    /// For other programs.
    Json,
}

impl Format {
    /// Every form, the usual one first.
    pub const ALL: [Self; 3] = [Self::Text, Self::Csv, Self::Json];

    /// `text`, `csv` or `json`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Csv => "csv",
            Self::Json => "json",
        }
    }
}

/// A cut sheet to be written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Sheet {
    /// Of which job.
    pub path: PathBuf,
    /// In which form.
    pub format: Format,
}

/// The subcommand.
#[must_use]
pub fn command() -> Command {
    let format = Arg::new("format")
        .long("format")
        .value_name("FORMAT")
        .value_parser(PossibleValuesParser::new(Format::ALL.map(Format::word)))
        .default_value(Format::Text.word())
        .help("The form of the sheet");
    Command::new(NAME)
        .about("Write the cut sheet, in cutting order")
        .before_help(EXAMPLES)
        .arg(job_arg().required(true).help("The job file"))
        .arg(format)
}

impl Sheet {
    /// What `matches` ask for.
    #[must_use]
    pub fn of(matches: &ArgMatches) -> Self {
        let word = matches.get_one::<String>("format");
        let format = Format::ALL
            .into_iter()
            .find(|format| word.is_some_and(|word| word == format.word()));
        Self {
            path: path(matches, "JOB"),
            format: format.unwrap_or(Format::Text),
        }
    }

    /// Writes the sheet to standard output.
    ///
    /// # Errors
    /// [`Stop`] where the job is not read, or the output is not written.
    pub fn run(&self) -> Result<(), Stop> {
        let job = open(&self.path)?;
        put(&self.written(&job)?).map_err(Stop::from)
    }

    fn written(&self, job: &Job) -> Result<String, Stop> {
        match self.format {
            Format::Text => Ok(text(job)),
            Format::Csv => csv(job).map_err(Stop::one),
            Format::Json => json(job).map_err(Stop::one),
        }
    }
}
