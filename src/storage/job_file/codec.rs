//! A job as a job file's bytes, and the bytes as a job again.

use super::{
    checksum::{self, Seal},
    error::{DecodeError, EncodeError},
    head, history,
    job::{JobTwin, expected_bytes},
    settings::{SettingsOfV1, SettingsToday},
    size::{self, MOST_PIECES},
    version::VERSION,
};
use crate::domain::{
    cutting::{History, Job},
    settings::RawSettings,
};
use crate::storage::files::MOST_BYTES;
use ron::{Options, extensions::Extensions, ser::PrettyConfig};
use serde::Deserialize;

/// Fields one step in stand on a line each; what lies deeper (a course, an
/// event) is one line.
const LINES_TO_DEPTH: usize = 2;

/// A job as it was read, and whether its file is as it was saved.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Decoded {
    pub job: Job,
    pub seal: Seal,
    pub version: u32,
}

/// How the text is read and written: a fact's own fields stand in one pair of
/// brackets.
fn options() -> Options {
    Options::default().with_default_extension(Extensions::UNWRAP_VARIANT_NEWTYPES)
}

/// `job` as a job file's bytes, the checksum line last.
///
/// # Errors
/// [`EncodeError`] where it would be larger than any file that is read, or make
/// more pieces than any job that is.
pub fn encode(job: &Job) -> Result<Vec<u8>, EncodeError> {
    let pieces = size::pieces(job);
    if pieces > MOST_PIECES {
        return Err(EncodeError::TooManyPieces { pieces });
    }
    if job.next_edge() == u32::MAX {
        return Err(EncodeError::NoNumberLeft);
    }
    let layout = PrettyConfig::new()
        .depth_limit(LINES_TO_DEPTH)
        .new_line("\n");
    let mut text = String::with_capacity(expected_bytes(job));
    options()
        .to_writer_pretty(&mut text, &JobTwin::of(job), layout)
        .and_then(|()| history::put_on(&mut text, job.history(), &options()))
        .map_err(|error| EncodeError::Ron(error.to_string()))?;
    text.push('\n');
    checksum::seal(&mut text);
    let bytes = u64::try_from(text.len()).unwrap_or(u64::MAX);
    if bytes > MOST_BYTES {
        return Err(EncodeError::TooLarge { bytes });
    }
    Ok(text.into_bytes())
}

/// The job that `bytes` hold.
///
/// A file edited by hand is read too; its seal says so.
///
/// # Errors
/// [`DecodeError`] where it is no text, no job file, of another version, or
/// holds a figure out of range; each with its place.
pub fn decode(bytes: &[u8]) -> Result<Decoded, DecodeError> {
    let content = without_mark(bytes);
    let text =
        std::str::from_utf8(content).map_err(|error| DecodeError::not_text(content, error))?;
    let version = head::version(text)?;
    let (text, lists) = history::taken_off(text);
    // An older version has an arm of its own, with twins of its own for what was
    // otherwise then, and its job goes on as one of today.
    let mut job = match version {
        VERSION => read::<SettingsToday>(&text)?,
        1 => read::<SettingsOfV1>(&text)?,
        version => return Err(DecodeError::OtherVersion { version }),
    };
    let pieces = size::pieces(&job);
    if pieces > MOST_PIECES {
        return Err(DecodeError::value(
            "the log",
            EncodeError::TooManyPieces { pieces },
        ));
    }
    let seal = checksum::seal_of(content);
    match lists {
        Some(lists) if seal == Seal::Whole => history::give(&mut job, lists, &options()),
        Some(_) => job.set_history(History::cut_off()),
        None => {}
    }
    Ok(Decoded { job, seal, version })
}

fn read<'a, S: Deserialize<'a> + Into<RawSettings>>(text: &'a str) -> Result<Job, DecodeError> {
    options()
        .from_str::<JobTwin<'a, S>>(text)
        .map_err(|error| DecodeError::of_ron(text, &error))?
        .checked()
}

/// The version that `bytes` name, where they begin like a job file.
pub fn version_of(bytes: &[u8]) -> Option<u32> {
    let text = std::str::from_utf8(without_mark(bytes)).ok()?;
    head::version(text).ok()
}

/// How many changes `bytes` say are in them, without reading the job: what the
/// line for it says in a file that is as the program wrote it, else 0.
pub fn changes_in(bytes: &[u8]) -> u64 {
    const FIELD: &[u8] = b"    changes: ";
    let mut lines = bytes.rsplit(|byte| *byte == b'\n');
    let line = lines.find_map(|line| line.strip_prefix(FIELD));
    let number = line.and_then(|line| std::str::from_utf8(line.strip_suffix(b",")?).ok());
    number.and_then(|number| number.parse().ok()).unwrap_or(0)
}

/// Without the byte order mark that some editors put in front.
fn without_mark(bytes: &[u8]) -> &[u8] {
    bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes)
}

/// Whether `bytes` are a file as it was saved, without reading the job.
pub fn seal_of(bytes: &[u8]) -> Seal {
    checksum::seal_of(without_mark(bytes))
}
