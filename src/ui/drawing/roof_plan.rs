//! Draws the sides of the roof as a plan ([`crate::picture::roof_plan`]).
//!
//! A row a course, the eave at the bottom, each edge with its label below:
//!
//! ```text
//!       ____________
//!      /C 3       ::\
//!    >/##          ::\      > is what Enter takes
//!    /##? 1         B \     ? its reading is doubted
//!   === North slope ====
//!  >H1 R 2/3    H2 L 0/3    > is the selected edge
//! ```
//!
//! A course stands at its edge: its pieces from the edge into the field, a sign
//! each, then the marks about it. In two courses a row the lower one stands nearer
//! the edge. Sides beyond the width are on further pages.

use super::{
    roof_plan_side::Side,
    roof_plan_signs::{Signs, cell_of, cell_width, columns_of},
};
use crate::app::state::OpenJob;
use crate::domain::{
    log::{Edge, EdgeId},
    measure::Hand,
    piece::PieceId,
    roof::RoofSide,
};
use crate::picture::{
    roof_end::{Lean, lean},
    roof_plan::{CourseRows, Known, PlanEdge},
};
use crate::ui::{
    pen::{Pen, clipped_middle, columns},
    theme::{Role, Theme},
};
use std::sync::Arc;

/// Rows besides the courses: the ridge, the eave with the name, labels.
pub const BESIDE: u16 = 3;

/// A side that is whole, and half a one, at least and at most; a margin for the
/// pointer is in it.
const WHOLE: (u16, u16) = (25, 38);
const HALF: (u16, u16) = (14, 20);

/// Columns that half a side has besides its name.
const BESIDE_NAME: u16 = 6;

/// Columns between two sides.
const BETWEEN: u16 = 1;

/// The plan as it is to be drawn.
pub struct RoofPlan<'a> {
    open: &'a OpenJob,
    known: Known<'a>,
    /// The sides that are shown.
    sides: Vec<RoofSide<&'a Edge>>,
    /// Which of all of them is the selected edge's, from 0.
    pub at: usize,
    pub of: usize,
    pub rows: CourseRows,
    /// Which edge is selected, and whether the keys move among edges.
    pub selected: EdgeId,
    pub among_edges: bool,
    /// The piece that Enter takes.
    pub now: Option<PieceId>,
}

impl<'a> RoofPlan<'a> {
    /// The page of `sides` with the selected edge, in so many columns and rows of
    /// courses.
    pub fn of(
        open: &'a OpenJob,
        sides: &[RoofSide<&'a Edge>],
        (selected, among_edges, now): (EdgeId, bool, Option<PieceId>),
        (width, rows): (u16, u16),
    ) -> Self {
        let label = label_width(open);
        let is_here = |side: &RoofSide<&Edge>| side.edges().any(|edge| edge.id == selected);
        let (mut first, mut x) = (0, 0);
        for (at, side) in sides.iter().enumerate() {
            let wide = least_width(side, label);
            if x > 0 && x + BETWEEN + wide > width {
                if sides.iter().take(at).skip(first).any(is_here) {
                    break;
                }
                (first, x) = (at, 0);
            }
            x += wide + if x > 0 { BETWEEN } else { 0 };
        }
        let mut x = 0;
        let fits = |side: &&RoofSide<&Edge>| {
            let wide = least_width(side, label) + BETWEEN;
            let is_first = x == 0;
            x += wide;
            is_first || x <= width + BETWEEN
        };
        let shown = sides.iter().skip(first).take_while(fits);
        let shown: Vec<RoofSide<&Edge>> = shown.copied().collect();
        let edges = shown.iter().flat_map(RoofSide::edges).copied();
        let known = Known::of(open.job(), &open.list, &open.doubts, &open.two);
        let highest = known.highest_course(edges);
        let course = now.map_or(1, |now| now.course.get());
        Self {
            open,
            known,
            sides: shown,
            at: sides.iter().position(is_here).unwrap_or(0),
            of: sides.len(),
            rows: CourseRows::of(highest, course, rows),
            selected,
            among_edges,
            now,
        }
    }

    /// Takes no more than so many rows for the courses.
    pub fn fit_in(&mut self, rows: u16) {
        self.rows = CourseRows::of(self.rows.highest, self.rows.now, rows);
    }

    /// How many sides are shown.
    pub fn shown(&self) -> usize {
        self.sides.len()
    }

    /// Draws it; says which signs stand in it.
    pub fn draw(&self, pen: &mut Pen<'_>) -> Signs {
        let label = label_width(self.open);
        let least = |side: &RoofSide<&Edge>| least_width(side, label);
        let taken: u16 = self.sides.iter().map(|side| least(side) + BETWEEN).sum();
        let over = pen.width().saturating_sub(taken);
        let more = over / u16::try_from(self.sides.len()).unwrap_or(1).max(1);
        let width = |side: &RoofSide<&Edge>| {
            let most = match side.is_whole() {
                true => WHOLE.1,
                // As wide as its name, where there is room.
                false => HALF.1.max(columns(name_of(side)) + BESIDE_NAME),
            };
            (least(side) + more).min(most.max(least(side)))
        };
        let shown = self.rows.first..=self.rows.last();
        let made = |edge: &Edge| PlanEdge::of(edge, &self.known, &shown);
        let sides: Vec<Side> = self
            .sides
            .iter()
            .map(|side| Side {
                left: side.left.map(made),
                right: side.right.map(made),
                width: width(side),
            })
            .collect();
        let theme = pen.theme();
        let most = sides
            .iter()
            .map(|side| side.room_to_lean(&self.rows, theme));
        let most = most.min().unwrap_or(0).min(self.rows.rows / 2);
        let eaves = sides.iter().map(|side| side.span(&self.rows, 0, most));
        let rooms = eaves.clone().map(|(from, to)| to.saturating_sub(from + 3));
        let names = names_in(&self.sides, &rooms.collect::<Vec<u16>>());
        let (mut x, mut signs) = (0, Signs::new());
        for ((side, name), (from, _)) in sides.iter().zip(&names).zip(eaves) {
            let height = pen.height();
            let mut part = pen.part(x, 0, side.width, height);
            self.side(&mut part, side, most, &mut signs);
            let eave = self.rows.rows + 1;
            if !name.is_empty() {
                part.text(from + 1, eave, Role::Text, &format!(" {name} "));
            }
            x += side.width + BETWEEN;
        }
        signs
    }

    fn side(&self, pen: &mut Pen<'_>, side: &Side, most: u16, signs: &mut Signs) {
        let rows = self.rows.rows;
        let top = side.top_row(&self.rows);
        for row in 0..rows {
            let y = rows - row;
            let mut inner = side.span(&self.rows, row, most);
            for edge in side.edges() {
                if side.has_line(edge, &self.rows, row) {
                    self.line(pen, edge, y, (inner, side), row);
                }
            }
            // Where the field is open nothing stands in the way of its number.
            inner.0 += u16::from(side.left.is_some());
            inner.1 = inner.1.saturating_sub(u16::from(side.right.is_some()));
            let mut left = inner;
            for edge in side.edges() {
                let cells = self.cells(edge, row, pen.theme(), signs);
                let count = columns_of(&cells);
                match edge.hand {
                    Hand::Right => left.0 += count,
                    Hand::Left => left.1 = left.1.saturating_sub(count),
                }
                for (step, sign) in (0_u16..).zip(cells) {
                    let x = match edge.hand {
                        Hand::Right => inner.0 + step,
                        Hand::Left => inner.1.saturating_sub(step),
                    };
                    pen.text(x, y, Role::Text, sign.encode_utf8(&mut [0; 4]));
                }
            }
            self.between(pen, side, row, left);
        }
        self.eave_and_ridge(pen, side, most, top);
        self.labels(pen, side, rows + 2);
    }

    /// The line of an edge in one row, and the pointer to what Enter takes.
    fn line(
        &self,
        pen: &mut Pen<'_>,
        edge: &PlanEdge,
        y: u16,
        (span, side): ((u16, u16), &Side),
        row: u16,
    ) {
        let (x, beside, pointer) = match edge.hand {
            Hand::Right => (span.0, span.0.checked_sub(1), ">"),
            Hand::Left => (span.1, Some(span.1 + 1), "<"),
        };
        let stroke = match (lean(edge.kind), edge.hand) {
            (Lean::In, Hand::Right) | (Lean::Out, Hand::Left) => "/",
            (Lean::In, Hand::Left) | (Lean::Out, Hand::Right) => "\\",
            (Lean::Upright, _) => pen.theme().drawn("\u{2502}", "|"),
        };
        pen.text(x, y, Role::Line, stroke);
        let course = self.now.filter(|_| edge.id == self.selected);
        let place = course.and_then(|piece| self.rows.place_of(piece.course.get()));
        let is_here = place.is_some_and(|(here, _)| here == row);
        if let Some(x) = beside.filter(|x| is_here && *x < side.width) {
            let role = match self.among_edges {
                true => Role::Strong,
                false => Role::Selected,
            };
            pen.text(x, y, role, pointer);
        }
    }

    /// What stands at an edge in one row, from its line into the field.
    fn cells(&self, edge: &PlanEdge, row: u16, theme: &Theme, signs: &mut Signs) -> Vec<char> {
        let wide = cell_width(edge, self.rows.each, theme);
        let mut cells = Vec::new();
        for place in 0..self.rows.each {
            let number = self.rows.lowest_in(row) + place;
            let course = edge.courses.iter().find(|c| c.number.get() == number);
            let mut cell =
                course.map_or_else(Vec::new, |course| cell_of(course, self.rows.each, theme));
            signs.extend(&cell);
            if place + 1 < self.rows.each {
                cell.resize(usize::from(wide) + 1, ' ');
            }
            cells.extend(cell);
        }
        cells
    }

    /// Between the two edges: the number of a course now and then, and a line where
    /// a piece runs from one to the other.
    fn between(&self, pen: &mut Pen<'_>, side: &Side, row: u16, (from, to): (u16, u16)) {
        let y = self.rows.rows - row;
        let lowest = self.rows.lowest_in(row);
        if side.joins(lowest) && self.rows.each == 1 && from <= to {
            let dash = pen.theme().drawn("\u{2500}", "-");
            let count = usize::from(to + 1 - from);
            pen.text(from, y, Role::Line, &dash.repeat(count));
        }
        let ends = side.edges().filter_map(|edge| edge.reach);
        let mut ends = ends.flat_map(|(first, last)| [first, last]);
        let courses = lowest..lowest + self.rows.each;
        let is_end = ends.any(|end| courses.contains(&end));
        let is_fifth = row.is_multiple_of(5) && side.has_course(lowest);
        if !(is_end || is_fifth) {
            return;
        }
        let number = lowest.to_string();
        let wide = columns(&number);
        let x = match (&side.left, &side.right) {
            (Some(_), Some(_)) => (side.width - wide) / 2,
            (Some(_), None) => to.saturating_sub(wide),
            _ => from,
        };
        if x >= from && x + wide <= to + 1 {
            pen.text(x, y, Role::Text, &number);
        }
    }

    fn eave_and_ridge(&self, pen: &mut Pen<'_>, side: &Side, most: u16, top: Option<u16>) {
        let rows = self.rows.rows;
        let across = |pen: &mut Pen<'_>, y, (from, to): (u16, u16), stroke: &str| {
            let count = usize::from((to + 1).saturating_sub(from));
            pen.text(from, y, Role::Line, &stroke.repeat(count));
        };
        let eave = match self.rows.first {
            1 => pen.theme().drawn("\u{2550}", "="),
            // More courses stand below.
            _ => pen.theme().drawn("\u{2500}", "-"),
        };
        across(pen, rows + 1, side.span(&self.rows, 0, most), eave);
        if let Some(top) = top {
            let (from, to) = side.span(&self.rows, top, most);
            across(pen, rows - top - 1, (from + 1, to.saturating_sub(1)), "_");
        }
    }

    fn labels(&self, pen: &mut Pen<'_>, side: &Side, y: u16) {
        for edge in side.edges() {
            let is_selected = edge.id == self.selected;
            let words = label(self.open, edge.id, edge.hand, is_selected, edge.doubted);
            let role = match (is_selected, self.among_edges) {
                (true, true) => Role::Selected,
                (true, false) => Role::Strong,
                _ => Role::Text,
            };
            match edge.hand {
                Hand::Right => {
                    pen.text(0, y, role, &words);
                }
                Hand::Left => pen.text_right(0, y, role, &words),
            }
        }
    }
}

/// `>H1 R 7/16`: stacked of all; a `?` where the whole edge is doubted.
fn label(open: &OpenJob, edge: EdgeId, hand: Hand, is_selected: bool, doubted: bool) -> String {
    let [.., stacked] = open.list.at_stages(Some(edge));
    let all = stacked + open.left_at(edge);
    let pointer = if is_selected { '>' } else { ' ' };
    let doubt = if doubted { "?" } else { "" };
    let (name, hand) = (open.labels.edge(edge), hand.letter());
    format!("{pointer}{name} {hand} {stacked}/{all}{doubt}")
}

/// How wide the widest label can be.
fn label_width(open: &OpenJob) -> u16 {
    let edges = open.job().edges().iter();
    let count = |edge: &Arc<Edge>| open.list.at_stages(Some(edge.id)).iter().sum();
    let most: Option<usize> = edges.clone().map(count).max();
    let last = edges.map(|edge| edge.id.0).max().unwrap_or(1);
    let digits = |number: usize| number.to_string().len();
    let count = digits(most.unwrap_or(0));
    let last = usize::try_from(last).unwrap_or(usize::MAX);
    u16::try_from(2 + digits(last) + 3 + 2 * count + 2).unwrap_or(u16::MAX)
}

/// The names below the sides, each in the columns it has. Half a side goes without
/// where its name is longer: its edge's label stands below it, and a few letters of
/// a name say less.
fn names_in(sides: &[RoofSide<&Edge>], rooms: &[u16]) -> Vec<String> {
    let names: Vec<&str> = sides.iter().map(name_of).collect();
    let places = sides.iter().zip(&names).zip(rooms).enumerate();
    let name_in = |(at, ((side, name), room)): (usize, ((&RoofSide<&Edge>, &&str), &u16))| {
        if !side.is_whole() && columns(name) > *room {
            return String::new();
        }
        let cut = clipped_middle(&names, usize::from(*room));
        cut.get(at).cloned().unwrap_or_default()
    };
    places.map(name_in).collect()
}

fn least_width(side: &RoofSide<&Edge>, label: u16) -> u16 {
    match side.is_whole() {
        true => WHOLE.0.max(2 * label),
        false => HALF.0.max(label),
    }
}

/// The name of its plane; of half a side that of its edge.
fn name_of<'a>(side: &RoofSide<&'a Edge>) -> &'a str {
    let plane = side
        .left
        .zip(side.right)
        .and_then(|(left, _)| left.plane.as_ref());
    let name = plane.or_else(|| side.edges().next().map(|edge| &edge.name));
    name.map_or("", |name| name.as_str())
}
