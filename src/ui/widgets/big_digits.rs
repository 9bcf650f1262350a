//! Figures drawn large enough to be read from the other side of the bench.
//!
//! Each character is a grid of 5 by 7 dots; two dots share a cell's height
//! (half blocks, four rows) unless whole cells are asked for (seven rows, two
//! columns a dot). It draws what a tape says and what is written on a piece:
//! digits, `/`, `+`, `-`, `.`, and the letters of a label.

use crate::app::place::Glyphs;
use crate::ui::{pen::Pen, theme::Role};

/// How large the dots are.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum DotSize {
    /// Half a cell high, one column wide: four rows in all.
    Half,
    /// One cell high, two columns wide: seven rows in all.
    Whole,
}

impl DotSize {
    /// How many rows a figure takes.
    pub const fn rows(self) -> u16 {
        match self {
            Self::Half => 4,
            Self::Whole => 7,
        }
    }

    const fn columns_a_dot(self) -> u16 {
        match self {
            Self::Half => 1,
            Self::Whole => 2,
        }
    }
}

/// Rows of five dots, from the top; the highest of the five bits is leftmost.
const fn dots(c: char) -> [u8; 7] {
    match c {
        '0' => [
            0b01110, 0b10001, 0b10001, 0b10001, 0b10001, 0b10001, 0b01110,
        ],
        '1' => [
            0b00100, 0b01100, 0b00100, 0b00100, 0b00100, 0b00100, 0b01110,
        ],
        '2' => [
            0b01110, 0b10001, 0b00001, 0b00110, 0b01000, 0b10000, 0b11111,
        ],
        '3' => [
            0b01110, 0b10001, 0b00001, 0b00110, 0b00001, 0b10001, 0b01110,
        ],
        '4' => [
            0b00010, 0b00110, 0b01010, 0b10010, 0b11111, 0b00010, 0b00010,
        ],
        '5' => [
            0b11111, 0b10000, 0b11110, 0b00001, 0b00001, 0b10001, 0b01110,
        ],
        '6' => [
            0b00110, 0b01000, 0b10000, 0b11110, 0b10001, 0b10001, 0b01110,
        ],
        '7' => [
            0b11111, 0b00001, 0b00010, 0b00100, 0b01000, 0b01000, 0b01000,
        ],
        '8' => [
            0b01110, 0b10001, 0b10001, 0b01110, 0b10001, 0b10001, 0b01110,
        ],
        '9' => [
            0b01110, 0b10001, 0b10001, 0b01111, 0b00001, 0b00010, 0b01100,
        ],
        '/' => [
            0b00001, 0b00010, 0b00010, 0b00100, 0b01000, 0b01000, 0b10000,
        ],
        '+' => [
            0b00000, 0b00100, 0b00100, 0b11111, 0b00100, 0b00100, 0b00000,
        ],
        '-' => [
            0b00000, 0b00000, 0b00000, 0b11111, 0b00000, 0b00000, 0b00000,
        ],
        '.' => [
            0b00000, 0b00000, 0b00000, 0b00000, 0b00000, 0b01100, 0b01100,
        ],
        'H' => [
            0b10001, 0b10001, 0b10001, 0b11111, 0b10001, 0b10001, 0b10001,
        ],
        'V' => [
            0b10001, 0b10001, 0b10001, 0b10001, 0b01010, 0b01010, 0b00100,
        ],
        'R' => [
            0b11110, 0b10001, 0b10001, 0b11110, 0b10100, 0b10010, 0b10001,
        ],
        'L' => [
            0b10000, 0b10000, 0b10000, 0b10000, 0b10000, 0b10000, 0b11111,
        ],
        _ => [0; 7],
    }
}

/// The blank between whole and fraction is narrower than a digit.
const fn advance(c: char) -> u16 {
    match c {
        ' ' => 4,
        _ => 6,
    }
}

/// How many columns `text` takes.
pub fn width(text: &str, size: DotSize) -> u16 {
    let dots: u16 = text.chars().map(advance).sum();
    dots.saturating_sub(1) * size.columns_a_dot()
}

/// Draws `text` with its upper left corner at `x`, `y`; says where it ended.
pub fn draw(pen: &mut Pen<'_>, x: u16, y: u16, text: &str, size: DotSize) -> u16 {
    let mut at = x;
    for c in text.chars() {
        draw_one(pen, at, y, dots(c), size);
        at += advance(c) * size.columns_a_dot();
    }
    at
}

fn draw_one(pen: &mut Pen<'_>, x: u16, y: u16, dots: [u8; 7], size: DotSize) {
    let is_set = |row: u16, column: u16| {
        dots.get(usize::from(row))
            .is_some_and(|row| row >> (4 - column) & 1 == 1)
    };
    for column in 0..5 {
        for row in 0..size.rows() {
            match size {
                DotSize::Whole => {
                    if is_set(row, column) {
                        let full = full(pen);
                        pen.cell(x + 2 * column, y + row, Role::Mark, full);
                        pen.cell(x + 2 * column + 1, y + row, Role::Mark, full);
                    }
                }
                DotSize::Half => {
                    let (upper, lower) = (is_set(2 * row, column), is_set(2 * row + 1, column));
                    if let Some(symbol) = half(pen, upper, lower) {
                        pen.cell(x + column, y + row, Role::Mark, symbol);
                    }
                }
            }
        }
    }
}

const fn full(pen: &Pen<'_>) -> &'static str {
    match pen.theme().glyphs() {
        Glyphs::Blocks => "\u{2588}",
        Glyphs::Ascii => "#",
    }
}

const fn half(pen: &Pen<'_>, upper: bool, lower: bool) -> Option<&'static str> {
    match (pen.theme().glyphs(), upper, lower) {
        (_, false, false) => None,
        (Glyphs::Blocks, true, true) => Some("\u{2588}"),
        (Glyphs::Blocks, true, false) => Some("\u{2580}"),
        (Glyphs::Blocks, false, true) => Some("\u{2584}"),
        (Glyphs::Ascii, true, true) => Some("#"),
        (Glyphs::Ascii, true, false) => Some("\""),
        (Glyphs::Ascii, false, true) => Some("_"),
    }
}
