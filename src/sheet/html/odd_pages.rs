//! The pictures of single pieces: of those that are out of the ordinary.

use super::list_page::{Count, NOTE_MM, PAGE_MM, is_odd, run, to_f64};
use super::piece::drawn;
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

/// The pictures of the pieces that are out of the ordinary, of every edge.
pub(super) fn odd_pieces(
    sheet: &Rows<'_>,
    layout: &Layout,
    count: &mut Count,
    out: &mut dyn Write,
) -> fmt::Result {
    let mut used_mm = PAGE_MM;
    let mut is_open = false;
    // How high a piece with one picture is: it leaves room for another beside it.
    let mut half: Option<f64> = None;
    let edges = sheet.edges.iter();
    let rows = edges.flat_map(|edge| sheet.rows_of(edge).map(move |row| (edge, row)));
    for (edge, row) in rows.filter(|(_, row)| is_odd(row)) {
        let drawn = drawn(&row, sheet, Pages::List, &mut count.pictures);
        if drawn.high.is_empty() {
            continue;
        }
        let line = ListRow::of(&row, edge, sheet);
        let notes = line.notes.join("; ");
        let more = NOTE_MM * to_f64(lines_below(&notes));
        let in_row = |row: &[f64]| WORDS_MM + row.iter().copied().fold(0.0, f64::max);
        let pictures: f64 = drawn.high.chunks(BESIDE).map(in_row).sum();
        let high = LABEL_MM + pictures + more;
        let is_narrow = drawn.high.len() == 1 && notes.chars().count() <= HALF_LETTERS;
        let beside = half.take().filter(|_| is_narrow);
        let mut taken = beside.map_or(high, |half| (high - half).max(0.0));
        let is_beside = beside.is_some() && used_mm + taken <= PAGE_MM;
        if !is_beside && is_narrow {
            half = Some(high);
        }
        if used_mm + taken > PAGE_MM {
            taken = high;
            count.pages += 1;
            let close = if is_open { "</section>\n" } else { "" };
            let head = plain("h2", "", "Pieces out of the ordinary")
                + &plain("p", "run", &run(sheet, layout, count.pages));
            write!(out, "{close}<section class=\"page odd\">\n{head}\n")?;
            (used_mm, is_open) = (HEAD_MM, true);
        }
        used_mm += taken;
        let head = plain("span", "label", &line.label) + &plain("span", "", &notes);
        let piece = element("div", "head", &head) + &drawn.html;
        out.write_str(&(element("article", "one", &piece) + "\n"))?;
    }
    out.write_str(if is_open { "</section>\n" } else { "" })
}

/// Lines of notes below the label: none where they have room beside it.
fn lines_below(notes: &str) -> usize {
    match notes.chars().count() {
        0..=BESIDE_LETTERS => 0,
        letters => letters.div_ceil(NOTE_LETTERS),
    }
}
