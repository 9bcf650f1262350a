//! Draws a [`Staircase`]: one row a course, the eave at the bottom.
//!
//! Each piece shows the letter of what is to be done next; a finished one is
//! filled. Where the courses do not fit, those round the piece in hand are
//! shown and the others counted.
//!
//! ```text
//!    4 |M \
//!    3   |C  \
//!    2  |##|S  \           <- |## done, S to stack
//!    1   |#######\
//!   eave ==============
//!   M mark  C cut  B bend  S stack  # done
//! ```

use super::{
    canvas::{Canvas, Glyph},
    picture_scale::floor,
};
use crate::domain::{bench::Stage, log::CourseNumber, measure::Length, piece::PieceId};
use crate::picture::shape::PageEnd;
use crate::picture::staircase::{StairCourse, StairPiece, Staircase, letter};
use crate::ui::pen::{Pen, first_in_sight};
use crate::ui::theme::Role;

/// Rows below the courses: the eave, the letters.
const BELOW: u16 = 2;

/// Draws `stairs` from the top of the pen's area on, the piece `now` reversed;
/// says how many rows it took, none where the area is too small.
pub fn draw(pen: &mut Pen<'_>, stairs: &Staircase, now: Option<PieceId>) -> u16 {
    let Some(room) = pen.height().checked_sub(BELOW).filter(|room| *room > 0) else {
        return 0;
    };
    let shown = Window::of(stairs, now, usize::from(room));
    let rows = count(shown.courses.len());
    let mut drawing = Drawing::new(stairs, pen.width(), rows + BELOW, now);
    for (row, course) in (0..).zip(shown.courses.iter().rev()) {
        drawing.course(row, course);
    }
    drawing.eave(rows, &shown.words());
    drawing.canvas.show(pen);
    let done = pen.theme().drawn('\u{2588}', letter(Stage::Stacked));
    let apart = if pen.width() < 37 { " " } else { "  " };
    let done = format!("{done} done");
    let words = ["M mark", "C cut", "B bend", "S stack", &done].join(apart);
    pen.text(0, rows + 1, Role::Text, &words);
    rows + BELOW
}

/// The courses that are shown.
struct Window<'a> {
    courses: &'a [StairCourse],
    above: usize,
    below: usize,
}

impl<'a> Window<'a> {
    /// As many courses as there is `room` for, the one in hand in the middle as
    /// far as that goes.
    fn of(stairs: &'a Staircase, now: Option<PieceId>, room: usize) -> Self {
        let all = &stairs.courses;
        let number = now.map_or(CourseNumber::FIRST, |piece| piece.course);
        let at = all.partition_point(|course| course.number < number);
        let first = first_in_sight(at, all.len(), room);
        let last = (first + room).min(all.len());
        Self {
            courses: all.get(first..last).unwrap_or(&[]),
            above: all.len() - last,
            below: first,
        }
    }

    /// What the row below says.
    fn words(&self) -> String {
        match (self.below, self.above) {
            (0, 0) => " eave ".to_owned(),
            (0, above) => format!(" eave; {above} more above "),
            (below, 0) => format!(" {below} more below "),
            (below, above) => format!(" {below} more below, {above} above "),
        }
    }
}

struct Drawing {
    canvas: Canvas,
    now: Option<PieceId>,
    /// Columns of the course numbers.
    numbers: u16,
    /// Columns for the reach, and how far it is.
    columns: u16,
    reach: f64,
}

impl Drawing {
    fn new(stairs: &Staircase, columns: u16, rows: u16, now: Option<PieceId>) -> Self {
        let last = stairs.courses.last().map(|course| course.number);
        let numbers = count(last.map_or(1, |last| last.to_string().len())) + 1;
        let most = stairs
            .courses
            .iter()
            .map(|course| course.pieces.len())
            .max();
        // Every piece has two columns at least, the edge's line one.
        let kept = numbers + 2 * count(most.unwrap_or(0)) + 1;
        let towards = stairs.hand.other();
        Self {
            canvas: Canvas::new(columns, rows, towards, PageEnd::Bottom),
            now,
            numbers,
            columns: columns.saturating_sub(kept),
            reach: stairs.reach.mm().max(1.0),
        }
    }

    fn course(&mut self, row: u16, course: &StairCourse) {
        let number = course.number.to_string();
        let first = self.numbers.saturating_sub(1 + count(number.len()));
        self.canvas.words(first, row, Role::Text, &number);
        let mut from = 0;
        for piece in &course.pieces {
            from = self.piece(from, row, piece);
        }
        if course.pieces.is_empty() {
            self.canvas.words(self.numbers, row, Role::Text, "no piece");
        }
    }

    /// Draws a piece at `from` or later; says where the next may begin.
    fn piece(&mut self, from: u16, row: u16, piece: &StairPiece) -> u16 {
        let StairPiece {
            id,
            stage,
            foot,
            head,
        } = piece;
        let start = self.column(foot.from, head.from).max(from);
        let end = self.column(foot.to, head.to).max(start + 2);
        let role = Role::of_row(self.now == Some(*id));
        let inside = match stage {
            Stage::Stacked => Glyph::Full,
            _ => Glyph::Character(' '),
        };
        for column in start..end {
            self.canvas.put(column, row, inside, role);
        }
        self.canvas.put(start, row, Glyph::UprightStroke, role);
        let edge = match foot.to.cmp(&head.to) {
            std::cmp::Ordering::Greater => Glyph::Falling,
            std::cmp::Ordering::Less => Glyph::Rising,
            std::cmp::Ordering::Equal => Glyph::UprightStroke,
        };
        self.canvas.put(end, row, edge, role);
        if *stage != Stage::Stacked {
            let middle = (start + 1).midpoint(end - 1);
            let glyph = Glyph::Character(letter(*stage));
            self.canvas.put(middle, row, glyph, role);
        }
        end
    }

    /// The column of the middle between two places.
    fn column(&self, foot: Length, head: Length) -> u16 {
        let middle = f64::midpoint(foot.mm(), head.mm());
        self.numbers + floor(middle / self.reach * f64::from(self.columns))
    }

    fn eave(&mut self, row: u16, words: &str) {
        for column in 0..self.canvas.columns() {
            self.canvas.put(column, row, Glyph::Table, Role::Line);
        }
        self.canvas.words(self.numbers, row, Role::Text, words);
    }
}

fn count(length: usize) -> u16 {
    u16::try_from(length).unwrap_or(u16::MAX)
}
