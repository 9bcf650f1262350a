//! Going through a file's line of changes, so that none is kept that would bring
//! back a job which would itself be refused.
//!
//! It looks at what a change touched, not at the whole job each time.

use super::{
    fact::edges_of,
    number::is_possible,
    size::{self, MOST_PIECES},
};
use crate::domain::{
    bench::{BenchEvent, Fact},
    cutting::{Change, Delta, Job, KeptChange},
    log::{Edge, EdgeId},
};
use std::collections::HashMap;

/// How many courses, edges and facts are looked at before what is older is left
/// out: 500 changes to the whole of a job of 10,000 courses.
const MOST_LOOKED_AT: usize = 5_000_000;

/// A job as it goes back or forward through its changes.
pub(super) struct Replay {
    job: Job,
    /// By how much pieces of each edge are at most made longer, in nm.
    longer: HashMap<EdgeId, i64>,
    /// About how many pieces each edge makes; never fewer than it does.
    pieces: HashMap<EdgeId, usize>,
    left_to_look_at: usize,
}

impl Replay {
    pub(super) fn of(job: &Job, undone: &[KeptChange]) -> Self {
        let undone = undone.iter().flat_map(|kept| match kept.change() {
            Change::Bench(events) => &**events,
            Change::Paper(_) => &[],
        });
        let mut longer = HashMap::new();
        for event in job.events().iter().chain(undone) {
            if let Fact::Corrected { edge, by } = &event.fact {
                let sum: &mut i64 = longer.entry(*edge).or_default();
                *sum = sum.saturating_add(by.nm().max(0));
            }
        }
        let mut replay = Self {
            job: job.clone(),
            longer,
            pieces: HashMap::new(),
            left_to_look_at: MOST_LOOKED_AT,
        };
        replay.count_all();
        replay
    }

    /// Takes the change back; false where it does not fit.
    pub(super) fn back(&mut self, kept: &KeptChange) -> bool {
        while self.job.events().len() > kept.facts() {
            let _ = self.job.take_back();
        }
        match kept.change() {
            Change::Paper(delta) => self.job.events().len() == kept.facts() && self.put(delta),
            Change::Bench(_) => false,
        }
    }

    /// Does the change again; false where it does not fit.
    pub(super) fn forward(&mut self, kept: &KeptChange) -> bool {
        let there = self.job.events().len();
        there == kept.facts()
            && match kept.change() {
                Change::Paper(delta) => self.put(delta),
                Change::Bench(events) => self.press(events),
            }
    }

    /// Facts that are one key press, of edges that were made.
    fn press(&mut self, events: &[BenchEvent]) -> bool {
        let mut joined = events.iter().map(|event| event.joined);
        let begins = joined.next().is_some_and(|joined| !joined) || self.job.events().is_empty();
        let edges = events.iter().flat_map(|event| edges_of(&event.fact));
        let mut edges = edges.map(|edge| edge.0);
        let fits = begins
            && joined.all(|joined| joined)
            && edges.all(|edge| edge != 0 && edge < self.job.next_edge());
        if fits {
            self.job.put_back(events.to_vec());
        }
        fits
    }

    fn put(&mut self, delta: &Delta) -> bool {
        let same_edges = |(at, event): &(usize, BenchEvent)| {
            let was = self.job.events().get(*at);
            was.is_some_and(|was| edges_of(&was.fact) == edges_of(&event.fact))
        };
        // A course put in or taken out gives pieces other courses, never edges.
        if !delta.facts.iter().all(same_edges) {
            return false;
        }
        let touched: Vec<EdgeId> = delta.edges.iter().map(|edge| edge.id).collect();
        let rows: usize = delta.edges.iter().map(|edge| edge.courses.len()).sum();
        self.look_at(self.job.edges().len() + rows);
        let whole = delta.settings.is_some() || delta.order.is_some();
        if self.left_to_look_at == 0 || self.job.put(delta).is_none() {
            return false;
        }
        if whole || delta.next_edge.is_some() {
            self.count_all();
        } else {
            for edge in touched {
                let edge = self.job.edges().iter().find(|other| other.id == edge);
                if let Some(edge) = edge.cloned() {
                    self.count(&edge);
                }
            }
        }
        let made = |edge: &EdgeId| edge.0 != 0 && edge.0 < self.job.next_edge();
        let all = || self.job.edges().iter();
        let next_edge = self.job.next_edge();
        let numbers = self.job.numbers().rows();
        let changed = delta.numbers.is_some() || delta.next_edge.is_some();
        let numbered = !changed || numbers.iter().all(|row| is_possible(row, next_edge));
        let in_range = (1..u32::MAX).contains(&self.job.next_edge());
        let runs = |edge: &Edge| {
            let mut to = edge.courses().iter().filter_map(|course| course.to);
            to.all(|to| to != edge.id && made(&to))
        };
        let fits = if delta.next_edge.is_some() || delta.order.is_some() {
            let events = self.job.events().iter();
            let mut named = events.flat_map(|event| edges_of(&event.fact));
            all().all(|edge| made(&edge.id) && runs(edge)) && named.all(|edge| made(&edge))
        } else {
            let mut touched = delta.edges.iter();
            touched.all(|edge| self.job.edge(edge.id).is_some_and(runs))
        };
        in_range && numbered && fits && self.left_to_look_at > 0 && self.is_small()
    }

    fn is_small(&mut self) -> bool {
        let about = self
            .pieces
            .values()
            .fold(0, |sum: usize, pieces| sum.saturating_add(*pieces));
        if about <= MOST_PIECES {
            return true;
        }
        // Corrections may go either way; here they are as they are.
        self.look_at_all();
        size::pieces(&self.job) <= MOST_PIECES
    }

    fn count_all(&mut self) {
        self.look_at_all();
        self.pieces.clear();
        if self.left_to_look_at > 0 {
            for edge in self.job.edges().to_vec() {
                self.count(&edge);
            }
        }
    }

    fn count(&mut self, edge: &Edge) {
        let longer = self.longer.get(&edge.id).copied().unwrap_or_default();
        let pieces = size::of_edge(edge, longer, &self.job.settings);
        self.pieces.insert(edge.id, pieces);
        self.look_at(edge.courses().len());
    }

    fn look_at_all(&mut self) {
        self.look_at(self.job.events().len());
    }

    fn look_at(&mut self, much: usize) {
        self.left_to_look_at = self.left_to_look_at.saturating_sub(much);
    }
}
