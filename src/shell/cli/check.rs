//! `bendmark check JOB`: what is doubtful in the log, one line per doubt.

use super::{
    args::{self, Asked, job, path},
    import_preview::doubts,
    open::{open, tell},
};
use crate::domain::{
    bench::Progress,
    cutting::{
        CutList, EmptyCourse, Job, Lots, is_let_stand, not_judged, odd_planes, two_readings,
    },
    log::Edge,
};
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
        let progress = Progress::of(job.events());
        let list = CutList::of(&job, &progress);
        let lots = Lots::of(&job, &progress, &list);
        let mut lines = two_readings(&job);
        lines.extend(doubts(&job));
        lines.extend(lots.doubts);
        let exit = match lines.is_empty() {
            true => Exit::DONE,
            false => Exit::DOUBTFUL,
        };
        // Worth a look, but no reading: it does not change the exit code.
        let notes = let_stand(&job).into_iter();
        let notes = notes
            .chain(unread(&job, &list))
            .chain(lots.notes)
            .chain(not_judged(&job))
            .chain(odd_planes(&job));
        lines.extend(notes.map(|words| format!("note: {words}")));
        put(&lines
            .iter()
            .map(|line| format!("{line}\n"))
            .collect::<String>())?;
        Ok(exit)
    }))
}

/// The holes in the log.
fn unread(job: &Job, list: &CutList) -> Vec<String> {
    let division = job.settings.division;
    let words = |hole: &EmptyCourse| {
        let name = job.edge(hole.edge).map_or("", |edge| edge.name.as_str());
        format!("{name}: {} {}", hole.place(), hole.why.words(division))
    };
    list.holes().map(words).collect()
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
