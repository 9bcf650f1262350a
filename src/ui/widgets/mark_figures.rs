//! The marks of one line as drawn figures: four in one font, two by two as the
//! hand works, the cut marks told apart by their box.
//!
//! ```text
//!    BACK  bend 2, in        |                     BACK  7 up ...
//!    (drawn figure)          |  where rows are     bend 2  (small figure)
//!   [BACK  cut 4, in      ]  |  short:            [cut 4   (small figure)]
//!   [(drawn figure)       ]  |
//!    NOSE  bend 1, in        |
//!    ...                     |
//! ```

use super::digits::{self, DotSize};
use crate::domain::measure::Length;
use crate::domain::piece::{At, Ends, LineMarks, Mark};
use crate::domain::tape::{Division, Unit, print};
use crate::ui::pen::{Pen, columns};
use crate::ui::theme::Role;

/// Columns before a figure: one at the edge of a screen or box looks clipped.
const MARGIN: u16 = 2;

/// Columns behind a small figure: `in-`.
const UNIT: u16 = 4;

/// Columns for a picture beside the figures.
const PICTURE: u16 = 34;

/// Columns before a figure third in size: `bend 2`.
const SMALL_AT: u16 = 9;

/// The two lines' marks and how they are said.
#[derive(Clone, Copy, Debug)]
pub struct Marked {
    pub line: LineMarks,
    /// The number of the first bend mark: 1, of a second line 5.
    pub first: u32,
    /// How far up the upper marks stand where that is not the back: on the ridge's
    /// bend line of a short course.
    pub upper: Option<Length>,
    pub division: Division,
    /// Whether its reading is doubtful.
    pub doubtful: bool,
}

/// One figure to draw.
struct Block {
    what: &'static str,
    number: u32,
    mark: Option<Mark>,
}

/// The widest figure that a panel of four feet has, with a blank behind it.
const fn widest(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch => "47 15/16",
        Unit::Millimetre => "1218.5",
    }
}

/// How large the figures are drawn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct FigureSize {
    /// How many columns they take, with their sign.
    pub columns: u16,
    pub digits: DotSize,
    /// Of the sign that says a hair over or under.
    pub sign: DotSize,
}

/// The largest that fits an area with so many columns left beside the figures as
/// `beside`.
pub fn size_in(columns: u16, rows: u16, beside: u16, unit: Unit) -> FigureSize {
    let sized = |(digits, sign)| {
        let sign_columns = match unit {
            Unit::Inch => digits::sign_width(sign),
            Unit::Millimetre => 0,
        };
        FigureSize {
            columns: MARGIN + digits::width(widest(unit), digits) + 1 + sign_columns,
            digits,
            sign,
        }
    };
    let fits = |size: &FigureSize| {
        let beside = match size.sign {
            // A picture that can be read comes before a large sign.
            DotSize::Whole => PICTURE,
            _ => beside,
        };
        size.columns + beside <= columns && 4 * (size.digits.rows() + 1) <= rows
    };
    let sizes = [
        (DotSize::Whole, DotSize::Whole),
        (DotSize::Whole, DotSize::Narrow),
        (DotSize::Half, DotSize::Half),
    ];
    let found = sizes.map(sized).into_iter().find(fits);
    found.unwrap_or(FigureSize {
        columns: SMALL_AT + digits::width(widest(unit), DotSize::Small) + UNIT,
        digits: DotSize::Small,
        sign: DotSize::Small,
    })
}

impl Marked {
    /// Back above nose, the cut mark below its bend mark.
    fn blocks(&self) -> [Block; 4] {
        let block = |what, ends: Option<Ends>, at: usize, number| Block {
            what,
            number: self.first + number,
            mark: ends.map(|[one, other]| if at == 0 { one } else { other }),
        };
        let LineMarks { bend, cut, .. } = self.line;
        [
            block("bend", bend, 1, 1),
            block("cut", cut, 1, 3),
            block("bend", bend, 0, 0),
            block("cut", cut, 0, 2),
        ]
    }

    /// `BACK`, `AT 7 UP`, `OTHER END, UP`: from the nose, that is.
    fn place(&self, mark: &Mark) -> String {
        let upper = self.upper.filter(|_| mark.at == At::Back);
        let place = mark.at.said().to_uppercase();
        match (mark.at, upper) {
            (_, Some(up)) => format!("AT {} UP", print(up, self.division)),
            (At::Nose | At::Back, None) => place,
            // Measured up the side and not along the nose.
            (At::FarSide | At::HandSide, None) => format!("{place}, UP"),
        }
    }
}

/// Draws the four figures in the pen's area, as large as [`size_in`] says.
pub fn draw(pen: &mut Pen<'_>, marked: &Marked, size: FigureSize) {
    let (width, height) = (pen.width(), pen.height());
    let each = match size.digits {
        DotSize::Small => DotSize::Small.rows(),
        digits => digits.rows() + 1,
    };
    // What is over parts the two tapes' marks.
    let over = height.saturating_sub(4 * each).min(2);
    for (at, block) in (0_u16..).zip(marked.blocks()) {
        let y = at * each + if at < 2 { 0 } else { over };
        let mut part = pen.part(0, y, width, each);
        match size.digits {
            DotSize::Small => small(&mut part, marked, &block),
            _ => large(&mut part, marked, &block, size),
        }
    }
}

fn large(pen: &mut Pen<'_>, marked: &Marked, block: &Block, size: FigureSize) {
    let Some(mark) = block.mark else {
        if block.what == "bend" && block.number == marked.first + 1 {
            pen.text(1, 0, Role::Mark, nothing(marked));
        }
        return;
    };
    let role = box_of(pen, block);
    let (figure, sign) = parted(&mark, marked.division);
    let unit = marked.division.unit().word();
    let (what, number, place) = (block.what, block.number, marked.place(&mark));
    // Measured up the end and not along the nose: those words stand out of the box
    // they are in, the other way round than it.
    if matches!(mark.at, At::FarSide | At::HandSide) {
        let from = format!("  {what} {number}, {unit}, from nose");
        let with_sign = format!("{from}{}", in_words(&sign));
        let turned = match role {
            Role::Selected => Role::Strong,
            _ => Role::Selected,
        };
        let place = format!(" {place} ");
        let fits = columns(&place) + columns(&with_sign) <= pen.width();
        let rest = if fits { with_sign } else { from };
        pen.text(0, 0, turned, &place);
        pen.text(columns(&place), 0, role, &rest);
    } else {
        let words = format!(" {place}  {what} {number}, {unit}{}", in_words(&sign));
        pen.text(0, 0, role, &words);
    }
    if marked.doubtful && block.what == "bend" {
        pen.text_right(1, 0, Role::Trouble, " DOUBTFUL ");
    }
    let end = digits::draw_in(pen, (MARGIN, 1), role, &figure, size.digits);
    digits::draw_sign(pen, (end, 1), role, &sign, size.sign);
}

/// Without a row for its heading: what and number stand before the figure.
fn small(pen: &mut Pen<'_>, marked: &Marked, block: &Block) {
    let Some(mark) = block.mark else {
        if block.what == "bend" && block.number == marked.first + 1 {
            pen.text(1, 1, Role::Mark, nothing(marked));
        }
        return;
    };
    let role = box_of(pen, block);
    let (figure, sign) = parted(&mark, marked.division);
    pen.text(1, 0, role, &format!("{} {}", block.what, block.number));
    pen.text(1, 1, role, short(&mark));
    let up = matches!(mark.at, At::FarSide | At::HandSide);
    let upper = marked.upper.filter(|_| mark.at == At::Back);
    let third = match (up, upper) {
        (true, _) => "end, up".to_owned(),
        (_, Some(up)) => format!("{} up", print(up, marked.division)),
        _ => String::new(),
    };
    pen.text(1, 2, role, &third);
    let end = digits::draw_in(pen, (SMALL_AT, 0), role, &figure, DotSize::Small);
    let unit = marked.division.unit().word();
    pen.text(end, 1, role, &format!("{unit}{sign}"));
}

const fn short(mark: &Mark) -> &'static str {
    match mark.at {
        At::Nose => "NOSE",
        At::Back => "BACK",
        At::FarSide => "OTHER",
        At::HandSide => "WHOLE",
    }
}

/// What stands where a line has no bend marks.
const fn nothing(marked: &Marked) -> &'static str {
    match marked.line.cut {
        Some(_) => "NO BEND LINE: cut only",
        None => "FULL PANEL: no bend, no cut",
    }
}

/// A cut mark's box; the role of what stands in it.
fn box_of(pen: &mut Pen<'_>, block: &Block) -> Role {
    match block.what {
        "cut" => {
            pen.fill(Role::Selected);
            Role::Selected
        }
        _ => Role::Mark,
    }
}

/// A figure, and apart from it the sign that says it is a hair over or under: the
/// sign drawn large would read as a part of it.
fn parted(mark: &Mark, division: Division) -> (String, String) {
    let printed = print(mark.position, division);
    let figure = printed.trim_end_matches(['+', '-']);
    let sign = match division.unit() {
        Unit::Inch => printed.get(figure.len()..).unwrap_or_default(),
        // A millimetre is finer than any mark.
        Unit::Millimetre => "",
    };
    // A bare fraction looks like one whose whole number is missing.
    let zero = match figure.contains('/') && !figure.contains(' ') {
        true => "0 ",
        false => "",
    };
    (format!("{zero}{figure}"), sign.to_owned())
}

fn in_words(sign: &str) -> &'static str {
    match sign {
        "+" => ", a hair over",
        "-" => ", a hair under",
        _ => "",
    }
}
