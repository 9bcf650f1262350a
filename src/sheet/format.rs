//! The forms a cut sheet is written in.
//!
//! The one list of them: the command line's choice, the ending of a file's name
//! and the sentences about both are made from it.

use super::{
    SheetError, csv::write_csv, html::write_html, json::write_json, layout::Layout, rows::Rows,
    text::write_text,
};
use std::fmt::Write;

/// A form of the cut sheet.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Format {
    /// To print.
    Text,
    /// For a spreadsheet.
    Csv,
    /// For other programs.
    Json,
    /// To print, or to read on a phone, with pictures.
    Html,
}

impl Format {
    /// Every form, the usual one first.
    pub const ALL: [Self; 4] = [Self::Text, Self::Csv, Self::Json, Self::Html];

    /// `text`, `csv`, `json` or `html`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Csv => "csv",
            Self::Json => "json",
            Self::Html => "html",
        }
    }

    /// How the name of a file in this form ends, without the dot.
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Text => "txt",
            other => other.word(),
        }
    }

    /// The form of a file whose name ends in `ending`; one without an ending is
    /// text.
    ///
    /// # Errors
    /// What was expected, in words.
    pub fn by_ending(ending: &str) -> Result<Self, String> {
        if ending.is_empty() {
            return Ok(Self::Text);
        }
        let fits = |format: &Self| {
            let is = |word: &str| word.eq_ignore_ascii_case(ending);
            is(format.ending()) || is(format.word())
        };
        Self::ALL.into_iter().find(fits).ok_or_else(|| {
            let endings = Self::ALL.map(|format| format!(".{}", format.ending()));
            format!("expected a name that ends in {}", either(&endings))
        })
    }

    /// Writes the sheet in this form to `out`, a part at a time, so that the
    /// whole of it is nowhere.
    ///
    /// # Errors
    /// [`SheetError`] where `out` or a writing library refuses.
    pub fn write(
        self,
        rows: &Rows<'_>,
        layout: &Layout,
        out: &mut dyn Write,
    ) -> Result<(), SheetError> {
        match self {
            Self::Text => write_text(rows, layout, out).map_err(SheetError::of),
            Self::Csv => write_csv(rows, out),
            Self::Json => write_json(rows, out).map_err(SheetError::of),
            Self::Html => write_html(rows, layout, out).map_err(SheetError::of),
        }
    }
}

/// `.a, .b or .c`.
fn either(words: &[String]) -> String {
    match words.split_last() {
        Some((last, others)) if !others.is_empty() => format!("{} or {last}", others.join(", ")),
        _ => words.concat(),
    }
}
