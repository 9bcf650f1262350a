//! The names of the columns of readings as CSV.

use super::detail;

pub(super) const NAMES: [&str; 15] = {
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
