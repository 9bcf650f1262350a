//! The cut sheet as JSON, for other programs.
//!
//! Mark positions are exact, in millimetres with up to six decimals; the skew
//! has two decimals, other lengths (mm) and areas (mm2) one. Keys are added as
//! the program grows, never renamed. One line per piece, so that line tools
//! serve too.

use super::rows::{EdgeRows, Row, Rows};
use crate::domain::cutting::{EdgeDoubt, Job, doubts_of};
use crate::domain::log::CourseNumber;
use crate::domain::piece::Ends;
use crate::sheet::SheetError;
use serde::Serialize;

/// The cut sheet of `job` as JSON, ending with a newline.
///
/// # Errors
/// [`SheetError`] where the JSON library refuses; no job is known that does.
pub fn json(job: &Job) -> Result<String, SheetError> {
    json_of(&Rows::of(job))
}

/// A cut sheet as JSON, ending with a newline.
///
/// # Errors
/// As [`json()`].
pub fn json_of(rows: &Rows<'_>) -> Result<String, SheetError> {
    let job = rows.job;
    let keys = [
        ("job", one(&job.name.as_str())?),
        ("blade", one(&job.settings.blade.word())?),
        ("panels", one(&rows.panels)?),
        ("pieces", pieces(rows)?),
        ("doubtful", doubtful(rows)?),
    ];
    let lines = keys.map(|(key, value)| format!("\"{key}\": {value}"));
    Ok(format!("{{{}}}\n", lines.join(",\n ")))
}

fn pieces(rows: &Rows<'_>) -> Result<String, SheetError> {
    let of_edge = |edge: &EdgeRows<'_>| -> Vec<_> {
        let name = edge.edge.name.as_str();
        edge.rows
            .iter()
            .map(|row| one(&piece_json(name, row)))
            .collect()
    };
    lines(rows.edges.iter().flat_map(of_edge))
}

/// One line per doubt; `off_mm` is what was read less what is likely.
fn doubtful(rows: &Rows<'_>) -> Result<String, SheetError> {
    lines(
        doubts_of(rows.job)
            .into_iter()
            .filter_map(|EdgeDoubt { edge, doubt }| {
                let shown = rows.edges.iter().find(|shown| shown.edge.id == edge)?;
                let others = doubt.others.iter().map(|other| OtherJson {
                    reading: other.reading.word(),
                    likely_mm: tenth(other.likely.mm()),
                    cause: other.cause.words(),
                });
                Some(one(&DoubtJson {
                    edge: shown.edge.name.as_str(),
                    course: doubt.course.map(CourseNumber::get),
                    reading: doubt.reading.word(),
                    off_mm: tenth(doubt.off.mm()),
                    likely_mm: tenth(doubt.likely.mm()),
                    cause: doubt.cause.words(),
                    others: others.collect(),
                }))
            }),
    )
}

/// An array with a line for each of `values`.
fn lines(values: impl Iterator<Item = Result<String, SheetError>>) -> Result<String, SheetError> {
    let lines: Result<Vec<_>, _> = values.map(|line| Ok(format!("\n  {}", line?))).collect();
    Ok(format!("[{}]", lines?.join(",")))
}

/// One value on one line.
fn one(value: &impl Serialize) -> Result<String, SheetError> {
    serde_json::to_string(value)
        .map(|compact| spaced(&compact))
        .map_err(|error| SheetError::of(&error))
}

#[derive(Serialize)]
struct DoubtJson<'a> {
    edge: &'a str,
    course: Option<u32>,
    reading: &'static str,
    off_mm: f64,
    likely_mm: f64,
    cause: &'static str,
    others: Vec<OtherJson>,
}

#[derive(Serialize)]
struct OtherJson {
    reading: &'static str,
    likely_mm: f64,
    cause: &'static str,
}

#[derive(Serialize)]
struct PieceJson<'a> {
    edge: &'a str,
    kind: &'static str,
    hand: &'static str,
    course: u32,
    piece: u32,
    height_mm: f64,
    bend: Vec<MarkJson>,
    cut: Vec<MarkJson>,
    skew_deg: f64,
    bend_line_mm: f64,
    cut_line_mm: f64,
    turn_up_mm: f64,
    kept_mm2: f64,
    offcut_mm2: f64,
    on_table: &'static str,
    nose: &'static str,
    panel: Option<u32>,
    stock: &'static str,
    stage: &'static str,
}

#[derive(Serialize)]
struct MarkJson {
    at: &'static str,
    mm: f64,
}

fn piece_json<'a>(edge: &'a str, row: &Row) -> PieceJson<'a> {
    let Row {
        piece,
        label: _,
        bend,
        cut,
        skew_deg,
        bend_line_mm,
        cut_line_mm,
        turn_up,
        kept,
        offcut,
        lie: _,
        notes: _,
    } = row;
    PieceJson {
        edge,
        kind: piece.spec.kind.word(),
        hand: piece.spec.hand.word(),
        course: piece.id.course.get(),
        piece: piece.id.number,
        height_mm: tenth(piece.spec.bend.rise.mm()),
        bend: marks_json(*bend),
        cut: marks_json(*cut),
        skew_deg: rounded(*skew_deg, 100.0),
        bend_line_mm: tenth(*bend_line_mm),
        cut_line_mm: tenth(*cut_line_mm),
        turn_up_mm: tenth(turn_up.mm()),
        kept_mm2: tenth(kept.mm2()),
        offcut_mm2: tenth(offcut.mm2()),
        on_table: row.on_table(),
        nose: row.nose(),
        panel: piece.stock.panel(),
        stock: piece.stock.word(),
        stage: piece.stage.word(),
    }
}

/// Whole nanometres over a million are the double nearest to a decimal with at
/// most six places and twelve digits, which is what is printed of it.
fn marks_json(ends: Option<Ends>) -> Vec<MarkJson> {
    ends.into_iter()
        .flatten()
        .map(|mark| MarkJson {
            at: mark.at.word(),
            mm: mark.position.mm(),
        })
        .collect()
}

fn tenth(value: f64) -> f64 {
    rounded(value, 10.0)
}

/// To the nearest of `per_unit` steps; adding zero makes `-0` plain zero.
fn rounded(value: f64, per_unit: f64) -> f64 {
    (value * per_unit).round() / per_unit + 0.0
}

/// `compact` with a blank behind each colon and comma that is not in a string.
fn spaced(compact: &str) -> String {
    let mut text = String::with_capacity(compact.len() + compact.len() / 8);
    let (mut in_string, mut escaped) = (false, false);
    let mut copied = 0;
    for (at, byte) in compact.bytes().enumerate() {
        if in_string {
            in_string = escaped || byte != b'"';
            escaped = !escaped && byte == b'\\';
        } else if byte == b'"' {
            in_string = true;
        } else if byte == b':' || byte == b',' {
            text.push_str(compact.get(copied..=at).unwrap_or_default());
            text.push(' ');
            copied = at + 1;
        }
    }
    text.push_str(compact.get(copied..).unwrap_or_default());
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(compact: &str, expected: &str) {
        assert_eq!(spaced(compact), expected);
    }

    #[test]
    fn blanks_stand_behind_colons_and_commas_but_not_in_strings() {
        check(r#"{"a":1,"b":[2,3]}"#, r#"{"a": 1, "b": [2, 3]}"#);
        check(r#"{"a,b":"c:d"}"#, r#"{"a,b": "c:d"}"#);
        check(r#"["\\",":","\"",":"]"#, r#"["\\", ":", "\"", ":"]"#);
        check(r#"["é,",1]"#, r#"["é,", 1]"#);
    }

    #[test]
    fn figures_are_rounded_to_what_is_promised_of_them() {
        assert_eq!(rounded(40.006_2, 100.0), 40.01);
        assert_eq!(tenth(38.912), 38.9);
        assert!(tenth(-0.04).is_sign_positive());
    }
}
