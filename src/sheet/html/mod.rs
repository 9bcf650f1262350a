//! The cut sheet as one HTML file: to print, or to read on a phone.
//!
//! A first page for whoever loads the truck, then each edge from a new page on,
//! in cutting order. The pictures are the screen's own shapes ([`crate::picture`])
//! written by [`crate::sheet::svg`]. No script, no font, nothing to be fetched; black
//! on white, so that a plain printer loses nothing.

mod first_page;
mod piece;
mod edge_page;

pub use piece::PANEL_MM;

use super::{markup::around_body, rows::Rows, whole::whole};
use std::fmt::{self, Write};

/// A cut sheet as HTML.
pub fn html(sheet: &Rows<'_>) -> String {
    whole(|out| write_html(sheet, out))
}

/// The same, piece by piece as it is made.
pub(super) fn write_html(sheet: &Rows<'_>, out: &mut dyn Write) -> fmt::Result {
    let title = format!("Cut sheet: {}", sheet.job.name);
    let [before, after] = around_body(&title, STYLE);
    out.write_str(&before)?;
    out.write_str(&first_page::first_page(sheet))?;
    let mut pictures = 0;
    for edge in &sheet.edges {
        edge_page::edge_page(edge, sheet, &mut pictures, out)?;
    }
    out.write_str(&after)
}

const STYLE: &str = "\
.counts th, .counts td { overflow-wrap: break-word; border-bottom: 0.2mm solid black; padding: 0.8mm 3mm 0.8mm 0; }
.counts .n { text-align: right; }
.carry { font-size: 13pt; font-weight: bold; }
.facts th { white-space: nowrap; }
.edge-head { break-inside: avoid; }
.note { font-weight: bold; }
.piece { break-inside: avoid; border-top: 0.4mm solid black; padding: 1.2mm 0 2mm; }
.head { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: baseline; gap: 0 4mm; }
.label { font-size: 17pt; font-weight: bold; white-space: nowrap; }
.marks { width: 100%; table-layout: fixed; margin: 0.5mm 0; }
.marks th { width: 17mm; white-space: nowrap; padding-right: 1mm; }
.marks td { font-size: 11.5pt; padding-right: 1mm; }
.marks .bend td { font-weight: bold; font-size: 12.5pt; }
.number { border: 0.3mm solid black; border-radius: 2mm; padding: 0 1mm; font-size: 9pt; font-weight: normal; }
.pictures { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: flex-start; }
figure { margin: 1mm 0 0; overflow: hidden; }
figcaption { font-size: 9.5pt; }
svg { display: block; }
@media screen and (max-width: 700px) {
  figure { width: 100% !important; }
  svg { width: 100%; height: auto; margin: 0 !important; }
}
";
