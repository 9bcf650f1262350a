//! Figures and words drawn large enough to be read from the other side of the bench.
//!
//! A character is a grid of dots: 5 by 7, or 3 by 5 where there is no room for
//! more. Two dots share a cell's height (half blocks), or a dot is a whole cell
//! (one column wide, or two). It draws what a tape says, what is written on a
//! piece, and the few words that have to be read first.
//!
//! ASCII has no half blocks: whole cells are blanks with ink and paper exchanged,
//! and a figure of four rows has a face of its own with a row for two dots. The
//! quotes, lines and crosses that ASCII has for halves are not read at two metres.

use super::faces;
use crate::app::place::Glyphs;
use crate::ui::{pen::Pen, theme::Role};

/// How large figures are.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum DotSize {
    /// 3 by 5 dots in half blocks: three rows.
    Small,
    /// 5 by 7 dots in half blocks: four rows.
    Half,
    /// 5 by 7 dots in whole cells, a column each: seven rows. For words, which
    /// are as high as figures of whole cells and would be too wide like them.
    Narrow,
    /// 5 by 7 dots in whole cells, two columns a dot: seven rows.
    Whole,
}

impl DotSize {
    /// How many rows a figure takes.
    pub const fn rows(self) -> u16 {
        match self {
            Self::Small => 3,
            Self::Half => 4,
            Self::Narrow | Self::Whole => 7,
        }
    }

    /// How many columns a dot takes.
    const fn across(self) -> u16 {
        match self {
            Self::Small | Self::Half | Self::Narrow => 1,
            Self::Whole => 2,
        }
    }

    /// How many columns `c` takes with the blank behind it. The blank between
    /// whole and fraction is narrower than a digit.
    const fn advance(self, c: char) -> u16 {
        let dots = match (self, c) {
            (Self::Small, ' ') => 2,
            (Self::Small, _) | (_, ' ') => 4,
            _ => 6,
        };
        dots * self.across()
    }

    /// The dots of `c`, row by row from the top, a blank between two rows; and
    /// how many of those rows share a row of cells.
    const fn dots(self, c: char, glyphs: Glyphs) -> (&'static str, u16) {
        match (self, glyphs) {
            (Self::Small, _) => (small(c), 2),
            (Self::Half, Glyphs::Blocks) => (faces::high(c), 2),
            (Self::Half, Glyphs::Ascii) => (faces::low(c), 1),
            (Self::Narrow | Self::Whole, _) => (faces::high(c), 1),
        }
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
    all.saturating_sub(size.across())
}

/// Draws `text` with its upper left corner at `x`, `y`; says where it ended.
pub fn draw(pen: &mut Pen<'_>, x: u16, y: u16, text: &str, size: DotSize) -> u16 {
    draw_in(pen, (x, y), Role::Mark, text, size)
}

/// Draws `text` as `role` says: white on black where that is filled beforehand.
pub fn draw_in(
    pen: &mut Pen<'_>,
    (x, y): (u16, u16),
    role: Role,
    text: &str,
    size: DotSize,
) -> u16 {
    let glyphs = pen.theme().glyphs();
    let mut at = x;
    for c in text.chars() {
        let (dots, shared) = size.dots(c, glyphs);
        let rows: Vec<&str> = dots.split(' ').collect();
        let is_set = |row: u16, column: u16| {
            let row = rows.get(usize::from(row)).map(|row| row.as_bytes());
            row.and_then(|row| row.get(usize::from(column))) == Some(&b'#')
        };
        for column in 0..size.advance(c).saturating_sub(size.across()) {
            for row in 0..size.rows() {
                let dot = column / size.across();
                let (upper, lower) = (
                    is_set(shared * row, dot),
                    is_set(shared * row + shared - 1, dot),
                );
                match half(glyphs, upper, lower) {
                    Ink::None => {}
                    Ink::Symbol(symbol) => {
                        pen.text(at + column, y + row, role, symbol);
                    }
                    Ink::Turned => {
                        let cell = &mut pen.part(at + column, y + row, 1, 1);
                        cell.fill(role.turned());
                    }
                }
            }
        }
        at += size.advance(c);
    }
    at
}

/// Draws the sign of a figure that is a hair over (`+`) or under (`-`) as a block
/// of its own, white on black, as wide as a digit; nothing where it has none. Its
/// room is the same with and without: [`sign_width`].
pub fn draw_sign(pen: &mut Pen<'_>, at: (u16, u16), role: Role, sign: &str, size: DotSize) {
    let block = match sign {
        "+" => faces::OVER,
        "-" => faces::UNDER,
        _ => return,
    };
    draw_in(pen, at, role, block.encode_utf8(&mut [0; 4]), size);
}

/// How many columns the block of a sign takes.
pub const fn sign_width(size: DotSize) -> u16 {
    5 * size.across()
}

/// What a cell gets.
enum Ink {
    None,
    Symbol(&'static str),
    /// A blank with ink and paper exchanged.
    Turned,
}

/// What a cell gets whose upper and lower half are set or not.
const fn half(glyphs: Glyphs, upper: bool, lower: bool) -> Ink {
    match (glyphs, upper, lower) {
        (_, false, false) => Ink::None,
        (Glyphs::Blocks, true, true) => Ink::Symbol("\u{2588}"),
        (Glyphs::Blocks, true, false) => Ink::Symbol("\u{2580}"),
        (Glyphs::Blocks, false, true) => Ink::Symbol("\u{2584}"),
        (Glyphs::Ascii, true, true) => Ink::Turned,
        (Glyphs::Ascii, true, false) => Ink::Symbol("\""),
        (Glyphs::Ascii, false, true) => Ink::Symbol("_"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::place::Look;
    use crate::domain::{measure::Hand, roof::EdgeKind};
    use crate::ui::theme::{Colours, Theme};
    use ratatui::{buffer::Buffer, layout::Rect, style::Modifier};

    /// A kind's letter stands large at the Bench: a new one has to be drawn.
    #[test]
    fn every_letter_of_a_label_has_dots() {
        let kinds = EdgeKind::ALL.map(EdgeKind::letter).concat();
        let hands = Hand::BOTH.map(Hand::letter).concat();
        for c in (kinds + &hands + "0123456789-.b").chars() {
            assert_eq!(small(c).split(' ').count(), 5, "{c}");
            assert!(has_shape(c), "{c}");
        }
    }

    /// Five columns in every row of both faces.
    fn has_shape(c: char) -> bool {
        [(faces::high(c), 7), (faces::low(c), 4)]
            .into_iter()
            .all(|(dots, rows)| {
                dots.split(' ').count() == rows && dots.split(' ').all(|row| row.len() == 5)
            })
    }

    #[test]
    fn every_capital_digit_and_sign_has_a_shape_of_its_own() {
        let all: Vec<char> = ('A'..='Z')
            .chain("0123456789/+-.,?b".chars())
            .chain([faces::OVER, faces::UNDER])
            .collect();
        for c in &all {
            assert!(has_shape(*c), "{c}");
            let same = |d: &&char| faces::high(**d) == faces::high(*c);
            assert_eq!(all.iter().filter(same).count(), 1, "{c}");
        }
    }

    /// What is drawn of both faces is five columns wide and leaves one.
    #[test]
    fn a_figure_is_as_wide_in_every_size_as_its_dots() {
        let wide = |size| width("29 1/4", size);
        assert_eq!(wide(DotSize::Half), 33);
        assert_eq!(wide(DotSize::Narrow), 33);
        assert_eq!(wide(DotSize::Whole), 66);
        assert_eq!(wide(DotSize::Small), 21);
        assert_eq!(width("", DotSize::Whole), 0);
    }

    /// Without colours only the modifier tells ink from paper, on either ground.
    #[test]
    fn ascii_figures_stand_out_without_colours() {
        let theme = Theme::new(Look::Sun, Colours::None, Glyphs::Ascii);
        let area = Rect::new(0, 0, 5, 4);
        for (role, is_ground_turned) in [(Role::Mark, false), (Role::Selected, true)] {
            let mut buffer = Buffer::empty(area);
            let mut pen = Pen::new(&mut buffer, &theme, area);
            pen.fill(role);
            draw_in(&mut pen, (0, 0), role, "L", DotSize::Half);
            let dots = faces::low('L').split(' ').flat_map(str::chars);
            for (cell, dot) in buffer.content.iter().zip(dots) {
                let is_turned = cell.modifier.contains(Modifier::REVERSED);
                assert_eq!(is_turned, (dot == '#') != is_ground_turned, "{role:?}");
            }
        }
    }
}
