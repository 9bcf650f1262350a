//! `bendmark check JOB`: what is doubtful in the log, one line per doubt.

use super::{
    args::{self, Asked, job, path},
    import_preview::doubts,
    open::{open, tell},
};
use crate::domain::cutting::{Job, is_let_stand, not_judged, odd_planes, two_readings};
use crate::domain::log::Edge;
use crate::shell::outside::{Exit, put};
use crate::storage::files::RealFs;
use crate::storage::keeping::{Whole, load};
use clap::{ArgMatches, Command};

const EXAMPLES: &str = "\
Examples:
  bendmark check cedar.ron";

const AFTER: &str = "\
Exit codes: 0 nothing is doubtful, 1 something is, or is two readings, 2 unreadable or
wrong usage.
What cannot be seen: the same slip in both readings of one course where the bond
is not regular, and a wrong hand.";

pub(super) fn command() -> Command {
    args::command(
        "check",
        "Say which readings are doubtful, and why",
        EXAMPLES,
    )
    .after_help(AFTER)
    .arg(job("The job file to check"))
}

/// Writes the doubts, and says by the exit code whether there are any.
pub(super) fn asked(matches: &ArgMatches) -> Asked {
    let path = path(matches, "JOB");
    Ok(Box::new(move || {
        let whole = Whole::of(&RealFs, &path, &load(&RealFs, &path));
        // What is wrong with a file is said as it is opened.
        tell(&path, whole.is_whole.then(|| whole.file.to_string()));
        let job = open(&path)?;
        let mut lines = two_readings(&job);
        lines.extend(doubts(&job));
        let exit = match lines.is_empty() {
            true => Exit::DONE,
            false => Exit::DOUBTFUL,
        };
        // Worth a look, but no reading: it does not change the exit code.
        let notes = let_stand(&job).into_iter();
        let notes = notes.chain(not_judged(&job)).chain(odd_planes(&job));
        lines.extend(notes.map(|words| format!("note: {words}")));
        put(&lines
            .iter()
            .map(|line| format!("{line}\n"))
            .collect::<String>())?;
        Ok(exit)
    }))
}

/// The courses whose doubt was answered "it stands".
fn let_stand(job: &Job) -> Vec<String> {
    let courses = |edge: &Edge| {
        let stand = edge.courses().iter().map(|course| course.number);
        stand
            .filter(|number| is_let_stand(edge, *number))
            .map(|number| {
                format!(
                    "{}: course {number} was doubtful and was let stand",
                    edge.name
                )
            })
            .collect::<Vec<_>>()
    };
    job.edges().iter().flat_map(|edge| courses(edge)).collect()
}
