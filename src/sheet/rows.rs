//! Every figure of the cut sheet, worked out from the job.
//!
//! One [`Row`] per piece, in cutting order, made as it is written: all of a
//! large job's at once would take many times its file. Lengths stay exact here;
//! rounding and units are the matter of the form that writes them.

use super::corrected::Corrected;
use crate::domain::{
    bench::{Progress, SpoiledBy, Stage},
    cutting::{
        CutList, CutNow, CutPiece, EdgeDoubt, EmptyCourse, Job, Labels, Misfit, Note,
        PanelsToCarry, doubts_of, notes_of,
    },
    doubt::Doubt,
    log::{Edge, EdgeId},
    measure::{Area, Hand, Length, Name},
    piece::{Ends, Lie, LineAt, LineMarks, Marks, PieceId, PieceSpec, length_mm, stands},
    settings::Settings,
    tape::Division,
};
use std::collections::{BTreeMap, HashMap};

/// One piece with all its figures.
#[derive(Clone, PartialEq, Debug)]
pub struct Row {
    /// The piece as it stands in the cutting order.
    pub piece: CutPiece,
    /// What is written on it: `H2-5 L`.
    pub label: String,
    /// Where the bend line meets the panel's outline, nose end first.
    pub bend: Option<Ends>,
    /// Where the cut line does.
    pub cut: Option<Ends>,
    /// Angle of both lines from square, degrees, `0..90`.
    pub skew_deg: f64,
    /// How long the bend line is on the panel, in millimetres.
    pub bend_line_mm: f64,
    /// How long the cut line is on the panel, in millimetres.
    pub cut_line_mm: f64,
    /// How high the leg stands where it has its full allowance.
    pub leg: Length,
    /// What the piece covers of the panel, leg and all, flat.
    pub kept: Area,
    /// What is left of the stock it is cut from.
    pub offcut: Area,
    /// How the panel lies at each cut, in their order: none, one, or two of a
    /// piece cut at both ends.
    cuts: [Option<(LineAt, Lie)>; 2],
    /// The marks of the near line, of a piece cut at both ends.
    pub near: Option<Box<LineMarks>>,
    /// What is out of the ordinary about it.
    pub notes: Vec<Note>,
    /// The colour lot of its panel.
    pub lot: Option<Name>,
}

/// One edge on the sheet: its pieces and its courses that have none.
#[derive(Clone, PartialEq, Debug)]
pub struct EdgeRows<'a> {
    /// The edge.
    pub edge: &'a Edge,
    /// Its pieces on the sheet, by their places among those of the job.
    places: Vec<usize>,
    /// All of them, where the sheet shows only some.
    every: Option<Vec<usize>>,
    /// Its courses without a piece, and why.
    pub empty: Vec<EmptyCourse>,
    /// What is doubtful about it.
    pub doubts: Vec<Doubt>,
    /// The courses that the log passes over.
    pub left_out: Vec<EmptyCourse>,
    /// Which of its pieces were corrected after a trial.
    pub(super) corrected: Corrected,
}

impl EdgeRows<'_> {
    /// How many pieces it has on the sheet.
    pub fn count(&self) -> usize {
        self.places.len()
    }

    /// The courses that still owe a piece, and why there is none, in the tape's
    /// words.
    pub fn holes(&self, division: Division) -> impl Iterator<Item = (u32, String)> + '_ {
        let owed = self.empty.iter().filter(|empty| empty.is_hole());
        let holes = self.left_out.iter().chain(owed);
        holes.flat_map(move |hole| {
            let why = hole.why.words(division);
            (hole.course.get()..=hole.to.get()).map(move |course| (course, why.clone()))
        })
    }
}

/// How many panels the job takes.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub struct PanelCount {
    /// Pieces in the cutting order.
    pub pieces: usize,
    /// Panels opened, or to be opened, for them.
    pub new: usize,
    /// Pieces cut from an offcut.
    pub from_offcuts: usize,
    /// Pieces spoiled at the bench.
    pub spoiled: usize,
}

/// Which pieces are on a sheet.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Shown {
    /// All of them.
    #[default]
    Every,
    /// Those not stacked yet.
    Left,
}

/// What of a job a sheet is to show.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Choice {
    /// These edges, or all of them where none is named.
    pub edges: Vec<EdgeId>,
    /// Which of their pieces.
    pub shown: Shown,
}

/// A whole cut sheet.
#[derive(Clone, PartialEq, Debug)]
pub struct Rows<'a> {
    /// The job it is for.
    pub job: &'a Job,
    /// The short names of edges and pieces.
    pub labels: Labels,
    /// The edges in cutting order, those without a piece too.
    pub edges: Vec<EdgeRows<'a>>,
    /// The pieces of the whole job in cutting order.
    pieces: Vec<CutPiece>,
    /// The lots of what is marked, where they are not the edge's.
    lots: HashMap<PieceId, Option<Name>>,
    /// How many panels the pieces on the sheet take.
    pub panels: PanelCount,
    /// New panels for the whole job, whatever the sheet shows of it.
    pub carry: PanelsToCarry,
    /// Which pieces are on the sheet.
    pub shown: Shown,
    /// Whether every side was tried for the pieces cut at both ends.
    pub every_way: bool,
    /// How many pieces of the job were spoiled by what, where that was said.
    pub spoiled_by: BTreeMap<SpoiledBy, usize>,
    /// What is unusual about the file it was made from: a copy, edited by hand.
    pub file: Option<String>,
}

impl<'a> Rows<'a> {
    /// The cut sheet of `job`.
    pub fn of(job: &'a Job) -> Self {
        let progress = Progress::of(job.events());
        let list = CutList::of(job, &progress);
        let labels = Labels::of(job, &progress);
        let panels = count(&list.pieces, progress.spoiled());
        let carry = PanelsToCarry::of(progress.panels().values(), &list.plan);
        let mut places: HashMap<EdgeId, Vec<usize>> = HashMap::new();
        for (place, piece) in list.pieces.iter().enumerate() {
            places.entry(piece.id.edge).or_default().push(place);
        }
        let (mut empty, mut left_out) = (by_edge(list.empty), by_edge(list.left_out));
        let mut doubts: HashMap<EdgeId, Vec<Doubt>> = HashMap::new();
        for EdgeDoubt { edge, doubt } in doubts_of(job) {
            doubts.entry(edge).or_default().push(doubt);
        }
        let edges = job
            .edges()
            .iter()
            .map(|edge| {
                let places = places.remove(&edge.id).unwrap_or_default();
                let pieces = places.iter().filter_map(|place| list.pieces.get(*place));
                EdgeRows {
                    edge,
                    doubts: doubts.remove(&edge.id).unwrap_or_default(),
                    corrected: Corrected::of(edge.id, pieces, &progress),
                    places,
                    every: None,
                    empty: empty.remove(&edge.id).unwrap_or_default(),
                    left_out: left_out.remove(&edge.id).unwrap_or_default(),
                }
            })
            .collect();
        let lots = progress.marked().filter(|(piece, done)| {
            let edge = job.edge(piece.edge);
            edge.is_some_and(|edge| edge.lot_of(piece.course) != done.lot.as_ref())
        });
        let lots = lots.map(|(piece, done)| (piece, done.lot.clone()));
        Self {
            job,
            labels,
            edges,
            lots: lots.collect(),
            pieces: list.pieces,
            panels,
            carry,
            every_way: list.plan.every_way,
            shown: Shown::Every,
            spoiled_by: progress.spoiled_by().clone(),
            file: None,
        }
    }

    /// Only what is chosen of it, with the panels counted anew. The order, the
    /// panels' numbers and what is cut from what stay those of the whole job.
    pub fn only(mut self, choice: &Choice) -> Self {
        let chosen = |id: EdgeId| choice.edges.is_empty() || choice.edges.contains(&id);
        self.edges.retain(|edge| chosen(edge.edge.id));
        if choice.shown == Shown::Left {
            for edge in &mut self.edges {
                edge.every = Some(edge.places.clone());
                let left = |piece: &CutPiece| piece.stage != Stage::Stacked;
                let pieces = &self.pieces;
                edge.places
                    .retain(|place| pieces.get(*place).is_some_and(left));
            }
        }
        self.panels = count(self.pieces(), self.panels.spoiled);
        self.shown = choice.shown;
        self
    }

    /// The marked pieces that no longer fit the log and are not answered yet, each
    /// with its edge's name.
    pub fn misfits(&self) -> impl Iterator<Item = (&str, &CutPiece, &Misfit)> {
        let pieces = self.edges.iter().flat_map(|edge| {
            let name = edge.edge.name.as_str();
            self.pieces_of(edge).map(move |piece| (name, piece))
        });
        pieces.filter_map(|(name, piece)| Some((name, piece, piece.fit.misfit()?)))
    }

    /// The pieces on the sheet.
    pub fn pieces(&self) -> impl Iterator<Item = &CutPiece> {
        self.edges.iter().flat_map(|edge| self.pieces_of(edge))
    }

    /// Those of one of its edges, in cutting order.
    pub fn pieces_of(&self, edge: &EdgeRows<'_>) -> impl Iterator<Item = &CutPiece> {
        let places = edge.places.iter();
        places.filter_map(|place| self.pieces.get(*place))
    }

    /// Those of an edge, whichever are on the sheet.
    pub(super) fn every_piece_of(&self, edge: &EdgeRows<'_>) -> impl Iterator<Item = &CutPiece> {
        let places = edge.every.as_ref().unwrap_or(&edge.places).iter();
        places.filter_map(|place| self.pieces.get(*place))
    }

    /// The same with their figures, worked out one after the other.
    pub fn rows_of(&self, edge: &EdgeRows<'_>) -> impl Iterator<Item = Row> {
        self.pieces_of(edge).map(|piece| {
            let label = self.labels.piece(piece.id);
            let mut row = Row::of(piece.clone(), label, &self.job.settings);
            let of_edge = || edge.edge.lot_of(piece.id.course).cloned();
            row.lot = self.lots.get(&piece.id).cloned().unwrap_or_else(of_edge);
            row
        })
    }

    /// The lots of marked pieces whose edge has another one now.
    pub(super) fn lots_of_marked(&self) -> impl Iterator<Item = &Name> {
        self.lots.values().flatten()
    }

    /// To how many degrees from flat a line of a piece is bent; of an edge whose
    /// slope is not known, and of a valley, nothing is known of that.
    pub fn bend_deg(&self, row: &Row, line: LineAt) -> Option<f64> {
        let id = row.edge_at(line).unwrap_or(row.piece.id.edge);
        let edge = self.job.edge(id)?;
        edge.roof.slope.and_then(|_| edge.roof.bend_deg(edge.kind))
    }

    /// How many pieces stand at `stage`.
    pub fn at_stage(&self, stage: Stage) -> usize {
        let pieces = self.pieces();
        pieces.filter(|piece| piece.stage == stage).count()
    }
}

impl Row {
    /// The figures of `piece`, whose label is `label`.
    pub fn of(piece: CutPiece, label: String, settings: &Settings) -> Self {
        let spec: &PieceSpec = &piece.spec;
        let marks = Marks::of(spec);
        let (width, height) = (spec.panel.width, spec.panel.height);
        let (kept, offcut) = (marks.kept.area(), piece.left_of_stock(&marks).area());
        Self {
            label,
            bend: marks.bend,
            cut: marks.cut,
            skew_deg: spec.skew_deg(),
            bend_line_mm: length_mm(marks.bend, width, height),
            cut_line_mm: length_mm(marks.cut, width, height),
            leg: stands(spec),
            kept,
            offcut,
            cuts: cuts(&piece, &marks, offcut, settings.blade),
            near: marks.near.as_ref().map(|near| {
                Box::new(LineMarks {
                    at: LineAt::Near,
                    bend: near.bend,
                    cut: near.cut,
                })
            }),
            notes: notes_of(&piece, &marks, settings),
            lot: None,
            piece,
        }
    }

    /// What is marked, line by line.
    pub fn lines(&self) -> impl Iterator<Item = LineMarks> {
        let far = LineMarks {
            at: LineAt::Far,
            bend: self.bend,
            cut: self.cut,
        };
        let near = self.near.as_deref().copied();
        near.into_iter().chain([far])
    }

    /// The cuts, in the order in which they are made.
    pub fn cuts(&self) -> impl Iterator<Item = (LineAt, Lie)> {
        self.cuts.into_iter().flatten()
    }

    /// Its stage, or that it waits: these two forms have no place for notes.
    pub fn stage(&self) -> &'static str {
        if self.piece.waits() {
            "waits for the second trip"
        } else {
            self.piece.stage.word()
        }
    }

    /// The part that stays on the table at the first cut, in the sheet's word.
    pub fn on_table(&self) -> &'static str {
        let first = self.cuts().next();
        first.map_or("none", |(_, lie)| lie.on_table.word())
    }

    /// Which way the nose points at the first cut, in the sheet's word.
    pub fn nose(&self) -> &'static str {
        let first = self.cuts().next();
        first.map_or("none", |(_, lie)| lie.nose.word())
    }

    /// The edge of a line of a piece cut at both ends; `None` of any other.
    pub fn edge_at(&self, line: LineAt) -> Option<EdgeId> {
        let [near, far] = self.piece.spec.near?.edges;
        Some(match line {
            LineAt::Near => near,
            LineAt::Far => far,
        })
    }
}

fn cuts(piece: &CutPiece, marks: &Marks, offcut: Area, blade: Hand) -> [Option<(LineAt, Lie)>; 2] {
    if piece.spec.near.is_none() {
        // Most pieces: the parts are known.
        let lie = Lie::of(marks.kept.area(), offcut, piece.spec.hand, blade);
        return [marks.cut.map(|_| (LineAt::Far, lie)), None];
    }
    let count = marks.cuts().len();
    [(1, false), (2, true)].map(|(least, made)| {
        let cut = CutNow::of(&piece.spec, piece.stock.offcut(), made);
        let cut = cut.filter(|_| count >= least)?;
        Some((cut.line, cut.lie(blade)))
    })
}

fn by_edge(courses: Vec<EmptyCourse>) -> HashMap<EdgeId, Vec<EmptyCourse>> {
    let mut by_edge: HashMap<EdgeId, Vec<EmptyCourse>> = HashMap::new();
    for course in courses {
        by_edge.entry(course.edge).or_default().push(course);
    }
    by_edge
}

fn count<'p>(pieces: impl IntoIterator<Item = &'p CutPiece>, spoiled: usize) -> PanelCount {
    let mut count = PanelCount {
        spoiled,
        ..PanelCount::default()
    };
    for piece in pieces {
        count.pieces += 1;
        match piece.stock.offcut() {
            None => count.new += 1,
            Some(_) => count.from_offcuts += 1,
        }
    }
    count
}
