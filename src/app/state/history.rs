//! Undo and redo: the last change first, wherever it was made.
//!
//! Edits of the paper (settings, edges, readings) are kept as shared copies of
//! the job before them; facts of the bench are dropped from the job and put
//! back. When this session's changes are used up, the bench's facts written in
//! earlier sessions are taken back one key press at a time.

use super::views::ReadingAt;
use crate::domain::{
    bench::{BenchEvent, Fact},
    cutting::{Job, Labels, Paper},
    log::EdgeId,
    piece::PieceId,
    settings::Setting,
};

/// Where a change was made, so that undo can show it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Spot {
    Reading(ReadingAt),
    Edge(EdgeId),
    Piece(PieceId),
    Rack,
    Setting(Setting),
}

/// A change in words and place, for saying what was taken back or done again.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct NamedChange {
    /// In words, such as `bottom of Hip 2 course 5: 13 5/8 in`.
    pub words: String,
    pub spot: Spot,
}

/// What it takes to take a change back, or to do it again.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum Change {
    /// The paper as it was before an edit (after it, once undone).
    Paper(Box<Paper>),
    /// The whole job as it was, where numbers changed in the facts too.
    Whole(Box<Job>),
    /// A key press at the bench; holds its facts once undone.
    Bench(Vec<BenchEvent>),
}

impl Change {
    /// Takes the change back, or does it again; what comes of it turns that
    /// round.
    fn turned(self, job: &mut Job) -> Self {
        match self {
            Self::Paper(other) => {
                let now = job.paper();
                job.restore(*other);
                Self::Paper(Box::new(now))
            }
            Self::Whole(mut other) => {
                std::mem::swap(job, &mut other);
                Self::Whole(other)
            }
            Self::Bench(events) if events.is_empty() => Self::Bench(job.take_back()),
            Self::Bench(events) => {
                job.put_back(events);
                Self::Bench(Vec::new())
            }
        }
    }
}

/// This session's changes.
#[derive(Clone, PartialEq, Debug, Default)]
pub(super) struct History {
    done: Vec<(NamedChange, Change)>,
    undone: Vec<(NamedChange, Change)>,
}

impl History {
    /// Remembers a change just made; nothing taken back before it can be done
    /// again.
    pub(super) fn made(&mut self, named: NamedChange, change: Change) {
        self.undone.clear();
        self.done.push((named, change));
    }

    /// Takes the last change back and says which it was; `words` names a fact
    /// written in an earlier session.
    pub(super) fn undo(
        &mut self,
        job: &mut Job,
        words: impl FnOnce(&[BenchEvent]) -> NamedChange,
    ) -> Option<NamedChange> {
        let (named, change) = match self.done.pop() {
            Some((named, change)) => (named, change.turned(job)),
            None => {
                let events = job.take_back();
                if events.is_empty() {
                    return None;
                }
                (words(&events), Change::Bench(events))
            }
        };
        self.undone.push((named.clone(), change));
        Some(named)
    }

    /// Does the change last taken back once more.
    pub(super) fn redo(&mut self, job: &mut Job) -> Option<NamedChange> {
        let (named, change) = self.undone.pop()?;
        let change = change.turned(job);
        self.done.push((named.clone(), change));
        Some(named)
    }
}

/// A key press of an earlier session, named by its facts.
pub(super) fn named_by_facts(events: &[BenchEvent], labels: &Labels) -> NamedChange {
    // Promises follow from what was done; they do not name it.
    let is_done = |fact: &&Fact| !matches!(fact, Fact::Promised { .. });
    let last = events.iter().rev().map(|event| &event.fact).find(is_done);
    let (words, spot) = match last {
        None => (String::new(), Spot::Rack),
        Some(Fact::Corrected { edge, .. }) => {
            let words = format!("{} corrected", labels.edge(*edge));
            (words, Spot::Edge(*edge))
        }
        Some(Fact::Found { number, .. }) => (format!("offcut {number} found"), Spot::Rack),
        Some(Fact::Gone { offcut, .. }) => (format!("offcut {offcut} gone"), Spot::Rack),
        Some(fact) => match fact.piece() {
            Some(piece) => {
                let words = format!("{} {}", labels.piece(piece), fact.word());
                (words, Spot::Piece(piece))
            }
            None => (fact.word().to_owned(), Spot::Rack),
        },
    };
    NamedChange { words, spot }
}
