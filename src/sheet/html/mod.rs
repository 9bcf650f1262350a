//! The cut sheet as one HTML file: to print, or to read on a phone.
//!
//! A first page for whoever loads the truck, then each edge from a new page on,
//! in cutting order: as the bench list, a line a piece, or with every piece's
//! pictures. The pictures are the screen's own shapes ([`crate::picture`])
//! written by [`crate::sheet::svg`]. No script, no font, nothing to be fetched; black
//! on white, so that a plain printer loses nothing.

mod first_page;
mod piece;
mod edge_page;
mod list_line;
mod list_page;
mod odd_pages;

pub use piece::PANEL_MM;

use super::{
    layout::{Layout, Pages},
    markup::around_body,
    rows::Rows,
    whole::whole,
};
use std::fmt::{self, Write};

/// A cut sheet as HTML.
pub fn html(sheet: &Rows<'_>, layout: &Layout) -> String {
    whole(|out| write_html(sheet, layout, out))
}

/// The same, piece by piece as it is made.
pub(super) fn write_html(sheet: &Rows<'_>, layout: &Layout, out: &mut dyn Write) -> fmt::Result {
    let title = format!("Cut sheet: {}", sheet.job.name);
    let style = match layout.pages {
        Pages::List => [STYLE, LIST_STYLE].concat(),
        Pages::Pictures => STYLE.to_owned(),
    };
    let [before, after] = around_body(&title, &style);
    out.write_str(&before)?;
    out.write_str(&first_page::first_page(sheet, layout))?;
    let mut count = list_page::Count::default();
    for edge in &sheet.edges {
        match layout.pages {
            Pages::List => list_page::list_pages(edge, sheet, layout, &mut count, out)?,
            Pages::Pictures => edge_page::edge_page(edge, sheet, &mut count.pictures, out)?,
        }
    }
    if layout.pages == Pages::List {
        odd_pages::odd_pieces(sheet, layout, &mut count, out)?;
    }
    out.write_str(&after)
}

const STYLE: &str = "\
.counts th, .counts td { overflow-wrap: break-word; border-bottom: 0.2mm solid black; padding: 0.8mm 3mm 0.8mm 0; }
.counts .n { text-align: right; }
.carry { font-size: 13pt; font-weight: bold; }
.boxed { border: 0.3mm solid black; padding: 1mm 2mm; }
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

/// The bench list: figures larger than anything else, room to write, no fill.
const LIST_STYLE: &str = "\
.list h2, .odd h2 { margin: 0; font-size: 15pt; line-height: 1.1; }
.hand { font-size: 11pt; line-height: 1.2; }
.run { font-size: 9pt; font-weight: normal; margin: 0 0 0.5mm; }
.foot { font-size: 9pt; margin: 1mm 0 0; }
.bench { width: 100%; table-layout: fixed; }
.bench th.top { padding: 0; font-weight: normal; border: 0; }
.bench th { font-size: 9pt; line-height: 1.1; padding: 0.3mm 0.6mm; vertical-align: bottom; border-bottom: 0.4mm solid black; }
.bench tbody { break-inside: avoid; border-bottom: 0.25mm solid black; }
.bench td { padding: 0.4mm 0.6mm; line-height: 1.05; vertical-align: middle; }
.bench td.small b { display: block; font-size: 8.5pt; line-height: 1.1; }
.bench td span { display: block; font-size: 8.5pt; line-height: 1; }
.bench td.from span { font-size: 10pt; line-height: 1.05; }
.bench td.from i { font-style: normal; }
.bench td.from i.whole { white-space: nowrap; }
.bench .up { border: 0.35mm solid black; }
.bench .up span { font-size: 10.5pt; font-weight: bold; line-height: 1; }
.bench .c-label { width: 22mm; }
.bench td.c-label b { display: block; font-size: 12.5pt; line-height: 1; white-space: nowrap; }
.bench col.c-lie { width: 19mm; }
.bench col.c-from { width: 28mm; }
.bench col.c-done { width: 9mm; }
.bench col.c-steps { width: 25mm; }
.bench .f b { font-size: 16.5pt; white-space: nowrap; }
.bench .cut b { font-weight: normal; }
.bench th.f { text-align: left; }
.bench td.bend + td.cut, .bench th.f + th.f { border-left: 0.25mm solid black; }
.bench td.note { font-size: 9pt; padding-top: 0; }
.box { display: inline-block; width: 5mm; height: 5mm; border: 0.35mm solid black; margin: 0.2mm; text-align: center; font: bold 10pt/4mm sans-serif; vertical-align: middle; }
.lies, .odd { display: flex; flex-wrap: wrap; justify-content: space-between; break-inside: avoid; }
.odd h2, .odd .run { width: 100%; }
.one .label { font-size: 13pt; line-height: 1.1; }
.one .head { justify-content: flex-start; line-height: 1.1; }
.one figure { margin-top: 0.3mm; }
.one figcaption { line-height: 1.05; }
.one svg { margin-top: -1.2mm; }
.one { break-inside: avoid; border-top: 0.4mm solid black; padding: 0.3mm 0; }
@media screen and (max-width: 700px) {
  .bench, .bench thead, .bench tbody, .bench th.top { display: block; }
  .bench colgroup { display: none; }
  .bench thead tr { display: block !important; }
  .bench thead tr + tr { display: none !important; }
  .bench .c-label { width: auto; }
  .bench tr { display: grid; grid-template-columns: 1fr 1fr; padding: 1mm 0; }
  .bench td { border: 0 !important; }
  .bench td.c-label, .bench td.note, .bench td[colspan] { grid-column: 1 / -1; }
  .bench td.c-label b, .bench td.c-label span { display: inline; margin-right: 3mm; }
  .bench td.bend b::before { content: \"bend nose \"; font-size: 9pt; font-weight: normal; }
  .bench td.bend + td.bend b::before { content: \"bend back \"; }
  .bench td.cut b::before { content: \"cut nose \"; font-size: 9pt; }
  .bench td.cut + td.cut b::before { content: \"cut back \"; }
  .bench td.bend .up b::before, .bench td.bend + td.bend .up b::before { content: \"bend \"; }
  .bench td.cut .up b::before, .bench td.cut + td.cut .up b::before { content: \"cut \"; }
  .bench .up span { font-size: 12pt; }
  .bench .f b { font-size: 20pt; }
  .bench td span { font-size: 10.5pt; }
}
";
