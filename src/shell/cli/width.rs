//! How wide a page of text is.

use crate::sheet::text::{NARROWEST, WIDTH};
use clap::{Arg, ArgMatches, value_parser};

const OPTION: &str = "width";

/// The widest page taken.
const WIDEST: u16 = 200;

/// The option that says how wide.
pub fn option() -> Arg {
    let least = i64::try_from(NARROWEST).unwrap_or(0);
    Arg::new(OPTION)
        .long(OPTION)
        .value_name("COLUMNS")
        .value_parser(value_parser!(u16).range(least..=i64::from(WIDEST)))
        .help(format!(
            "Columns of the text, {NARROWEST} to {WIDEST} [default: {WIDTH}]"
        ))
}

/// The width `matches` ask for, if any.
pub fn of(matches: &ArgMatches) -> Option<usize> {
    matches
        .get_one::<u16>(OPTION)
        .map(|width| usize::from(*width))
}

/// That a width says nothing of any form but text.
///
/// # Errors
/// A message where one is given with another form.
pub fn only_for_text(width: Option<usize>, text: bool, format: &str) -> Result<usize, String> {
    match width {
        Some(_) if !text => Err(format!(
            "--{OPTION} goes with --format text only, not with {format}"
        )),
        width => Ok(width.unwrap_or(WIDTH)),
    }
}
