//! What became of the rows once they were put into the log.

use crate::domain::log::{Course, CourseNumber, Edge, EdgeId, Took};
use std::collections::HashSet;

/// What the rows came to.
#[derive(Default)]
pub(super) struct Tally {
    pub(super) added: usize,
    pub(super) changed: usize,
    pub(super) skipped: usize,
    /// The edges that got a figure.
    pub(super) touched: HashSet<EdgeId>,
}

impl Tally {
    /// Puts `rows` into `edge`.
    pub(super) fn take(&mut self, edge: &mut Edge, rows: Vec<Course>) {
        let before = edge.courses().to_vec();
        let was_read = |number: CourseNumber| {
            let at = before.binary_search_by_key(&number, |course| course.number);
            at.is_ok_and(|at| before.get(at).is_some_and(|course| !course.is_blank()))
        };
        for (number, took) in edge.take_rows(rows) {
            match took {
                Took::Nothing => self.skipped += 1,
                Took::Two => {}
                Took::Figures => {
                    self.touched.insert(edge.id);
                    let count = match was_read(number) {
                        true => &mut self.changed,
                        false => &mut self.added,
                    };
                    *count += 1;
                }
            }
        }
    }
}
