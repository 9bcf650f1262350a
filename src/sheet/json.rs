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
    if let Some(odd) = &rows.file {
        write!(out, "{{\"file\": {},\n ", one(odd))?;
    } else {
        out.write_str("{")?;
    }
    let (name, blade) = (one(job.name.as_str()), one(job.settings.blade.word()));
    let mut count = Text::default();
    panels(rows.panels, &mut count);
    let count = count.written();
    write!(
        out,
        "\"job\": {name},\n \"blade\": {blade},\n \"panels\": {count}"
    )?;
    lines("edges", rows.edges.iter(), out, |edge, text| {
        edge_line(edge, rows, text);
    })?;
    let pieces = rows.edges.iter().flat_map(|edge| {
        let of_edge = rows.rows_of(edge);
        of_edge.map(move |row| (edge.edge.name.as_str(), row))
    });
    lines("pieces", pieces, out, |(edge, row), text| {
        piece(edge, &row, rows, text);
    })?;
    let doubts = rows.edges.iter().flat_map(|edge| {
        let name = edge.edge.name.as_str();
        edge.doubts.iter().map(move |doubt| (name, doubt))
    });
    lines("doubtful", doubts, out, |(edge, doubt), text| {
        doubtful(edge, doubt, text);
    })?;
    holes_and_misfits(rows, out)?;
    out.write_str("}\n")
}

fn holes_and_misfits(rows: &Rows<'_>, out: &mut dyn Write) -> fmt::Result {
    // A log without a hole says nothing of holes, as before there was a word; and
    // likewise of pieces that no longer fit.
    let division = rows.job.settings.division;
    let holes = rows.edges.iter().flat_map(|edge| {
        let name = edge.edge.name.as_str();
        let holes = edge.holes(division);
        holes.map(move |(course, why)| (name, course, why))
    });
    let mut holes = holes.peekable();
    if holes.peek().is_some() {
        lines("unread", holes, out, |(edge, course, why), text| {
            text.object(|keys| {
                keys.put("edge", edge);
                keys.put("course", course);
                keys.put("why", why);
            });
        })?;
    }
    let mut misfits = rows.misfits().peekable();
    if misfits.peek().is_some() {
        lines(
            "no_longer_fit",
            misfits,
            out,
            |(edge, piece, misfit), text| {
                text.object(|keys| {
                    keys.put("edge", edge);
                    keys.put("course", piece.id.course.get());
                    keys.put("piece", piece.id.number);
                    keys.put("words", misfit.words(division));
                });
            },
        )?;
    }
    Ok(())
}

fn panels(count: PanelCount, text: &mut Text) {
    text.object(|keys| {
        keys.put("pieces", count.pieces);
        keys.put("new", count.new);
        keys.put("from_offcuts", count.from_offcuts);
        keys.put("spoiled", count.spoiled);
    });
}

/// How an edge is read.
fn edge_line(EdgeRows { edge, .. }: &EdgeRows<'_>, rows: &Rows<'_>, text: &mut Text) {
    let settings = &rows.job.settings;
    text.object(|keys| {
        keys.put("edge", edge.name.as_str());
        keys.word("kind", edge.kind.word());
        keys.word("hand", edge.hand.word());
        keys.word("reads_to", settings.reads_to(edge).word());
        keys.word("tape_end", settings.tape_end_at(edge).word());
    });
}

/// One line per doubt; `off_mm` is what was read less what is likely, `or_edge` the
/// other edge of the roof side where that may be meant instead.
fn doubtful(edge: &str, doubt: &Doubt, text: &mut Text) {
    text.object(|keys| {
        keys.put("edge", edge);
        keys.put("course", doubt.course.map(CourseNumber::get));
        keys.put("reading", doubt.reading.word());
        keys.put("off_mm", tenth(doubt.off.mm()));
        keys.put("likely_mm", tenth(doubt.likely.mm()));
        keys.put("cause", doubt.cause.words());
        keys.key("others").array(&doubt.others, |other, text| {
            text.object(|keys| {
                keys.put("reading", other.reading.word());
                keys.put("likely_mm", tenth(other.likely.mm()));
                keys.put("cause", other.cause.words());
            });
        });
        if let Some(other) = &doubt.or_at {
            keys.put("or_edge", other.name.as_str());
            keys.put("or_edge_is_likelier", other.likelier);
        }
    });
}

fn piece(edge: &str, row: &Row, rows: &Rows<'_>, text: &mut Text) {
    let (piece, division) = (&row.piece, rows.job.settings.division);
    let (kind, to) = piece.spec.kind_and_other(piece.id.edge);
    let to = to.and_then(|(to, _)| rows.job.edge(to));
    let bend = rows.bend_deg(row, LineAt::Far);
    text.object(|keys| {
        keys.put("edge", edge);
        keys.word("kind", kind.word());
        keys.word("hand", piece.spec.hand.word());
        keys.put("course", piece.id.course.get());
        keys.put("piece", piece.id.number);
        keys.put("height_mm", tenth(piece.spec.bend.rise.mm()));
        marks(row, division, |line| line.bend, keys.key("bend"));
        marks(row, division, |line| line.cut, keys.key("cut"));
        keys.put("skew_deg", rounded(row.skew_deg, 100.0));
        keys.put("bend_line_mm", tenth(row.bend_line_mm));
        keys.put("cut_line_mm", tenth(row.cut_line_mm));
        keys.put("turn_up_mm", tenth(row.leg.mm()));
        keys.put("kept_mm2", tenth(row.kept.mm2()));
        keys.put("offcut_mm2", tenth(row.offcut.mm2()));
        keys.word("on_table", row.on_table());
        keys.word("nose", row.nose());
        keys.put("panel", piece.stock.panel());
        keys.word("stock", piece.stock.word());
        keys.word("stage", row.stage());
        if let Some(to) = to {
            keys.put("to", to.name.as_str());
        }
        keys.put("lot", row.lot.as_ref().map(Name::as_str));
        keys.put("bend_deg", bend.map(|deg| rounded(deg, 100.0)));
    });
}

/// Whole nanometres over a million are the double nearest to a decimal with at
/// most six places and twelve digits, which is what is printed of it. Of a piece
/// cut at both ends each says at which.
fn marks(row: &Row, division: Division, of: impl Fn(&LineMarks) -> Option<Ends>, text: &mut Text) {
    let both = row.piece.spec.near.is_some();
    let marks = row.lines().flat_map(|line| {
        let marks = of(&line).into_iter().flatten();
        marks.map(move |mark| (line.at, mark))
    });
    text.array(marks, |(at, mark), text| {
        text.object(|keys| {
            keys.word("at", mark.at.word());
            keys.put("mm", mark.position.mm());
            if both {
                keys.word("end", at.word());
            }
            keys.word("tape", &print(mark.position, division));
        });
    });
}

/// A line as it is written, value behind value: a sheet has hundreds of
/// thousands of them, too many for a text of its own each.
#[derive(Default)]
struct Text(Vec<u8>);

impl Text {
    fn object(&mut self, keys: impl FnOnce(&mut Self)) {
        self.0.push(b'{');
        keys(self);
        self.0.push(b'}');
    }

    fn array<T>(&mut self, values: impl IntoIterator<Item = T>, mut put: impl FnMut(T, &mut Self)) {
        self.0.push(b'[');
        for (at, value) in values.into_iter().enumerate() {
            if at > 0 {
                self.0.extend_from_slice(b", ");
            }
            put(value, self);
        }
        self.0.push(b']');
    }

    /// A key of the object that is open; its value is to follow.
    fn key(&mut self, key: &str) -> &mut Self {
        // No value ends like that: a text ends with its quote.
        if self.0.last() != Some(&b'{') {
            self.0.extend_from_slice(b", ");
        }
        self.0.push(b'"');
        self.0.extend_from_slice(key.as_bytes());
        self.0.extend_from_slice(b"\": ");
        self
    }

    /// Never refused: no value here is a map, let alone one with odd keys.
    fn put(&mut self, key: &str, value: impl Serialize) {
        let _ = serde_json::to_writer(&mut self.key(key).0, &value);
    }

    /// A word of the program's own, or digits, a fraction and a sign: nothing in
    /// it is to be escaped.
    fn word(&mut self, key: &str, word: &str) {
        let text = &mut self.key(key).0;
        text.push(b'"');
        text.extend_from_slice(word.as_bytes());
        text.push(b'"');
    }

    /// All of it; what is put in is never anything but text.
    fn written(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or_default()
    }
}

/// A key behind others, with an array of a line for each of `values`.
fn lines<T>(
    key: &str,
    values: impl Iterator<Item = T>,
    out: &mut dyn Write,
    mut put: impl FnMut(T, &mut Text),
) -> fmt::Result {
    write!(out, ",\n \"{key}\": [")?;
    let mut line = Text::default();
    for (at, value) in values.enumerate() {
        line.0.clear();
        put(value, &mut line);
        out.write_str(if at == 0 { "\n  " } else { ",\n  " })?;
        out.write_str(line.written())?;
    }
    out.write_str("]")
}

/// Never refused, as [`Text::put`].
fn one(value: impl Serialize) -> String {
    serde_json::to_string(&value).unwrap_or_default()
}

fn tenth(value: f64) -> f64 {
    rounded(value, 10.0)
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
        assert_eq!(one(tenth(38.912)), "38.9");
        assert_eq!(one(tenth(-0.04)), "0.0");
    }
}
