//! The cut sheet written to a file from within the screen.

use super::cli::sheet::{Format, written};
use crate::app::message::Message;
use crate::domain::job::Job;
use crate::sheet::rows::Rows;
use crate::sheet::text::WIDTH;
use crate::storage::fs::RealFs;
use crate::storage::save::create;
use std::path::Path;

/// Writes the sheet of `job` to `path`, in the form the end of its name says;
/// never over another file.
#[must_use]
pub fn write(path: &Path, job: &Job) -> Message {
    let end = path.extension().unwrap_or_default().to_string_lossy();
    let format = Format::ALL
        .into_iter()
        .find(|format| format.word().eq_ignore_ascii_case(&end))
        .unwrap_or(Format::Text);
    let done = written(&Rows::of(job), format, WIDTH)
        .map_err(|error| error.to_string())
        .and_then(|text| create(&RealFs, path, text.as_bytes()).map_err(|error| error.to_string()));
    match done {
        Ok(()) => Message::SheetWritten(path.to_owned()),
        Err(why) => Message::SheetNotWritten(path.to_owned(), why),
    }
}
