//! `bendmark form JOB`: a blank roof log, to print or to fill in on a phone.

use super::{
    args::{self, Asked, flag, job, path, word},
    edges,
    open::open,
    output::{self, Destination},
    width,
};
use crate::sheet::form::{Form, HeadOfPage, MOST_COURSES, USUAL_COURSES};
use crate::sheet::{form_fill::form_fill, form_html::form_html, form_text::form_text};
use clap::builder::PossibleValuesParser;
use clap::{ArgMatches, Command, value_parser};

const COURSES: &str = "courses";
const FILL: &str = "fill";
const FROM: &str = "from";

const EXAMPLES: &str = "\
Examples:
  bendmark form cedar.ron
  bendmark form cedar.ron --format html --output cedar-log.html
  bendmark form cedar.ron --format html --fill --output cedar-fill.html
  bendmark form cedar.ron --courses 12 --width 42";

const AFTER: &str = "\
A job without edges gets one blank edge: print it as often as the roof has edges.";

pub(super) fn command() -> Command {
    args::command(
        "form",
        "Write a blank roof log, to print or for a phone",
        EXAMPLES,
    )
    .after_help(AFTER)
    .defer(with_arguments)
}

fn with_arguments(command: Command) -> Command {
    let format = args::option("format", "FORMAT", "The form of the log")
        .value_parser(["text", "html"])
        .default_value("text");
    let help = format!("Courses of an edge not yet logged [default: {USUAL_COURSES}]");
    let courses = args::option(COURSES, "N", help)
        .value_parser(value_parser!(u32).range(1..=i64::from(MOST_COURSES)));
    let words = HeadOfPage::ALL.map(HeadOfPage::word);
    let from = args::option(FROM, "END", "What stands at the head of a page")
        .value_parser(PossibleValuesParser::new(words))
        .default_value(HeadOfPage::default().word());
    command
        .arg(job("The job file"))
        .arg(format)
        .arg(flag(
            FILL,
            "With --format html: a page to fill in on a phone, for import",
        ))
        .arg(courses)
        .arg(from)
        .arg(edges::option())
        .arg(width::option())
        .args(output::options())
}

/// Writes the form.
pub(super) fn asked(matches: &ArgMatches) -> Asked {
    let format = word(matches, "format");
    let width = width::of(matches, &format)?;
    let fill = matches.get_flag(FILL);
    if fill && format != "html" {
        return Err(format!(
            "--{FILL} with --format {format}, expected --format html"
        ));
    }
    let (path, asked) = (path(matches, "JOB"), edges::of(matches));
    let courses = matches.get_one(COURSES).copied();
    let from = word(matches, FROM);
    let from = HeadOfPage::ALL.into_iter().find(|head| head.word() == from);
    let to = Destination::of(matches);
    Ok(Box::new(move || {
        let job = open(&path)?;
        let mut form = Form::of(&job, &edges::found(&job, &asked)?, courses);
        form.from = from.unwrap_or_default();
        to.write(&match format.as_str() {
            "html" if fill => form_fill(&form),
            "html" => form_html(&form),
            _ => form_text(&form, width),
        })
    }))
}
