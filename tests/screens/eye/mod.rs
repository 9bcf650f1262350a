//! What somebody sees of a screen who stands two metres from it: cells drawn to
//! pixels, blurred, paled, with noise, and read by comparing.
//!
//! The screen is a laptop's of 13.3 in (294.4 by 165.6 mm, 1920x1080), two metres
//! away, the terminal full screen. A cell is as high as the rows leave it and
//! half as wide, as most terminal fonts are (from memory).
//!
//! How to use it on a screen of the program:
//!
//! ```text
//!   let bench = program.buffer(80, 24, Glyphs::Blocks);     // right hand
//!   let other = program.buffer(80, 24, Glyphs::Blocks);     // left hand
//!   let place = Rect::new(62, 2, 10, 7);                    // the side letter
//!   eye::arcmin_of(&bench, place)                           // how high it looks
//!   eye::misread(Eye::SUN, &bench, place, &[other])         // per cent wrong
//! ```
//!
//! The alternatives are all that may stand at that place: the two sides, TURN
//! and AS IT LIES, what drops. They stand on screens of the same size; where they
//! do not differ, nothing is read or counted. What does not stand at the same
//! place, or on no screen, is cut out ([`cut_out`]) or drawn ([`drawn`]) and read
//! by [`errors`]. Ordinary characters in the cut need a shape in
//! `shapes.rs`. For figures, digit by digit: [`figure_errors`].

mod shapes;
mod pixels;
mod model;
mod before;
mod font;
mod steps;

use bendmark::app::place::{Glyphs, Look};
use bendmark::ui::pen::Pen;
use bendmark::ui::theme::{Colours, Role, Theme};
use bendmark::ui::widgets::digits::{self, DotSize};
use pixels::{ARCMIN, Page};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// The four screens that everything is measured on.
pub(crate) const SCREENS: [(u16, u16); 4] = [(80, 24), (100, 30), (120, 40), (160, 50)];

/// Who looks, and in which light.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Eye {
    /// The smallest readable detail in arcminutes.
    detail: f64,
    /// (bright - dark) / (bright + dark).
    contrast: f64,
}

impl Eye {
    /// 20/20, the screen at 3:1 in the sun: A in the tables.
    pub(crate) const SHARP_SUN: Self = Self {
        detail: 1.0,
        contrast: 0.5,
    };
    /// 20/40, full contrast: B.
    pub(crate) const SHADE: Self = Self {
        detail: 2.0,
        contrast: 1.0,
    };
    /// 20/40 and 3:1, which everything has to be read by: C.
    pub(crate) const SUN: Self = Self {
        detail: 2.0,
        contrast: 0.5,
    };
}

/// The cells of `place`.
pub(crate) fn cut_out(screen: &Buffer, place: Rect) -> Buffer {
    let mut cut = Buffer::empty(Rect::new(0, 0, place.width, place.height));
    for y in 0..place.height {
        for x in 0..place.width {
            cut[(x, y)] = screen[(place.x + x, place.y + y)].clone();
        }
    }
    cut
}

/// How often each of `alternatives`, shown on a screen of `rows` rows, is taken
/// for another of them: per cent.
pub(crate) fn errors(eye: Eye, rows: u16, alternatives: &[Buffer]) -> Vec<f64> {
    let pages: Vec<Page> = alternatives.iter().map(|cut| Page::of(cut, rows)).collect();
    model::errors(&pages, eye.detail, eye.contrast)
}

/// How often what stands at `place` of `screen` is taken for what stands there on
/// one of `others`, screens of the same size: per cent. Near 100 where one of them
/// has the same there.
pub(crate) fn misread(eye: Eye, screen: &Buffer, place: Rect, others: &[Buffer]) -> f64 {
    let all = std::iter::once(screen).chain(others);
    let cuts: Vec<Buffer> = all.map(|screen| cut_out(screen, place)).collect();
    errors(eye, screen.area.height, &cuts)[0]
}

/// The mean of [`errors`]: each of them is shown as often as the others.
pub(crate) fn mean_error(eye: Eye, rows: u16, alternatives: &[Buffer]) -> f64 {
    let all = errors(eye, rows, alternatives);
    all.iter().sum::<f64>() / all.len() as f64
}

/// A buffer of so many columns and rows filled in `role`, and what `draw` puts there.
pub(crate) fn drawing(
    (columns, rows): (u16, u16),
    role: Role,
    glyphs: Glyphs,
    draw: impl FnOnce(&mut Pen<'_>),
) -> Buffer {
    let theme = Theme::new(Look::Sun, Colours::Set, glyphs);
    let area = Rect::new(0, 0, columns, rows);
    let mut buffer = Buffer::empty(area);
    let mut pen = Pen::new(&mut buffer, &theme, area);
    pen.fill(role);
    draw(&mut pen);
    buffer
}

/// What `texts` look like, drawn by the program in `role`: each from the left of
/// the room that the widest takes.
pub(crate) fn drawn(texts: &[&str], size: DotSize, role: Role, glyphs: Glyphs) -> Vec<Buffer> {
    let widths = texts.iter().map(|text| digits::width(text, size));
    let room = (widths.max().unwrap(), size.rows());
    let draw = |text: &&str| {
        drawing(room, role, glyphs, |pen| {
            digits::draw_in(pen, (0, 0), role, text, size);
        })
    };
    texts.iter().map(draw).collect()
}

/// How often each digit of a figure of that size is misread: per cent.
pub(crate) fn figure_errors(eye: Eye, rows: u16, size: DotSize, glyphs: Glyphs) -> Vec<f64> {
    let digits = ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9"];
    errors(eye, rows, &drawn(&digits, size, Role::Mark, glyphs))
}

/// How high something looks, in arcminutes: so many half rows (one dot of half
/// blocks, half a dot of whole cells) of a screen of `rows` rows.
pub(crate) fn arcmin(half_rows: u16, rows: u16) -> f64 {
    f64::from(half_rows) * f64::from(pixels::cell(rows).1) / 2.0 * ARCMIN
}

/// How high what is drawn in `place` looks, in arcminutes: from its first half
/// row to its last. What is drawn is what there is less of, black or white.
pub(crate) fn arcmin_of(screen: &Buffer, place: Rect) -> f64 {
    let rows = screen.area.height;
    let page = Page::of(&cut_out(screen, place), rows);
    f64::from(page.drawn_height()) * ARCMIN
}
