//! `bendmark sheet JOB`: the cut sheet, in cutting order.

use super::{
    args::{self, Asked, flag, job, path, word},
    edges,
    open::open_with_its_file,
    output::{self, Destination},
    width,
};
use crate::domain::measure::cleaned;
use crate::sheet::format::Format;
use crate::sheet::layout::{Boxes, Layout, Pages};
use crate::sheet::rows::{Choice, Rows, Shown};
use crate::shell::jobs::sheets::{content, printed_now};
use crate::storage::files::Day;
use clap::builder::PossibleValuesParser;
use clap::{ArgMatches, Command};

const EXAMPLES: &str = "\
Examples:
  bendmark sheet cedar.ron
  bendmark sheet cedar.ron --format html --output cedar.html
  bendmark sheet cedar.ron --to-do --edge H2 --width 42
  bendmark sheet cedar.ron --format csv > cedar.csv";

const TO_DO: &str = "to-do";
const PICTURES: &str = "pictures";
const BOXES: &str = "boxes";
const PRINTED_AT: &str = "printed-at";

pub(super) fn command() -> Command {
    args::command("sheet", "Write the cut sheet, in cutting order", EXAMPLES).defer(with_arguments)
}

fn with_arguments(command: Command) -> Command {
    let format = args::option("format", "FORMAT", "The form of the sheet")
        .value_parser(PossibleValuesParser::new(Format::ALL.map(Format::word)))
        .default_value(Format::Text.word());
    command
        .arg(job("The job file"))
        .arg(format)
        .arg(edges::option())
        .arg(flag(TO_DO, "Only what is not stacked yet"))
        .arg(width::option())
        .arg(
            flag(
                PICTURES,
                "HTML: every piece with its pictures, not the bench list",
            )
            .conflicts_with(BOXES),
        )
        .arg(flag(
            BOXES,
            "HTML: boxes for marked, cut, bent and stacked, not one for done",
        ))
        .arg(args::option(
            PRINTED_AT,
            "TIME",
            "The day and time to print on it [default: now, in UTC]",
        ))
        .args(output::options())
}

/// Writes the sheet.
pub(super) fn asked(matches: &ArgMatches) -> Asked {
    let word = word(matches, "format");
    let mut formats = Format::ALL.into_iter();
    let format = formats.find(|format| format.word() == word);
    let format = format.unwrap_or(Format::Text);
    let layout = layout(matches, format)?;
    let shown = match matches.get_flag(TO_DO) {
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
        to.write_content(&content(format, &rows, &layout))
    }))
}

fn layout(matches: &ArgMatches, format: Format) -> Result<Layout, String> {
    let asked = |name: &'static str| matches.get_flag(name);
    for option in [PICTURES, BOXES] {
        if asked(option) && format != Format::Html {
            let word = format.word();
            return Err(format!(
                "--{option} goes with --format html only, not with {word}"
            ));
        }
    }
    Ok(Layout {
        width: width::of(matches, format.word())?,
        pages: match asked(PICTURES) {
            true => Pages::Pictures,
            false => Pages::List,
        },
        boxes: match asked(BOXES) {
            true => Boxes::EveryStep,
            false => Boxes::Done,
        },
        printed_at: match matches.get_one::<String>(PRINTED_AT) {
            Some(asked) => Some(time(asked)?),
            None => printed_now(),
        },
    })
}

/// A day and time as it is printed, of whatever clock hangs on the wall.
fn time(asked: &str) -> Result<String, String> {
    let is_time = asked.split_once(' ').is_some_and(|(day, time)| {
        let number = |text: &str| (text.len() == 2).then(|| text.parse::<u32>().ok())?;
        let time = time.split_once(':');
        let time = time.and_then(|(hour, minute)| Some((number(hour)?, number(minute)?)));
        Day::named(day).is_some() && time.is_some_and(|(hour, minute)| hour < 24 && minute < 60)
    });
    match is_time {
        true => Ok(asked.to_owned()),
        false => Err(format!(
            "--{PRINTED_AT}: \"{}\" is no day and time, expected one such as \"2026-11-26 14:05\"",
            cleaned(asked)
        )),
    }
}
