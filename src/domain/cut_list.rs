//! Every piece of a job in cutting order, with its stage and its stock.
//!
//! Derived afresh from the job; what has been marked keeps its figures and its
//! stock, the rest follows from the log and the settings as they now are. What
//! is cut from what is planned in `stock_plan`.

use super::course::{Course, CourseNumber, Gap};
use super::edge::{Edge, EdgeId};
use super::hand::Hand;
use super::job::Job;
use super::lean::lean_of;
use super::length::Length;
use super::lie::Lie;
use super::marks::Marks;
use super::offcut::Offcut;
use super::piece::{CourseFrame, CourseTrouble, PieceId, PieceSpec, along, pieces_of_gap};
use super::plan::Plan;
use super::polygon::Polygon;
use super::progress::{Progress, Stage};
use super::rack::OffcutNumber;
use super::settings::{Allowance, LayingOrder, Settings, StackTurned};
use super::stock_plan::assign_stock;
use std::collections::{BTreeMap, HashMap};

/// One piece as it stands in the cutting order.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CutPiece {
    /// Which piece.
    pub id: PieceId,
    /// Its figures: as marked, or as the log and settings give them.
    pub spec: PieceSpec,
    /// How far it has come.
    pub stage: Stage,
    /// What it is, or will be, cut from.
    pub stock: PieceStock,
    /// What of that stock is left, or will be, and what for.
    pub rest: PieceRest,
    /// Whether the log still gives these figures.
    pub log_gives: LogGives,
}

/// Whether a marked piece is still the one the log asks for.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum LogGives {
    /// It is, or it is not marked yet.
    TheSame,
    /// Readings, hand or kind were changed after it was marked.
    Otherwise,
}

/// What a piece is, or will be, cut from.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum PieceStock {
    /// A panel opened for it.
    New {
        /// The panel's number.
        panel: u32,
    },
    /// An offcut that has lain on the rack.
    Rack {
        /// What is written on it.
        number: OffcutNumber,
        /// What it is.
        offcut: Offcut,
        /// The panel it came from; none for one found on site.
        panel: Option<u32>,
    },
    /// The offcut that a piece before it will leave.
    LeftBy {
        /// That piece.
        piece: PieceId,
        /// What it will leave.
        offcut: Offcut,
        /// The panel that comes from.
        panel: u32,
    },
}

impl PieceStock {
    /// The panel it comes from; none for an offcut found on site.
    #[must_use]
    pub const fn panel(&self) -> Option<u32> {
        match self {
            Self::New { panel } | Self::LeftBy { panel, .. } => Some(*panel),
            Self::Rack { panel, .. } => *panel,
        }
    }

    /// The offcut, where it is none of a new panel.
    #[must_use]
    pub const fn offcut(&self) -> Option<&Offcut> {
        match self {
            Self::New { .. } => None,
            Self::Rack { offcut, .. } | Self::LeftBy { offcut, .. } => Some(offcut),
        }
    }

    /// `new` or `offcut`.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::New { .. } => "new",
            Self::Rack { .. } | Self::LeftBy { .. } => "offcut",
        }
    }
}

/// What becomes of what a cut leaves of its stock.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum PieceRest {
    /// It is kept for a piece cut later.
    KeptFor {
        /// That piece.
        piece: PieceId,
        /// What is written on it, once it is cut.
        number: Option<OffcutNumber>,
    },
    /// It has no use.
    Waste,
    /// Nothing is left: a full panel or a bent corner.
    Nothing,
}

impl CutPiece {
    /// What is left of its stock once it is cut, `x` from its own whole edge.
    #[must_use]
    pub fn left_of_stock(&self, marks: &Marks) -> Polygon {
        match self.stock.offcut() {
            Some(offcut) => offcut.left_after(&self.spec),
            None => marks.left.clone(),
        }
    }

    /// How its stock lies for the cut; none where nothing is cut.
    #[must_use]
    pub fn lie(&self, marks: &Marks, blade: Hand) -> Option<Lie> {
        let left = self.left_of_stock(marks).area();
        marks
            .cut
            .map(|_| Lie::of(marks.kept.area(), left, self.spec.hand, blade))
    }
}

/// A course without pieces, and why.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct EmptyCourse {
    /// The edge.
    pub edge: EdgeId,
    /// The course.
    pub course: CourseNumber,
    /// Why there is nothing to cut.
    pub why: CourseTrouble,
}

/// All pieces of a job in cutting order.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct CutList {
    /// The pieces.
    pub pieces: Vec<CutPiece>,
    /// The courses that ask for none, or for none yet.
    pub empty: Vec<EmptyCourse>,
    /// How the rest of the job is cut from the fewest panels.
    pub plan: Plan,
    places: HashMap<PieceId, usize>,
}

impl CutList {
    /// The list for `job`, given what its facts amount to.
    #[must_use]
    pub fn of(job: &Job, progress: &Progress) -> Self {
        Self::with_first(job, progress, None)
    }

    /// The same where the cutter takes the piece `first` out of its turn.
    #[must_use]
    pub fn with_first(job: &Job, progress: &Progress, first: Option<PieceId>) -> Self {
        let mut list = Self::default();
        let mut marked = marked_by_edge(progress);
        for edge in job.edges() {
            let marked = marked.remove(&edge.id).unwrap_or_default();
            list.add_edge(edge, &job.settings, progress, marked);
        }
        list.places = list
            .pieces
            .iter()
            .enumerate()
            .map(|(at, piece)| (piece.id, at))
            .collect();
        list.plan = assign_stock(&mut list.pieces, &list.places, job, progress, first);
        list
    }

    /// Where `piece` stands in the cutting order, from 0.
    #[must_use]
    pub fn place_of(&self, piece: PieceId) -> Option<usize> {
        self.places.get(&piece).copied()
    }

    /// The piece of that id.
    #[must_use]
    pub fn piece(&self, piece: PieceId) -> Option<&CutPiece> {
        self.pieces.get(self.place_of(piece)?)
    }

    /// The first piece from place `from` on, then from the start, that is not
    /// stacked yet.
    #[must_use]
    pub fn next_open(&self, from: usize) -> Option<usize> {
        let open = |at: &usize| {
            self.pieces
                .get(*at)
                .is_some_and(|piece| piece.stage != Stage::Stacked)
        };
        (from..self.pieces.len())
            .find(open)
            .or_else(|| (0..from.min(self.pieces.len())).find(open))
    }

    /// How many pieces are not stacked yet.
    #[must_use]
    pub fn left(&self) -> usize {
        self.pieces
            .iter()
            .filter(|piece| piece.stage != Stage::Stacked)
            .count()
    }

    fn add_edge(
        &mut self,
        edge: &Edge,
        settings: &Settings,
        progress: &Progress,
        mut marked: BTreeMap<CourseNumber, Vec<u32>>,
    ) {
        let allowance = allowance_of(edge, settings);
        let mut laid: Vec<(PieceId, Option<PieceSpec>)> = Vec::new();
        for course in edge.courses() {
            let found = course_pieces(edge, course, settings, allowance, progress);
            let already = marked.remove(&course.number).unwrap_or_default();
            match found {
                Ok(pieces) => laid.extend(merged(edge.id, course.number, &pieces, &already)),
                Err(why) => {
                    self.empty.push(EmptyCourse {
                        edge: edge.id,
                        course: course.number,
                        why,
                    });
                    laid.extend(merged(edge.id, course.number, &[], &already));
                }
            }
        }
        // Courses taken out of the log after something in them was marked.
        for (course, already) in marked {
            laid.extend(merged(edge.id, course, &[], &already));
        }
        laid.sort_by_key(|(id, _)| laying_key(*id, settings.laying));
        if settings.stack_turned == StackTurned::No {
            laid.reverse();
        }
        let pieces = laid
            .into_iter()
            .filter_map(|(id, planned)| cut_piece(id, planned, settings, progress));
        self.pieces.extend(pieces);
    }
}

/// Which pieces have been marked, by edge and course.
fn marked_by_edge(progress: &Progress) -> HashMap<EdgeId, BTreeMap<CourseNumber, Vec<u32>>> {
    let mut edges: HashMap<EdgeId, BTreeMap<CourseNumber, Vec<u32>>> = HashMap::new();
    for (id, _) in progress.marked() {
        let courses = edges.entry(id.edge).or_default();
        courses.entry(id.course).or_default().push(id.number);
    }
    edges
}

/// The pieces the log asks for, and those already marked beyond them.
fn merged(
    edge: EdgeId,
    course: CourseNumber,
    planned: &[PieceSpec],
    marked: &[u32],
) -> Vec<(PieceId, Option<PieceSpec>)> {
    let id = |number| PieceId {
        edge,
        course,
        number,
    };
    let mut pieces: Vec<_> = (1..)
        .zip(planned)
        .map(|(number, spec)| (id(number), Some(*spec)))
        .collect();
    let beyond = marked
        .iter()
        .filter(|number| usize::try_from(**number).unwrap_or(usize::MAX) > planned.len())
        .map(|number| (id(*number), None));
    pieces.extend(beyond);
    pieces
}

fn laying_key(id: PieceId, laying: LayingOrder) -> (i64, u32) {
    let course = i64::from(id.course.get());
    match laying {
        LayingOrder::EaveUp => (course, id.number),
        LayingOrder::RidgeDown => (-course, id.number),
    }
}

/// Stock and rest come in afterwards: see `stock_plan`.
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
    // changed. Readings that moved further than the tolerance are one.
    let since = done.map_or(Length::ZERO, |done| {
        progress.correction(id.edge) - done.corrected
    });
    let moved = |planned: PieceSpec| {
        let (now, then) = (planned.bend, spec.bend.moved(since));
        let back = spec.panel.height;
        let by = (now.at_nose - then.at_nose)
            .abs()
            .max((now.x(back) - then.x(back)).abs());
        let is_cut_across = planned.across.is_some() || spec.across.is_some();
        let higher = (now.rise - then.rise).abs();
        by > settings.tolerance || is_cut_across && higher > settings.tolerance
    };
    let otherwise = planned.is_none_or(|planned| {
        planned.hand != spec.hand || planned.kind != spec.kind || moved(planned)
    });
    Some(CutPiece {
        id,
        spec,
        stage,
        stock: PieceStock::New { panel: 0 },
        rest: PieceRest::Nothing,
        log_gives: if otherwise {
            LogGives::Otherwise
        } else {
            LogGives::TheSame
        },
    })
}

/// The pieces that `course` asks for, in laying order.
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
    let short = course.height.map(|height| height.length());
    let height = short.unwrap_or(settings.exposure);
    let gap = course.gap(height).ok_or_else(|| missing(course))?;
    let added = settings.added_to_reading(edge.kind) + progress.correction(edge.id);
    let finished = Gap {
        bottom: gap.bottom + added,
        top: gap.top + added,
    };
    let frame = CourseFrame {
        kind: edge.kind,
        hand: edge.hand,
        short,
        allowance,
    };
    pieces_of_gap(finished, &frame, settings)
}

/// The allowance along the edge for the pieces of `edge`: the setting's own, or
/// what makes the leg stand as high as asked at the edge's lean.
#[must_use]
pub fn allowance_of(edge: &Edge, settings: &Settings) -> Length {
    match settings.kind(edge.kind).allowance {
        Allowance::Along(length) => length,
        Allowance::Standing(height) => along(height, lean_of(edge, settings).unwrap_or(0.0)),
    }
}

fn missing(course: &Course) -> CourseTrouble {
    use super::course::End::{Bottom, Top};
    match (course.bottom, course.top, course.runs_out) {
        (Some(_), None, None) => CourseTrouble::NotRead(Top),
        (None, Some(_), None) => CourseTrouble::NotRead(Bottom),
        (None, None, _) => CourseTrouble::Unread,
        _ => CourseTrouble::RunsOutNowhere,
    }
}
