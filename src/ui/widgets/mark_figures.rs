//! The marks of a piece as drawn figures: bend marks first in size, cut marks
//! second, each with its number in the pictures, its side and its unit.

use super::big_digits::{self, DotSize};
use super::small_digits;
use crate::domain::hand::Hand;
use crate::domain::marks::{At, Ends, Mark};
use crate::domain::tape::{Division, print};
use crate::ui::pen::Pen;
use crate::ui::theme::Role;

/// The room a figure of half blocks takes: `47 15/16`, the widest that a panel
/// of four feet has, and a column.
const HALF_ROOM: u16 = 46;

/// Draws the two bend marks from row `y` on, at least as large as `least` where
/// there is room; says the row below.
pub fn bend_figures(
    pen: &mut Pen<'_>,
    y: u16,
    ends: Ends,
    hand: Hand,
    division: Division,
    least: DotSize,
) -> u16 {
    let figures = ends.map(|mark| print(mark.position, division));
    let wide = |size| {
        figures
            .iter()
            .map(|figure| big_digits::width(figure, size))
            .max()
            .unwrap_or(0)
            + 2
    };
    let size = match least {
        DotSize::Whole if wide(DotSize::Whole) <= pen.width() => DotSize::Whole,
        _ => DotSize::Half,
    };
    let beside = match size {
        DotSize::Whole => 2 * wide(size) <= pen.width(),
        DotSize::Half => pen.width() >= 2 * HALF_ROOM,
    };
    let (mut x, mut at) = (1, y);
    for (number, (mark, figure)) in (1..).zip(ends.iter().zip(&figures)) {
        let words = format!("BEND {number}  {}", place(mark, hand, division));
        pen.text(x, at, Role::Strong, &words);
        big_digits::draw(pen, x, at + 1, figure, size);
        if beside {
            x += pen.width() / 2;
        } else {
            at += 1 + size.rows();
        }
    }
    if beside { y + 1 + size.rows() } else { at }
}

/// Draws the two cut marks side by side from row `y` on; says the row below.
pub fn cut_figures(pen: &mut Pen<'_>, y: u16, ends: Ends, division: Division) -> u16 {
    let half = pen.width() / 2;
    for (x, (number, mark)) in [0, half].into_iter().zip((3..).zip(ends)) {
        let word = if number == 3 { "CUT" } else { "" };
        let figure = print(mark.position, division);
        pen.text(x + 1, y, Role::Strong, word);
        pen.text(x + 1, y + 1, Role::Strong, &number.to_string());
        pen.text(x + 3, y + 1, Role::Strong, mark.at.word());
        if matches!(mark.at, At::FarSide | At::HandSide) {
            pen.text(x + 3, y + 2, Role::Text, "up");
        }
        let end = small_digits::draw(pen, x + 13, y, &figure);
        pen.text(end + 1, y + 1, Role::Strong, division.unit().word());
    }
    y + small_digits::ROWS
}

/// `nose, from the LEFT, in`; `far side, up from the nose, in`.
fn place(mark: &Mark, hand: Hand, division: Division) -> String {
    let from = match (mark.at, hand) {
        (At::Nose | At::Back, Hand::Left) => "from the LEFT",
        (At::Nose | At::Back, Hand::Right) => "from the RIGHT",
        (At::FarSide | At::HandSide, _) => "up from the nose",
    };
    format!("{}, {from}, {}", mark.at.word(), division.unit().word())
}
