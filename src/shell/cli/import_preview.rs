//! What an import would change, in words: courses edge by edge, and the doubts
//! that would come and go.

use crate::domain::cutting::{Job, doubt_words, doubts_of};
use crate::domain::log::{Course, Edge};

/// What becomes of `before` where it becomes `after`; ends by saying that
/// nothing was written.
pub(super) fn preview(before: &Job, after: &Job) -> String {
    let mut text = String::new();
    for edge in after.edges() {
        if let Some(line) = edge_line(before.edge(edge.id), edge) {
            text.push_str(&format!("{line}\n"));
        }
    }
    let (old, new) = (doubts(before), doubts(after));
    for doubt in new.iter().filter(|doubt| !old.contains(doubt)) {
        text.push_str(&format!("doubtful then: {doubt}\n"));
    }
    for doubt in old.iter().filter(|doubt| !new.contains(doubt)) {
        text.push_str(&format!("no longer doubtful: {doubt}\n"));
    }
    text.push_str("nothing was written: this was a dry run\n");
    text
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
        Some(before) if before.plane != after.plane || before.lot != after.lot => {
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
