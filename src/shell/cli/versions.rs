//! `bendmark versions JOB`: the states of a job that are kept.

use super::{
    args::{self, Asked, folders, job, path, result},
    open::open,
};
use crate::shell::jobs::kept;
use crate::shell::outside::now;
use crate::storage::files::shown;
use clap::{ArgMatches, Command};

const EXAMPLES: &str = "\
Examples:
  bendmark versions cedar.ron
  bendmark sheet copies/cedar.ron.change-41.2026-11-26.080512";

const AFTER: &str = "\
To go back to one, open the job at the full screen: F6, then v. What is there now is kept
among them.";

/// The most differences told of one.
const MOST_TOLD: usize = 6;

pub(super) fn command() -> Command {
    args::command(
        "versions",
        "List the states of a job that are kept, and what differs from now",
        EXAMPLES,
    )
    .after_help(AFTER)
    .arg(job("The job file"))
}

/// A line for each, the one with most in it first, and what it has otherwise.
pub(super) fn asked(matches: &ArgMatches) -> Asked {
    let (path, folders) = (path(matches, "JOB"), folders(matches));
    Ok(Box::new(move || {
        let job = open(&path)?;
        let states = kept::list(&path, &folders.rescued, &job, now());
        let mut text = String::new();
        for state in &states {
            text.push_str(&format!("{}\n  {}\n", state.says, shown(&state.path)));
            let told = state.differs.iter().take(MOST_TOLD);
            told.for_each(|line| text.push_str(&format!("    {line}\n")));
            match state.differs.len().saturating_sub(MOST_TOLD) {
                0 => {}
                more => text.push_str(&format!("    and {more} more\n")),
            }
        }
        if states.is_empty() {
            text.push_str("no other state of this job is kept yet\n");
        }
        result(&text)
    }))
}
