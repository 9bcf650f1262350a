//! The number an edge is called by, one row each: edge, kind, number.

use super::{error::DecodeError, settings::KindTwin};
use crate::domain::{
    cutting::{EdgeNumber, EdgeNumbers},
    log::EdgeId,
    roof::EdgeKind,
};
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
pub(super) struct NumberTwin(u32, #[serde(with = "KindTwin")] EdgeKind, u32);

impl NumberTwin {
    pub(super) const fn of(row: &EdgeNumber) -> Self {
        Self(row.edge.0, row.kind, row.number)
    }

    pub(super) const fn row(self) -> EdgeNumber {
        EdgeNumber {
            edge: EdgeId(self.0),
            kind: self.1,
            number: self.2,
        }
    }
}

/// Whether an edge that was made has it, and a number that it can have.
pub(super) fn is_possible(row: &EdgeNumber, next_edge: u32) -> bool {
    let given = 1..next_edge;
    given.contains(&row.edge.0) && given.contains(&row.number)
}

/// The rows of a file, where each number of a kind is one edge's.
pub(super) fn checked(rows: Vec<NumberTwin>, next_edge: u32) -> Result<EdgeNumbers, DecodeError> {
    let rows: Vec<EdgeNumber> = rows.into_iter().map(NumberTwin::row).collect();
    let refused = |row: &EdgeNumber, why: &str| {
        let what = format!(
            "edge {}, {} {}: {why}",
            row.edge.0,
            row.kind.word(),
            row.number
        );
        DecodeError::value("numbers", what)
    };
    if let Some(row) = rows.iter().find(|row| !is_possible(row, next_edge)) {
        let why = "expected both to be 1 or more and below next_edge";
        return Err(refused(row, why));
    }
    if let Some(row) = EdgeNumbers::twice(&rows) {
        let why = "expected each edge once a kind, and each number of a kind once";
        return Err(refused(&row, why));
    }
    Ok(EdgeNumbers::of(rows))
}
