//! Draws the sides of the roof as a plan ([`crate::picture::roof_plan`]).
//!
//! A row a course, the eave at the bottom, each edge with its label below:
//!
//! ```text
//!       ____________
//!      /C 3       ::\
//!    >/##          ::\      > is what Enter takes
//!    /##? 1         B \     ? its reading is doubted
//!   ====================
//!   North slope
//!  >H1 R 2/3    H2 L 0/3    > is the selected edge
//! ```
//!
//! A course stands at its edge: its pieces from the edge into the field, a sign
//! each, then the marks about it. In two courses a row the lower one stands nearer
//! the edge. Sides beyond the width are on further pages.

use crate::app::state::OpenJob;
use crate::domain::{
    bench::Stage,
    log::{Edge, EdgeId},
    measure::Hand,
    piece::PieceId,
    roof::RoofSide,
};
use crate::picture::{
    roof_end::{Lean, lean},
    roof_plan::{CourseRows, Holds, Known, PlanCourse, PlanEdge, ReadingMark},
    staircase::letter,
};
use crate::ui::{
    pen::{Pen, clipped_middle, columns},
    theme::{Role, Theme},
};
use std::{collections::BTreeSet, sync::Arc};

/// Rows besides the courses: the ridge, the eave, names, labels.
pub const BESIDE: u16 = 4;

/// A side that is whole, and half a one, at least and at most; a margin for the
/// pointer is in it.
const WHOLE: (u16, u16) = (25, 38);
const HALF: (u16, u16) = (14, 20);

/// Columns between two sides.
const BETWEEN: u16 = 1;

/// Of a whole side, kept for the edges' two lines, their pointers and the number of
/// a course.
const KEPT: u16 = 7;

/// The plan as it is to be drawn.
pub struct RoofPlan<'a> {
    open: &'a OpenJob,
    /// The sides that are shown.
    sides: Vec<RoofSide<&'a Edge>>,
    /// Which of them, from 0, and of how many.
    pub first: usize,
    pub of: usize,
    pub rows: CourseRows,
    /// Which edge is selected, and whether the keys move among edges.
    pub selected: EdgeId,
    pub among_edges: bool,
    /// The piece that Enter takes.
    pub now: Option<PieceId>,
}

/// The signs of a course that have a word in the row of words only where they
/// stand on the screen.
pub type Signs = BTreeSet<char>;

/// For a course that is not read, for one with nothing to cut.
pub const UNREAD: char = '-';
pub const NOTHING: char = '0';
/// A piece that no longer fits; a doubtful reading; two readings.
pub const MISFIT: char = 'X';
pub const DOUBT: char = '?';
pub const TWO: char = '2';
/// More pieces than have room stand as the least of their stages and this.
pub const MORE: char = '+';

/// The sign of a piece.
pub fn sign(stage: Stage, theme: &Theme) -> char {
    match stage {
        Stage::ToMark => theme.drawn('\u{b7}', ':'),
        Stage::Stacked => theme.drawn('\u{2588}', letter(stage)),
        begun => letter(begun),
    }
}

impl<'a> RoofPlan<'a> {
    /// The page of `sides` with the selected edge, in `width` columns.
    pub fn of(
        open: &'a OpenJob,
        sides: &[RoofSide<&'a Edge>],
        rows: CourseRows,
        (selected, among_edges, now): (EdgeId, bool, Option<PieceId>),
        width: u16,
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
        Self {
            open,
            sides: shown.copied().collect(),
            first,
            of: sides.len(),
            rows,
            selected,
            among_edges,
            now,
        }
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
            let most = if side.is_whole() { WHOLE.1 } else { HALF.1 };
            (least(side) + more).min(most.max(least(side)))
        };
        let names: Vec<&str> = self.sides.iter().map(name_of).collect();
        let narrowest = self.sides.iter().map(width).min().unwrap_or(0);
        let names = clipped_middle(&names, usize::from(narrowest.saturating_sub(2)));
        let known = Known {
            job: self.open.job(),
            list: &self.open.list,
            doubts: &self.open.doubts,
            two: &self.open.two,
        };
        let shown = self.rows.first..=self.rows.last();
        let made = |edge: &Edge| PlanEdge::of(edge, &known, &shown);
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
        let (mut x, mut signs) = (0, Signs::new());
        for (side, name) in sides.iter().zip(&names) {
            let height = pen.height();
            let mut part = pen.part(x, 0, side.width, height);
            self.side(&mut part, side, most, &mut signs);
            part.text(1, self.rows.rows + 2, Role::Text, name);
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
            inner = (inner.0 + 1, inner.1.saturating_sub(1));
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
        self.labels(pen, side, rows + 3);
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
                cell.resize(usize::from(wide), ' ');
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
            (Some(_), None) => side.width.saturating_sub(wide),
            _ => 0,
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

fn least_width(side: &RoofSide<&Edge>, label: u16) -> u16 {
    match side.is_whole() {
        true => WHOLE.0.max(2 * label),
        false => HALF.0.max(label),
    }
}

/// The name of its plane, else of its edge.
fn name_of<'a>(side: &RoofSide<&'a Edge>) -> &'a str {
    let first = side.edges().next();
    let name = first.map(|edge| edge.plane.as_ref().unwrap_or(&edge.name));
    name.map_or("", |name| name.as_str())
}

/// The signs of a course, from the edge into the field, then the marks about it.
fn cell_of(course: &PlanCourse, each: u32, theme: &Theme) -> Vec<char> {
    let alone = each == 1;
    let of = |(_, stage): &(PieceId, Stage)| sign(*stage, theme);
    let mut cell = match &course.holds {
        Holds::Unread if alone => vec![UNREAD; 2],
        Holds::Unread => vec![UNREAD],
        Holds::Nothing => vec![NOTHING],
        Holds::Pieces(pieces) => match pieces.as_slice() {
            // Filled twice, to be seen from farther away.
            [one] if alone && has_fill(one.1) => vec![of(one); 2],
            pieces if pieces.len() <= 2 && !alone => pieces.iter().map(of).collect(),
            pieces if pieces.len() <= 3 && alone => {
                let apart: Vec<[char; 2]> = pieces.iter().map(|one| [of(one), ' ']).collect();
                let mut cell = apart.concat();
                cell.pop();
                cell
            }
            pieces => {
                let least = pieces.iter().min_by_key(|(_, stage)| *stage);
                least.map_or_else(Vec::new, |least| vec![of(least), MORE])
            }
        },
    };
    cell.extend(course.misfit.then_some(MISFIT));
    cell.extend(match course.reading {
        ReadingMark::Plain => None,
        ReadingMark::Doubted => Some(DOUBT),
        ReadingMark::Two => Some(TWO),
    });
    cell
}

/// Letters stand once, fills twice.
const fn has_fill(stage: Stage) -> bool {
    matches!(stage, Stage::ToMark | Stage::Stacked)
}

fn columns_of(cells: &[char]) -> u16 {
    u16::try_from(cells.len()).unwrap_or(u16::MAX)
}

/// How wide the widest course of an edge is; every one ends before that.
fn cell_width(edge: &PlanEdge, each: u32, theme: &Theme) -> u16 {
    let wide = |course| columns_of(&cell_of(course, each, theme));
    edge.courses.iter().map(wide).max().unwrap_or(0)
}

/// One side with its edges and columns.
struct Side {
    left: Option<PlanEdge>,
    right: Option<PlanEdge>,
    width: u16,
}

impl Side {
    fn edges(&self) -> impl Iterator<Item = &PlanEdge> {
        self.left.iter().chain(&self.right)
    }

    /// How far its edges may lean so that their courses do not meet.
    fn room_to_lean(&self, rows: &CourseRows, theme: &Theme) -> u16 {
        let each = u16::try_from(rows.each).unwrap_or(1);
        let wide = |edge: &PlanEdge| each * cell_width(edge, rows.each, theme);
        let free = self.edges().map(wide).fold(self.width, u16::saturating_sub);
        let ends = u16::try_from(self.edges().count()).unwrap_or(1);
        free.saturating_sub(KEPT) / ends.max(1)
    }

    /// The columns of its two lines in `row`; of half a side the one line and where
    /// it ends in the field.
    fn span(&self, rows: &CourseRows, row: u16, most: u16) -> (u16, u16) {
        let inset = |edge: &PlanEdge| 1 + rows.inset(edge.kind, row, most);
        let from = self.left.as_ref().map_or(0, inset);
        let to = self.right.as_ref().map_or(0, inset);
        (from, self.width.saturating_sub(1 + to))
    }

    fn has_course(&self, number: u32) -> bool {
        let mut reaches = self.edges().filter_map(|edge| edge.reach);
        reaches.any(|(first, last)| (first..=last).contains(&number))
    }

    fn has_line(&self, edge: &PlanEdge, rows: &CourseRows, row: u16) -> bool {
        let lowest = rows.lowest_in(row);
        let reach = edge.reach;
        reach.is_some_and(|(first, last)| lowest <= last && first < lowest + rows.each)
    }

    /// Whether a piece runs across it in that course.
    fn joins(&self, number: u32) -> bool {
        let joined = |edge: &PlanEdge| {
            let mut courses = edge.courses.iter();
            courses.any(|course| course.number.get() == number && course.joined)
        };
        let ends = self.left.as_ref().zip(self.right.as_ref());
        ends.is_some_and(|(left, right)| joined(left) && joined(right))
    }

    /// The row of its highest course, where that is in sight.
    fn top_row(&self, rows: &CourseRows) -> Option<u16> {
        let reaches = self.edges().filter_map(|edge| edge.reach);
        let highest = reaches.map(|(_, last)| last).max()?;
        Some(rows.place_of(highest)?.0)
    }
}
