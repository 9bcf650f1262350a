//! The cut sheet as text, CSV, JSON and HTML, and the blank roof log.
//!
//! Pure: it names no file, clock or screen; each form is a text made from a
//! job. [`rows`] works out every figure once, the others only write them down.

pub mod rows;
pub mod json;
pub mod csv;
pub mod page;
mod words;
pub mod text;
pub mod svg;
mod markup;
pub mod html;
pub mod form;
pub mod form_text;
pub mod form_html;

use std::fmt;

/// Why a sheet was not written: what the writing library said.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SheetError(String);

impl SheetError {
    fn of(error: &dyn fmt::Display) -> Self {
        Self(error.to_string())
    }
}

impl fmt::Display for SheetError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the sheet could not be written: {}", self.0)
    }
}

impl std::error::Error for SheetError {}
