//! The cut sheet as text, CSV, JSON and HTML, and the blank roof log.
//!
//! Pure: it names no file, clock or screen; each form is a text made from a
//! job. [`rows`] works out every figure once, the others only write them down.

mod trouble;
mod whole;
mod corrected;
pub mod rows;
pub mod layout;
pub mod log_mark;
mod edge_length;
mod settings_words;
mod words;
mod list_row;
pub mod json;
pub mod csv;
pub mod page;
mod text_table;
pub mod text;
pub mod svg;
mod markup;
pub mod html;
pub mod format;
pub mod form;
pub mod form_text;
pub mod form_html;
pub mod form_fill;
pub mod known;

pub use trouble::SheetError;
