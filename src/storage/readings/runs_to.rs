//! To which edges the file's courses run: named in a row, known only once the
//! whole file is read.

use super::error::BadRow;
use crate::domain::{
    cutting::Job,
    log::{Course, CourseNumber, EdgeId},
    measure::{Hand, Name, cleaned},
};
use std::collections::HashMap;

/// An edge of the job or the file.
pub(super) struct Known<'n> {
    pub(super) name: &'n Name,
    pub(super) hand: Hand,
    pub(super) id: EdgeId,
}

/// A course of the file, by the place of its edge.
pub(super) type At = (usize, CourseNumber);

/// What the rows say, each with its line.
#[derive(Default)]
pub(super) struct RunsTo(HashMap<At, (String, u64)>);

impl RunsTo {
    /// Takes what the row on `line` says of the course `at` of `edge`.
    pub(super) fn say(&mut self, at: At, edge: &Name, to: &str, line: u64) -> Result<(), String> {
        if to.is_empty() {
            return Ok(());
        }
        let (first, on) = self.0.entry(at).or_insert_with(|| (to.to_owned(), line));
        if first == to {
            return Ok(());
        }
        let (number, first, to) = (at.1, cleaned(first), cleaned(to));
        Err(format!(
            "course {number} of \"{edge}\" runs to \"{first}\" on line {on} already, the row says \"{to}\""
        ))
    }

    /// Gives each course in `new` the edge that it runs to. Rows that name no
    /// such edge are bad, and so are readings of a course at the edge to which it
    /// runs: it is read where it stands.
    pub(super) fn settle(
        self,
        job: &Job,
        edges: &[Known<'_>],
        new: &mut HashMap<At, (Course, u64)>,
    ) -> Vec<BadRow> {
        // Where such courses are read, and the line that says so; none in the job.
        let mut elsewhere: HashMap<(EdgeId, CourseNumber), (&Name, Option<u64>)> = HashMap::new();
        for edge in job.edges() {
            let courses = edge.courses().iter();
            let to = courses.filter_map(|course| Some((course.to?, course.number)));
            elsewhere.extend(to.map(|at| (at, (&edge.name, None))));
        }
        let mut bad = Vec::new();
        for ((place, number), (to, line)) in self.0 {
            let Some(stands_at) = edges.get(place) else {
                continue;
            };
            match named(edges, stands_at, &to) {
                Err(what) => bad.push(BadRow { line, what }),
                Ok(id) => {
                    if let Some((course, _)) = new.get_mut(&(place, number)) {
                        course.to = Some(id);
                    }
                    let from = (stands_at.name, Some(line));
                    elsewhere.entry((id, number)).or_insert(from);
                }
            }
        }
        for ((place, number), (_, line)) in new {
            let at = edges.get(*place).map(|edge| (edge.id, *number));
            if let Some((from, _)) = at.and_then(|at| elsewhere.get(&at)) {
                let what = format!(
                    "course {number} is read from board to board at \"{from}\", expected no readings of it here"
                );
                bad.push(BadRow { line: *line, what });
            }
        }
        for ((id, number), (from, line)) in &elsewhere {
            let own = job.edge(*id).filter(|edge| edge.course(*number).is_some());
            if let Some((line, edge)) = line.zip(own) {
                let what = format!(
                    "course {number} of \"{from}\" runs to \"{}\", which has readings of its own there: clear them first",
                    edge.name
                );
                bad.push(BadRow { line, what });
            }
        }
        bad
    }
}

/// The edge called `to`, of the other hand than the one at which the course
/// stands.
fn named(edges: &[Known<'_>], stands_at: &Known<'_>, to: &str) -> Result<EdgeId, String> {
    let name = Name::new(to).map_err(|error| format!("to: {error}"))?;
    match edges.iter().find(|edge| *edge.name == name) {
        None => Err(format!("to: \"{name}\" is no edge of the job or the file")),
        Some(edge) if edge.hand == stands_at.hand => Err(format!(
            "to: \"{name}\" has pieces of the same hand, expected an edge of the other"
        )),
        Some(edge) => Ok(edge.id),
    }
}
