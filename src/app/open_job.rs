//! The job that is open: what is written down, and all that follows from it.

use super::history::{History, Spot, Undone};
use super::message::Opened;
use crate::domain::course::CourseNumber;
use crate::domain::cut_list::{CutList, CutPiece};
use crate::domain::edge::EdgeId;
use crate::domain::event::{BenchEvent, Fact, Utc};
use crate::domain::job::Job;
use crate::domain::label::Labels;
use crate::domain::note::{Note, notes};
use crate::domain::piece::PieceId;
use crate::domain::progress::Progress;
use std::path::PathBuf;
use std::sync::Arc;

/// Whether the newest change is on the disk.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Saved {
    /// It is.
    Yes,
    /// It is on its way.
    Underway,
    /// It is not, and why.
    No(String),
}

/// The open job with everything derived from it.
#[derive(Clone, PartialEq, Debug)]
pub struct OpenJob {
    /// Where its file is.
    pub path: PathBuf,
    /// Whether the newest change is on the disk.
    pub saved: Saved,
    /// What the bench's facts amount to.
    pub progress: Progress,
    /// Every piece in cutting order.
    pub list: CutList,
    /// The short labels.
    pub labels: Labels,
    job: Arc<Job>,
    history: History,
    change: u64,
}

impl OpenJob {
    /// A job just read or made.
    #[must_use]
    pub fn new(opened: Opened) -> Self {
        let job = Arc::new(opened.job);
        let progress = Progress::of(job.events());
        Self {
            list: CutList::of(&job, &progress),
            labels: Labels::of(&job),
            path: opened.path,
            saved: Saved::Yes,
            progress,
            job,
            history: History::default(),
            change: 0,
        }
    }

    /// The job as written down.
    #[must_use]
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// A copy to save.
    #[must_use]
    pub fn to_save(&self) -> (PathBuf, Arc<Job>, u64) {
        (self.path.clone(), Arc::clone(&self.job), self.change)
    }

    /// The number of the newest change.
    #[must_use]
    pub const fn change(&self) -> u64 {
        self.change
    }

    /// Changes the paper: settings, edges, readings. `edit` says whether
    /// anything was changed at all.
    pub fn edit(&mut self, words: String, spot: Spot, edit: impl FnOnce(&mut Job) -> bool) -> bool {
        let before = self.job.paper();
        if !edit(Arc::make_mut(&mut self.job)) || self.job.paper() == before {
            return false;
        }
        self.history.edited(Undone { words, spot }, before);
        self.derive();
        true
    }

    /// Writes down facts of one key press at the bench.
    pub fn work(&mut self, words: String, spot: Spot, facts: Vec<Fact>, now: Option<Utc>) {
        Arc::make_mut(&mut self.job).record(facts, now);
        self.history.worked(Undone { words, spot });
        self.derive();
    }

    /// Takes the last change back.
    pub fn undo(&mut self) -> Option<Undone> {
        let labels = self.labels.clone();
        let note = self.history.undo(Arc::make_mut(&mut self.job), |events| {
            named_by_facts(events, &labels)
        })?;
        self.derive();
        Some(note)
    }

    /// Does the change last taken back once more.
    pub fn redo(&mut self) -> Option<Undone> {
        let note = self.history.redo(Arc::make_mut(&mut self.job))?;
        self.derive();
        Some(note)
    }

    /// The piece of that id, as it stands in the list.
    #[must_use]
    pub fn piece(&self, piece: PieceId) -> Option<&CutPiece> {
        self.list.piece(piece)
    }

    /// The name of an edge, for showing.
    #[must_use]
    pub fn edge_name(&self, edge: EdgeId) -> &str {
        self.job
            .edge(edge)
            .map_or("a deleted edge", |edge| edge.name.as_str())
    }

    /// The pieces of one course, in the order they are laid.
    #[must_use]
    pub fn pieces_of_course(&self, edge: EdgeId, course: CourseNumber) -> Vec<&CutPiece> {
        (1..)
            .map_while(|number| {
                self.list.piece(PieceId {
                    edge,
                    course,
                    number,
                })
            })
            .collect()
    }

    /// What is out of the ordinary about a course's pieces, each piece's words
    /// in turn.
    #[must_use]
    pub fn notes_of_course(&self, edge: EdgeId, course: CourseNumber) -> Vec<(PieceId, Note)> {
        let settings = &self.job.settings;
        self.pieces_of_course(edge, course)
            .into_iter()
            .flat_map(|piece| {
                notes(&piece.spec, piece.id, settings)
                    .into_iter()
                    .map(|note| (piece.id, note))
            })
            .collect()
    }

    fn derive(&mut self) {
        self.progress = Progress::of(self.job.events());
        self.list = CutList::of(&self.job, &self.progress);
        self.labels = Labels::of(&self.job);
        self.change += 1;
        self.saved = Saved::Underway;
    }
}

/// A key press of an earlier session, named by its facts.
fn named_by_facts(events: &[BenchEvent], labels: &Labels) -> Undone {
    let last = events.last();
    let words = last.map_or_else(String::new, |event| match event.fact.piece() {
        Some(piece) => format!("{} {}", labels.piece(piece), event.fact.word()),
        None => format!("{} {}", labels.edge(event.fact.edge()), event.fact.word()),
    });
    let spot = last.map_or(Spot::Edge(EdgeId(0)), |event| {
        event
            .fact
            .piece()
            .map_or_else(|| Spot::Edge(event.fact.edge()), Spot::Piece)
    });
    Undone { words, spot }
}
