//! The cut sheet written to a file from within the screen.

use crate::app::message::Message;
use crate::domain::{cutting::Job, measure::cleaned};
use crate::sheet::{rows::Rows, text::WIDTH};
use crate::shell::cli::sheet::{Format, written};
use crate::storage::{files::RealFs, keeping::create};
use std::path::Path;

/// Writes the sheet of `job` to `path`, in the form the end of its name says;
/// never over another file.
pub fn write(path: &Path, job: &Job) -> Message {
    let end = path.extension().unwrap_or_default().to_string_lossy();
    let is_text = end.is_empty() || end.eq_ignore_ascii_case("txt");
    let format = Format::ALL
        .into_iter()
        .find(|format| format.word().eq_ignore_ascii_case(&end))
        .or(is_text.then_some(Format::Text));
    let Some(format) = format else {
        let name = cleaned(&path.file_name().unwrap_or_default().to_string_lossy());
        let why = format!("\"{name}\": expected a name that ends in .html, .txt, .csv or .json");
        return Message::SheetNotWritten(path.to_owned(), why);
    };
    let done = written(&Rows::of(job), format, WIDTH)
        .map_err(|error| error.to_string())
        .and_then(|text| create(&RealFs, path, text.as_bytes()).map_err(|error| error.to_string()));
    match done {
        Ok(()) => Message::SheetWritten(path.to_owned()),
        Err(why) => Message::SheetNotWritten(path.to_owned(), why),
    }
}
