//! What an import changes, in words: courses edge by edge, two readings, the
//! doubts that come and go, and the marked pieces that no longer fit.

use crate::domain::bench::Progress;
use crate::domain::cutting::{CutList, Job, doubt_words, doubts_of, two_readings};
use crate::domain::log::{Course, Edge};

/// What becomes of each edge where `before` becomes `after`, a line an edge.
pub(super) fn edges(before: &Job, after: &Job) -> Vec<String> {
    let edges = after.edges().iter();
    edges
        .filter_map(|edge| edge_line(before.edge(edge.id), edge))
        .collect()
}

/// What is to be looked at where `before` has become `after`; `then` is the
/// word for when: `now`, or `then` where nothing is written.
pub(super) fn to_look_at(before: &Job, after: &Job, then: &str) -> Vec<String> {
    let (old, new) = (doubts(before), doubts(after));
    let come = new.iter().filter(|doubt| !old.contains(doubt));
    let gone = old.iter().filter(|doubt| !new.contains(doubt));
    let mut lines = two_readings(after);
    lines.extend(come.map(|doubt| format!("doubtful {then}: {doubt}")));
    lines.extend(gone.map(|doubt| format!("no longer doubtful: {doubt}")));
    match no_longer_fit(after) {
        0 => {}
        1 => lines.push("1 marked piece no longer fits the log".to_owned()),
        count => lines.push(format!("{count} marked pieces no longer fit the log")),
    }
    lines
}

/// How many marked pieces no longer fit the log. Nothing is planned for a job of
/// which nothing is marked: of a large one that would take most of the memory.
fn no_longer_fit(job: &Job) -> usize {
    let progress = Progress::of(job.events());
    match progress.marked().next() {
        Some(_) => CutList::of(job, &progress).no_longer_fit(),
        None => 0,
    }
}

/// What one edge gets; nothing where it stays as it is.
fn edge_line(before: Option<&Edge>, after: &Edge) -> Option<String> {
    let known =
        |course: &&Course| before.and_then(|edge| edge.course(course.number)) == Some(*course);
    let added: Vec<String> = after
        .courses()
        .iter()
        .filter(|course| !known(course))
        .map(|course| course.number.to_string())
        .collect();
    let what = match before {
        None => format!("new {}, {} hand", after.kind.word(), after.hand.word()),
        Some(before) if before.roof != after.roof => "slopes or corner filled in".to_owned(),
        Some(before) if before.plane != after.plane || !before.lots().eq(after.lots()) => {
            "plane or lot filled in".to_owned()
        }
        Some(_) if added.is_empty() => return None,
        Some(_) => String::new(),
    };
    let courses = if added.is_empty() {
        String::new()
    } else {
        format!("courses {}", added.join(", "))
    };
    let parts = [what, courses].into_iter().filter(|part| !part.is_empty());
    let parts: Vec<String> = parts.collect();
    Some(format!("{}: {}", after.name, parts.join("; ")))
}

/// What is doubtful in the log, one line per doubt.
pub(super) fn doubts(job: &Job) -> Vec<String> {
    let division = job.settings.division;
    let doubts = doubts_of(job).into_iter();
    doubts
        .map(|found| {
            let name = job.edge(found.edge).map_or("", |edge| edge.name.as_str());
            format!("{name}: {}", doubt_words(&found.doubt, division))
        })
        .collect()
}
