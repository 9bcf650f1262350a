//! Corrections said at the bench, and which courses they reach: one that was read
//! again since may be free of them.

use crate::domain::log::{CourseNumber, EdgeId};
use crate::domain::measure::Length;
use foldhash::HashMap;

/// What was said of every edge.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(super) struct Corrections {
    said: HashMap<EdgeId, Length>,
    /// Of a course that was read again, how much of it was said before and does
    /// not hold for it.
    not_for: HashMap<(EdgeId, CourseNumber), Length>,
    holds: HashMap<EdgeId, bool>,
}

impl Corrections {
    /// The pieces of `edge` become `by` longer from here on.
    pub(super) fn say(&mut self, edge: EdgeId, by: Length) {
        let said = self.said.entry(edge).or_default();
        *said = *said + by;
    }

    /// A course was read again, and what was said before `holds` for it or not.
    pub(super) fn read_again(&mut self, edge: EdgeId, course: CourseNumber, holds: bool) {
        self.holds.insert(edge, holds);
        if holds {
            self.not_for.remove(&(edge, course));
        } else {
            self.not_for.insert((edge, course), self.said_of(edge));
        }
    }

    /// Everything that was said of `edge`.
    pub(super) fn said_of(&self, edge: EdgeId) -> Length {
        self.said.get(&edge).copied().unwrap_or_default()
    }

    /// What of it holds for a course.
    pub(super) fn of_course(&self, edge: EdgeId, course: CourseNumber) -> Length {
        let not_for = self.not_for.get(&(edge, course)).copied();
        self.said_of(edge) - not_for.unwrap_or_default()
    }

    /// Whether it holds for what is read again, once somebody was asked.
    pub(super) fn holds(&self, edge: EdgeId) -> Option<bool> {
        self.holds.get(&edge).copied()
    }
}
