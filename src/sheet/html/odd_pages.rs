//! The pictures of single pieces: of those that are out of the ordinary.

use super::list_page::{Count, NOTE_MM, PAGE_MM, is_odd, run, to_f64};
use super::piece::drawn;
use crate::sheet::layout::{Layout, Pages};
use crate::sheet::list_row::ListRow;
use crate::sheet::markup::{element, plain};
use crate::sheet::rows::Rows;
use std::fmt::{self, Write};

/// The pictures of a piece in their row, under its label.
const PICTURES_MM: f64 = 54.0;

/// Letters beside the label, on one line.
const NOTE_LETTERS: usize = 65;

/// The pictures of the pieces that are out of the ordinary, of every edge.
pub(super) fn odd_pieces(
    sheet: &Rows<'_>,
    layout: &Layout,
    count: &mut Count,
    out: &mut dyn Write,
) -> fmt::Result {
    let mut used_mm = PAGE_MM;
    let mut is_open = false;
    // One picture leaves room for another beside it.
    let mut is_half = false;
    let edges = sheet.edges.iter();
    let rows = edges.flat_map(|edge| sheet.rows_of(edge).map(move |row| (edge, row)));
    for (edge, row) in rows.filter(|(_, row)| is_odd(row)) {
        let before = count.pictures;
        let pictures = drawn(&row, sheet, Pages::List, &mut count.pictures);
        let rows = match count.pictures - before {
            0 => continue,
            1 if is_half => 0,
            made => made.div_ceil(2),
        };
        is_half = count.pictures - before == 1 && !is_half;
        let line = ListRow::of(&row, edge, sheet);
        let notes = line.notes.join("; ");
        let more = NOTE_MM * to_f64((notes.chars().count() / NOTE_LETTERS).min(4));
        let high = PICTURES_MM * to_f64(rows) + more;
        if used_mm + high > PAGE_MM {
            count.pages += 1;
            let close = if is_open { "</section>\n" } else { "" };
            let head = plain("h2", "", "Pieces out of the ordinary")
                + &plain("p", "run", &run(sheet, layout, count.pages));
            write!(out, "{close}<section class=\"page odd\">\n{head}\n")?;
            (used_mm, is_open) = (14.0, true);
        }
        used_mm += high;
        let head = plain("span", "label", &line.label) + &plain("span", "", &notes);
        let piece = element("div", "head", &head) + &pictures;
        out.write_str(&(element("article", "one", &piece) + "\n"))?;
    }
    out.write_str(if is_open { "</section>\n" } else { "" })
}
