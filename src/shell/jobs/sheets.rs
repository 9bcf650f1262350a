//! The cut sheet written to a file from within the screen.

use crate::app::message::Message;
use crate::domain::{cutting::Job, measure::cleaned};
use crate::sheet::{format::Format, rows::Rows, text::WIDTH};
use crate::storage::{files::RealFs, keeping::create};
use std::path::Path;

/// Writes the sheet of `job` to `path`, in the form the end of its name says;
/// never over another file.
pub fn write(path: &Path, job: &Job) -> Message {
    let end = path.extension().unwrap_or_default().to_string_lossy();
    let format = match Format::by_ending(&end) {
        Ok(format) => format,
        Err(why) => {
            let name = cleaned(&path.file_name().unwrap_or_default().to_string_lossy());
            return Message::SheetNotWritten(path.to_owned(), format!("\"{name}\": {why}"));
        }
    };
    let done = format
        .written(&Rows::of(job), WIDTH)
        .map_err(|error| error.to_string())
        .and_then(|text| create(&RealFs, path, text.as_bytes()).map_err(|error| error.to_string()));
    match done {
        Ok(()) => Message::SheetWritten(path.to_owned()),
        Err(why) => Message::SheetNotWritten(path.to_owned(), why),
    }
}
