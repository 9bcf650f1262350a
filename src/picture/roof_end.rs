//! One end of a roof plane, seen from the eave: three courses of full panels
//! and the piece that fills the gap to the edge.
//!
//! The one place that says how each kind of edge leans: a hip leans in over the
//! courses going up, a valley as much out, a rake stands square.

use crate::domain::{measure::Hand, roof::EdgeKind};

/// The end in characters: the ridge, then two courses of two rows each, the
/// eave at the bottom. Left-hand pieces stand at the right end.
pub const fn end_rows(kind: EdgeKind, hand: Hand) -> [&'static str; 5] {
    match (kind, hand) {
        (EdgeKind::Hip, Hand::Left) => [
            " _____________",
            "|   |   |   | \\",
            "|___|___|___|__\\",
            "|   |   |   |   \\",
            "|___|___|___|____\\",
        ],
        (EdgeKind::Hip, Hand::Right) => [
            "    _____________",
            "   / |   |   |   |",
            "  /__|___|___|___|",
            " /   |   |   |   |",
            "/____|___|___|___|",
        ],
        (EdgeKind::Valley, Hand::Left) => [
            "______________",
            "|   |   |   | /",
            "|___|___|___|/",
            "|   |   |  /",
            "|___|___|_/",
        ],
        (EdgeKind::Valley, Hand::Right) => [
            "    ______________",
            "   \\ |   |   |   |",
            "    \\|___|___|___|",
            "      \\  |   |   |",
            "       \\_|___|___|",
        ],
        (EdgeKind::Rake, Hand::Left) => [
            "______________",
            "|   |   |   | |",
            "|___|___|___|_|",
            "|   |   |   | |",
            "|___|___|___|_|",
        ],
        (EdgeKind::Rake, Hand::Right) => [
            "    ______________",
            "   | |   |   |   |",
            "   |_|___|___|___|",
            "   | |   |   |   |",
            "   |_|___|___|___|",
        ],
    }
}

/// How far out the edge stands at the four course lines from the eave up, in
/// millimetres on a drawing whose last full panel ends at 36 and whose courses
/// are 8 high.
pub const fn edge_out_mm(kind: EdgeKind) -> [f64; 4] {
    match kind {
        EdgeKind::Hip => [60.0, 54.0, 48.0, 42.0],
        EdgeKind::Valley => [42.0, 48.0, 54.0, 60.0],
        EdgeKind::Rake => [51.0; 4],
    }
}
