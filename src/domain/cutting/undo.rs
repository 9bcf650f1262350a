//! Taking changes back and doing them again: the last one first, wherever it
//! was made.

use super::{
    delta::{Delta, EdgeDelta},
    history::{Change, History, KeptChange, NamedChange},
    job::Job,
    numbers::{EdgeNumber, EdgeNumbers},
};
use crate::domain::{
    bench::BenchEvent,
    log::{Edge, EdgeId},
};
use std::collections::HashMap;
use std::sync::Arc;

impl Job {
    /// Remembers that the job was `before` until a change on paper just made, and
    /// goes on with its line. False where that came to what it was.
    pub fn keep_change(&mut self, before: &Self, named: NamedChange) -> bool {
        self.number_new_kinds(before);
        let mut history = before.history().clone();
        if self == before {
            self.set_history(history);
            return false;
        }
        let facts = before.events().len();
        if facts == self.events().len() {
            let change = Change::Paper(Box::new(Delta::between(self, before)));
            history.made(KeptChange::new(named, facts, change));
        } else {
            // Not a change on paper: another job, with a line of its own.
            history = History::default();
        }
        self.set_history(history);
        true
    }

    /// Remembers by which words a key press at the bench is called; there were
    /// so many facts before it.
    pub fn keep_press(&mut self, named: NamedChange, facts: usize) {
        if self.events().len() > facts {
            let change = Change::Bench(Vec::new());
            self.history_mut()
                .made(KeptChange::new(named, facts, change));
        }
    }

    /// Takes the last change back and says which it was; `words` names facts of
    /// which no words are known.
    pub fn undo(
        &mut self,
        words: impl FnOnce(&[BenchEvent]) -> NamedChange,
    ) -> Option<NamedChange> {
        let there = self.events().len();
        let is_next = |kept: &&Arc<KeptChange>| match kept.change() {
            Change::Paper(_) => kept.facts() == there,
            Change::Bench(_) => kept.facts() < there,
        };
        let done = &mut self.history_mut().done;
        let last = done.last().filter(is_next).cloned();
        if last.is_some() {
            done.pop();
        }
        let paper = |kept: &&Arc<KeptChange>| matches!(kept.change(), Change::Paper(_));
        let undone = if let Some(kept) = last.as_ref().filter(paper) {
            self.turned(kept)?
        } else {
            let events = self.take_back();
            if events.is_empty() {
                return None;
            }
            let named = last.map_or_else(|| words(&events), |kept| kept.named().clone());
            KeptChange::new(named, self.events().len(), Change::Bench(events))
        };
        let named = undone.named().clone();
        self.history_mut().undone.push(undone.into());
        Some(named)
    }

    /// Does the change last taken back once more.
    pub fn redo(&mut self) -> Option<NamedChange> {
        let kept = self.history_mut().undone.pop()?;
        let kept = self.turned(&kept)?;
        let named = kept.named().clone();
        self.history_mut().done.push(kept.into());
        Some(named)
    }

    /// Puts it in; what comes of it turns that round. None where it does not
    /// belong to this job; the whole line is dropped then.
    fn turned(&mut self, kept: &KeptChange) -> Option<KeptChange> {
        let change = match kept.change() {
            Change::Paper(delta) => {
                let now = self.clone();
                if self.put(delta).is_none() {
                    self.set_history(History::cut_off());
                    return None;
                }
                Change::Paper(Box::new(Delta::between(self, &now)))
            }
            Change::Bench(events) => {
                self.put_back(events.clone());
                Change::Bench(Vec::new())
            }
        };
        Some(KeptChange::new(kept.named().clone(), kept.facts(), change))
    }

    /// Puts a delta in. None where it does not belong to this job, which is
    /// as it was then.
    pub fn put(&mut self, delta: &Delta) -> Option<()> {
        let Delta {
            name,
            settings,
            next_edge,
            numbers,
            order,
            edges,
            facts,
        } = delta;
        if facts.iter().any(|(at, _)| *at >= self.events().len()) {
            return None;
        }
        let numbered = match numbers {
            None => None,
            Some((alike, rows)) => {
                let there = self.numbers().rows().get(..*alike)?;
                let rows = [there, rows].concat();
                let once = EdgeNumbers::twice(&rows).is_none();
                Some(once.then(|| EdgeNumbers::of(rows))?)
            }
        };
        let made = match (order, edges.as_slice()) {
            (None, []) => self.edges().to_vec(),
            // Most changes are of one edge.
            (None, [edge]) => {
                let mut all = self.edges().to_vec();
                let place = all.iter_mut().find(|other| other.id == edge.id)?;
                *place = edge.put_into(Some(place))?;
                all
            }
            _ => self.edges_with(order.as_deref(), edges)?,
        };
        self.put_edges(made, next_edge.unwrap_or(self.next_edge()));
        if let Some(numbers) = numbered {
            self.set_numbers(numbers);
        }
        if let Some(name) = name {
            self.name = name.clone();
        }
        self.settings = settings.unwrap_or(self.settings);
        for (at, event) in facts {
            if let Some(place) = self.events_mut().get_mut(*at) {
                place.clone_from(event);
            }
        }
        Some(())
    }

    /// The edges in that order, with what is put into them.
    fn edges_with(&self, order: Option<&[EdgeId]>, deltas: &[EdgeDelta]) -> Option<Vec<Arc<Edge>>> {
        let there = by_id(self.edges(), |edge| edge.id)?;
        let deltas = by_id(deltas, |delta| delta.id)?;
        let as_they_are: Vec<EdgeId> = self.edges().iter().map(|edge| edge.id).collect();
        let order = order.unwrap_or(&as_they_are);
        let once = by_id(order, |id| *id)?;
        if !deltas.keys().all(|id| once.contains_key(id)) {
            return None;
        }
        let made = order.iter().map(|id| {
            let edge = there.get(id).copied();
            match deltas.get(id) {
                None => edge.cloned(),
                Some(delta) => delta.put_into(edge),
            }
        });
        made.collect()
    }
}

/// By their ids, each once; none where one is there twice.
fn by_id<T>(all: &[T], id: impl Fn(&T) -> EdgeId) -> Option<HashMap<EdgeId, &T>> {
    let by_id: HashMap<EdgeId, &T> = all.iter().map(|one| (id(one), one)).collect();
    (by_id.len() == all.len()).then_some(by_id)
}

impl Delta {
    /// What makes `now` what it was `before`; both have as many facts.
    pub fn between(now: &Job, before: &Job) -> Self {
        let there: HashMap<EdgeId, _> = now.edges().iter().map(|edge| (edge.id, edge)).collect();
        let edges = before.edges().iter().filter_map(|before| {
            let now = there.get(&before.id).copied();
            // The same in memory: untouched.
            let untouched = now.is_some_and(|now| Arc::ptr_eq(now, before));
            let now = now.map(AsRef::as_ref);
            (!untouched).then(|| EdgeDelta::between(now, before))?
        });
        let mut edges: Vec<_> = edges.collect();
        edges.sort_by_key(|edge| edge.id);
        let order = |job: &Job| job.edges().iter().map(|edge| edge.id).collect::<Vec<_>>();
        let untouched = std::ptr::eq(now.events(), before.events());
        let facts = now.events().iter().zip(before.events()).enumerate();
        let facts = facts.filter(|_| !untouched);
        let facts = facts.filter(|(_, (now, before))| now != before);
        Self {
            name: (now.name != before.name).then(|| before.name.clone()),
            settings: (now.settings != before.settings).then_some(before.settings),
            next_edge: (now.next_edge() != before.next_edge()).then_some(before.next_edge()),
            numbers: numbers_between(now.numbers(), before.numbers()),
            order: Some(order(before)).filter(|before| *before != order(now)),
            edges,
            facts: facts
                .map(|(at, (_, before))| (at, before.clone()))
                .collect(),
        }
    }
}

/// How many of the numbers stay, and those that stood behind them before.
fn numbers_between(now: &EdgeNumbers, before: &EdgeNumbers) -> Option<(usize, Vec<EdgeNumber>)> {
    let alike = now.alike(before);
    let then = before.rows().get(alike..).unwrap_or_default();
    let same = then.is_empty() && now.rows().len() == alike;
    (!same).then(|| (alike, then.to_vec()))
}
