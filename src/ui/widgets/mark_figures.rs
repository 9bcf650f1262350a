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
    // The sign behind a figure, drawn large, would read as a part of it.
    let figures = ends.map(|mark| {
        let text = print(mark.position, division);
        text.trim_end_matches(['+', '-']).to_owned()
    });
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
    let (mut x, mut at) = (0, y);
    for (number, (mark, figure)) in (1..).zip(ends.iter().zip(&figures)) {
        let words = format!("BEND {number}  {}", place(mark, hand, division));
        pen.text(x + 1, at, Role::Strong, &words);
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
/// A figure that is a hair over or under has its sign behind the unit.
pub fn cut_figures(pen: &mut Pen<'_>, y: u16, ends: Ends, division: Division) -> u16 {
    let second = (pen.width() / 2).saturating_sub(1);
    for (x, (number, mark)) in [0, second].into_iter().zip((3..).zip(ends)) {
        let printed = print(mark.position, division);
        let figure = printed.trim_end_matches(['+', '-']);
        let sign = printed.get(figure.len()..).unwrap_or_default();
        pen.text(x + 1, y, Role::Strong, &format!("CUT {number}"));
        let (word, rest) = match mark.at {
            At::Nose | At::Back => (mark.at.word(), ""),
            At::FarSide => ("far", "side up"),
            At::HandSide => ("hand", "side up"),
        };
        pen.text(x + 1, y + 1, Role::Strong, word);
        pen.text(x + 1, y + 2, Role::Strong, rest);
        let end = small_digits::draw(pen, x + 9, y, figure);
        let unit = format!("{}{sign}", division.unit().word());
        pen.text(end, y + 1, Role::Strong, &unit);
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
    let printed = print(mark.position, division);
    let off = match printed.chars().next_back() {
        Some('+') => ", a hair over",
        Some('-') => ", a hair under",
        _ => "",
    };
    format!(
        "{}, {from}, {}{off}",
        mark.at.word(),
        division.unit().word()
    )
}
