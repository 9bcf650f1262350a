//! One piece as a line of the bench list has it, in words and figures.
//!
//! The same for every readable form: what stands in which column, said once.
//! Marks on nose and back are bare figures under their heading; one on a side says
//! so, for it is measured up from the nose.

use super::rows::{EdgeRows, Row, Rows};
use super::words;
use crate::domain::{
    bench::Stage,
    cutting::{Labels, PieceStock},
    measure::Hand,
    piece::{At, Ends, Lie, LineAt, Mark, Nose, Part},
    stock::Rest,
    tape::{Division, print},
};

/// One piece.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct ListRow {
    pub(super) label: String,
    /// The side the tape is pulled from.
    pub(super) tape: Hand,
    /// One, or two of a piece cut at both ends, in the order in which they are cut.
    pub(super) lines: Vec<ListLine>,
    /// `panel 12`, `offcut 2`, `offcut of H1-3 L`.
    pub(super) from: String,
    /// The colour lot of that, `lot A`.
    pub(super) lot: Option<String>,
    /// What becomes of the offcut: `write H2-7 L`, `waste`.
    pub(super) keep: Option<String>,
    /// What is out of the ordinary, behind its sign.
    pub(super) notes: Vec<String>,
    pub(super) stage: Stage,
}

/// One of its lines.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct ListLine {
    /// `H1 line`, where there are two, and as which of them it is cut: `H1 line, 1st`.
    pub(super) name: Option<String>,
    /// Nose end and back end; `None` where the line misses the panel.
    pub(super) bend: Option<[Figure; 2]>,
    pub(super) cut: Option<[Figure; 2]>,
    /// How the panel lies when it is cut.
    pub(super) lie: Option<Lie>,
}

/// Where a mark stands, as the tape shows it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Figure {
    pub(super) text: String,
    /// Where not on the line's own edge: `UP other end`. It is read before the figure,
    /// which would be taped along the nose else.
    pub(super) side: Option<&'static str>,
}

impl ListRow {
    /// What comes next, of a piece that is begun.
    pub(super) fn next(&self) -> Option<&'static str> {
        let begun = !matches!(self.stage, Stage::ToMark | Stage::Stacked);
        begun.then(|| self.stage.word())
    }

    /// The line of `row`, a piece of `edge`.
    pub(super) fn of(row: &Row, edge: &EdgeRows<'_>, sheet: &Rows<'_>) -> Self {
        let (piece, division) = (&row.piece, sheet.job.settings.division);
        let kind = piece.spec.kind;
        let notes = row.notes.iter();
        let notes = notes.map(|note| format!("! {}", note.words(kind, division)));
        let is_doubted = edge
            .doubts
            .iter()
            .any(|doubt| doubt.course == Some(piece.id.course) && piece.stage == Stage::ToMark);
        let doubted = is_doubted.then(|| "? doubtful reading: see above".to_owned());
        Self {
            label: row.label.clone(),
            tape: piece.spec.hand,
            lines: lines(row, &sheet.labels, division),
            from: from(&piece.stock, &sheet.labels),
            lot: row.lot.as_ref().map(|lot| format!("lot {lot}")),
            keep: keep(&piece.rest, &sheet.labels),
            notes: doubted.into_iter().chain(notes).collect(),
            stage: piece.stage,
        }
    }
}

fn lines(row: &Row, labels: &Labels, division: Division) -> Vec<ListLine> {
    let cuts: Vec<(LineAt, Lie)> = row.cuts().collect();
    let lie = |at: LineAt| {
        let (_, lie) = cuts.iter().find(|(line, _)| *line == at)?;
        Some(*lie)
    };
    let of_ends = |ends: Option<Ends>| {
        let [nose, back] = ends?;
        let (nose, back) = ((nose, At::Nose), (back, At::Back));
        Some([nose, back].map(|(mark, usual)| figure(mark, usual, division)))
    };
    let mut marked: Vec<_> = row.lines().collect();
    marked.sort_by_key(|line| words::turn(row, line.at));
    marked
        .into_iter()
        .map(|line| ListLine {
            name: words::line_in_turn(row, line.at, labels),
            bend: of_ends(line.bend),
            cut: of_ends(line.cut),
            lie: lie(line.at),
        })
        .collect()
}

fn figure(mark: Mark, usual: At, division: Division) -> Figure {
    let side = match mark.at {
        at if at == usual => None,
        At::Nose => Some("ON nose"),
        At::Back => Some("ON back"),
        At::FarSide => Some("UP other end"),
        At::HandSide => Some("UP whole end"),
    };
    Figure {
        text: print(mark.position, division),
        side,
    }
}

fn from(stock: &PieceStock, labels: &Labels) -> String {
    match stock {
        PieceStock::New { panel } => format!("panel {panel}"),
        PieceStock::Rack { number, .. } => format!("offcut {number}"),
        PieceStock::LeftBy { piece, .. } => format!("offcut of {}", labels.piece(*piece)),
    }
}

fn keep(rest: &Rest, labels: &Labels) -> Option<String> {
    match rest {
        Rest::KeptFor { piece, .. } => Some(format!("write {}", labels.piece(*piece))),
        Rest::Waste => Some("waste".to_owned()),
        Rest::Nothing => None,
    }
}

/// Which way the nose points, in two words.
pub(super) const fn nose(lie: Lie) -> &'static str {
    match lie.nose {
        Nose::Toward => "nose to you",
        Nose::Away => "nose AWAY",
    }
}

/// What lets go of the panel when it is cut.
pub(super) const fn drops(lie: Lie) -> &'static str {
    match lie.on_table {
        Part::Kept => "offcut drops",
        Part::Offcut => "PIECE drops",
    }
}
