//! What it takes to make a job what it was before a change.
//!
//! Only what the change touched is in it, course by course, so that 500 changes
//! of a long log are a small part of its file.

use super::numbers::EdgeNumber;
use crate::domain::{
    bench::BenchEvent,
    log::{Course, CourseNumber, Edge, EdgeId, SheetSaid},
    measure::Name,
    settings::Settings,
};
use std::sync::Arc;

/// Rows to be put in, and those without content to be taken out, in rising
/// order.
pub type Rows<T> = Vec<(CourseNumber, Option<T>)>;

/// What is to be put into a job; what is absent stays as it is.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Delta {
    pub name: Option<Name>,
    pub settings: Option<Settings>,
    pub next_edge: Option<u32>,
    /// How many of the edges' numbers stay, and those to be put behind them.
    pub numbers: Option<(usize, Vec<EdgeNumber>)>,
    /// Every edge that is to be there, in cutting order.
    pub order: Option<Vec<EdgeId>>,
    /// By their ids.
    pub edges: Vec<EdgeDelta>,
    /// Facts that name a piece otherwise, each by its place among them, from 0.
    pub facts: Vec<(usize, BenchEvent)>,
}

/// What is to be put into one edge.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct EdgeDelta {
    pub id: EdgeId,
    /// All but its courses and what a sheet said of them.
    pub head: Option<Box<Edge>>,
    pub courses: Rows<Course>,
    pub said: Rows<SheetSaid>,
}

impl EdgeDelta {
    /// What makes `now`, where there is such an edge, what it was `before`; none
    /// where it is that.
    pub(super) fn between(now: Option<&Edge>, before: &Edge) -> Option<Self> {
        let head = head(before);
        let same_head = now.is_some_and(|now| self::head(now) == head);
        let rows = now.map(Edge::courses).unwrap_or_default();
        let said = now.map(|now| &*now.said).unwrap_or_default();
        let delta = Self {
            id: before.id,
            head: (!same_head).then(|| Box::new(head)),
            courses: rows_between(rows, before.courses(), |course| course.number),
            said: rows_between(said, &before.said, |said| said.course.number),
        };
        let is_none = same_head && delta.courses.is_empty() && delta.said.is_empty();
        (!is_none).then_some(delta)
    }

    /// The edge with it put in; none where the two do not belong together.
    pub(super) fn put_into(&self, edge: Option<&Arc<Edge>>) -> Option<Arc<Edge>> {
        let mut made = match (&self.head, edge) {
            (Some(head), _) => head.as_ref().clone(),
            (None, Some(edge)) => head(edge),
            (None, None) => return None,
        };
        let courses = edge.map(|edge| edge.courses()).unwrap_or_default();
        let said = edge.map(|edge| &*edge.said).unwrap_or_default();
        made.courses = rows_with(courses, &self.courses, |course| course.number)?;
        made.said = rows_with(said, &self.said, |said| said.course.number)?;
        (made.id == self.id).then(|| Arc::new(made))
    }
}

/// All of an edge but its courses and what a sheet said of them.
fn head(edge: &Edge) -> Edge {
    let Edge {
        id,
        name,
        kind,
        hand,
        roof,
        plane,
        lot,
        later_lots,
        reads_to,
        tape_end,
        set_aside,
        struck,
        said: _,
        courses: _,
    } = edge;
    Edge {
        id: *id,
        name: name.clone(),
        kind: *kind,
        hand: *hand,
        roof: *roof,
        plane: plane.clone(),
        lot: lot.clone(),
        later_lots: later_lots.clone(),
        reads_to: *reads_to,
        tape_end: *tape_end,
        set_aside: set_aside.clone(),
        struck: struck.clone(),
        said: Vec::new(),
        courses: Vec::new(),
    }
}

/// The rows that make `now` what it was `before`; both rise.
fn rows_between<T: Clone + PartialEq>(
    now: &[T],
    before: &[T],
    number: fn(&T) -> CourseNumber,
) -> Rows<T> {
    let (mut now, mut before) = (now.iter().peekable(), before.iter().peekable());
    let mut rows = Vec::new();
    while let Some(at) = least(
        now.peek().copied().map(number),
        before.peek().copied().map(number),
    ) {
        let is = now.next_if(|row| number(row) == at);
        let was = before.next_if(|row| number(row) == at);
        if is != was {
            rows.push((at, was.cloned()));
        }
    }
    rows
}

/// The rows of `now` with `rows` put in; none where these do not rise.
fn rows_with<T: Clone>(
    now: &[T],
    rows: &[(CourseNumber, Option<T>)],
    number: fn(&T) -> CourseNumber,
) -> Option<Vec<T>> {
    if !rows.is_sorted_by(|(one, _), (other, _)| one < other) {
        return None;
    }
    let (mut now, mut rows) = (now.iter().peekable(), rows.iter().peekable());
    let mut with = Vec::with_capacity(now.len() + rows.len());
    while let Some(at) = least(
        now.peek().copied().map(number),
        rows.peek().map(|row| row.0),
    ) {
        let is = now.next_if(|row| number(row) == at);
        let put = rows.next_if(|row| row.0 == at);
        with.extend(put.map_or(is, |(_, row)| row.as_ref()).cloned());
    }
    Some(with)
}

fn least(one: Option<CourseNumber>, other: Option<CourseNumber>) -> Option<CourseNumber> {
    one.into_iter().chain(other).min()
}
