//! The job that is open: what is written down, and all that follows from it.

use super::earlier::named_by_facts;
use crate::app::effect::{OtherFile, ToSave};
use crate::app::message::Opened;
use crate::domain::{
    bench::{BenchEvent, Fact, Pace, Progress, TimeLeft, Utc},
    cutting::{
        CutList, CutPiece, EdgeDoubt, History, Job, Labels, NamedChange, PieceStock, Spot,
        doubts_of,
    },
    doubt::Doubt,
    log::{CourseNumber, Edge, EdgeId, TwoReadings},
    piece::PieceId,
    settings::OneKey,
    stock::RackOffcut,
};
use std::path::PathBuf;
use std::sync::Arc;

/// Whether the newest change is on the disk.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum OnDisk {
    Yes,
    /// It is on its way.
    Underway,
    /// It is not, and why.
    No(String),
}

/// The open job with everything derived from it.
#[derive(Clone, PartialEq, Debug)]
pub struct OpenJob {
    pub path: PathBuf,
    pub saved: OnDisk,
    /// Where its newest change lies while it is not saved.
    pub rescued: Option<PathBuf>,
    /// Why nothing of it may be changed, where that is so.
    pub read_only: Option<String>,
    /// What the bench's facts amount to.
    pub progress: Progress,
    /// How fast the steps are made, once there is something to go by.
    pace: Pace,
    /// Every piece in cutting order.
    pub list: CutList,
    pub labels: Labels,
    pub doubts: Vec<EdgeDoubt>,
    /// The figures of which the log and a sheet have each another.
    pub two: Vec<(EdgeId, TwoReadings)>,
    /// The file that readings were last taken from.
    pub readings: Option<PathBuf>,
    job: Arc<Job>,
    change: u64,
    /// Whether a change was refused since that was last asked.
    refused: bool,
    /// The piece that is taken out of its turn.
    first: Option<PieceId>,
    /// The list was carried on since it was last planned: as good as a new plan,
    /// and perhaps another one.
    carried: bool,
}

impl OpenJob {
    /// A job just read or made.
    pub fn new(opened: Opened, first_change: u64) -> Self {
        let job = Arc::new(opened.job);
        let progress = Progress::of(job.events());
        Self {
            pace: Pace::of(job.events(), job.settings.pause),
            list: CutList::of(&job, &progress),
            labels: Labels::of(&job, &progress),
            doubts: doubts_of(&job),
            two: two_of(&job),
            readings: None,
            path: opened.path,
            saved: OnDisk::Yes,
            rescued: None,
            read_only: opened.read_only,
            progress,
            job,
            change: first_change,
            refused: false,
            first: None,
            carried: false,
        }
    }

    /// The job as written down.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// Its newest state, to be saved in its file.
    pub fn to_save(&self) -> ToSave {
        ToSave {
            path: self.path.clone(),
            job: Arc::clone(&self.job),
            change: self.change,
            other: OtherFile::Stays,
            before: None,
        }
    }

    /// The number of the newest change.
    pub const fn change(&self) -> u64 {
        self.change
    }

    /// Changes the paper: settings, edges, readings. False where that comes to
    /// what it was.
    pub fn edit(&mut self, words: String, spot: Spot, edit: impl FnOnce(&mut Job)) -> bool {
        let pause = self.job.settings.pause;
        let changed = self.keeps(words, spot, edit);
        if changed {
            if self.job.settings.pause != pause {
                self.pace = Pace::of(self.job.events(), self.job.settings.pause);
            }
            self.derive_from_paper();
        }
        changed
    }

    /// Changes what numbers stand for, on paper and in the facts. False where
    /// that comes to what it was.
    pub fn renumber(&mut self, words: String, spot: Spot, edit: impl FnOnce(&mut Job)) -> bool {
        let changed = self.keeps(words, spot, edit);
        if changed {
            self.first = None;
            self.derive();
        }
        changed
    }

    /// Changes the job and keeps what it was.
    fn keeps(&mut self, words: String, spot: Spot, edit: impl FnOnce(&mut Job)) -> bool {
        if self.refuses() {
            return false;
        }
        let before = Arc::clone(&self.job);
        let job = Arc::make_mut(&mut self.job);
        edit(job);
        // The job may be one from before; the count of changes never falls.
        job.set_changes(before.changes());
        job.keep_change(&before, NamedChange { words, spot })
    }

    /// Writes down facts of one key press at the bench, and with them to whom
    /// the offcuts on the rack are promised from now on.
    pub fn work(&mut self, words: String, spot: Spot, facts: Vec<Fact>, now: Option<Utc>) {
        if self.refuses() {
            return;
        }
        self.progress.go_on(&facts);
        let follows = self.follow(&facts);
        self.relabel(&facts);
        let job = Arc::make_mut(&mut self.job);
        let before = job.events().len();
        job.record(facts, now);
        job.keep_press(NamedChange { words, spot }, before);
        let written = self.job.events().get(before..);
        self.pace.go_on(written.unwrap_or_default());
        self.changed();
        self.carried |= follows;
        if !follows {
            self.plan_anew();
        }
        let promises = self.changed_promises();
        if promises.is_empty() {
            if follows {
                // They were released a step before, and that was said.
                self.list.plan.released.clear();
            }
        } else {
            self.progress.go_on(&promises);
            Arc::make_mut(&mut self.job).record_joined(promises, now);
        }
    }

    fn plan_anew(&mut self) {
        self.carried = false;
        self.list = CutList::with_first(&self.job, &self.progress, self.first);
    }

    /// Plans as a sheet or a restart would: away from the bench nobody may read that
    /// an offcut is to be thrown away which another page has a use for.
    pub fn settle(&mut self) {
        if self.carried {
            self.plan_anew();
        }
    }

    /// Goes on with the list where `facts` follow it; false where it must be made anew.
    fn follow(&mut self, facts: &[Fact]) -> bool {
        // What is planned with a piece out of its turn holds for no other.
        let is_known = |fact: &Fact| self.first.is_none() || fact.only_further().is_some();
        facts.iter().all(is_known) && self.list.go_on(facts, &self.job, &self.progress)
    }

    /// Labels what was marked.
    fn relabel(&mut self, facts: &[Fact]) {
        for fact in facts {
            match fact {
                Fact::Marked { piece, .. } => {
                    if let Some(done) = self.progress.done(*piece) {
                        self.labels.mark(*piece, done);
                    }
                }
                // Its course may be written otherwise on the next.
                Fact::Spoiled { .. } | Fact::TakenBack { .. } => {
                    self.labels = Labels::of(&self.job, &self.progress);
                }
                _ => {}
            }
        }
    }

    /// Whether nothing may be changed; remembers that something was to be.
    fn refuses(&mut self) -> bool {
        let refuses = self.read_only.is_some();
        self.refused |= refuses;
        refuses
    }

    /// Whether a change was refused since this was last asked.
    pub fn take_refused(&mut self) -> bool {
        std::mem::take(&mut self.refused)
    }

    /// The promises that the plan makes anew or no longer keeps.
    fn changed_promises(&self) -> Vec<Fact> {
        let promises = self.progress.promises();
        let changed = promises.filter_map(|(offcut, promised)| {
            let piece = self.list.plan.rack.get(&offcut).copied();
            (piece != promised).then_some(Fact::Promised { offcut, piece })
        });
        changed.collect()
    }

    /// The rack, and what the plan keeps each offcut for.
    pub fn rack(&self) -> Vec<(RackOffcut, Option<PieceId>)> {
        let rack = self.progress.rack().into_iter();
        rack.map(|offcut| {
            let kept_for = self.list.plan.rack.get(&offcut.number).copied();
            (offcut, kept_for)
        })
        .collect()
    }

    /// How many pieces of an edge are not stacked yet.
    pub fn left_at(&self, edge: EdgeId) -> usize {
        self.list.left_at(edge)
    }

    /// How far one key goes on with `piece`. One that is cut at both ends is turned and
    /// cut twice, and bent along two lines: each step is seen.
    pub fn one_key(&self, piece: &CutPiece) -> OneKey {
        match piece.spec.near {
            Some(_) => OneKey::Step,
            None => self.job.settings.one_key,
        }
    }

    /// How long the open pieces of one edge take, or of the whole job.
    pub fn time_left(&self, edge: Option<EdgeId>) -> Option<TimeLeft> {
        let at = self.list.at_stages(edge);
        self.pace.time_for(at, self.job.settings.bench_order)
    }

    /// How many places of an edge are doubtful, or have two readings.
    pub fn count_of_doubts(&self, edge: EdgeId) -> usize {
        let two = self.two.iter().filter(|(of, _)| *of == edge).count();
        self.doubts
            .iter()
            .filter(|doubt| doubt.edge == edge)
            .count()
            + two
    }

    /// The first doubt about a course, or about its whole edge.
    pub fn doubt_at(&self, edge: EdgeId, course: CourseNumber) -> Option<&Doubt> {
        let about = || self.doubts.iter().filter(move |doubt| doubt.edge == edge);
        about()
            .find(|doubt| doubt.doubt.course.is_some() && doubt.doubt.touches(course))
            .or_else(|| about().find(|doubt| doubt.doubt.course.is_none()))
            .map(|doubt| &doubt.doubt)
    }

    /// The first figure of a course that is two readings.
    pub fn two_at(&self, edge: EdgeId, course: CourseNumber) -> Option<&TwoReadings> {
        let mut two = self.two.iter();
        let here = |(at, two): &&(EdgeId, TwoReadings)| *at == edge && two.course == course;
        two.find(here).map(|(_, two)| two)
    }

    /// Why a piece is held: its course is two readings, and steel cut by the
    /// wrong one is lost. Of a stacked piece nothing is left to hold.
    pub fn held(&self, piece: &CutPiece) -> Option<&TwoReadings> {
        let two = self.two_at(piece.id.edge, piece.id.course);
        two.filter(|_| piece.is_open())
    }

    /// Whether `piece` is planned as if it were cut next.
    pub fn is_out_of_turn(&self, piece: PieceId) -> bool {
        self.first == Some(piece)
    }

    /// Plans as if `piece` were cut next, where it is taken out of its turn: by
    /// the plan as it stands otherwise, it would come from a piece not yet cut.
    pub fn take_first(&mut self, piece: Option<PieceId>) {
        if self.first.take().is_some() {
            self.list = CutList::of(&self.job, &self.progress);
        }
        let piece = piece.and_then(|piece| self.piece(piece));
        let waits = piece.filter(|piece| matches!(piece.stock, PieceStock::LeftBy { .. }));
        if let Some(piece) = waits {
            self.first = Some(piece.id);
            self.list = CutList::with_first(&self.job, &self.progress, self.first);
        }
    }

    /// Puts another state of the job in its place, as a change of its own that
    /// begins a line of its own: what was undone or done before is of another.
    pub fn go_back_to(&mut self, mut job: Job) {
        job.set_changes(job.changes().max(self.job.changes()));
        job.set_history(History::new());
        self.job = Arc::new(job);
        self.first = None;
        self.derive();
    }

    /// Takes the last change back.
    pub fn undo(&mut self) -> Option<NamedChange> {
        let labels = self.labels.clone();
        let named = |events: &[BenchEvent]| named_by_facts(events, &labels);
        self.step(|job| job.undo(named))
    }

    /// Does the change last taken back once more.
    pub fn redo(&mut self) -> Option<NamedChange> {
        self.step(Job::redo)
    }

    fn step(&mut self, step: impl FnOnce(&mut Job) -> Option<NamedChange>) -> Option<NamedChange> {
        if self.refuses() {
            return None;
        }
        let change = step(Arc::make_mut(&mut self.job))?;
        self.derive();
        Some(change)
    }

    /// The piece of that id, as it stands in the list.
    pub fn piece(&self, piece: PieceId) -> Option<&CutPiece> {
        self.list.piece(piece)
    }

    /// The name of an edge, for showing.
    pub fn edge_name(&self, edge: EdgeId) -> &str {
        self.job
            .edge(edge)
            .map_or("a deleted edge", |edge| edge.name.as_str())
    }

    fn derive(&mut self) {
        self.progress = Progress::of(self.job.events());
        self.pace = Pace::of(self.job.events(), self.job.settings.pause);
        self.derive_from_paper();
    }

    /// The same where the bench's facts are what they were.
    fn derive_from_paper(&mut self) {
        self.doubts = doubts_of(&self.job);
        self.two = two_of(&self.job);
        self.list = CutList::with_first(&self.job, &self.progress, self.first);
        self.labels = Labels::of(&self.job, &self.progress);
        self.changed();
    }

    fn changed(&mut self) {
        Arc::make_mut(&mut self.job).count_change();
        self.change += 1;
        self.saved = OnDisk::Underway;
    }
}

fn two_of(job: &Job) -> Vec<(EdgeId, TwoReadings)> {
    let edges = job.edges().iter();
    let of_edge = |edge: &Arc<Edge>| {
        let two = edge.two_readings().map(|two| (edge.id, two));
        two.collect::<Vec<_>>()
    };
    edges.flat_map(of_edge).collect()
}
