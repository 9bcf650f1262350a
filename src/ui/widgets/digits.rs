//! Figures drawn large enough to be read from the other side of the bench.
//!
//! A character is a grid of dots: 5 by 7, or 3 by 5 for the cut marks, which
//! must not be taken for the bend marks beside them. Two dots share a cell's
//! height (half blocks) unless whole cells are asked for (two columns a dot). It
//! draws what a tape says and what is written on a piece: digits, `/`, `+`,
//! `-`, `.`, and the letters of a label.

use crate::app::place::Glyphs;
use crate::ui::{pen::Pen, theme::Role};

/// How large figures are.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum DotSize {
    /// 3 by 5 dots in half blocks: three rows.
    Small,
    /// 5 by 7 dots in half blocks: four rows.
    Half,
    /// 5 by 7 dots in whole cells: seven rows, two columns a dot.
    Whole,
}

impl DotSize {
    /// How many rows a figure takes.
    pub const fn rows(self) -> u16 {
        match self {
            Self::Small => 3,
            Self::Half => 4,
            Self::Whole => 7,
        }
    }

    /// How many columns `c` takes with the blank behind it. The blank between
    /// whole and fraction is narrower than a digit.
    const fn advance(self, c: char) -> u16 {
        match (self, c) {
            (Self::Small, ' ') => 2,
            (Self::Small, _) | (Self::Half, ' ') => 4,
            (Self::Half, _) => 6,
            (Self::Whole, ' ') => 8,
            (Self::Whole, _) => 12,
        }
    }

    /// The dots of `c`, row by row from the top, a blank between two rows.
    const fn dots(self, c: char) -> &'static str {
        match self {
            Self::Small => small(c),
            Self::Half | Self::Whole => large(c),
        }
    }
}

/// 5 by 7 dots.
const fn large(c: char) -> &'static str {
    match c {
        '0' => ".###. #...# #...# #...# #...# #...# .###.",
        '1' => "..#.. .##.. ..#.. ..#.. ..#.. ..#.. .###.",
        '2' => ".###. #...# ....# ..##. .#... #.... #####",
        '3' => ".###. #...# ....# ..##. ....# #...# .###.",
        '4' => "...#. ..##. .#.#. #..#. ##### ...#. ...#.",
        '5' => "##### #.... ####. ....# ....# #...# .###.",
        '6' => "..##. .#... #.... ####. #...# #...# .###.",
        '7' => "##### ....# ...#. ..#.. .#... .#... .#...",
        '8' => ".###. #...# #...# .###. #...# #...# .###.",
        '9' => ".###. #...# #...# .#### ....# ...#. .##..",
        '/' => "....# ...#. ...#. ..#.. .#... .#... #....",
        '+' => "..... ..#.. ..#.. ##### ..#.. ..#.. .....",
        '-' => "..... ..... ..... ##### ..... ..... .....",
        '.' => "..... ..... ..... ..... ..... .##.. .##..",
        'H' => "#...# #...# #...# ##### #...# #...# #...#",
        'V' => "#...# #...# #...# #...# .#.#. .#.#. ..#..",
        'R' => "####. #...# #...# ####. #.#.. #..#. #...#",
        'b' => "#.... #.... #.##. ##..# #...# ##..# #.##.",
        'L' => "#.... #.... #.... #.... #.... #.... #####",
        _ => "",
    }
}

/// 3 by 5 dots.
const fn small(c: char) -> &'static str {
    match c {
        '0' => "### #.# #.# #.# ###",
        '1' => ".#. ##. .#. .#. ###",
        '2' => "### ..# ### #.. ###",
        '3' => "### ..# .## ..# ###",
        '4' => "#.# #.# ### ..# ..#",
        '5' => "### #.. ### ..# ###",
        '6' => "### #.. ### #.# ###",
        '7' => "### ..# .#. .#. .#.",
        '8' => "### #.# ### #.# ###",
        '9' => "### #.# ### ..# ###",
        '/' => "..# ..# .#. #.. #..",
        '+' => "... .#. ### .#. ...",
        '-' => "... ... ### ... ...",
        '.' => "... ... ... ... .#.",
        'H' => "#.# #.# ### #.# #.#",
        'V' => "#.# #.# #.# #.# .#.",
        'R' => "##. #.# ##. #.# #.#",
        'b' => "#.. #.. ##. #.# ##.",
        'L' => "#.. #.. #.. #.. ###",
        _ => "",
    }
}

/// How many columns `text` takes.
pub fn width(text: &str, size: DotSize) -> u16 {
    let all: u16 = text.chars().map(|c| size.advance(c)).sum();
    all.saturating_sub(if size == DotSize::Whole { 2 } else { 1 })
}

/// Draws `text` with its upper left corner at `x`, `y`; says where it ended.
pub fn draw(pen: &mut Pen<'_>, x: u16, y: u16, text: &str, size: DotSize) -> u16 {
    let mut at = x;
    for c in text.chars() {
        let rows: Vec<&str> = size.dots(c).split(' ').collect();
        let is_set = |row: u16, column: u16| {
            let row = rows.get(usize::from(row)).map(|row| row.as_bytes());
            row.and_then(|row| row.get(usize::from(column))) == Some(&b'#')
        };
        for column in 0..size.advance(c).saturating_sub(1) {
            for row in 0..size.rows() {
                let (upper, lower) = match size {
                    DotSize::Whole => (is_set(row, column / 2), is_set(row, column / 2)),
                    _ => (is_set(2 * row, column), is_set(2 * row + 1, column)),
                };
                if let Some(symbol) = half(pen.theme().glyphs(), upper, lower) {
                    pen.text(at + column, y + row, Role::Mark, symbol);
                }
            }
        }
        at += size.advance(c);
    }
    at
}

/// What a cell shows whose upper and lower half are set or not.
const fn half(glyphs: Glyphs, upper: bool, lower: bool) -> Option<&'static str> {
    match (glyphs, upper, lower) {
        (_, false, false) => None,
        (Glyphs::Blocks, true, true) => Some("\u{2588}"),
        (Glyphs::Blocks, true, false) => Some("\u{2580}"),
        (Glyphs::Blocks, false, true) => Some("\u{2584}"),
        (Glyphs::Ascii, true, true) => Some("#"),
        (Glyphs::Ascii, true, false) => Some("\""),
        (Glyphs::Ascii, false, true) => Some("_"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{measure::Hand, roof::EdgeKind};

    /// A kind's letter stands large at the Bench: a new one has to be drawn.
    #[test]
    fn every_letter_of_a_label_has_dots() {
        let kinds = EdgeKind::ALL.map(EdgeKind::letter).concat();
        let hands = Hand::BOTH.map(Hand::letter).concat();
        for c in (kinds + &hands + "0123456789-.b").chars() {
            assert_eq!(large(c).split(' ').count(), 7, "{c}");
            assert_eq!(small(c).split(' ').count(), 5, "{c}");
        }
    }
}
