//! The roof as a plan: each side of it with its edges, a row a course.
//!
//! Seen from the eave looking up, the eave at the bottom. Not to scale but for
//! the number of courses: a hip leans in, a valley out, a rake stands upright
//! ([`super::roof_end`]).
//!
//! ```text
//!      ____________
//!     /C        ::\        3    up
//!    /##          ::\      2    a side between two hips
//!   /##            B \     1
//!   ==================
//! ```
//!
//! Courses are counted from 1 at the eave, rows from 0 at the lowest one shown.
//! How wide anything is drawn is not known here.

use super::roof_end::{Lean, lean};
use crate::domain::{
    bench::Stage,
    cutting::{CutList, CutPiece, EdgeDoubt, Job},
    log::{Course, CourseNumber, Edge, EdgeId, TwoReadings},
    measure::Hand,
    piece::{CourseTrouble, PieceId},
    roof::{EdgeKind, RoofSide, roof_sides},
};
use std::{collections::BTreeMap, ops::RangeInclusive, sync::Arc};

/// The sides of the roof, in the order their edges are cut.
pub fn sides_of(job: &Job) -> Vec<RoofSide<&Edge>> {
    let edges = job.edges().iter().map(Arc::as_ref);
    roof_sides(edges.map(|edge| (edge.plane.as_ref(), edge.hand, edge)))
}

/// What a plan is made from.
pub struct Known<'a> {
    list: &'a CutList,
    doubts: &'a [EdgeDoubt],
    two: &'a [(EdgeId, TwoReadings)],
    joined: Vec<Joined>,
}

/// A course whose piece runs to another edge.
struct Joined {
    at: EdgeId,
    course: CourseNumber,
    to: EdgeId,
}

impl<'a> Known<'a> {
    /// What is known of `job`.
    pub fn of(
        job: &Job,
        list: &'a CutList,
        doubts: &'a [EdgeDoubt],
        two: &'a [(EdgeId, TwoReadings)],
    ) -> Self {
        let of_edge = |edge: &Arc<Edge>| {
            let joined = |course: &Course| {
                Some(Joined {
                    at: edge.id,
                    course: course.number,
                    to: course.to?,
                })
            };
            edge.courses().iter().filter_map(joined).collect::<Vec<_>>()
        };
        Self {
            list,
            doubts,
            two,
            joined: job.edges().iter().flat_map(of_edge).collect(),
        }
    }

    /// The courses of other edges that run to `edge`.
    fn joined_to(&self, edge: EdgeId) -> impl Iterator<Item = &Joined> {
        self.joined.iter().filter(move |joined| joined.to == edge)
    }

    /// The highest course of `edges`, at least 1.
    pub fn highest_course<'b>(&self, edges: impl Iterator<Item = &'b Edge>) -> u32 {
        let of_edge = |edge: &Edge| {
            let logged = edge.courses().last().map(|course| course.number);
            let pieces = self.list.pieces_of(edge.id).map(|piece| piece.id.course);
            let elsewhere = self.joined_to(edge.id).map(|joined| joined.course);
            pieces.chain(elsewhere).chain(logged).max()
        };
        let highest = edges.filter_map(of_edge).max();
        highest.map_or(1, CourseNumber::get)
    }
}

/// One edge with its courses.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PlanEdge {
    pub id: EdgeId,
    pub kind: EdgeKind,
    pub hand: Hand,
    /// Its first and its last course; none of an edge not yet begun.
    pub reach: Option<(u32, u32)>,
    /// Those of them that are shown, in rising order, none left out.
    pub courses: Vec<PlanCourse>,
    /// All of its readings are doubted together.
    pub doubted: bool,
}

/// One course of an edge.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PlanCourse {
    pub number: CourseNumber,
    pub holds: Holds,
    /// Its pieces run to another edge and are cut at both ends.
    pub joined: bool,
    /// A piece of it no longer fits what the log asks for.
    pub misfit: bool,
    pub reading: ReadingMark,
}

/// What there is of a course.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Holds {
    /// Its pieces, from the edge into the field.
    Pieces(Vec<(PieceId, Stage)>),
    /// It is not read, or not in full.
    Unread,
    /// It is read and leaves nothing to cut.
    Nothing,
}

/// Whether its readings are to be looked at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ReadingMark {
    Plain,
    Doubted,
    /// The log and a sheet have each another figure.
    Two,
}

impl PlanEdge {
    /// `edge` with those of its courses that stand in `shown`.
    pub fn of(edge: &Edge, known: &Known<'_>, shown: &RangeInclusive<u32>) -> Self {
        let mut found: BTreeMap<CourseNumber, PlanCourse> = edge
            .courses()
            .iter()
            .map(|course| (course.number, unread(course.number, course.to.is_some())))
            .collect();
        for piece in known.list.pieces_of(edge.id) {
            let course = found.entry(piece.id.course);
            add(course.or_insert(unread(piece.id.course, false)), piece);
        }
        // A piece cut at both ends stands at either edge.
        for Joined { at, course, .. } in known.joined_to(edge.id) {
            let (other, number) = (*at, *course);
            let course = found.entry(number).or_insert(unread(number, true));
            course.joined = true;
            for piece in other_ends_pieces(other, number, known.list) {
                add(course, piece);
            }
        }
        for empty in &known.list.empty {
            let nothing = empty.edge == edge.id && empty.why == CourseTrouble::NothingToCut;
            if let Some(course) = found.get_mut(&empty.course).filter(|_| nothing)
                && course.holds == Holds::Unread
            {
                course.holds = Holds::Nothing;
            }
        }
        let number = |found: Option<(&CourseNumber, &PlanCourse)>| Some(found?.0.get());
        let reach = number(found.first_key_value()).zip(number(found.last_key_value()));
        let doubts = known.doubts.iter().filter(|doubt| doubt.edge == edge.id);
        let (of_edge, of_course): (Vec<_>, Vec<_>) =
            doubts.partition(|doubt| doubt.doubt.course.is_none());
        let courses = reach.map(|reach| without_holes(found, reach, shown));
        let mut courses = courses.unwrap_or_default();
        for course in &mut courses {
            let mut two = known.two.iter();
            if two.any(|(at, two)| *at == edge.id && two.course == course.number) {
                course.reading = ReadingMark::Two;
            } else if of_course.iter().any(|d| d.doubt.touches(course.number)) {
                course.reading = ReadingMark::Doubted;
            }
            if let Holds::Pieces(pieces) = &mut course.holds {
                pieces.sort_by_key(|(id, _)| std::cmp::Reverse(id.number));
            }
        }
        Self {
            id: edge.id,
            kind: edge.kind,
            hand: edge.hand,
            reach,
            courses,
            doubted: !of_edge.is_empty(),
        }
    }
}

const fn unread(number: CourseNumber, joined: bool) -> PlanCourse {
    PlanCourse {
        number,
        holds: Holds::Unread,
        joined,
        misfit: false,
        reading: ReadingMark::Plain,
    }
}

fn add(course: &mut PlanCourse, piece: &CutPiece) {
    course.misfit |= piece.fit.misfit().is_some();
    let one = (piece.id, piece.stage);
    match &mut course.holds {
        Holds::Pieces(pieces) => pieces.push(one),
        holds => *holds = Holds::Pieces(vec![one]),
    }
}

fn other_ends_pieces(
    edge: EdgeId,
    course: CourseNumber,
    list: &CutList,
) -> impl Iterator<Item = &CutPiece> {
    (1..).map_while(move |number| {
        list.piece(PieceId {
            edge,
            course,
            number,
        })
    })
}

/// What stands in `shown`; courses that the log passes over stand unread between
/// the others.
fn without_holes(
    mut found: BTreeMap<CourseNumber, PlanCourse>,
    (first, last): (u32, u32),
    shown: &RangeInclusive<u32>,
) -> Vec<PlanCourse> {
    let there = first.max(*shown.start())..=last.min(*shown.end());
    let numbers = there.filter_map(CourseNumber::new);
    numbers
        .map(|number| found.remove(&number).unwrap_or(unread(number, false)))
        .collect()
}

/// Which courses are shown in which rows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct CourseRows {
    /// Courses in a row: 1, or 2 where there is no room for a row each.
    pub each: u32,
    /// The lowest course shown.
    pub first: u32,
    pub rows: u16,
    pub highest: u32,
    /// The course in hand.
    pub now: u32,
}

impl CourseRows {
    /// All courses up to `highest` in `room` rows; where two a row do not fit
    /// either, those round the course `now`.
    pub fn of(highest: u32, now: u32, room: u16) -> Self {
        let (highest, room) = (highest.max(1), room.max(1));
        let many = u32::from(room);
        let (each, rows) = if highest <= many {
            (1, highest)
        } else {
            (2, highest.div_ceil(2).min(many))
        };
        let shown = rows * each;
        let last = highest.div_ceil(each) * each;
        let below = now
            .saturating_sub(shown / 2)
            .min(last.saturating_sub(shown));
        Self {
            each,
            first: below / each * each + 1,
            rows: u16::try_from(rows).unwrap_or(room),
            highest,
            now,
        }
    }

    /// The last course shown.
    pub fn last(&self) -> u32 {
        let last = self.first - 1 + u32::from(self.rows) * self.each;
        last.min(self.highest)
    }

    /// The row of `course`, and its place in that row from the edge into the
    /// field; none where it is out of sight.
    pub fn place_of(&self, course: u32) -> Option<(u16, u32)> {
        let above = course.checked_sub(self.first)?;
        let row = u16::try_from(above / self.each).ok()?;
        (row < self.rows).then_some((row, above % self.each))
    }

    /// The lowest course of `row`.
    pub fn lowest_in(&self, row: u16) -> u32 {
        self.first + u32::from(row) * self.each
    }

    /// How far in from the outermost column the line of an edge stands in `row`,
    /// given how far a hip leans over all rows.
    pub fn inset(&self, kind: EdgeKind, row: u16, most: u16) -> u16 {
        let part = u32::from(row) * u32::from(most) / u32::from(self.rows.max(1));
        let part = u16::try_from(part).unwrap_or(most).min(most);
        match lean(kind) {
            Lean::In => part,
            Lean::Out => most - part,
            Lean::Upright => 0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(highest: u32, now: u32, room: u16, expected: (u32, u32, u32)) {
        let rows = CourseRows::of(highest, now, room);
        assert_eq!((rows.each, rows.first, rows.last()), expected);
    }

    #[test]
    fn a_row_a_course_then_two_a_row_then_those_round_the_one_in_hand() {
        check(13, 1, 13, (1, 1, 13));
        check(14, 9, 13, (2, 1, 14));
        check(26, 9, 13, (2, 1, 26));
        check(60, 1, 13, (2, 1, 26));
        check(60, 30, 13, (2, 17, 42));
        check(60, 60, 13, (2, 35, 60));
        check(61, 61, 13, (2, 37, 61));
    }

    #[test]
    fn the_course_in_hand_is_always_in_sight() {
        for highest in 1..90 {
            for now in 1..=highest {
                for room in 1..20 {
                    let rows = CourseRows::of(highest, now, room);
                    assert!(rows.place_of(now).is_some(), "{rows:?} {now}");
                }
            }
        }
    }

    #[test]
    fn a_hip_leans_in_a_valley_out_and_a_rake_stands() {
        let rows = CourseRows::of(12, 1, 12);
        let insets = |kind| [0, 6, 11].map(|row| rows.inset(kind, row, 6));
        assert_eq!(insets(EdgeKind::Hip), [0, 3, 5]);
        assert_eq!(insets(EdgeKind::Valley), [6, 3, 1]);
        assert_eq!(insets(EdgeKind::Rake), [0, 0, 0]);
    }
}
