//! Pages written to files: the cut sheet from within the screen, and what no
//! page is ever written over.

use crate::app::message::Message;
use crate::domain::{cutting::Job, log::EdgeId, measure::cleaned};
use crate::sheet::{
    format::Format,
    known::is_page,
    layout::Layout,
    rows::{Choice, Rows, Shown},
};
use crate::shell::outside::{in_parts, now};
use crate::storage::{
    files::{Day, Fs, MOST_BYTES, RealFs, shown, words},
    job_file::version_of,
    keeping::{Content, Made, Part, SaveError, create, is_beside_a_job, is_place_of_a_job},
};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// A sheet as what is put into a file, made part by part.
pub fn content(format: Format, rows: &Rows<'_>, layout: &Layout) -> impl Content {
    Made(move |write: &mut Part<'_>| in_parts(write, |out| format.write(rows, layout, out)))
}

/// Writes the sheet of `job`, or of one `edge` of it, to `path`, in the form the end
/// of its name says; never over another file: where the name is taken, as it is when a
/// sheet is printed again, under the next free one, `roof-2.html`.
pub fn write(path: &Path, job: &Job, edge: Option<EdgeId>) -> Message {
    write_as_of(printed_now(), path, job, edge)
}

/// The same with the day and time that is printed on it.
pub fn write_as_of(
    printed_at: Option<String>,
    path: &Path,
    job: &Job,
    edge: Option<EdgeId>,
) -> Message {
    let not_written = |why: String| Message::SheetNotWritten {
        path: path.to_owned(),
        edge,
        why,
    };
    let end = path.extension().unwrap_or_default().to_string_lossy();
    let format = match Format::by_ending(&end) {
        Ok(format) => format,
        Err(why) => {
            let name = cleaned(&path.file_name().unwrap_or_default().to_string_lossy());
            return not_written(format!("\"{name}\": {why}"));
        }
    };
    let choice = Choice {
        edges: edge.into_iter().collect(),
        shown: Shown::Every,
    };
    let rows = Rows::of(job).only(&choice);
    let layout = Layout {
        printed_at,
        ..Layout::default()
    };
    match under_a_free_name(path, &content(format, &rows, &layout)) {
        Ok(path) => Message::SheetWritten(path),
        Err(why) => not_written(why),
    }
}

/// How many names are tried.
const MOST_NAMES: u32 = 1_000;

/// Writes `page` to `path`, or to the first name behind it that is not taken, and says
/// to which.
fn under_a_free_name(path: &Path, page: &impl Content) -> Result<PathBuf, String> {
    let behind = (2..=MOST_NAMES).map(|number| numbered(path, number));
    let mut taken = None;
    for name in std::iter::once(path.to_owned()).chain(behind) {
        may_be_a_page(&name)?;
        match create(&RealFs, &name, page) {
            Ok(()) => return Ok(name),
            // A folder is no sheet of before: somebody meant something else.
            Err(error @ SaveError::Taken { .. }) if !name.is_dir() => {
                taken = taken.or(Some(error));
            }
            Err(error) => return Err(error.to_string()),
        }
    }
    Err(taken.map_or_else(String::new, |error| error.to_string()))
}

/// `roof-2.html` for `roof.html`.
fn numbered(path: &Path, number: u32) -> PathBuf {
    let mut name = path.file_stem().unwrap_or_default().to_owned();
    name.push(format!("-{number}"));
    if let Some(end) = path.extension() {
        name.push(".");
        name.push(end);
    }
    path.with_file_name(name)
}

/// The day and time now, as it is printed on a page.
pub fn printed_now() -> Option<String> {
    let now = now()?;
    let minutes = Day::seconds(now) / 60;
    let (hour, minute) = (minutes / 60, minutes % 60);
    Some(format!("{} {hour:02}:{minute:02} UTC", Day::of(now)?))
}

/// Whether a page may stand at `path`, as far as names say: not where a job or
/// something of a job's belongs, whether it is there or not.
///
/// # Errors
/// Why not, and what to do.
pub fn may_be_a_page(path: &Path) -> Result<(), String> {
    let own = RealFs.resolve(path).unwrap_or_else(|_| path.to_owned());
    let shown = shown(path);
    if [path, &own].into_iter().any(is_beside_a_job) {
        return Err(format!(
            "\"{shown}\" is a name for a job's copies and locks: choose another"
        ));
    }
    if !own.exists() && is_place_of_a_job(&RealFs, &own) {
        return Err(format!(
            "\"{shown}\" is the place of a job whose copies lie beside it: choose another"
        ));
    }
    Ok(())
}

/// Whether the file at `path`, where there is one, may be written over: a page
/// of this program's, told by its first lines, or an empty file.
///
/// # Errors
/// Why not, and what to do.
pub fn may_give_way(path: &Path) -> Result<(), String> {
    let shown = shown(path);
    let bytes = match RealFs.read(path, MOST_BYTES) {
        Ok(bytes) => bytes,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
        Err(error) => {
            let why = words(&error);
            return Err(format!(
                "\"{shown}\" is left as it is: {why}; choose another name"
            ));
        }
    };
    if version_of(&bytes).is_some() {
        return Err(format!(
            "\"{shown}\" is a job and is never written over: choose another name"
        ));
    }
    if !is_page(&bytes) {
        return Err(format!(
            "\"{shown}\" does not begin as a sheet or form of bendmark's and is never written over: choose another name, or move it away"
        ));
    }
    Ok(())
}
