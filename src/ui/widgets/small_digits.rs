//! Figures second in size: 3 by 5 dots, three rows of half blocks.
//!
//! For the cut marks, which must not be taken for the bend marks beside them.

use crate::app::place::Glyphs;
use crate::ui::{pen::Pen, theme::Role};

/// How many rows a figure takes.
pub const ROWS: u16 = 3;

/// Rows of three dots, from the top; the highest of the three bits is leftmost.
const fn dots(c: char) -> [u8; 5] {
    match c {
        '0' => [0b111, 0b101, 0b101, 0b101, 0b111],
        '1' => [0b010, 0b110, 0b010, 0b010, 0b111],
        '2' => [0b111, 0b001, 0b111, 0b100, 0b111],
        '3' => [0b111, 0b001, 0b011, 0b001, 0b111],
        '4' => [0b101, 0b101, 0b111, 0b001, 0b001],
        '5' => [0b111, 0b100, 0b111, 0b001, 0b111],
        '6' => [0b111, 0b100, 0b111, 0b101, 0b111],
        '7' => [0b111, 0b001, 0b010, 0b010, 0b010],
        '8' => [0b111, 0b101, 0b111, 0b101, 0b111],
        '9' => [0b111, 0b101, 0b111, 0b001, 0b111],
        '/' => [0b001, 0b001, 0b010, 0b100, 0b100],
        '+' => [0b000, 0b010, 0b111, 0b010, 0b000],
        '-' => [0b000, 0b000, 0b111, 0b000, 0b000],
        '.' => [0b000, 0b000, 0b000, 0b000, 0b010],
        _ => [0; 5],
    }
}

const fn advance(c: char) -> u16 {
    match c {
        ' ' => 2,
        _ => 4,
    }
}

/// How many columns `text` takes.
pub fn width(text: &str) -> u16 {
    text.chars().map(advance).sum::<u16>().saturating_sub(1)
}

/// Draws `text` with its upper left corner at `x`, `y`; says where it ended.
pub fn draw(pen: &mut Pen<'_>, x: u16, y: u16, text: &str) -> u16 {
    let mut at = x;
    for c in text.chars() {
        let dots = dots(c);
        let is_set = |row: u16, column: u16| {
            dots.get(usize::from(row))
                .is_some_and(|row| row >> (2 - column) & 1 == 1)
        };
        for column in 0..3 {
            for row in 0..ROWS {
                let (upper, lower) = (is_set(2 * row, column), is_set(2 * row + 1, column));
                let symbol = match (pen.theme().glyphs(), upper, lower) {
                    (_, false, false) => continue,
                    (Glyphs::Blocks, true, true) => "\u{2588}",
                    (Glyphs::Blocks, true, false) => "\u{2580}",
                    (Glyphs::Blocks, false, true) => "\u{2584}",
                    (Glyphs::Ascii, true, true) => "#",
                    (Glyphs::Ascii, true, false) => "\"",
                    (Glyphs::Ascii, false, true) => "_",
                };
                pen.cell(at + column, y + row, Role::Mark, symbol);
            }
        }
        at += advance(c);
    }
    at
}
