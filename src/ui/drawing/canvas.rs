//! A grid of cells that is drawn one way round and shown in any of four.
//!
//! Column 0 is on the side of the whole end, row 0 on the side of the back.
//! Shapes are drawn as if the whole end were at the left and the nose at the
//! bottom; shown the other way round, every cell goes to its mirror place and
//! every glyph becomes its mirror glyph, but words stay readable. So a
//! right-hand picture is the mirror of the left-hand one cell by cell.

use crate::app::place::Glyphs;
use crate::domain::measure::Hand;
use crate::picture::shape::PageEnd;
use crate::ui::{pen::Pen, theme::Role};

/// What stands in a cell, as it looks with the whole end at the left and the
/// nose at the bottom.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Glyph {
    Full,
    Shade,
    UpperHalf,
    LowerHalf,
    Level,
    Upright,
    Whole,
    CornerAtBack,
    CornerAtNose,
    /// Like `/`.
    Rising,
    /// Like `\`.
    Falling,
    /// A level stroke of a slanting line.
    Stroke,
    /// An upright stroke of a slanting line.
    UprightStroke,
    Table,
    Blade,
    ToHand,
    ToFar,
    ToBack,
    ToNose,
    Character(char),
}

/// The grid.
pub(super) struct Canvas {
    columns: u16,
    rows: u16,
    x_runs_to: Hand,
    nose_at: PageEnd,
    cells: Vec<Option<(Glyph, Role)>>,
}

impl Canvas {
    /// An empty grid, to be shown with the far side at `x_runs_to`.
    pub(super) fn new(columns: u16, rows: u16, x_runs_to: Hand, nose_at: PageEnd) -> Self {
        let count = usize::from(columns) * usize::from(rows);
        Self {
            columns,
            rows,
            x_runs_to,
            nose_at,
            cells: vec![None; count],
        }
    }

    pub(super) fn columns(&self) -> u16 {
        self.columns
    }

    /// The side of the page on which the far side is shown.
    pub(super) fn x_runs_to(&self) -> Hand {
        self.x_runs_to
    }

    /// What stands there; `None` also outside the grid.
    pub(super) fn at(&self, column: u16, row: u16) -> Option<Glyph> {
        let cell = self.cells.get(self.place(column, row)?)?;
        cell.map(|(glyph, _)| glyph)
    }

    /// Whether the cell is inside the grid and empty.
    pub(super) fn is_free(&self, column: u16, row: u16) -> bool {
        self.place(column, row).is_some() && self.at(column, row).is_none()
    }

    pub(super) fn put(&mut self, column: u16, row: u16, glyph: Glyph, role: Role) {
        let place = self.place(column, row);
        if let Some(cell) = place.and_then(|place| self.cells.get_mut(place)) {
            *cell = Some((glyph, role));
        }
    }

    /// Fills half a cell; `half_row` counts halves from the back. With the
    /// other half filled already, the cell is full.
    pub(super) fn dot(&mut self, column: u16, half_row: u16, role: Role) {
        let row = half_row / 2;
        let glyph = match (half_row.is_multiple_of(2), self.at(column, row)) {
            (_, Some(Glyph::Full))
            | (true, Some(Glyph::LowerHalf))
            | (false, Some(Glyph::UpperHalf)) => Glyph::Full,
            (true, _) => Glyph::UpperHalf,
            (false, _) => Glyph::LowerHalf,
        };
        self.put(column, row, glyph, role);
    }

    /// Words over the cells from `column` on, readable whichever way the grid
    /// is shown.
    pub(super) fn words(&mut self, column: u16, row: u16, role: Role, text: &str) {
        let write = |canvas: &mut Self, c: char, offset: u16| {
            canvas.put(column + offset, row, Glyph::Character(c), role);
        };
        match self.x_runs_to {
            Hand::Right => (0..)
                .zip(text.chars())
                .for_each(|(offset, c)| write(self, c, offset)),
            Hand::Left => (0..)
                .zip(text.chars().rev())
                .for_each(|(offset, c)| write(self, c, offset)),
        }
    }

    /// Shows the grid from the upper left corner of the pen's area on.
    pub(super) fn show(&self, pen: &mut Pen<'_>) {
        for row in 0..self.rows {
            let y = match self.nose_at {
                PageEnd::Bottom => row,
                PageEnd::Top => self.rows - 1 - row,
            };
            for column in 0..self.columns {
                let cell = self.place(column, row).and_then(|at| self.cells.get(at));
                if let Some((glyph, role)) = cell.copied().flatten() {
                    let x = match self.x_runs_to {
                        Hand::Right => column,
                        Hand::Left => self.columns - 1 - column,
                    };
                    let glyphs = pen.theme().glyphs();
                    let shown = glyph.seen(self.x_runs_to, self.nose_at, glyphs);
                    pen.text(x, y, role, shown.encode_utf8(&mut [0; 4]));
                }
            }
        }
    }

    fn place(&self, column: u16, row: u16) -> Option<usize> {
        (column < self.columns && row < self.rows)
            .then(|| usize::from(row) * usize::from(self.columns) + usize::from(column))
    }
}

impl Glyph {
    fn seen(self, x_runs_to: Hand, nose_at: PageEnd, glyphs: Glyphs) -> char {
        let mut glyph = self;
        if x_runs_to == Hand::Left {
            glyph = glyph.seen_from_the_other_side();
        }
        if nose_at == PageEnd::Top {
            glyph = glyph.upside_down();
        }
        let to_the_right = x_runs_to == Hand::Right;
        match glyphs {
            Glyphs::Blocks => glyph.block(to_the_right),
            Glyphs::Ascii => glyph.ascii(to_the_right),
        }
    }

    const fn seen_from_the_other_side(self) -> Self {
        match self {
            Self::Rising => Self::Falling,
            Self::Falling => Self::Rising,
            Self::ToHand => Self::ToFar,
            Self::ToFar => Self::ToHand,
            same => same,
        }
    }

    const fn upside_down(self) -> Self {
        match self {
            Self::UpperHalf => Self::LowerHalf,
            Self::LowerHalf => Self::UpperHalf,
            Self::Rising => Self::Falling,
            Self::Falling => Self::Rising,
            Self::ToBack => Self::ToNose,
            Self::ToNose => Self::ToBack,
            Self::CornerAtBack => Self::CornerAtNose,
            Self::CornerAtNose => Self::CornerAtBack,
            same => same,
        }
    }

    /// All of them stand in the oldest console fonts too.
    const fn block(self, far_is_right: bool) -> char {
        match self {
            Self::Full => '\u{2588}',
            Self::Shade => '\u{2592}',
            Self::UpperHalf => '\u{2580}',
            Self::LowerHalf => '\u{2584}',
            Self::Level => '\u{2500}',
            Self::Upright => '\u{2502}',
            Self::Whole | Self::Blade => '\u{2551}',
            Self::CornerAtBack if far_is_right => '\u{2510}',
            Self::CornerAtBack => '\u{250c}',
            Self::CornerAtNose if far_is_right => '\u{2518}',
            Self::CornerAtNose => '\u{2514}',
            Self::Table => '\u{2550}',
            other => other.ascii(far_is_right),
        }
    }

    const fn ascii(self, far_is_right: bool) -> char {
        match self {
            Self::Full => '#',
            Self::Shade => ':',
            Self::UpperHalf => '"',
            Self::LowerHalf => '_',
            Self::Level | Self::Stroke => '-',
            Self::Upright | Self::UprightStroke | Self::Blade => '|',
            Self::Whole if far_is_right => '[',
            Self::Whole => ']',
            Self::CornerAtBack | Self::CornerAtNose => '+',
            Self::Rising => '/',
            Self::Falling => '\\',
            Self::Table => '=',
            Self::ToHand => '<',
            Self::ToFar => '>',
            Self::ToBack => '^',
            Self::ToNose => 'v',
            Self::Character(c) => c,
        }
    }
}
