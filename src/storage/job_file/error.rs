//! Why a job cannot be written or a file not be read as one.

use super::{size::MOST_PIECES, version::VERSION};
use crate::domain::measure::cleaned;
use crate::storage::files::{MOST_BYTES, lower};
use crate::storage::ron_words::ron_words;
use ron::error::{Error as RonError, SpannedError};
use std::fmt;
use std::str::Utf8Error;

/// Why a job cannot be written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum EncodeError {
    /// It would be larger than any file that is read.
    TooLarge { bytes: u64 },
    /// Its log makes more pieces than any job that is read.
    TooManyPieces { pieces: usize },
    /// No number is left for another edge; with it the file would be refused.
    NoNumberLeft,
    /// The format's own refusal; no job is known that brings it about.
    Ron(String),
}

impl fmt::Display for EncodeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge { bytes } => write!(
                f,
                "the job would take {bytes} bytes, expected at most {MOST_BYTES}: split it in two"
            ),
            Self::TooManyPieces { pieces } => write!(
                f,
                "about {pieces} pieces, expected at most {MOST_PIECES}: look for a reading far too long, or split the job in two"
            ),
            Self::NoNumberLeft => write!(
                f,
                "no number is left for another edge, expected next_edge below {}: start a new job",
                u32::MAX
            ),
            Self::Ron(why) => write!(f, "the job could not be written as text: {why}"),
        }
    }
}

impl std::error::Error for EncodeError {}

/// Why bytes are not read as a job.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum DecodeError {
    NotText {
        /// The line in which it stops being text, from 1.
        line: usize,
    },
    /// The first field is not the version.
    NoVersion,
    OtherVersion {
        version: u32,
    },
    /// A field that a file of its version does not have.
    UnknownField {
        /// The line, from 1.
        line: usize,
        /// The field, cleaned for showing.
        field: String,
        /// What is known there.
        expected: &'static [&'static str],
    },
    /// Not RON, or not of the shape of a job.
    Syntax {
        /// The line, from 1.
        line: usize,
        /// The column, from 1.
        column: usize,
        what: String,
    },
    Value {
        /// Where: `course 3 of "North"`.
        place: String,
        /// What is wrong, quoting the figure.
        what: String,
    },
}

impl DecodeError {
    pub(super) fn not_text(bytes: &[u8], error: Utf8Error) -> Self {
        let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
        Self::NotText {
            line: 1 + good.iter().filter(|byte| **byte == b'\n').count(),
        }
    }

    /// What the reader of the format refused in `text`.
    pub(super) fn of_ron(text: &str, error: &SpannedError) -> Self {
        let (line, column) = (error.span.end.line, error.span.end.col);
        let what = match &error.code {
            RonError::NoSuchStructField {
                expected, found, ..
            } => {
                return Self::UnknownField {
                    line,
                    field: cleaned(found),
                    expected,
                };
            }
            code => {
                let what = shown(&ron_words(code));
                let says_what_is_there = !what.starts_with("expected") || what.contains("found");
                if says_what_is_there {
                    what
                } else {
                    format!("{what}{}", near(text, line, column))
                }
            }
        };
        Self::Syntax { line, column, what }
    }

    pub(super) fn value(place: impl Into<String>, what: impl fmt::Display) -> Self {
        Self::Value {
            place: place.into(),
            what: what.to_string(),
        }
    }
}

impl fmt::Display for DecodeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotText { line } => {
                write!(f, "line {line}: not UTF-8 text, expected a job file")
            }
            Self::NoVersion => write!(
                f,
                "not a job file: its first field is not \"version\" with a whole number"
            ),
            Self::OtherVersion { version } if *version > VERSION => write!(
                f,
                "the file has version {version}, this program reads up to version {VERSION}: open it with the later program that wrote it"
            ),
            Self::OtherVersion { version } => {
                write!(f, "the file has version {version}, expected {VERSION}")
            }
            Self::UnknownField {
                line,
                field,
                expected,
            } => write!(
                f,
                "line {line}: unknown field \"{field}\", expected {}",
                expected.join(", ")
            ),
            Self::Syntax { line, column, what } => {
                write!(f, "line {line}, column {column}: {what}")
            }
            Self::Value { place, what } => write!(f, "{place}: {what}"),
        }
    }
}

impl std::error::Error for DecodeError {}

/// The format's own words fit to be shown: they may quote anything the file
/// holds, at any length.
fn shown(text: &str) -> String {
    const MOST_WORDS: usize = 40;
    let words: Vec<String> = text
        .split_whitespace()
        .take(MOST_WORDS)
        .map(cleaned)
        .collect();
    lower(words.join(" ").trim_end_matches('.'))
}

/// The text at the place, quoted.
fn near(text: &str, line: usize, column: usize) -> String {
    const LETTERS: usize = 20;
    let line = text.lines().nth(line.saturating_sub(1)).unwrap_or_default();
    let letters = line.chars().skip(column.saturating_sub(1)).take(LETTERS);
    let quoted = cleaned(&letters.collect::<String>());
    if quoted.is_empty() {
        quoted
    } else {
        format!(" at \"{quoted}\"")
    }
}
