//! The line of changes that undo goes back and redo goes forward.
//!
//! It holds the changes on paper: settings, edges, readings, answers, imports.
//! What was done at the bench stands as facts in the job and is taken back from
//! its end; a change on paper knows how many facts there were when it was made,
//! so both are taken back in the order in which they were made. Only what was
//! taken back holds its facts here.
//!
//! It is part of the job and goes where the job goes: into its file, its copies,
//! a second window. So a job read from another file has that file's own line, or
//! begins one, and nothing is taken back across.

use super::{delta::Delta, spot::Spot};
use crate::domain::bench::BenchEvent;
use std::sync::{Arc, OnceLock};

/// A change in words and place, for saying what was taken back or done again.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct NamedChange {
    /// In words, such as `bottom of Hip 2 course 5: 13 5/8 in`.
    pub words: String,
    pub spot: Spot,
}

/// What it takes to take a change back, or to do it again.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Change {
    Paper(Box<Delta>),
    /// A key press at the bench; holds its facts once taken back.
    Bench(Vec<BenchEvent>),
}

/// A change that can be taken back or done again.
#[derive(Debug)]
pub struct KeptChange {
    named: NamedChange,
    facts: usize,
    change: Change,
    /// As the job's file has it: 500 changes are not put into words again at
    /// every save.
    written: OnceLock<String>,
}

impl KeptChange {
    /// A change before which there were so many facts of the bench.
    pub const fn new(named: NamedChange, facts: usize, change: Change) -> Self {
        Self {
            named,
            facts,
            change,
            written: OnceLock::new(),
        }
    }

    /// What it is called, and where it was made.
    pub const fn named(&self) -> &NamedChange {
        &self.named
    }

    /// How many facts of the bench there were before it.
    pub const fn facts(&self) -> usize {
        self.facts
    }

    /// What takes it back, or does it again.
    pub const fn change(&self) -> &Change {
        &self.change
    }

    /// As a file has it; `write` says it the first time.
    ///
    /// # Errors
    /// Those of `write`.
    pub fn written<E>(&self, write: impl FnOnce() -> Result<String, E>) -> Result<&str, E> {
        if let Some(written) = self.written.get() {
            return Ok(written);
        }
        let written = write()?;
        Ok(self.written.get_or_init(|| written))
    }
}

/// The changes made, and those taken back.
#[derive(Clone, Debug, Default)]
pub struct History {
    /// The latest last. Key presses at the bench are in it for their words only,
    /// and only those since the job was opened.
    pub(super) done: Vec<Arc<KeptChange>>,
    /// The one taken back last is last.
    pub(super) undone: Vec<Arc<KeptChange>>,
    /// Whether changes that its file spoke of are not in it.
    pub(super) is_cut: bool,
}

impl History {
    /// A line without a change.
    pub const fn new() -> Self {
        Self {
            done: Vec::new(),
            undone: Vec::new(),
            is_cut: false,
        }
    }

    /// The line that a file holds, each list with the nearest change last.
    pub fn from_parts(done: Vec<KeptChange>, undone: Vec<KeptChange>, is_cut: bool) -> Self {
        Self {
            done: done.into_iter().map(Arc::new).collect(),
            undone: undone.into_iter().map(Arc::new).collect(),
            is_cut,
        }
    }

    /// The line of a file whose changes can not be taken back any more.
    pub fn cut_off() -> Self {
        Self {
            is_cut: true,
            ..Self::default()
        }
    }

    /// The changes on paper, the latest last.
    pub fn done_on_paper(&self) -> impl DoubleEndedIterator<Item = &KeptChange> {
        let all = self.done.iter().map(Arc::as_ref);
        all.filter(|kept| matches!(kept.change, Change::Paper(_)))
    }

    /// What was taken back, the last of it last.
    pub fn undone(&self) -> impl DoubleEndedIterator<Item = &KeptChange> {
        self.undone.iter().map(Arc::as_ref)
    }

    /// Whether changes that the job's file spoke of can no longer be taken back.
    pub const fn is_cut(&self) -> bool {
        self.is_cut
    }

    /// Remembers a change just made; nothing taken back before it can be done
    /// again.
    pub(super) fn made(&mut self, kept: KeptChange) {
        self.forget_undone();
        self.done.push(Arc::new(kept));
    }

    pub(super) fn forget_undone(&mut self) {
        self.undone.clear();
    }
}
