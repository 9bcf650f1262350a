//! `bendmark sheet JOB`: the cut sheet, in cutting order.

use super::{
    args::{self, Asked, flag, job, path, word},
    edges,
    open::open_with_its_file,
    output::{self, Destination},
    width,
};
use crate::sheet::format::Format;
use crate::sheet::rows::{Choice, Rows, Shown};
use crate::shell::jobs::sheets::content;
use clap::builder::PossibleValuesParser;
use clap::{ArgMatches, Command};

const EXAMPLES: &str = "\
Examples:
  bendmark sheet cedar.ron
  bendmark sheet cedar.ron --format html --output cedar.html
  bendmark sheet cedar.ron --left --edge H2 --width 42
  bendmark sheet cedar.ron --format csv > cedar.csv";

const LEFT: &str = "left";

pub(super) fn command() -> Command {
    let format = args::option("format", "FORMAT", "The form of the sheet")
        .value_parser(PossibleValuesParser::new(Format::ALL.map(Format::word)))
        .default_value(Format::Text.word());
    args::command("sheet", "Write the cut sheet, in cutting order", EXAMPLES)
        .arg(job("The job file"))
        .arg(format)
        .arg(edges::option())
        .arg(flag(LEFT, "Only what is not stacked yet"))
        .arg(width::option())
        .args(output::options())
}

/// Writes the sheet.
pub(super) fn asked(matches: &ArgMatches) -> Asked {
    let word = word(matches, "format");
    let mut formats = Format::ALL.into_iter();
    let format = formats.find(|format| format.word() == word);
    let format = format.unwrap_or(Format::Text);
    let width = width::of(matches, format.word())?;
    let shown = match matches.get_flag(LEFT) {
        true => Shown::Left,
        false => Shown::Every,
    };
    let (path, asked) = (path(matches, "JOB"), edges::of(matches));
    let to = Destination::of(matches);
    Ok(Box::new(move || {
        let (job, file) = open_with_its_file(&path)?;
        let edges = edges::found(&job, &asked)?;
        let mut rows = Rows::of(&job).only(&Choice { edges, shown });
        rows.file = file;
        to.write_content(&content(format, &rows, width))
    }))
}
