//! Every piece of a job in cutting order, with its stage and its stock.
//!
//! Derived afresh from the job; what has been marked keeps its figures and its
//! panel, the rest follows from the log and the settings as they now are.

use super::course::{Course, CourseNumber, Gap};
use super::edge::{Edge, EdgeId};
use super::event::Stock;
use super::job::Job;
use super::lean::lean_of;
use super::length::Length;
use super::piece::{CourseFrame, CourseTrouble, PieceId, PieceSpec, along, pieces_of_gap};
use super::progress::{Progress, Stage};
use super::settings::{Allowance, LayingOrder, Settings, StackTurned};
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
    pub stock: Stock,
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
    places: HashMap<PieceId, usize>,
}

impl CutList {
    /// The list for `job`, given what its facts amount to.
    #[must_use]
    pub fn of(job: &Job, progress: &Progress) -> Self {
        let mut list = Self::default();
        let mut marked = marked_by_edge(progress);
        for edge in job.edges() {
            let marked = marked.remove(&edge.id).unwrap_or_default();
            list.add_edge(edge, &job.settings, progress, marked);
        }
        list.number_panels(progress);
        list.places = list
            .pieces
            .iter()
            .enumerate()
            .map(|(at, piece)| (piece.id, at))
            .collect();
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

    /// Panels of marked pieces stay; the others count on in cutting order,
    /// passing over the numbers that are taken.
    fn number_panels(&mut self, progress: &Progress) {
        let mut next = 1_u32;
        for piece in &mut self.pieces {
            if piece.stage != Stage::ToMark {
                continue;
            }
            while progress.panels().contains(&next) {
                next += 1;
            }
            piece.stock = Stock::New { panel: next };
            next += 1;
        }
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

fn cut_piece(
    id: PieceId,
    planned: Option<PieceSpec>,
    settings: &Settings,
    progress: &Progress,
) -> Option<CutPiece> {
    if let Some(done) = progress.done(id) {
        return Some(CutPiece {
            id,
            spec: done.spec,
            stage: done.stage(settings.bench_order),
            stock: done.stock,
        });
    }
    Some(CutPiece {
        id,
        spec: planned?,
        stage: Stage::ToMark,
        stock: Stock::New { panel: 0 },
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
