//! `bendmark check JOB`: what is doubtful in the log, one line per doubt.

use super::{
    args::{self, Asked, Stop, job, path},
    import_preview::doubts,
    open::tell,
};
use crate::domain::{
    bench::Progress,
    cutting::{
        CutList, CutPiece, EmptyCourse, Job, Labels, Lots, Misfit, OnTrip, is_let_stand, lacks_lot,
        not_judged, odd_planes, two_readings,
    },
    log::Edge,
    measure::cleaned,
};
use crate::shell::jobs::{kept::in_it, offered::unusual};
use crate::shell::outside::{Exit, now, put, say};
use crate::storage::files::{Fs, RealFs};
use crate::storage::job_file::Seal;
use crate::storage::keeping::{Loaded, Place, Source, found, load::load};
use clap::{ArgMatches, Command};
use std::path::Path;

const EXAMPLES: &str = "\
Examples:
  bendmark check cedar.ron";

const AFTER: &str = "\
Exit codes: 0 the file is whole and nothing is doubtful; 1 something is doubtful, is two
readings or is not read, a marked piece no longer fits, or the file was edited; 2 the file
cannot be read, though a copy may, or wrong usage.
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
        copies(&path);
        let loaded = load(&RealFs, &path).map_err(Stop::one)?;
        let whole = "the file is whole, as it was saved".to_owned();
        let odd = unusual(&path, &loaded, now());
        tell(&path, Some(odd.unwrap_or(whole)));
        let file = of_file(&loaded);
        let job = loaded.job;
        let progress = Progress::of(job.events());
        let list = CutList::of(&job, &progress);
        let lots = Lots::of(&job, &progress, &list);
        let mut lines = two_readings(&job);
        lines.extend(doubts(&job));
        lines.extend(lots.doubts);
        lines.extend(unread(&job, &list));
        lines.extend(no_longer_fit(&job, &progress, &list));
        lines.extend(off_the_cover(&job, &progress, &list));
        let exit = match lines.is_empty() {
            false if file == Exit::DONE => Exit::DOUBTFUL,
            _ => file,
        };
        // Worth a look, but no reading: it does not change the exit code.
        let notes = let_stand(&job).into_iter();
        let notes = notes
            .chain(lots.notes)
            .chain(without_lot(&job))
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

/// What the file itself comes to, whatever is in it.
fn of_file(loaded: &Loaded) -> Exit {
    match (&loaded.from, loaded.seal) {
        (Source::Copy { .. }, _) => Exit::UNREADABLE,
        (Source::File, Seal::Whole) => Exit::DONE,
        (Source::File, _) => Exit::DOUBTFUL,
    }
}

/// Says of each copy of the job whether it is whole, and what is in it.
fn copies(path: &Path) {
    let own = RealFs.resolve(path).unwrap_or_else(|_| path.to_owned());
    let all = found(&RealFs, &own, None, None).into_iter();
    for copy in all.filter(|copy| copy.place != Place::File) {
        let words = match &copy.holds {
            Ok(holds) => {
                let whole = if holds.seal == Seal::Whole {
                    "whole, "
                } else {
                    ""
                };
                format!("{whole}{} changes, {}", holds.changes, in_it(holds))
            }
            Err(why) => format!("cannot be read: {why}"),
        };
        let name = cleaned(&copy.path.file_name().unwrap_or_default().to_string_lossy());
        say(&format!("copy \"{name}\": {words}"));
    }
}

/// The marked pieces whose figures the log no longer gives, a line each.
fn no_longer_fit(job: &Job, progress: &Progress, list: &CutList) -> Vec<String> {
    let labels = Labels::of(job, progress);
    let division = job.settings.division;
    let words = |(piece, misfit): (&CutPiece, &Misfit)| {
        let label = labels.piece(piece.id);
        format!("{label} no longer fits: {}", misfit.words(division))
    };
    list.misfits().map(words).collect()
}

/// The pieces of a second trip that were read otherwise than the cover lets expect.
fn off_the_cover(job: &Job, progress: &Progress, list: &CutList) -> Vec<String> {
    let labels = Labels::of(job, progress);
    let open = list.pieces.iter().filter(|piece| piece.is_open());
    let off = open.filter_map(|piece| match &piece.trip {
        OnTrip::Read(Some(off)) => {
            let label = labels.piece(piece.id);
            Some(format!("{label}: {}", off.words(job.settings.division)))
        }
        _ => None,
    });
    off.collect()
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

/// The edges of which no colour lot is said, while others have one.
fn without_lot(job: &Job) -> impl Iterator<Item = String> {
    let edges = job.edges().iter();
    let without = edges.filter(|edge| lacks_lot(job, edge));
    without.map(|edge| format!("{}: no colour lot said, others have one", edge.name))
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
