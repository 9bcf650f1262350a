//! The marks of a piece as drawn figures: bend marks first in size, cut marks
//! second, each with its number in the pictures, its side and its unit.

use super::digits::{self, DotSize};
use crate::domain::measure::{Hand, Length};
use crate::domain::piece::{At, Ends, Mark};
use crate::domain::tape::{Division, print};
use crate::ui::pen::{Pen, columns};
use crate::ui::theme::Role;

/// The room a figure of half blocks takes: `47 15/16`, the widest that a panel
/// of four feet has, and a column.
const HALF_ROOM: u16 = 46;

/// Columns before a figure second in size: `CUT 3`, its side.
const SMALL_AT: u16 = 9;

/// The two ends of a line to draw.
#[derive(Clone, Copy, Debug)]
pub struct Marked {
    /// The number of the first.
    pub first: u32,
    pub ends: Ends,
    /// How far up the upper marks stand where that is not the back: on the ridge's
    /// bend line of a short course.
    pub upper: Option<Length>,
}

impl Marked {
    /// `nose`, `back`, or `at 7 up` where the upper marks stand lower.
    fn word(&self, mark: &Mark, division: Division) -> String {
        match self.upper.filter(|_| mark.at == At::Back) {
            Some(up) => format!("at {} up", print(up, division)),
            None => mark.at.word().to_owned(),
        }
    }
}

/// Draws the two bend marks, numbered from `first`, from row `y` on, at least as large as `least` where
/// there is room, and no larger than what leaves `below` rows; says the row
/// below.
pub fn bend_figures(
    pen: &mut Pen<'_>,
    y: u16,
    marked: Marked,
    hand: Hand,
    division: Division,
    least: DotSize,
    below: u16,
) -> u16 {
    let Marked { first, ends, .. } = marked;
    // The sign behind a figure, drawn large, would read as a part of it.
    let figures = ends.map(|mark| parted(&mark, division).0);
    let wide = |size| {
        figures
            .iter()
            .map(|figure| digits::width(figure, size))
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
        _ => pen.width() >= 2 * HALF_ROOM,
    };
    let rows = (1 + size.rows()) * if beside { 1 } else { 2 };
    if y + rows + below > pen.height() {
        for (at, (number, mark)) in (0..).zip((first..).zip(ends)) {
            small_mark(
                pen,
                (0, y + at * DotSize::Small.rows()),
                ("BEND", number),
                (&mark, &marked),
                division,
            );
        }
        return y + 2 * DotSize::Small.rows();
    }
    let (mut x, mut at) = (0, y);
    for (number, (mark, figure)) in (first..).zip(ends.iter().zip(&figures)) {
        let words = format!("BEND {number}  {}", place((mark, &marked), hand, division));
        pen.text(x + 1, at, Role::Strong, &words);
        digits::draw(pen, x, at + 1, figure, size);
        if beside {
            x += pen.width() / 2;
        } else {
            at += 1 + size.rows();
        }
    }
    y + rows
}

/// How the two cut marks stand.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum CutLayout {
    /// Side by side, number and side before each figure.
    Beside,
    /// Side by side, number and side above each figure: the widest figures.
    Above,
    /// A row of words each, where there is no room for figures.
    Words,
}

impl CutLayout {
    /// What fits `width` columns and `rows` rows.
    pub fn that_fits(width: u16, rows: u16, ends: Ends, division: Division) -> Self {
        // Each with its unit and sign.
        let [first, second] = ends.map(|mark| {
            let (figure, sign) = parted(&mark, division);
            digits::width(&figure, DotSize::Small)
                + columns(division.unit().word())
                + columns(&sign)
                + 1
        });
        let at = second_at(width);
        if SMALL_AT + first <= at && at + SMALL_AT + second <= width {
            Self::Beside
        } else if rows > DotSize::Small.rows() && first.max(second) <= width / 2 {
            Self::Above
        } else {
            Self::Words
        }
    }

    /// How many rows that takes.
    pub const fn rows(self) -> u16 {
        match self {
            Self::Beside => DotSize::Small.rows(),
            Self::Above => 1 + DotSize::Small.rows(),
            Self::Words => 2,
        }
    }
}

/// Draws the two cut marks, numbered from `first`, from row `y` on; says the row below.
pub fn cut_figures(
    pen: &mut Pen<'_>,
    y: u16,
    marked: Marked,
    layout: CutLayout,
    division: Division,
) -> u16 {
    let Marked { first, ends, .. } = marked;
    let unit = division.unit().word();
    let second = second_at(pen.width());
    let starts = [(0, 0), (second, 1)];
    for ((x, row), (number, mark)) in starts.into_iter().zip((first..).zip(ends)) {
        let (figure, sign) = parted(&mark, division);
        let side = marked.word(&mark, division);
        let is_up = matches!(mark.at, At::FarSide | At::HandSide);
        match layout {
            CutLayout::Beside => {
                small_mark(pen, (x, y), ("CUT", number), (&mark, &marked), division)
            }
            CutLayout::Above => {
                let up = if is_up { ", up from the nose" } else { "" };
                pen.text(x + 1, y, Role::Strong, &format!("CUT {number}  {side}{up}"));
                let end = digits::draw(pen, x + 1, y + 1, &figure, DotSize::Small);
                pen.text(end, y + 2, Role::Strong, &format!("{unit}{sign}"));
            }
            CutLayout::Words => {
                let up = if is_up { " up" } else { "" };
                let words = format!("CUT {number}   {side} {figure}{sign} {unit}{up}");
                pen.text(1, y + row, Role::Mark, &words);
            }
        }
    }
    y + layout.rows()
}

/// Where the second of two figures stands.
const fn second_at(width: u16) -> u16 {
    (width / 2).saturating_sub(1)
}

/// One mark second in size, its number and side before it.
fn small_mark(
    pen: &mut Pen<'_>,
    (x, y): (u16, u16),
    (what, number): (&str, u32),
    (mark, marked): (&Mark, &Marked),
    division: Division,
) {
    let (figure, sign) = parted(mark, division);
    pen.text(x + 1, y, Role::Strong, &format!("{what} {number}"));
    let upper = marked.upper.filter(|_| mark.at == At::Back);
    let (word, rest) = match (mark.at, upper) {
        // Narrow: the figure stands beside it.
        (_, Some(up)) => ("up at", print(up, division)),
        (At::Nose | At::Back, None) => (mark.at.word(), String::new()),
        (At::FarSide, None) => ("far", "side up".to_owned()),
        (At::HandSide, None) => ("hand", "side up".to_owned()),
    };
    pen.text(x + 1, y + 1, Role::Strong, word);
    pen.text(x + 1, y + 2, Role::Strong, &rest);
    let end = digits::draw(pen, x + SMALL_AT, y, &figure, DotSize::Small);
    let unit = format!("{}{sign}", division.unit().word());
    pen.text(end, y + 1, Role::Strong, &unit);
}

/// A figure, and apart from it the sign that says it is a hair over or under.
fn parted(mark: &Mark, division: Division) -> (String, String) {
    let printed = print(mark.position, division);
    let figure = printed.trim_end_matches(['+', '-']);
    let sign = printed.get(figure.len()..).unwrap_or_default();
    (figure.to_owned(), sign.to_owned())
}

/// Whether a figure has a sign behind it, which wants an explanation.
pub fn has_sign(ends: Ends, division: Division) -> bool {
    ends.iter().any(|mark| !parted(mark, division).1.is_empty())
}

/// `nose, from the LEFT, in`; `far side, up from the nose, in-`.
fn place((mark, marked): (&Mark, &Marked), hand: Hand, division: Division) -> String {
    let from = match (mark.at, hand) {
        (At::Nose | At::Back, Hand::Left) => "from the LEFT",
        (At::Nose | At::Back, Hand::Right) => "from the RIGHT",
        (At::FarSide | At::HandSide, _) => "up from the nose",
    };
    let (_, sign) = parted(mark, division);
    let unit = division.unit().word();
    format!("{}, {from}, {unit}{sign}", marked.word(mark, division))
}
