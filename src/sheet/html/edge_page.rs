//! The pages of one edge: its head, then its pieces in cutting order.

use super::piece::piece;
use crate::sheet::markup::{element, plain};
use crate::sheet::rows::{EdgeRows, Rows};
use crate::sheet::words;
use std::fmt::{self, Write};

/// The pages of `edge`; `pictures` counts those of the whole file.
pub(super) fn edge_page(
    edge: &EdgeRows<'_>,
    sheet: &Rows<'_>,
    pictures: &mut usize,
    out: &mut dyn Write,
) -> fmt::Result {
    out.write_str("<section class=\"page\">\n")?;
    out.write_str(&element("header", "edge-head", &head(edge, sheet)))?;
    out.write_str("\n")?;
    if let Some(words) = words::file(sheet) {
        out.write_str(&(plain("p", "note", &words) + "\n"))?;
    }
    for row in sheet.rows_of(edge) {
        out.write_str(&piece(&row, sheet, pictures))?;
    }
    let division = sheet.job.settings.division;
    for empty in edge.left_out.iter().chain(&edge.empty) {
        let words = format!(
            "No piece for {}: {}",
            empty.place(),
            empty.why.words(division)
        );
        out.write_str(&(plain("p", "note", &words) + "\n"))?;
    }
    out.write_str("</section>\n")
}

fn head(edge: &EdgeRows<'_>, sheet: &Rows<'_>) -> String {
    let (kind, short) = (edge.edge.kind, sheet.labels.edge(edge.edge.id));
    let name = format!("{} {short}: {}", kind.word().to_uppercase(), edge.edge.name);
    let mut head = plain("h2", "", &name) + &plain("p", "", &words::hand(edge.edge));
    for (sign, words) in words::edge_notes(edge, sheet) {
        head.push_str(&plain("p", "note", &format!("{sign}{words}")));
    }
    head
}
