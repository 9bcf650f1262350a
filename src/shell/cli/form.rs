//! `bendmark form JOB`: a blank roof log to print.

use super::args::{Stop, job_arg, path};
use super::{
    edges,
    open::open,
    output::{self, Destination},
    width,
};
use crate::sheet::form::{Form, MOST_COURSES, USUAL_COURSES};
use crate::sheet::form_html::form_html;
use crate::sheet::form_text::form_text;
use clap::{Arg, ArgMatches, Command, value_parser};
use std::path::PathBuf;

/// The subcommand's name.
pub const NAME: &str = "form";

const COURSES: &str = "courses";

const EXAMPLES: &str = "\
Examples:
  bendmark form cedar.ron
  bendmark form cedar.ron --format html --output cedar-log.html
  bendmark form cedar.ron --courses 12 --width 42";

const AFTER: &str = "\
A job without edges gets one blank edge: print it as often as the roof has edges.";

/// A blank log to be written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BlankLog {
    path: PathBuf,
    html: bool,
    width: usize,
    edges: Vec<String>,
    courses: Option<u32>,
    to: Destination,
}

/// The subcommand.
pub fn command() -> Command {
    let format = Arg::new("format")
        .long("format")
        .value_name("FORMAT")
        .value_parser(["text", "html"])
        .default_value("text")
        .help("The form of the log");
    let courses = Arg::new(COURSES)
        .long(COURSES)
        .value_name("N")
        .value_parser(value_parser!(u32).range(1..=i64::from(MOST_COURSES)))
        .help(format!(
            "Courses of an edge not yet logged [default: {USUAL_COURSES}]"
        ));
    Command::new(NAME)
        .about("Write a blank roof log to print")
        .before_help(EXAMPLES)
        .after_help(AFTER)
        .arg(job_arg().required(true).help("The job file"))
        .arg(format)
        .arg(courses)
        .arg(edges::option())
        .arg(width::option())
        .args(output::options())
}

impl BlankLog {
    /// What `matches` ask for.
    ///
    /// # Errors
    /// A message where a width is given for a form that has none.
    pub fn of(matches: &ArgMatches) -> Result<Self, String> {
        let format = matches.get_one::<String>("format");
        let html = format.is_some_and(|format| format == "html");
        Ok(Self {
            path: path(matches, "JOB"),
            html,
            width: width::only_for_text(width::of(matches), !html, "html")?,
            edges: edges::of(matches),
            courses: matches.get_one(COURSES).copied(),
            to: Destination::of(matches),
        })
    }

    /// Writes the form.
    ///
    /// # Errors
    /// [`Stop`] where the job is not read, has no such edge, or the form is not
    /// written.
    pub fn run(&self) -> Result<(), Stop> {
        let job = open(&self.path)?;
        let form = Form::of(&job, &edges::found(&job, &self.edges)?, self.courses);
        self.to.write(&if self.html {
            form_html(&form)
        } else {
            form_text(&form, self.width)
        })
    }
}
