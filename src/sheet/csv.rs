//! The cut sheet as CSV, for a spreadsheet.
//!
//! RFC 4180 quoting by the csv crate. A text that a spreadsheet would take for
//! a formula gets a leading `'`; numbers stay numbers. Positions are exact, in
//! millimetres. Where a name has letters beyond ASCII, the text begins with a
//! byte order mark: spreadsheets take it for another encoding without.

use super::rows::{Row, Rows};
use crate::domain::cutting::Job;
use crate::domain::piece::{Ends, Mark};
use crate::domain::tape::{Unit, exact};
use crate::sheet::SheetError;
use std::borrow::Cow;

/// The columns, in order.
pub const COLUMNS: [&str; 18] = [
    "edge",
    "kind",
    "hand",
    "course",
    "piece",
    "bend_1_at",
    "bend_1_mm",
    "bend_2_at",
    "bend_2_mm",
    "cut_1_at",
    "cut_1_mm",
    "cut_2_at",
    "cut_2_mm",
    "on_table",
    "nose",
    "panel",
    "stock",
    "stage",
];

/// The cut sheet of `job` as CSV, the columns' names first.
///
/// # Errors
/// [`SheetError`] where the CSV library refuses; no job is known that does.
pub fn csv(job: &Job) -> Result<String, SheetError> {
    csv_of(&Rows::of(job))
}

/// A cut sheet as CSV, the columns' names first.
///
/// # Errors
/// As [`csv()`].
pub fn csv_of(sheet: &Rows<'_>) -> Result<String, SheetError> {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    writer
        .write_record(COLUMNS)
        .map_err(|error| SheetError::of(&error))?;
    for edge in &sheet.edges {
        let name = harmless(edge.edge.name.as_str());
        for row in &edge.rows {
            writer
                .write_record(record(&name, row).iter().map(|field| field.as_ref()))
                .map_err(|error| SheetError::of(&error))?;
        }
    }
    let bytes = writer
        .into_inner()
        .map_err(|error| SheetError::of(&error))?;
    let text = String::from_utf8(bytes).map_err(|error| SheetError::of(&error))?;
    if text.is_ascii() {
        Ok(text)
    } else {
        Ok(format!("\u{FEFF}{text}"))
    }
}

fn record<'a>(edge: &'a str, row: &'a Row) -> [Cow<'a, str>; COLUMNS.len()] {
    let piece = &row.piece;
    let [bend_1, bend_2] = ends(row.bend);
    let [cut_1, cut_2] = ends(row.cut);
    [
        edge.into(),
        piece.spec.kind.word().into(),
        piece.spec.hand.word().into(),
        piece.id.course.to_string().into(),
        piece.id.number.to_string().into(),
        at(bend_1),
        mm(bend_1),
        at(bend_2),
        mm(bend_2),
        at(cut_1),
        mm(cut_1),
        at(cut_2),
        mm(cut_2),
        row.on_table().into(),
        row.nose().into(),
        piece
            .stock
            .panel()
            .map_or_else(String::new, |panel| panel.to_string())
            .into(),
        piece.stock.word().into(),
        piece.stage.word().into(),
    ]
}

fn ends(ends: Option<Ends>) -> [Option<Mark>; 2] {
    ends.map_or([None; 2], |ends| ends.map(Some))
}

fn at<'a>(mark: Option<Mark>) -> Cow<'a, str> {
    mark.map_or("", |mark| mark.at.word()).into()
}

fn mm<'a>(mark: Option<Mark>) -> Cow<'a, str> {
    mark.map_or_else(String::new, |mark| exact(mark.position, Unit::Millimetre))
        .into()
}

/// `text` with a `'` before it where a spreadsheet would compute it (OWASP,
/// "CSV injection"), the wide forms of the same signs among them.
pub fn harmless(text: &str) -> Cow<'_, str> {
    const BEGINS_FORMULA: [char; 10] = [
        '=', '+', '-', '@', '\t', '\r', '\u{FF1D}', '\u{FF0B}', '\u{FF0D}', '\u{FF20}',
    ];
    // A spreadsheet whose lists are parted by semicolons parts the text there.
    let begins = |part: &str| {
        part.trim_start_matches([' ', '"'])
            .starts_with(BEGINS_FORMULA)
    };
    if !text.starts_with(BEGINS_FORMULA) && !text.split(';').any(begins) {
        return text.into();
    }
    let part = |part: &str| {
        let mark = if begins(part) { "'" } else { "" };
        format!("{mark}{part}")
    };
    text.split(';')
        .map(part)
        .collect::<Vec<_>>()
        .join(";")
        .into()
}
