//! How wide a page of text is.

use super::args;
use crate::sheet::text::{NARROWEST, WIDTH};
use clap::{Arg, ArgMatches, value_parser};

const OPTION: &str = "width";

/// The widest page taken.
const WIDEST: u16 = 200;

/// The option that says how wide.
pub(super) fn option() -> Arg {
    let least = i64::try_from(NARROWEST).unwrap_or(0);
    let help = format!("Columns of the text, {NARROWEST} to {WIDEST} [default: {WIDTH}]");
    args::option(OPTION, "COLUMNS", help)
        .value_parser(value_parser!(u16).range(least..=i64::from(WIDEST)))
}

/// The width `matches` ask for, or the usual one.
///
/// # Errors
/// A message where one is given with a form that is not text.
pub(super) fn of(matches: &ArgMatches, format: &str) -> Result<usize, String> {
    match matches.get_one::<u16>(OPTION) {
        Some(_) if format != "text" => Err(format!(
            "--{OPTION} goes with --format text only, not with {format}"
        )),
        width => Ok(width.map_or(WIDTH, |width| usize::from(*width))),
    }
}
