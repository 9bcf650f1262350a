//! The pictures of single pieces: of those that are out of the ordinary.

use super::list_page::{Count, NOTE_MM, PAGE_MM, is_odd, run, to_f64};
use super::piece::{Drawn, drawn};
use crate::sheet::layout::{Layout, Pages};
use crate::sheet::list_row::ListRow;
use crate::sheet::markup::{element, plain};
use crate::sheet::rows::Rows;
use std::fmt::{self, Write};

/// The heading of a page.
const HEAD_MM: f64 = 12.0;

/// A piece's label with its rule, and the words over a row of its pictures less what
/// is free at the top of each (tests/paper/print.rs prints them).
const LABEL_MM: f64 = 6.2;
const WORDS_MM: f64 = 2.6;

/// How many pictures stand side by side.
const BESIDE: usize = 2;

/// Letters beside the label, at most and over half a page's width, and on each line
/// below it where they are more.
const BESIDE_LETTERS: usize = 85;
const HALF_LETTERS: usize = 30;
const NOTE_LETTERS: usize = 110;

/// What stands over the pictures of an edge's panels that had no room on its page.
const LIES: &str = "how the panel lies for the pieces that are not drawn";

/// The pages as they are written.
struct Filling<'a, 'o> {
    sheet: &'a Rows<'a>,
    layout: &'a Layout,
    count: &'o mut Count,
    out: &'o mut dyn Write,
    used_mm: f64,
    is_open: bool,
    /// How high a piece with one picture is: it leaves room for another beside it.
    half: Option<f64>,
}

/// How the panels of an edge lie where its own page had no room, then the pictures of
/// the pieces that are out of the ordinary, of every edge.
pub(super) fn odd_pieces(
    sheet: &Rows<'_>,
    layout: &Layout,
    count: &mut Count,
    out: &mut dyn Write,
) -> fmt::Result {
    let lies = std::mem::take(&mut count.lies);
    let mut pages = Filling {
        sheet,
        layout,
        count,
        out,
        used_mm: PAGE_MM,
        is_open: false,
        half: None,
    };
    for (short, drawn) in lies {
        pages.put("How panels lie", &short, LIES, &drawn)?;
    }
    let edges = sheet.edges.iter();
    let rows = edges.flat_map(|edge| sheet.rows_of(edge).map(move |row| (edge, row)));
    for (edge, row) in rows.filter(|(_, row)| is_odd(row)) {
        let drawn = drawn(&row, sheet, Pages::List, &mut pages.count.pictures);
        if drawn.high.is_empty() {
            continue;
        }
        let line = ListRow::of(&row, edge, sheet);
        let notes = line.notes.join("; ");
        pages.put("Pieces out of the ordinary", &line.label, &notes, &drawn)?;
    }
    let is_open = pages.is_open;
    out.write_str(if is_open { "</section>\n" } else { "" })
}

impl Filling<'_, '_> {
    /// Puts pictures under their label, on a page called `head` where that is new.
    fn put(&mut self, head: &str, label: &str, notes: &str, drawn: &Drawn) -> fmt::Result {
        let in_row = |row: &[f64]| WORDS_MM + row.iter().copied().fold(0.0, f64::max);
        let pictures: f64 = drawn.high.chunks(BESIDE).map(in_row).sum();
        let high = LABEL_MM + pictures + NOTE_MM * to_f64(lines_below(notes));
        let is_narrow = drawn.high.len() == 1 && notes.chars().count() <= HALF_LETTERS;
        let beside = self.half.take().filter(|_| is_narrow);
        let mut taken = beside.map_or(high, |half| (high - half).max(0.0));
        let is_beside = beside.is_some() && self.used_mm + taken <= PAGE_MM;
        if !is_beside && is_narrow {
            self.half = Some(high);
        }
        if self.used_mm + taken > PAGE_MM {
            taken = high;
            self.count.pages += 1;
            let close = if self.is_open { "</section>\n" } else { "" };
            let run = run(self.sheet, self.layout, self.count.pages);
            let head = plain("h2", "", head) + &plain("p", "run", &run);
            write!(self.out, "{close}<section class=\"page odd\">\n{head}\n")?;
            (self.used_mm, self.is_open) = (HEAD_MM, true);
        }
        self.used_mm += taken;
        let head = plain("span", "label", label) + &plain("span", "", notes);
        let piece = element("div", "head", &head) + &drawn.html;
        self.out
            .write_str(&(element("article", "one", &piece) + "\n"))
    }
}

/// Lines of notes below the label: none where they have room beside it.
fn lines_below(notes: &str) -> usize {
    match notes.chars().count() {
        0..=BESIDE_LETTERS => 0,
        letters => letters.div_ceil(NOTE_LETTERS),
    }
}
