//! An edge as a staircase of courses, with each piece's stage.
//!
//! Seen on the roof from the eave looking up: `y` up the slope, `x` from the
//! field toward the edge, zero at the field's side of the widest reach, in
//! exact lengths. The edge is one straight line, as it is on the roof; where
//! the field's panels end differs from course to course. Left-hand pieces lie
//! with `x` to the right, right-hand ones are the mirror.
//!
//! ```text
//!   4             |M\            up
//!   3       |M   |C  \
//!   2          |S     \          a hip, left-hand pieces
//!   1       |#####|####\
//!   ======= eave ===========     x ->
//! ```
//!
//! A piece is shown as far as it will be seen: up to where the next one covers
//! it. Courses without a piece keep their place. It does not know where rows
//! and columns are.

use crate::domain::{
    bench::Stage,
    cutting::CutPiece,
    log::{CourseNumber, Edge},
    measure::{Hand, Length},
    piece::PieceId,
    settings::Settings,
};
use std::collections::BTreeMap;

/// The courses of one edge, from the eave up.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Staircase {
    /// The hand of its pieces.
    pub hand: Hand,
    /// How far it reaches from the field's side to the edge's.
    pub reach: Length,
    /// Its courses, in rising order.
    pub courses: Vec<StairCourse>,
}

/// One course.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct StairCourse {
    /// Which one.
    pub number: CourseNumber,
    /// Its pieces, from the field on; none where none is asked for yet.
    pub pieces: Vec<StairPiece>,
}

/// One piece as it will be seen on the roof.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct StairPiece {
    /// Which one.
    pub id: PieceId,
    /// How far it has come.
    pub stage: Stage,
    /// Where it begins and ends at the course's foot.
    pub foot: Span,
    /// Where it begins and ends at the course's head.
    pub head: Span,
}

/// From where to where, in the direction of `x`.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Span {
    /// The field's side.
    pub from: Length,
    /// The edge's side; never before `from`.
    pub to: Length,
}

/// The letter for what is to be done next with a piece: `M` mark, `C` cut, `B`
/// bend, `S` stack; `#` for done.
pub const fn letter(stage: Stage) -> char {
    match stage {
        Stage::ToMark => 'M',
        Stage::ToCut => 'C',
        Stage::ToBend => 'B',
        Stage::ToStack => 'S',
        Stage::Stacked => '#',
    }
}

impl Staircase {
    /// The staircase of `edge`, given all pieces of the job or those of the
    /// edge.
    pub fn of(edge: &Edge, pieces: &[CutPiece], settings: &Settings) -> Self {
        let mut courses: BTreeMap<CourseNumber, Vec<&CutPiece>> = edge
            .courses()
            .iter()
            .map(|course| (course.number, Vec::new()))
            .collect();
        for piece in pieces.iter().filter(|piece| piece.id.edge == edge.id) {
            courses.entry(piece.id.course).or_default().push(piece);
        }
        let mut climb = Climb::default();
        let mut stairs: Vec<StairCourse> = courses
            .into_iter()
            .map(|(number, pieces)| climb.course(number, pieces, settings.cover()))
            .collect();
        let reach = pushed_to_zero(&mut stairs);
        Self {
            hand: edge.hand,
            reach,
            courses: stairs,
        }
    }
}

/// Where the edge's line stands while going up.
#[derive(Default)]
struct Climb {
    /// At the line between the last course and the next.
    edge: Length,
    /// How much nearer to the field the last known course brought it.
    step: Length,
}

impl Climb {
    fn course(
        &mut self,
        number: CourseNumber,
        mut pieces: Vec<&CutPiece>,
        cover: Length,
    ) -> StairCourse {
        pieces.sort_by_key(|piece| piece.id.number);
        let laid = |piece: &CutPiece| cover.times(i64::from(piece.id.number) - 1);
        let Some(first) = pieces.first() else {
            self.edge = self.edge - self.step;
            return StairCourse {
                number,
                pieces: Vec::new(),
            };
        };
        let gap = first.spec.bend.moved(laid(first));
        let field = self.edge - gap.at_nose;
        self.step = gap.at_nose - gap.at_rise;
        self.edge = self.edge - self.step;
        let seen = |from: Length, width: Length| Span {
            from: field + from,
            to: field + from.max(width.min(from + cover)),
        };
        let pieces = pieces
            .iter()
            .map(|piece| StairPiece {
                id: piece.id,
                stage: piece.stage,
                foot: seen(laid(piece), gap.at_nose),
                head: seen(laid(piece), gap.at_rise),
            })
            .collect();
        StairCourse { number, pieces }
    }
}

/// Moves all of it so that the widest reach begins at zero; says how far it
/// reaches.
fn pushed_to_zero(courses: &mut [StairCourse]) -> Length {
    let spans = |courses: &[StairCourse]| -> Vec<Span> {
        let pieces = courses.iter().flat_map(|course| course.pieces.iter());
        pieces.flat_map(|piece| [piece.foot, piece.head]).collect()
    };
    let all = spans(courses);
    let start = all.iter().map(|span| span.from).min().unwrap_or_default();
    let end = all.iter().map(|span| span.to).max().unwrap_or_default();
    for piece in courses.iter_mut().flat_map(|course| &mut course.pieces) {
        for span in [&mut piece.foot, &mut piece.head] {
            span.from = span.from - start;
            span.to = span.to - start;
        }
    }
    end - start
}
