//! A job: its settings, its edges with their log, and the bench's facts.
//!
//! Nothing derived is in it; the line of its changes is, for what was can not be
//! derived. Edges are shared, so that a copy of a job (for undo, for the saver)
//! costs little.

use super::{
    history::History,
    numbers::{EdgeNumber, EdgeNumbers},
};
use crate::domain::{
    bench::{BenchEvent, Fact, Utc},
    log::{CourseNumber, Edge, EdgeId},
    measure::{Hand, Name},
    roof::{ByKind, EdgeKind},
    settings::Settings,
};
use std::collections::HashMap;
use std::sync::Arc;

/// One roof's work.
#[derive(Clone, Debug)]
pub struct Job {
    pub name: Name,
    pub settings: Settings,
    edges: Vec<Arc<Edge>>,
    next_edge: u32,
    numbers: EdgeNumbers,
    /// Of the next edge of each kind, once every edge was looked at for them.
    next_numbers: Option<ByKind<u32>>,
    /// Shared likewise.
    events: Arc<Vec<BenchEvent>>,
    changes: u64,
    history: History,
}

/// Jobs are the same where the same is written down, however it was changed on
/// the way there.
impl PartialEq for Job {
    fn eq(&self, other: &Self) -> bool {
        let Self {
            name,
            settings,
            edges,
            next_edge,
            numbers,
            next_numbers: _,
            events,
            changes: _,
            history: _,
        } = self;
        *name == other.name
            && *settings == other.settings
            && *edges == other.edges
            && *next_edge == other.next_edge
            && *numbers == other.numbers
            && *events == other.events
    }
}

impl Eq for Job {}

/// Why parts do not make a job.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum JobTrouble {
    SameId(EdgeId),
    /// An id was never given out.
    UnknownId(EdgeId),
}

impl std::fmt::Display for JobTrouble {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::SameId(id) => write!(f, "two edges have the id {}", id.0),
            Self::UnknownId(id) => write!(
                f,
                "an edge has the id {}, expected one below next_edge",
                id.0
            ),
        }
    }
}

impl std::error::Error for JobTrouble {}

/// Which way an edge moves in the cutting order.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Shift {
    Earlier,
    Later,
}

impl Job {
    /// A job without edges.
    pub fn new(name: Name, settings: Settings) -> Self {
        Self {
            name,
            settings,
            edges: Vec::new(),
            next_edge: 1,
            numbers: EdgeNumbers::default(),
            next_numbers: None,
            events: Arc::default(),
            changes: 0,
            history: History::new(),
        }
    }

    /// A job from what a file holds.
    ///
    /// # Errors
    /// [`JobTrouble`] where edge ids clash or were never given out.
    pub fn from_parts(
        name: Name,
        settings: Settings,
        edges: Vec<Edge>,
        next_edge: u32,
        events: Vec<BenchEvent>,
    ) -> Result<Self, JobTrouble> {
        let mut ids = std::collections::HashSet::new();
        for edge in &edges {
            if edge.id.0 >= next_edge {
                return Err(JobTrouble::UnknownId(edge.id));
            }
            if !ids.insert(edge.id) {
                return Err(JobTrouble::SameId(edge.id));
            }
        }
        Ok(Self {
            name,
            settings,
            edges: edges.into_iter().map(Arc::new).collect(),
            next_edge,
            numbers: EdgeNumbers::default(),
            next_numbers: None,
            events: Arc::new(events),
            changes: 0,
            history: History::new(),
        })
    }

    /// The line of its changes.
    pub const fn history(&self) -> &History {
        &self.history
    }

    /// Goes on with another line, which must be this job's own.
    pub fn set_history(&mut self, history: History) {
        self.history = history;
    }

    pub(super) const fn history_mut(&mut self) -> &mut History {
        &mut self.history
    }

    /// How often it was changed, deletes and undos included. It never falls, so
    /// of two copies the one with the higher count is the later one, whatever
    /// the clock said.
    pub const fn changes(&self) -> u64 {
        self.changes
    }

    /// Takes a count that is known from elsewhere.
    pub const fn set_changes(&mut self, changes: u64) {
        self.changes = changes;
    }

    /// Counts one more change.
    pub const fn count_change(&mut self) {
        self.changes = self.changes.saturating_add(1);
    }

    /// The edges, in the order they are cut.
    pub fn edges(&self) -> &[Arc<Edge>] {
        &self.edges
    }

    /// The edge of that id.
    pub fn edge(&self, id: EdgeId) -> Option<&Edge> {
        self.edges.get(self.place_of(id)?).map(Arc::as_ref)
    }

    /// Where the edge of that id stands in the cutting order, from 0.
    pub fn place_of(&self, id: EdgeId) -> Option<usize> {
        // Most jobs are cut in the order in which their edges were added.
        let guess = self.edges.binary_search_by_key(&id, |edge| edge.id);
        let searched = || self.edges.iter().position(|edge| edge.id == id);
        guess.ok().or_else(searched)
    }

    /// The edge at which a course stands that runs to `id`: this course is read
    /// there and not at `id`.
    pub fn read_from(&self, id: EdgeId, course: CourseNumber) -> Option<&Edge> {
        let stands_at = self.edges.iter().find(|edge| {
            let course = edge.course(course);
            course.is_some_and(|course| course.to == Some(id))
        });
        stands_at.map(Arc::as_ref)
    }

    /// The edges to which a piece of `edge` may run: of the other hand, those of
    /// its plane where the plane has any.
    pub fn may_run_to(&self, edge: &Edge) -> Vec<&Edge> {
        let other_hand = self.edges.iter().filter(|other| other.hand != edge.hand);
        let (on_plane, elsewhere): (Vec<_>, Vec<_>) = other_hand
            .map(Arc::as_ref)
            .partition(|other| edge.plane.is_some() && other.plane == edge.plane);
        if on_plane.is_empty() {
            elsewhere
        } else {
            on_plane
        }
    }

    /// The id the next edge will get.
    pub const fn next_edge(&self) -> u32 {
        self.next_edge
    }

    /// Adds an edge at the end of the cutting order.
    pub fn add_edge(&mut self, name: Name, kind: EdgeKind, hand: Hand) -> EdgeId {
        let edge = EdgeId(self.next_edge);
        let mut next = self.next_numbers();
        let number = next[kind];
        next[kind] = number.saturating_add(1);
        self.numbers.give(EdgeNumber { edge, kind, number });
        self.next_edge = self.next_edge.saturating_add(1);
        self.edges.push(Arc::new(Edge::new(edge, name, kind, hand)));
        self.next_numbers = Some(next);
        edge
    }

    /// The numbers of its edges.
    pub const fn numbers(&self) -> &EdgeNumbers {
        &self.numbers
    }

    /// Has these.
    pub fn set_numbers(&mut self, numbers: EdgeNumbers) {
        (self.numbers, self.next_numbers) = (numbers, None);
    }

    /// The number that the next edge of each kind will be called by.
    pub fn next_numbers(&self) -> ByKind<u32> {
        let known = self.next_numbers;
        known.unwrap_or_else(|| self.numbers.next(&self.edges, &[], self.next_edge))
    }

    /// Gives a number to each edge that is of another kind than `before`.
    pub(super) fn number_new_kinds(&mut self, before: &Self) {
        let ids = self.next_edge;
        let edges = (self.edges.as_slice(), before.edges.as_slice());
        self.numbers.give_new_kinds(edges.0, edges.1, ids);
        self.next_numbers = None;
    }

    /// The edge of that id, to change.
    pub fn edge_mut(&mut self, id: EdgeId) -> Option<&mut Edge> {
        let at = self.place_of(id)?;
        self.edges.get_mut(at).map(Arc::make_mut)
    }

    /// Makes a change to each of many edges in one go, where one by one would
    /// look up each anew; a change to an edge not in the job is passed over.
    pub fn change_edges<F: FnOnce(&mut Edge)>(&mut self, mut changes: HashMap<EdgeId, F>) {
        for edge in &mut self.edges {
            if let Some(change) = changes.remove(&edge.id) {
                change(Arc::make_mut(edge));
            }
        }
    }

    /// Has these edges, of which each is there once, and goes on from that id.
    pub(super) fn put_edges(&mut self, edges: Vec<Arc<Edge>>, next_edge: u32) {
        (self.edges, self.next_edge) = (edges, next_edge);
        self.next_numbers = None;
    }

    /// Takes an edge out; what was done with its pieces stays written down.
    pub fn remove_edge(&mut self, id: EdgeId) -> Option<Arc<Edge>> {
        let at = self.place_of(id)?;
        Some(self.edges.remove(at))
    }

    /// Moves an edge one place in the cutting order; false at either end.
    pub fn shift_edge(&mut self, id: EdgeId, shift: Shift) -> bool {
        let Some(at) = self.place_of(id) else {
            return false;
        };
        let to = match shift {
            Shift::Earlier => at.checked_sub(1),
            Shift::Later => Some(at + 1).filter(|to| *to < self.edges.len()),
        };
        if let Some(to) = to {
            self.edges.swap(at, to);
        }
        to.is_some()
    }

    /// The bench's facts, oldest first.
    pub fn events(&self) -> &[BenchEvent] {
        &self.events
    }

    /// The same, to give their pieces other courses.
    pub(super) fn events_mut(&mut self) -> &mut [BenchEvent] {
        Arc::make_mut(&mut self.events).as_mut_slice()
    }

    /// Writes down `facts` of one key press. A clock that has run back since
    /// the last known time counts as no time.
    pub fn record(&mut self, facts: Vec<Fact>, now: Option<Utc>) {
        let first = self.events.len();
        self.record_joined(facts, now);
        if let Some(first) = self.events_mut().get_mut(first) {
            first.joined = false;
        }
    }

    /// Writes down more facts of the last key press. What was taken back before
    /// it can not be done again.
    pub fn record_joined(&mut self, facts: Vec<Fact>, now: Option<Utc>) {
        self.history.forget_undone();
        let last = || self.events.iter().rev().find_map(|event| event.at);
        let at = now.filter(|now| last().is_none_or(|last| *now >= last));
        let joined = true;
        let events = facts
            .into_iter()
            .map(|fact| BenchEvent { at, joined, fact });
        Arc::make_mut(&mut self.events).extend(events);
    }

    /// How many key presses at the bench are written down.
    pub fn steps(&self) -> usize {
        self.events.iter().filter(|event| !event.joined).count()
    }

    /// How many readings are in its log.
    pub fn readings(&self) -> usize {
        self.edges.iter().map(|edge| edge.readings()).sum()
    }

    /// Drops the facts of the last key press, oldest first.
    pub fn take_back(&mut self) -> Vec<BenchEvent> {
        let start = self.events.iter().rposition(|event| !event.joined);
        Arc::make_mut(&mut self.events).split_off(start.unwrap_or(0))
    }

    /// Puts dropped facts back, as they were.
    pub fn put_back(&mut self, mut events: Vec<BenchEvent>) {
        Arc::make_mut(&mut self.events).append(&mut events);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::piece::PieceId;

    fn job() -> Job {
        Job::new(Name::or("Cedar Lane", "job"), Settings::default())
    }

    fn cut(number: u32) -> Fact {
        Fact::Bent(PieceId {
            edge: EdgeId(1),
            course: CourseNumber::FIRST,
            number,
        })
    }

    #[test]
    fn ids_are_never_used_twice() {
        let mut job = job();
        let first = job.add_edge(Name::or("A", "?"), EdgeKind::Hip, Hand::Left);
        job.remove_edge(first);
        let second = job.add_edge(Name::or("A", "?"), EdgeKind::Hip, Hand::Left);
        assert_ne!(first, second);
    }

    #[test]
    fn facts_of_one_key_press_are_taken_back_together() {
        let mut job = job();
        job.record(vec![cut(1)], None);
        job.record(vec![cut(2), cut(3)], None);
        assert_eq!(job.take_back().len(), 2);
        assert_eq!(job.take_back().len(), 1);
        assert!(job.take_back().is_empty());
    }

    #[test]
    fn a_clock_that_runs_back_counts_as_no_time() {
        let mut job = job();
        job.record(vec![cut(1)], Some(Utc(100)));
        job.record(vec![cut(2)], Some(Utc(50)));
        job.record(vec![cut(3)], Some(Utc(100)));
        let times: Vec<_> = job.events().iter().map(|event| event.at).collect();
        assert_eq!(times, [Some(Utc(100)), None, Some(Utc(100))]);
    }
}
