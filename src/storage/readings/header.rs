//! The names of the columns of readings as CSV.

use super::{detail, error::ImportError};
use crate::domain::measure::cleaned;

pub(super) const NAMES: [&str; 16] = {
    let [slope, other_slope, corner, plane, lot, reads_to, tape_end] = detail::COLUMNS;
    [
        "edge",
        "kind",
        "hand",
        "course",
        "bottom",
        "top",
        "height",
        "runs_out",
        "to",
        slope,
        other_slope,
        corner,
        plane,
        lot,
        reads_to,
        tape_end,
    ]
};
/// So many of them, from the first, must be there.
pub(super) const REQUIRED: usize = 6;

/// Those that may be there, for a message.
pub(super) fn optional() -> String {
    let names: Vec<_> = NAMES.into_iter().skip(REQUIRED).collect();
    names.join(", ")
}

/// How a file's columns are parted, and where its header begins.
pub(super) struct Layout<'c> {
    pub(super) delimiter: u8,
    /// From the header on.
    pub(super) rows: &'c [u8],
    /// How many lines are before that.
    pub(super) lines: u64,
}

/// How the columns of `csv` are parted: as a first line such as `sep=;` says, or
/// as its header has it: a semicolon, as spreadsheets write it that keep the
/// comma for decimals, a tab, or a comma. No column's name has any in it.
pub(super) fn layout(csv: &[u8]) -> Result<Layout<'_>, ImportError> {
    let end = csv.iter().position(|byte| matches!(byte, b'\r' | b'\n'));
    let (first, rows) = csv.split_at(end.unwrap_or(csv.len()));
    let said = first.trim_ascii();
    let said = said.strip_prefix(b"\"").unwrap_or(said);
    if let Some((b"sep=" | b"SEP=" | b"Sep=", said)) = said.split_at_checked(4) {
        let said = said.strip_suffix(b"\"").unwrap_or(said);
        // A tab or blank behind it may have been taken off with the line's end.
        let delimiter = match said {
            [one @ (b',' | b';' | b'\t' | b'|')] => *one,
            [] if first.ends_with(b"\t") => b'\t',
            other => {
                let found = cleaned(&String::from_utf8_lossy(other));
                return Err(ImportError::Parted { found });
            }
        };
        let rows = rows.strip_prefix(b"\r").unwrap_or(rows);
        let rows = rows.strip_prefix(b"\n").unwrap_or(rows);
        return Ok(Layout {
            delimiter,
            rows,
            lines: 1,
        });
    }
    let mut lines = csv.split(|byte| matches!(byte, b'\r' | b'\n'));
    let header = lines.find(|line| !line.is_empty()).unwrap_or_default();
    let mut others = [b';', b'\t'].into_iter();
    let delimiter = others.find(|sign| header.contains(sign)).unwrap_or(b',');
    Ok(Layout {
        delimiter,
        rows: csv,
        lines: 0,
    })
}

/// A column by its number and its letters in a spreadsheet: `column 28 (AB)`;
/// `at` counts from 0.
pub(super) fn place(at: usize) -> String {
    let mut letters = String::new();
    let mut left = at + 1;
    while left > 0 {
        let letter = u8::try_from((left - 1) % 26).unwrap_or(0);
        letters.insert(0, char::from(b'A' + letter));
        left = (left - 1) / 26;
    }
    format!("column {} ({letters})", at + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_has_its_number_and_the_letters_of_a_spreadsheet() {
        for (at, expected) in [
            (0, "column 1 (A)"),
            (25, "column 26 (Z)"),
            (26, "column 27 (AA)"),
            (701, "column 702 (ZZ)"),
            (702, "column 703 (AAA)"),
        ] {
            assert_eq!(place(at), expected);
        }
    }
}
