//! Every piece of a job in cutting order, with its stage and its stock.
//!
//! Derived afresh from the job, or gone on with by a step that follows it
//! (`going_on.rs`); what has been marked keeps its figures and its
//! stock, the rest follows from the log and the settings as they now are. What
//! is cut from what is planned in `stock_plan`.

use super::{
    cut_piece::{CutPiece, PieceStock},
    empty_course::EmptyCourse,
    fit::{Fit, Misfit},
    from_board_to_board,
    job::Job,
    second_trip::{Asked, OnTrip, on_trips},
    stock_plan::assign_stock,
    tally::{AtStages, Tally},
};
use crate::domain::{
    bench::{Progress, Stage},
    log::{Course, CourseNumber, Edge, EdgeId, Gap},
    measure::Length,
    piece::{CourseFrame, CourseTrouble, PieceId, PieceSpec, allowance_of, pieces_of_gap},
    settings::{LayingOrder, Settings, StackTurned},
    stock::{Plan, Rest},
};
use foldhash::{HashMap, HashSet};
use std::collections::BTreeSet;

/// The courses of each edge that another edge's pieces run to.
type Met = BTreeSet<(EdgeId, CourseNumber)>;

/// All pieces of a job in cutting order.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct CutList {
    pub pieces: Vec<CutPiece>,
    /// The courses that ask for none, or for none yet.
    pub empty: Vec<EmptyCourse>,
    /// The courses that the log passes over, between two of it.
    pub left_out: Vec<EmptyCourse>,
    /// How the rest of the job is cut from the fewest panels.
    pub plan: Plan,
    /// How many of the plan's pieces are planned with one another; those behind them
    /// have a new panel each until their turn comes.
    pub(super) ahead: usize,
    pub(super) tally: Tally,
    places: HashMap<PieceId, usize>,
}

impl CutList {
    /// The list for `job`, given what its facts amount to.
    pub fn of(job: &Job, progress: &Progress) -> Self {
        Self::with_first(job, progress, None)
    }

    /// The same where the cutter takes the piece `first` out of its turn.
    #[must_use]
    pub fn with_first(job: &Job, progress: &Progress, first: Option<PieceId>) -> Self {
        let mut list = Self::default();
        let mut marked: HashMap<EdgeId, HashSet<PieceId>> = HashMap::default();
        for (id, _) in progress.marked() {
            marked.entry(id.edge).or_default().insert(id);
        }
        let mut turned = HashMap::default();
        let courses = job.edges().iter().flat_map(|edge| edge.courses());
        let met = courses.filter_map(|course| Some((course.to?, course.number)));
        let met: Met = met.collect();
        for edge in job.edges() {
            let marked = marked.remove(&edge.id).unwrap_or_default();
            list.add_edge(edge, job, progress, marked, &mut turned, &met);
        }
        // Those of the second trip last; each trip in its own order.
        let second = |piece: &CutPiece| piece.trip != OnTrip::First;
        if list.pieces.iter().any(second) {
            list.pieces.sort_by_key(second);
        }
        list.places = list.pieces.iter().map(|piece| piece.id).zip(0..).collect();
        (list.plan, list.ahead) = assign_stock(
            &mut list.pieces,
            &list.places,
            &turned,
            job,
            progress,
            first,
        );
        list.tally = Tally::of(&list.pieces);
        list
    }

    /// Where `piece` stands in the cutting order, from 0.
    pub fn place_of(&self, piece: PieceId) -> Option<usize> {
        self.places.get(&piece).copied()
    }

    /// The piece of that id.
    pub fn piece(&self, piece: PieceId) -> Option<&CutPiece> {
        self.pieces.get(self.place_of(piece)?)
    }

    /// The first piece from place `from` on, then from the start, that is not
    /// stacked yet.
    pub fn next_open(&self, from: usize) -> Option<usize> {
        let open = |at: &usize| self.pieces.get(*at).is_some_and(CutPiece::is_open);
        (from..self.pieces.len()).chain(0..from).find(open)
    }

    /// How many pieces are not stacked yet.
    pub fn left(&self) -> usize {
        open_of(self.tally.whole)
    }

    /// How many pieces of an edge are not stacked yet.
    pub fn left_at(&self, edge: EdgeId) -> usize {
        open_of(self.tally.at_edge(edge))
    }

    /// How many pieces stand at each stage, of an edge or of all.
    pub fn at_stages(&self, edge: Option<EdgeId>) -> AtStages {
        edge.map_or(self.tally.whole, |edge| self.tally.at_edge(edge))
    }

    /// The pieces of one edge, in cutting order.
    pub fn pieces_of(&self, edge: EdgeId) -> impl Iterator<Item = &CutPiece> {
        let pieces = self.of_edge(edge).iter();
        pieces.filter(move |piece| piece.id.edge == edge)
    }

    /// From an edge's first piece to its last, other edges' between trips too.
    pub fn of_edge(&self, edge: EdgeId) -> &[CutPiece] {
        let places = self.tally.places_of(edge);
        self.pieces.get(places).unwrap_or_default()
    }

    /// How many marked pieces no longer fit and are not answered yet.
    pub const fn no_longer_fit(&self) -> usize {
        self.tally.misfits
    }

    /// The marked pieces that no longer fit and are not answered yet.
    pub fn misfits(&self) -> impl Iterator<Item = (&CutPiece, &Misfit)> {
        let pieces = self.pieces.iter();
        pieces.filter_map(|piece| Some((piece, piece.fit.misfit()?)))
    }

    /// The holes in the log: courses not read, or not in full.
    pub fn holes(&self) -> impl Iterator<Item = &EmptyCourse> {
        let not_in_full = self.empty.iter().filter(|empty| empty.is_hole());
        self.left_out.iter().chain(not_in_full)
    }

    /// Adds the courses from `from` up to `below` as not read, but for those that
    /// are read at another edge.
    fn pass_over(&mut self, edge: EdgeId, from: CourseNumber, below: CourseNumber, met: &Met) {
        let mut from = from;
        let met = met.range((edge, from)..(edge, below.max(from)));
        let ends = met.map(|(_, course)| *course).chain([below]);
        for end in ends {
            self.left_out.extend((from < end).then(|| EmptyCourse {
                edge,
                course: from,
                to: end.before(),
                why: CourseTrouble::Unread,
            }));
            from = end.next();
        }
    }

    /// Adds the pieces of `edge`, and to `turned` how those cut at both ends are
    /// with the tape pulled from the other side.
    fn add_edge(
        &mut self,
        edge: &Edge,
        job: &Job,
        progress: &Progress,
        mut marked: HashSet<PieceId>,
        turned: &mut HashMap<PieceId, PieceSpec>,
        met: &Met,
    ) {
        let settings = &job.settings;
        let allowance = allowance_of(edge, settings);
        let mut laid: Vec<(PieceId, Option<PieceSpec>, OnTrip)> = Vec::new();
        let mut next = edge.courses().first().map(|first| first.number);
        for course in edge.courses() {
            if let Some(from) = next {
                self.pass_over(edge.id, from, course.number, met);
            }
            next = Some(course.number.next());
            let id = |number| PieceId {
                edge: edge.id,
                course: course.number,
                number,
            };
            let (pieces, why) = match course.to {
                None => of_course(edge, course, settings, allowance, progress),
                Some(_) => match both_ends(job, edge, course, progress) {
                    Ok((spec, other)) => {
                        turned.extend(other.map(|other| (id(1), other)));
                        (vec![(spec, OnTrip::First)], None)
                    }
                    Err(why) => (Vec::new(), Some(why)),
                },
            };
            laid.extend(pieces.into_iter().zip(1..).map(|((spec, trip), number)| {
                marked.remove(&id(number));
                (id(number), Some(spec), trip)
            }));
            self.empty.extend(why.map(|why| EmptyCourse {
                edge: edge.id,
                course: course.number,
                to: course.number,
                why,
            }));
        }
        // What was marked stays in it, whether or not the log asks for it yet.
        laid.extend(marked.into_iter().map(|id| (id, None, OnTrip::First)));
        laid.sort_by_key(|(id, ..)| laying_key(*id, settings.laying));
        if settings.stack_turned == StackTurned::No {
            laid.reverse();
        }
        let pieces = laid.into_iter().filter_map(|(id, planned, trip)| {
            let piece = cut_piece(id, planned, settings, progress)?;
            Some(CutPiece { trip, ..piece })
        });
        let (at_one_end, at_both): (Vec<_>, Vec<_>) =
            pieces.partition(|piece| piece.spec.near.is_none());
        // These cannot slide in a lap, so they come once the edge's first pieces
        // were tried and a correction was said.
        self.pieces.extend(at_one_end);
        self.pieces.extend(at_both);
    }
}

fn open_of(at: AtStages) -> usize {
    let [open @ .., _] = at;
    open.iter().sum()
}

/// The piece of a course that runs to another edge, with the tape pulled from
/// its edge's hand or, once marked, from where it was; and from the other side
/// while that is open and it fits so, too.
fn both_ends(
    job: &Job,
    edge: &Edge,
    course: &Course,
    progress: &Progress,
) -> Result<(PieceSpec, Option<PieceSpec>), CourseTrouble> {
    let height = course.height_in(job.settings.exposure);
    let gap = course.gap(height).ok_or_else(|| missing(course))?;
    let [usual, turned] = from_board_to_board::pieces_of(job, edge, course, gap, progress);
    let id = PieceId {
        edge: edge.id,
        course: course.number,
        number: 1,
    };
    let (usual, turned) = match progress.done(id) {
        Some(done) if done.spec.hand != edge.hand => return Ok((turned?, None)),
        Some(_) => (usual, None),
        None => (usual, turned.ok()),
    };
    match (usual, turned) {
        (Ok(usual), turned) => Ok((usual, turned)),
        // From one side alone it may fit.
        (Err(_), Some(turned)) => Ok((turned, None)),
        (Err(why), None) => Err(why),
    }
}

fn laying_key(id: PieceId, laying: LayingOrder) -> (i64, u32) {
    let course = i64::from(id.course.get());
    match laying {
        LayingOrder::EaveUp => (course, id.number),
        LayingOrder::RidgeDown => (-course, id.number),
    }
}

/// Stock and rest come in afterwards: see `stock_plan`; so does the trip.
fn cut_piece(
    id: PieceId,
    planned: Option<PieceSpec>,
    settings: &Settings,
    progress: &Progress,
) -> Option<CutPiece> {
    let done = progress.done(id);
    let (spec, stage) = match done {
        Some(done) => (done.spec, done.stage(settings.bench_order)),
        None => (planned?, Stage::ToMark),
    };
    // A correction said since is no slip, and neither is a setting that was
    // changed.
    let fit = done.map_or(Fit::AsAsked, |done| {
        let since = progress.corrections(id.edge) - done.corrections_then;
        Fit::of(done, planned.as_ref(), since, settings)
    });
    Some(CutPiece {
        id,
        spec,
        stage,
        first_cut: done.is_some_and(|done| done.first_cut),
        stock: PieceStock::New { panel: 0 },
        rest: Rest::Nothing,
        fit,
        trip: OnTrip::First,
    })
}

/// The pieces of a course that ends in the field, with their trips, and why there
/// are none, or none beyond the first trip's.
fn of_course(
    edge: &Edge,
    course: &Course,
    settings: &Settings,
    allowance: Length,
    progress: &Progress,
) -> (Vec<Asked>, Option<CourseTrouble>) {
    match course_pieces(edge, course, settings, allowance, progress) {
        Err(why) => (Vec::new(), Some(why)),
        Ok(pieces) => {
            let id = |number| PieceId {
                edge: edge.id,
                course: course.number,
                number,
            };
            let of_gap = |gap| gap_pieces(gap, edge, course, settings, allowance, progress);
            on_trips(course, pieces, settings, progress, id, of_gap)
        }
    }
}

/// The pieces that `course` asks for on the cover, in laying order.
///
/// # Errors
/// [`CourseTrouble`] where it asks for none, or cannot be told yet.
pub fn course_pieces(
    edge: &Edge,
    course: &Course,
    settings: &Settings,
    allowance: Length,
    progress: &Progress,
) -> Result<Vec<PieceSpec>, CourseTrouble> {
    let height = course.height_in(settings.exposure);
    let gap = course.gap(height).ok_or_else(|| missing(course))?;
    gap_pieces(gap, edge, course, settings, allowance, progress)
}

/// The pieces of `gap`, read as the course is.
fn gap_pieces(
    gap: Gap,
    edge: &Edge,
    course: &Course,
    settings: &Settings,
    allowance: Length,
    progress: &Progress,
) -> Result<Vec<PieceSpec>, CourseTrouble> {
    let added =
        settings.added_to_course(edge, course) + progress.correction(edge.id, course.number);
    let finished = Gap {
        bottom: gap.bottom + added,
        top: gap.top + added,
    };
    let frame = CourseFrame {
        kind: edge.kind,
        hand: edge.hand,
        short: course.height.map(|height| height.length()),
        allowance,
    };
    pieces_of_gap(finished, &frame, settings)
}

fn missing(course: &Course) -> CourseTrouble {
    use crate::domain::log::End::{Bottom, Top};
    match (course.bottom, course.top, course.runs_out) {
        (Some(_), None, None) => CourseTrouble::NotRead(Top),
        (None, Some(_), None) => CourseTrouble::NotRead(Bottom),
        (None, None, _) => CourseTrouble::Unread,
        _ => CourseTrouble::RunsOutNowhere,
    }
}
