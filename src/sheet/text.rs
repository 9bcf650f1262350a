//! The cut sheet as plain text, to print and pin up at the bench: the bench list,
//! a line a piece (`text_table.rs`).
//!
//! No wider than asked for, [`WIDTH`] columns as a rule. Lengths stand as the job's
//! tape shows them; a `+` or `-` follows where the exact figure is more than a
//! quarter division off.

pub use super::layout::WIDTH;
use super::{
    layout::Layout,
    list_row::ListRow,
    log_mark::LogMark,
    page::Page,
    rows::{EdgeRows, Rows, Shown},
    settings_words, text_table,
    whole::whole,
    words,
};
use crate::domain::{bench::Stage, cutting::odd_planes, words::CAUTIONS};
use std::fmt::{self, Write};

/// The narrowest page: what a pocket printer takes.
pub const NARROWEST: usize = 42;

/// A cut sheet as text that is nowhere wider than `width` columns.
pub fn text(sheet: &Rows<'_>, width: usize) -> String {
    let layout = Layout {
        width,
        ..Layout::default()
    };
    whole(|out| write_text(sheet, &layout, out))
}

/// The same, piece by piece as it is made.
pub(super) fn write_text(sheet: &Rows<'_>, layout: &Layout, out: &mut dyn Write) -> fmt::Result {
    let mut page = Page::new(layout.width.max(NARROWEST));
    page.put("CUT SHEET  ", sheet.job.name.as_str());
    if let Some(words) = words::file(sheet) {
        page.put("", &words);
    }
    if let Some(words) = words::printed(layout) {
        page.put("", &words);
    }
    if sheet.shown == Shown::Left {
        page.put("", "only what is not stacked yet");
    }
    page.blank();
    settings(&mut page, sheet);
    page.blank();
    cautions(&mut page);
    for edge in &sheet.edges {
        page.blank();
        edge_text(&mut page, edge, sheet, out)?;
    }
    out.write_str(&page.take_text())
}

/// The cautions, on any page.
pub(super) fn cautions(page: &mut Page) {
    page.put("", "Take care");
    for caution in CAUTIONS {
        page.put("  - ", caution);
    }
}

fn settings(page: &mut Page, sheet: &Rows<'_>) {
    for (about, words) in settings_words::settings(sheet) {
        page.put(&format!("{about:<12}"), &words);
    }
    let panels = sheet.panels;
    let for_spoiled = match words::for_spoiled(sheet) {
        0 => String::new(),
        1 => "; 1 more was opened for what was spoiled".to_owned(),
        more => format!("; {more} more were opened for what was spoiled"),
    };
    page.put(
        "pieces      ",
        &format!(
            "{}, {} of them stacked; new panels: {}{for_spoiled}{}",
            panels.pieces,
            sheet.at_stage(Stage::Stacked),
            panels.new,
            words::sides(sheet)
        ),
    );
    if let Some(words) = words::spoiled_by(sheet) {
        page.put("pieces      ", &words);
    }
    for lot in words::lots(sheet) {
        page.put("panels      ", &lot);
    }
    let misfits = words::misfits(sheet);
    if !misfits.is_empty() {
        page.put("doubtful    ", &misfits);
    }
    for odd in odd_planes(sheet.job) {
        page.put("doubtful    ", &odd);
    }
}

fn edge_text(
    page: &mut Page,
    edge: &EdgeRows<'_>,
    sheet: &Rows<'_>,
    out: &mut dyn Write,
) -> fmt::Result {
    let settings = &sheet.job.settings;
    let division = settings.division;
    let kind = edge.edge.kind;
    page.put(
        &format!(
            "{}  {}  ",
            kind.word().to_uppercase(),
            sheet.labels.edge(edge.edge.id)
        ),
        edge.edge.name.as_str(),
    );
    page.put("  ", &words::hand(edge.edge));
    page.put("  ", &words::edge_bend(edge, sheet));
    page.put("  ", &format!("log mark {}", LogMark::of(edge, sheet)));
    for (sign, words) in words::edge_notes(edge, sheet) {
        page.put(&format!("  {sign}"), &words);
    }
    if edge.count() > 0 {
        page.blank();
        text_table::heading(page);
    }
    for row in sheet.rows_of(edge) {
        text_table::piece(page, &ListRow::of(&row, edge, sheet));
        out.write_str(&page.take_text())?;
    }
    let mut without = edge.left_out.iter().chain(&edge.empty).peekable();
    if without.peek().is_some() {
        page.blank();
    }
    for empty in without {
        let lead = format!("  no piece for {}: ", empty.place());
        page.put(&lead, &empty.why.words(division));
    }
    Ok(())
}
