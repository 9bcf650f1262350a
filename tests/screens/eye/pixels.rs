//! Cells drawn to the pixels of a 1920x1080 screen.

use super::shapes::shape;
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};

/// A pixel in arcminutes: 165.6 mm over 1080 rows of them, from 2 m.
pub(crate) const ARCMIN: f64 = 165.6 / 1080.0 / 2000.0 * 180.0 * 60.0 / std::f64::consts::PI;

/// Where an ordinary character stands in its cell: shares of the cell's height
/// and width, as in a common fixed-width font (from memory).
const TOP: f64 = 0.17;
const HEIGHT: f64 = 0.63;
const LEFT: f64 = 0.1;
const WIDTH: f64 = 0.8;

/// How much wider a bold stroke is, in dots.
const BOLD: f64 = 0.35;

/// Columns and rows of pixels in a cell on a screen of `rows` rows.
pub(crate) const fn cell(rows: u16) -> (u16, u16) {
    let high = 1080 / rows;
    (high / 2, high)
}

/// Pixels, row by row, from 0 (white) to 1 (black).
pub(crate) struct Page {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) ink: Vec<f64>,
}

impl Page {
    /// Nothing but paper.
    pub(crate) fn blank(width: usize, height: usize) -> Self {
        Self {
            width,
            height,
            ink: vec![0.0; width * height],
        }
    }

    /// `cells` as they stand on a screen of `rows` rows.
    pub(crate) fn of(cells: &Buffer, rows: u16) -> Self {
        let (wide, high) = cell(rows);
        let (wide, high) = (usize::from(wide), usize::from(high));
        let columns = usize::from(cells.area.width);
        let mut page = Self::blank(columns * wide, usize::from(cells.area.height) * high);
        for (at, cell) in cells.content.iter().enumerate() {
            let (x, y) = (at % columns * wide, at / columns * high);
            let (ink, paper) = colours(cell);
            let drawn = covered(cell, wide, high);
            for row in 0..high {
                for column in 0..wide {
                    let share = drawn.ink[row * wide + column];
                    let at = (y + row) * page.width + x + column;
                    page.ink[at] = paper + share * (ink - paper);
                }
            }
        }
        page
    }

    /// Inks a rectangle; a pixel that it covers in part gets a part.
    pub(crate) fn fill(&mut self, (left, top): (f64, f64), (right, bottom): (f64, f64)) {
        let share = |at: usize, from: f64, to: f64| {
            (to.min(at as f64 + 1.0) - from.max(at as f64)).clamp(0.0, 1.0)
        };
        for y in 0..self.height {
            let down = share(y, top, bottom);
            if down > 0.0 {
                for x in 0..self.width {
                    let ink = &mut self.ink[y * self.width + x];
                    *ink = (*ink + down * share(x, left, right)).min(1.0);
                }
            }
        }
    }

    /// How many rows of pixels there are from the first to the last that has
    /// some of the rarer of black and white.
    pub(crate) fn drawn_height(&self) -> u16 {
        let black = self.ink.iter().filter(|ink| **ink > 0.5).count();
        let is_black = 2 * black <= self.ink.len();
        let is_drawn = |row: &[f64]| row.iter().any(|ink| (*ink > 0.5) == is_black);
        let mut rows = (0..)
            .zip(self.ink.chunks(self.width))
            .filter(|(_, row)| is_drawn(row));
        match rows.next() {
            Some((first, _)) => rows.last().map_or(1, |(last, _)| last + 1 - first),
            None => 0,
        }
    }
}

/// Ink and paper of a cell: 1 is black.
fn colours(cell: &Cell) -> (f64, f64) {
    let is_white = |colour: Color, by_default: bool| match colour {
        Color::White => true,
        Color::Black => false,
        _ => by_default,
    };
    let black = |is_white: bool| if is_white { 0.0 } else { 1.0 };
    let (ink, paper) = (
        black(is_white(cell.fg, false)),
        black(is_white(cell.bg, true)),
    );
    if cell.modifier.contains(Modifier::REVERSED) {
        (paper, ink)
    } else {
        (ink, paper)
    }
}

/// How much of each pixel of a cell its character covers.
fn covered(cell: &Cell, wide: usize, high: usize) -> Page {
    let mut page = Page::blank(wide, high);
    let (width, height) = (wide as f64, high as f64);
    let half = (height / 2.0).round();
    match cell.symbol() {
        "\u{2588}" => page.fill((0.0, 0.0), (width, height)),
        "\u{2580}" => page.fill((0.0, 0.0), (width, half)),
        "\u{2584}" => page.fill((0.0, half), (width, height)),
        "\u{258c}" => page.fill((0.0, 0.0), ((width / 2.0).round(), height)),
        "\u{2590}" => page.fill(((width / 2.0).round(), 0.0), (width, height)),
        "\u{2591}" => page.ink.fill(0.25),
        "\u{2592}" => page.ink.fill(0.5),
        "\u{2593}" => page.ink.fill(0.75),
        other => {
            let dots = other.chars().next().and_then(shape);
            let dots = dots.unwrap_or_else(|| panic!("no shape for {other:?}: shapes.rs wants it"));
            let is_bold = cell.modifier.contains(Modifier::BOLD);
            write(&mut page, dots, if is_bold { BOLD / 2.0 } else { 0.0 });
        }
    }
    page
}

/// Draws an ordinary character; strokes are `wider` by so many dots at each side.
fn write(page: &mut Page, dots: &str, wider: f64) {
    let (width, height) = (page.width as f64, page.height as f64);
    let (across, down) = (WIDTH * width / 5.0, HEIGHT * height / 7.0);
    for (row, line) in dots.split(' ').enumerate() {
        let top = TOP * height + row as f64 * down;
        for (column, _) in line.bytes().enumerate().filter(|(_, dot)| *dot == b'#') {
            let left = LEFT * width + column as f64 * across;
            page.fill(
                (left - wider * across, top),
                (left + (1.0 + wider) * across, top + down),
            );
        }
    }
}
