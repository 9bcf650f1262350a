//! Taking changes back and doing them again: the last one first, wherever it
//! was made.

use super::{
    delta::{Delta, EdgeDelta},
    history::{Change, History, KeptChange, NamedChange},
    job::Job,
};
use crate::domain::{bench::BenchEvent, log::EdgeId};
use std::collections::{HashMap, HashSet};

impl Job {
    /// Remembers that the job was `before` until a change on paper just made, and
    /// goes on with its line. False where that came to what it was.
    pub fn keep_change(&mut self, before: &Self, named: NamedChange) -> bool {
        let mut history = before.history().clone();
        if self == before {
            self.set_history(history);
            return false;
        }
        let facts = before.events().len();
        if facts == self.events().len() {
            history.made(KeptChange {
                named,
                facts,
                change: Change::Paper(Delta::between(self, before)),
            });
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
        let change = Change::Bench(Vec::new());
        if self.events().len() > facts {
            self.history_mut().made(KeptChange {
                named,
                facts,
                change,
            });
        }
    }

    /// Takes the last change back and says which it was; `words` names facts of
    /// which no words are known.
    pub fn undo(
        &mut self,
        words: impl FnOnce(&[BenchEvent]) -> NamedChange,
    ) -> Option<NamedChange> {
        let there = self.events().len();
        let is_next = |kept: &&_| match kept {
            KeptChange {
                change: Change::Paper(_),
                facts,
                ..
            } => *facts == there,
            KeptChange { facts, .. } => *facts < there,
        };
        let history = self.history_mut();
        let last = history.done.last().map(AsRef::as_ref);
        let last = last.filter(is_next).cloned();
        if last.is_some() {
            history.done.pop();
        }
        let undone = match last {
            Some(kept) if matches!(kept.change, Change::Paper(_)) => self.turned(kept)?,
            kept => {
                let events = self.take_back();
                if events.is_empty() {
                    return None;
                }
                KeptChange {
                    named: kept.map_or_else(|| words(&events), |kept| kept.named),
                    facts: self.events().len(),
                    change: Change::Bench(events),
                }
            }
        };
        let named = undone.named.clone();
        self.history_mut().undone.push(undone.into());
        Some(named)
    }

    /// Does the change last taken back once more.
    pub fn redo(&mut self) -> Option<NamedChange> {
        let kept = self.history_mut().undone.pop()?;
        let kept = self.turned(kept.as_ref().clone())?;
        let named = kept.named.clone();
        self.history_mut().done.push(kept.into());
        Some(named)
    }

    /// Puts it in; what comes of it turns that round. None where it does not
    /// belong to this job; it and all beyond it are dropped then.
    fn turned(&mut self, kept: KeptChange) -> Option<KeptChange> {
        let change = match kept.change {
            Change::Paper(delta) => {
                let now = self.clone();
                if self.put(&delta).is_none() {
                    self.set_history(History::default());
                    return None;
                }
                Change::Paper(Delta::between(self, &now))
            }
            Change::Bench(events) => {
                self.put_back(events);
                Change::Bench(Vec::new())
            }
        };
        Some(KeptChange { change, ..kept })
    }

    /// Puts a delta in. None where it does not belong to this job, which is
    /// as it was then.
    pub fn put(&mut self, delta: &Delta) -> Option<()> {
        let Delta {
            name,
            settings,
            next_edge,
            order,
            edges,
            facts,
        } = delta;
        let there: HashMap<EdgeId, _> = self.edges().iter().map(|edge| (edge.id, edge)).collect();
        let other: HashMap<EdgeId, _> = edges.iter().map(|edge| (edge.id, edge)).collect();
        let here = || self.edges().iter().map(|edge| edge.id).collect();
        let order = order.clone().unwrap_or_else(here);
        let once: HashSet<&EdgeId> = order.iter().collect();
        let fits = once.len() == order.len()
            && other.len() == edges.len()
            && other.keys().all(|id| once.contains(id))
            && facts.iter().all(|(at, _)| *at < self.events().len());
        let made = order.iter().filter(|_| fits).map(|id| {
            let edge = there.get(id).copied();
            match other.get(id) {
                None => edge.cloned(),
                Some(other) => other.put_into(edge),
            }
        });
        let made = made.collect::<Option<Vec<_>>>()?;
        if !fits {
            return None;
        }
        self.put_edges(made, next_edge.unwrap_or(self.next_edge()));
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
}

impl Delta {
    /// What makes `now` what it was `before`; both have as many facts.
    pub fn between(now: &Job, before: &Job) -> Self {
        let there: HashMap<EdgeId, _> = now.edges().iter().map(|edge| (edge.id, edge)).collect();
        let edges = before.edges().iter().filter_map(|before| {
            let now = there.get(&before.id).copied();
            // The same in memory: untouched.
            let untouched = now.is_some_and(|now| std::sync::Arc::ptr_eq(now, before));
            let now = now.map(AsRef::as_ref);
            (!untouched).then(|| EdgeDelta::between(now, before))?
        });
        let mut edges: Vec<_> = edges.collect();
        edges.sort_by_key(|edge| edge.id);
        let order = |job: &Job| job.edges().iter().map(|edge| edge.id).collect::<Vec<_>>();
        let facts = now.events().iter().zip(before.events()).enumerate();
        let facts = facts.filter(|(_, (now, before))| now != before);
        Self {
            name: (now.name != before.name).then(|| before.name.clone()),
            settings: (now.settings != before.settings).then_some(before.settings),
            next_edge: (now.next_edge() != before.next_edge()).then_some(before.next_edge()),
            order: Some(order(before)).filter(|before| *before != order(now)),
            edges,
            facts: facts
                .map(|(at, (_, before))| (at, before.clone()))
                .collect(),
        }
    }
}
