//! What rows say of an edge beside its readings: slopes, corner, plane, lot.
//!
//! The first row of an edge that says one of them gives it; later rows may say
//! nothing of it or the same. What the job's own edge has already comes before
//! any row. How each is written is [`EdgeDetail`]'s matter.

use crate::domain::log::{Edge, EdgeDetail, EdgeId};
use crate::domain::measure::{Hand, Name, cleaned};
use crate::domain::roof::EdgeKind;
use crate::domain::tape::numbers_of_date;

/// How many there are.
pub(super) const COUNT: usize = EdgeDetail::ALL.len();

/// The columns' names, in the order of [`EdgeDetail::ALL`].
pub(super) const COLUMNS: [&str; COUNT] = {
    let [slope, other_slope, corner, plane, lot, reads_to, tape_end] = EdgeDetail::ALL;
    [
        slope.column(),
        other_slope.column(),
        corner.column(),
        plane.column(),
        lot.column(),
        reads_to.column(),
        tape_end.column(),
    ]
};

/// One of them as a row says it.
struct Saying {
    detail: EdgeDetail,
    /// The cell as it is written.
    cell: String,
    /// The same as the program writes it.
    text: String,
    /// The row's line; `None` where the job had it before.
    line: Option<u64>,
}

/// What is known of one edge so far.
#[derive(Default)]
pub(super) struct Details(Vec<Saying>);

impl Details {
    /// Takes what the row on `line` says of an edge called `name`; `edge` is
    /// the job's own, if it has one. Each thing wrong with it is put to `wrong`.
    pub(super) fn take(
        &mut self,
        cells: [&str; COUNT],
        line: u64,
        name: &Name,
        edge: Option<&Edge>,
        wrong: &mut Vec<String>,
    ) {
        for (detail, cell) in said(cells) {
            let known = self.0.iter().find(|known| known.detail == detail);
            let settled = match known {
                // Most rows of an edge write it the same way: nothing to be read.
                Some(known) if known.cell == cell => continue,
                Some(known) => read(detail, cell).and_then(|text| known.agree(name, &text)),
                None => read(detail, cell).and_then(|text| {
                    let first = Saying::first(detail, cell, &text, line, edge);
                    let agreed = first.agree(name, &text);
                    self.0.push(first);
                    agreed
                }),
            };
            wrong.extend(settled.err());
        }
    }

    /// Whether a row says what the job did not have.
    pub(super) fn is_more(&self) -> bool {
        self.0.iter().any(|saying| saying.line.is_some())
    }

    /// Writes into `edge` what the rows say more.
    pub(super) fn write(&self, edge: &mut Edge) {
        for saying in self.0.iter().filter(|saying| saying.line.is_some()) {
            // Never refused: this very cell was read before.
            let _ = saying.detail.set(edge, &saying.cell);
        }
    }
}

impl Saying {
    /// What is to be known of `detail` when a row says it for the first time:
    /// what the job has, or else what the row says.
    fn first(detail: EdgeDetail, cell: &str, text: &str, line: u64, edge: Option<&Edge>) -> Self {
        match edge.and_then(|edge| given(detail, edge)) {
            Some(given) => Self {
                detail,
                cell: given.clone(),
                text: given,
                line: None,
            },
            None => Self {
                detail,
                cell: cell.to_owned(),
                text: text.to_owned(),
                line: Some(line),
            },
        }
    }

    /// Whether a row that says `row` of the edge called `name` says the same.
    fn agree(&self, name: &Name, row: &str) -> Result<(), String> {
        if self.text == row {
            return Ok(());
        }
        let place = self
            .line
            .map_or_else(|| "in the job".to_owned(), |line| format!("on line {line}"));
        Err(format!(
            "{} of \"{name}\" is \"{}\" {place} already, the row says \"{row}\"",
            self.detail.column(),
            self.text
        ))
    }
}

/// All that is wrong with `cells` by themselves.
pub(super) fn unread(cells: [&str; COUNT]) -> impl Iterator<Item = String> {
    said(cells).filter_map(|(detail, cell)| read(detail, cell).err())
}

fn said(cells: [&str; COUNT]) -> impl Iterator<Item = (EdgeDetail, &str)> {
    EdgeDetail::ALL
        .into_iter()
        .zip(cells)
        .filter(|(_, cell)| !cell.is_empty())
}

/// The cell as the program writes it.
fn read(detail: EdgeDetail, cell: &str) -> Result<String, String> {
    let mut edge = blank();
    detail.set(&mut edge, cell).map_err(|why| {
        let column = detail.column();
        match slope_of_date(detail, cell) {
            Some(rise) => format!(
                "{column}: \"{}\": the spreadsheet made a date of {rise}/12, expected it as text: set its cells to text and write it again",
                cleaned(cell)
            ),
            None => format!("{column}: {why}"),
        }
    })?;
    Ok(detail.text(&edge))
}

/// The rise in 12 of a slope that a spreadsheet made a date of.
fn slope_of_date(detail: EdgeDetail, cell: &str) -> Option<u8> {
    let is_slope = matches!(detail, EdgeDetail::Slope | EdgeDetail::OtherSlope);
    match numbers_of_date(cell).filter(|_| is_slope)? {
        [rise, 12] | [12, rise] => Some(rise),
        _ => None,
    }
}

/// What the job says of its edge; a corner of 90 degrees is nothing said.
fn given(detail: EdgeDetail, edge: &Edge) -> Option<String> {
    let text = detail.text(edge);
    (text != detail.text(&blank())).then_some(text)
}

/// An edge of which nothing was said.
fn blank() -> Edge {
    Edge::new(EdgeId(0), Name::or("", ""), EdgeKind::Hip, Hand::Left)
}
