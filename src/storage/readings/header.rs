//! The names of the columns of readings as CSV.

use super::detail;

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

/// The columns that must be there.
pub(super) const HEADER: &str = "edge,kind,hand,course,bottom,top";

/// Those that may be there, for a message.
pub(super) fn optional() -> String {
    let names: Vec<_> = NAMES.into_iter().skip(REQUIRED).collect();
    names.join(", ")
}

/// What parts the columns: a comma, or a semicolon where the header has one, as
/// spreadsheets write it that keep the comma for decimals. No column's name has
/// either in it.
pub(super) fn delimiter(csv: &[u8]) -> u8 {
    let header = csv
        .split(|byte| matches!(byte, b'\r' | b'\n'))
        .find(|line| !line.is_empty())
        .unwrap_or_default();
    if header.contains(&b';') { b';' } else { b',' }
}
