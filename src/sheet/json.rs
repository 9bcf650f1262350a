//! The cut sheet as JSON, for other programs.
//!
//! Mark positions are exact, in millimetres with up to six decimals, beside what the
//! job's tape shows (`23 5/8`, `+` or `-` a hair over or under); angles
//! have two decimals, other lengths (mm) and areas (mm2) one. Keys are added as
//! the program grows, never renamed. One line per piece, so that line tools
//! serve too.

use super::{
    rows::{EdgeRows, PanelCount, Row, Rows},
    whole::whole,
};
use crate::domain::doubt::Doubt;
use crate::domain::log::CourseNumber;
use crate::domain::measure::Name;
use crate::domain::piece::{Ends, LineAt, LineMarks};
use crate::domain::tape::{Division, print};
use serde::Serialize;
use std::fmt::{self, Write};

/// A cut sheet as JSON, ending with a newline.
pub fn json(rows: &Rows<'_>) -> String {
    whole(|out| write_json(rows, out))
}

/// The same, line by line as it is made.
pub(super) fn write_json(rows: &Rows<'_>, out: &mut dyn Write) -> fmt::Result {
    let job = rows.job;
    // Said first, so that nobody reads on without it; an ordinary file says nothing.
    let odd = rows.file.as_ref().map(|odd| ("file", one(odd)));
    let keys = [
        ("job", one(job.name.as_str())),
        ("blade", one(job.settings.blade.word())),
        ("panels", panels(rows.panels)),
    ];
    let head = object(odd.into_iter().chain(keys), ",\n ");
    out.write_str(head.strip_suffix('}').unwrap_or(&head))?;
    lines("edges", edges(rows), out)?;
    lines("pieces", pieces(rows), out)?;
    lines("doubtful", doubtful(rows), out)?;
    // A log without a hole says nothing of holes, as before there was a word; and
    // likewise of pieces that no longer fit.
    let mut unread = unread(rows).peekable();
    if unread.peek().is_some() {
        lines("unread", unread, out)?;
    }
    let mut misfits = misfits(rows).peekable();
    if misfits.peek().is_some() {
        lines("no_longer_fit", misfits, out)?;
    }
    out.write_str("}\n")
}

/// The marked pieces that no longer fit the log, a line each.
fn misfits(rows: &Rows<'_>) -> impl Iterator<Item = String> {
    let division = rows.job.settings.division;
    rows.misfits().map(move |(edge, piece, misfit)| {
        let keys = [
            ("edge", one(edge)),
            ("course", one(piece.id.course.get())),
            ("piece", one(piece.id.number)),
            ("words", one(misfit.words(division))),
        ];
        object(keys, ", ")
    })
}

/// The holes in the log, a line a course.
fn unread(rows: &Rows<'_>) -> impl Iterator<Item = String> {
    let division = rows.job.settings.division;
    rows.edges.iter().flat_map(move |edge| {
        let name = one(edge.edge.name.as_str());
        edge.holes(division).map(move |(course, why)| {
            let keys = [
                ("edge", name.clone()),
                ("course", one(course)),
                ("why", one(why)),
            ];
            object(keys, ", ")
        })
    })
}

fn panels(count: PanelCount) -> String {
    let keys = [
        ("pieces", one(count.pieces)),
        ("new", one(count.new)),
        ("from_offcuts", one(count.from_offcuts)),
        ("spoiled", one(count.spoiled)),
    ];
    object(keys, ", ")
}

/// How each edge is read.
fn edges(rows: &Rows<'_>) -> impl Iterator<Item = String> {
    let settings = &rows.job.settings;
    rows.edges.iter().map(|EdgeRows { edge, .. }| {
        let keys = [
            ("edge", one(edge.name.as_str())),
            ("kind", one(edge.kind.word())),
            ("hand", one(edge.hand.word())),
            ("reads_to", one(settings.reads_to(edge).word())),
            ("tape_end", one(settings.tape_end_at(edge).word())),
        ];
        object(keys, ", ")
    })
}

fn pieces(rows: &Rows<'_>) -> impl Iterator<Item = String> {
    rows.edges.iter().flat_map(move |edge| {
        let name = one(edge.edge.name.as_str());
        rows.rows_of(edge).map(move |row| piece(&name, &row, rows))
    })
}

/// One line per doubt; `off_mm` is what was read less what is likely.
fn doubtful(rows: &Rows<'_>) -> impl Iterator<Item = String> {
    let line = move |edge: &str, doubt: &Doubt| {
        let others = doubt.others.iter().map(|other| {
            let keys = [
                ("reading", one(other.reading.word())),
                ("likely_mm", tenth(other.likely.mm())),
                ("cause", one(other.cause.words())),
            ];
            object(keys, ", ")
        });
        let keys = [
            ("edge", one(edge)),
            ("course", one(doubt.course.map(CourseNumber::get))),
            ("reading", one(doubt.reading.word())),
            ("off_mm", tenth(doubt.off.mm())),
            ("likely_mm", tenth(doubt.likely.mm())),
            ("cause", one(doubt.cause.words())),
            ("others", array(others, "", ", ")),
        ];
        object(keys, ", ")
    };
    rows.edges.iter().flat_map(move |edge| {
        let name = edge.edge.name.as_str();
        edge.doubts.iter().map(move |doubt| line(name, doubt))
    })
}

/// One line; `edge` is its name as it is written.
fn piece(edge: &str, row: &Row, rows: &Rows<'_>) -> String {
    let (piece, division) = (&row.piece, rows.job.settings.division);
    let (kind, to) = piece.spec.kind_and_other(piece.id.edge);
    let to = to.and_then(|(to, _)| rows.job.edge(to));
    let to = to.map(|to| ("to", one(to.name.as_str())));
    let keys = [
        ("edge", edge.to_owned()),
        ("kind", word(kind.word())),
        ("hand", word(piece.spec.hand.word())),
        ("course", one(piece.id.course.get())),
        ("piece", one(piece.id.number)),
        ("height_mm", tenth(piece.spec.bend.rise.mm())),
        ("bend", marks(row, division, |line| line.bend)),
        ("cut", marks(row, division, |line| line.cut)),
        ("skew_deg", one(rounded(row.skew_deg, 100.0))),
        ("bend_line_mm", tenth(row.bend_line_mm)),
        ("cut_line_mm", tenth(row.cut_line_mm)),
        ("turn_up_mm", tenth(row.turn_up.mm())),
        ("kept_mm2", tenth(row.kept.mm2())),
        ("offcut_mm2", tenth(row.offcut.mm2())),
        ("on_table", word(row.on_table())),
        ("nose", word(row.nose())),
        ("panel", one(piece.stock.panel())),
        ("stock", word(piece.stock.word())),
        ("stage", word(row.stage())),
    ];
    let bend = rows.bend_deg(row, LineAt::Far);
    let more = [
        ("lot", one(row.lot.as_ref().map(Name::as_str))),
        ("bend_deg", one(bend.map(|deg| rounded(deg, 100.0)))),
    ];
    object(keys.into_iter().chain(to).chain(more), ", ")
}

/// Whole nanometres over a million are the double nearest to a decimal with at
/// most six places and twelve digits, which is what is printed of it. Of a piece
/// cut at both ends each says at which.
fn marks(row: &Row, division: Division, of: impl Fn(&LineMarks) -> Option<Ends>) -> String {
    let marks = row.lines().flat_map(|line| {
        let both = row.piece.spec.near.is_some();
        let end = both.then(|| ("end", word(line.at.word())));
        of(&line).into_iter().flatten().map(move |mark| {
            let keys = [
                ("at", word(mark.at.word())),
                ("mm", one(mark.position.mm())),
            ];
            // Digits, a fraction and a sign: nothing in it is to be escaped.
            let tape = ["\"", &print(mark.position, division), "\""].concat();
            let more = end.clone().into_iter().chain([("tape", tape)]);
            object(keys.into_iter().chain(more), ", ")
        })
    });
    array(marks, "", ", ")
}

/// An object of values that are written already.
fn object<'k>(keys: impl IntoIterator<Item = (&'k str, String)>, between: &str) -> String {
    let keys = keys.into_iter();
    let mut text = String::with_capacity(40 * keys.size_hint().0);
    for (key, value) in keys {
        text.push_str(if text.is_empty() { "{" } else { between });
        text.extend(["\"", key, "\": ", &value]);
    }
    text + "}"
}

/// An array of values that are written already, with `before` the first and
/// `between` two of them.
fn array(values: impl Iterator<Item = String>, before: &str, between: &str) -> String {
    let mut text = String::from("[");
    for (at, value) in values.enumerate() {
        text.extend([if at == 0 { before } else { between }, &value]);
    }
    text + "]"
}

/// A key behind others, with an array of a line for each of `values`.
fn lines(key: &str, values: impl Iterator<Item = String>, out: &mut dyn Write) -> fmt::Result {
    write!(out, ",\n \"{key}\": [")?;
    for (at, value) in values.enumerate() {
        out.write_str(if at == 0 { "\n  " } else { ",\n  " })?;
        out.write_str(&value)?;
    }
    out.write_str("]")
}

/// A word of the program's own: nothing in it is to be escaped.
fn word(word: &'static str) -> String {
    ["\"", word, "\""].concat()
}

/// Never refused: no value here is a map, let alone one with odd keys.
fn one(value: impl Serialize) -> String {
    serde_json::to_string(&value).unwrap_or_default()
}

fn tenth(value: f64) -> String {
    one(rounded(value, 10.0))
}

/// To the nearest of `per_unit` steps; adding zero makes `-0` plain zero.
fn rounded(value: f64, per_unit: f64) -> f64 {
    (value * per_unit).round() / per_unit + 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_rounded_to_what_is_promised_of_them() {
        assert_eq!(rounded(40.006_2, 100.0), 40.01);
        assert_eq!(tenth(38.912), "38.9");
        assert_eq!(tenth(-0.04), "0.0");
    }
}
