//! The cut sheet as JSON, for other programs.
//!
//! Mark positions are exact, in millimetres with up to six decimals; the skew
//! has two decimals, other lengths (mm) and areas (mm2) one. Keys are added as
//! the program grows, never renamed. One line per piece, so that line tools
//! serve too.

use super::SheetError;
use super::rows::{PanelCount, Row, Rows};
use crate::domain::job::Job;
use crate::domain::marks::Ends;
use serde::Serialize;
use serde_json::ser::Formatter;
use std::io;

/// The cut sheet of `job` as JSON, ending with a newline.
///
/// # Errors
/// [`SheetError`] where the JSON library refuses; no job is known that does.
pub fn json(job: &Job) -> Result<String, SheetError> {
    let rows = Rows::of(job);
    let mut text = Vec::new();
    let mut writer = serde_json::Serializer::with_formatter(&mut text, LinePerPiece::default());
    sheet_json(&rows)
        .serialize(&mut writer)
        .map_err(|error| SheetError::of(&error))?;
    text.push(b'\n');
    String::from_utf8(text).map_err(|error| SheetError::of(&error))
}

#[derive(Serialize)]
struct SheetJson<'a> {
    job: &'a str,
    blade: &'static str,
    panels: PanelsJson,
    pieces: Vec<PieceJson<'a>>,
    doubtful: [&'static str; 0],
}

#[derive(Serialize)]
struct PanelsJson {
    pieces: usize,
    new: usize,
    from_offcuts: usize,
    spoiled: usize,
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
    panel: u32,
    stock: &'static str,
    stage: &'static str,
}

#[derive(Serialize)]
struct MarkJson {
    at: &'static str,
    mm: f64,
}

fn sheet_json<'a>(rows: &'a Rows<'_>) -> SheetJson<'a> {
    let PanelCount {
        pieces,
        new,
        from_offcuts,
        spoiled,
    } = rows.panels;
    let piece_rows = rows.edges.iter().flat_map(|edge| {
        edge.rows
            .iter()
            .map(|row| piece_json(edge.edge.name.as_str(), row))
    });
    SheetJson {
        job: rows.job.name.as_str(),
        blade: rows.job.settings.blade.word(),
        panels: PanelsJson {
            pieces,
            new,
            from_offcuts,
            spoiled,
        },
        pieces: piece_rows.collect(),
        doubtful: [],
    }
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

/// `{"a": 1, "b": 2}` with every key of the sheet and every piece on a line of
/// its own.
#[derive(Default)]
struct LinePerPiece {
    depth: usize,
}

impl LinePerPiece {
    /// What stands between two values `depth` levels down.
    const fn gap(&self) -> &'static [u8] {
        match self.depth {
            1 => b",\n ",
            2 => b",\n  ",
            _ => b", ",
        }
    }
}

impl Formatter for LinePerPiece {
    fn begin_object<W: ?Sized + io::Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.depth += 1;
        writer.write_all(b"{")
    }

    fn end_object<W: ?Sized + io::Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.depth -= 1;
        writer.write_all(b"}")
    }

    fn begin_array<W: ?Sized + io::Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.depth += 1;
        writer.write_all(b"[")
    }

    fn end_array<W: ?Sized + io::Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.depth -= 1;
        writer.write_all(b"]")
    }

    fn begin_array_value<W: ?Sized + io::Write>(
        &mut self,
        writer: &mut W,
        first: bool,
    ) -> io::Result<()> {
        match (first, self.depth) {
            (true, 2) => writer.write_all(b"\n  "),
            (true, _) => Ok(()),
            (false, _) => writer.write_all(self.gap()),
        }
    }

    fn begin_object_key<W: ?Sized + io::Write>(
        &mut self,
        writer: &mut W,
        first: bool,
    ) -> io::Result<()> {
        match (first, self.depth) {
            (true, _) => Ok(()),
            (false, 1) => writer.write_all(self.gap()),
            (false, _) => writer.write_all(b", "),
        }
    }

    fn begin_object_value<W: ?Sized + io::Write>(&mut self, writer: &mut W) -> io::Result<()> {
        writer.write_all(b": ")
    }
}
