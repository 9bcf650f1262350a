//! One row of readings as CSV, and which column is which.
//!
//! It looks at the row alone; whether it goes with the log is
//! [`crate::storage::readings::import`]'s to say.

use super::{
    detail,
    error::{HEADER, ImportError},
    header::{NAMES, REQUIRED, optional, place},
};
use crate::domain::{
    log::{Course, CourseNumber, Reading},
    measure::{Hand, cleaned},
    roof::EdgeKind,
    tape::{Unit, exact},
};
use csv::ByteRecord;

/// Where each column of [`NAMES`] stands in a row.
pub(super) struct Columns {
    places: [Option<usize>; NAMES.len()],
    count: usize,
}

/// A row that is right by itself.
pub(super) struct Row<'r> {
    /// As it is written.
    pub(super) edge: &'r str,
    pub(super) kind: EdgeKind,
    pub(super) hand: Hand,
    /// Without the edge that it runs to.
    pub(super) course: Course,
    /// The name of the edge that it runs to, as it is written; empty where it
    /// ends in the field.
    pub(super) to: &'r str,
    /// What it says of its edge besides; empty where it says nothing.
    pub(super) details: [&'r str; detail::COUNT],
}

impl Columns {
    /// The columns that a header on `line` names.
    pub(super) fn of(header: &ByteRecord, line: u64) -> Result<Self, ImportError> {
        let wrong = |what| ImportError::Header { line, what };
        let mut places = [None; NAMES.len()];
        for (at, cell) in header.iter().enumerate() {
            let text = String::from_utf8_lossy(cell);
            let known = NAMES
                .iter()
                .zip(&mut places)
                .find(|(name, _)| name.eq_ignore_ascii_case(text.trim()));
            let Some((name, known)) = known else {
                return Err(wrong(unknown(at, &cleaned(&text))));
            };
            if let Some(first) = known.replace(at) {
                return Err(wrong(format!(
                    "{} is \"{name}\", and so is {}, expected each once",
                    place(at),
                    place(first)
                )));
            }
        }
        let missing: Vec<_> = NAMES
            .iter()
            .zip(&places)
            .take(REQUIRED)
            .filter_map(|(name, place)| place.is_none().then_some(*name))
            .collect();
        if !missing.is_empty() {
            return Err(wrong(format!(
                "no column {}, expected {HEADER}",
                missing.join(", ")
            )));
        }
        Ok(Self {
            places,
            count: header.len(),
        })
    }
}

fn unknown(at: usize, name: &str) -> String {
    let is = if name.is_empty() {
        "has no name".to_owned()
    } else {
        format!("is named \"{name}\", which is not known")
    };
    format!(
        "{} {is}, expected {HEADER}, and {} where there are any",
        place(at),
        optional()
    )
}

impl<'r> Row<'r> {
    /// The row in `record`, or all that is wrong with it; what it says of its
    /// edge besides is read only where something else is wrong.
    pub(super) fn of(
        record: &'r ByteRecord,
        columns: &Columns,
        unit: Unit,
    ) -> Result<Self, String> {
        if record.len() != columns.count {
            return Err(wrong_count(record, columns));
        }
        let mut wrong = Vec::new();
        let [
            edge,
            kind,
            hand,
            course,
            bottom,
            top,
            height,
            runs_out,
            to,
            details @ ..,
        ] = columns.places.map(|at| {
            // Most of the columns are in hardly any file.
            at.map_or("", |at| {
                let cell = record.get(at).unwrap_or_default();
                noted(text_in(cell, at), &mut wrong).unwrap_or_default()
            })
        });
        if !wrong.is_empty() {
            return Err(wrong.join("; "));
        }
        let kind = noted(kind_in(kind), &mut wrong);
        let hand = noted(hand_in(hand), &mut wrong);
        let number = noted(number_in(course), &mut wrong);
        let (top, meets) = noted(meet_in(top, to, runs_out), &mut wrong).unwrap_or_default();
        let mut reading =
            |what: &str, text: &str| noted(reading_in(what, text, unit), &mut wrong).flatten();
        let (bottom, top) = (reading("bottom", bottom), reading("top", top));
        let (height, runs_out) = (reading("height", height), reading("runs_out", meets));
        match (kind, hand, number) {
            (Some(kind), Some(hand), Some(number)) if wrong.is_empty() => Ok(Self {
                edge,
                kind,
                hand,
                course: Course {
                    number,
                    bottom,
                    top,
                    runs_out,
                    height,
                    to: None,
                    reads_to: None,
                    trip: None,
                },
                to,
                details,
            }),
            _ => {
                wrong.extend(detail::unread(details));
                Err(wrong.join("; "))
            }
        }
    }
}

fn text_in(cell: &[u8], at: usize) -> Result<&str, String> {
    let text = std::str::from_utf8(cell).map(str::trim);
    text.map_err(|_| {
        let text = cleaned(&String::from_utf8_lossy(cell));
        let place = place(at);
        format!("{place}: \"{text}\" is not UTF-8 text, expected the file saved as UTF-8")
    })
}

/// Top and "runs out" as they are written; `meet 11.2` as a top says how far up
/// the boards of a course that runs to another edge meet.
fn meet_in<'r>(top: &'r str, to: &str, runs_out: &'r str) -> Result<(&'r str, &'r str), String> {
    match top.strip_prefix("meet ").map(str::trim) {
        None => Ok((top, runs_out)),
        Some(up) if !to.is_empty() && runs_out.is_empty() => Ok(("", up)),
        Some(_) => Err(format!(
            "top: \"{}\", expected only where the column to names another edge, and no runs_out",
            cleaned(top)
        )),
    }
}

/// What was found, with what was wrong put beside the rest of it.
fn noted<T>(found: Result<T, String>, wrong: &mut Vec<String>) -> Option<T> {
    found.map_err(|what| wrong.push(what)).ok()
}

fn wrong_count(record: &ByteRecord, columns: &Columns) -> String {
    let cells = if record.len() == 1 { "cell" } else { "cells" };
    let quote = if record.as_slice().contains(&b'\n') {
        ": a quote may not be closed"
    } else {
        ""
    };
    format!(
        "{} {cells}, expected {} as in the header{quote}",
        record.len(),
        columns.count
    )
}

fn kind_in(text: &str) -> Result<EdgeKind, String> {
    let mut kinds = EdgeKind::ALL.into_iter();
    let kind = kinds.find(|kind| kind.word().eq_ignore_ascii_case(text));
    kind.ok_or_else(|| no("kind", text, "kind of edge", &EdgeKind::any_of()))
}

fn hand_in(text: &str) -> Result<Hand, String> {
    let mut hands = Hand::BOTH.into_iter();
    let hand = hands.find(|hand| hand.word().eq_ignore_ascii_case(text));
    hand.ok_or_else(|| no("hand", text, "hand", "left or right"))
}

fn number_in(text: &str) -> Result<CourseNumber, String> {
    let number = text.parse().ok().and_then(CourseNumber::new);
    number.ok_or_else(|| {
        let wanted = format!("1 to {}", CourseNumber::LAST);
        no("course", text, "course number", &wanted)
    })
}

/// Why `text` in a column is refused.
fn no(column: &str, text: &str, what: &str, wanted: &str) -> String {
    let text = cleaned(text);
    format!("{column}: \"{text}\" is no {what}, expected {wanted}")
}

fn reading_in(what: &str, text: &str, unit: Unit) -> Result<Option<Reading>, String> {
    if text.is_empty() {
        return Ok(None);
    }
    Reading::parse(text, unit)
        .map(Some)
        .map_err(|error| format!("{what}: {error}"))
}

/// What was read of a course: `bottom 13 5/8, top not read`.
pub(super) fn figures(course: &Course, unit: Unit) -> String {
    let say = |reading: Reading| exact(reading.length(), unit);
    let end = |reading: Option<Reading>| reading.map_or_else(|| "not read".to_owned(), say);
    let mut text = format!("bottom {}, top {}", end(course.bottom), end(course.top));
    if let Some(height) = course.height {
        text.push_str(&format!(", height {}", say(height)));
    }
    if let Some(runs_out) = course.runs_out {
        text.push_str(&format!(", runs out {}", say(runs_out)));
    }
    text
}
