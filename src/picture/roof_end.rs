//! One end of a roof plane, seen from the eave: three courses of full panels
//! and the piece that fills the gap to the edge.
//!
//! The one place that says how each kind of edge leans: a hip leans in over the
//! courses going up, a valley as much out, a rake stands square.

use crate::domain::{measure::Hand, roof::EdgeKind};

/// Which way an edge runs over its own courses, going up.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Lean {
    In,
    Out,
    Upright,
}

/// How that kind of edge leans.
pub const fn lean(kind: EdgeKind) -> Lean {
    match kind {
        EdgeKind::Hip => Lean::In,
        EdgeKind::Valley => Lean::Out,
        EdgeKind::Rake => Lean::Upright,
    }
}

/// The end in characters: the ridge, then two courses of two rows each, the
/// eave at the bottom. Left-hand pieces stand at the right end; the left end is
/// its mirror.
pub fn end_rows(kind: EdgeKind, hand: Hand) -> [String; 5] {
    let right_end = match kind {
        EdgeKind::Hip => [
            " _____________",
            "|   |   |   | \\",
            "|___|___|___|__\\",
            "|   |   |   |   \\",
            "|___|___|___|____\\",
        ],
        EdgeKind::Valley => [
            "______________",
            "|   |   |   | /",
            "|___|___|___|/",
            "|   |   |  /",
            "|___|___|_/",
        ],
        EdgeKind::Rake => [
            "______________",
            "|   |   |   | |",
            "|___|___|___|_|",
            "|   |   |   | |",
            "|___|___|___|_|",
        ],
    };
    match hand {
        Hand::Left => right_end.map(str::to_owned),
        Hand::Right => right_end.map(mirrored),
    }
}

/// How wide the widest of the ends is.
const END_COLUMNS: usize = 18;

fn mirrored(row: &str) -> String {
    let turned = row.chars().rev().map(|sign| match sign {
        '/' => '\\',
        '\\' => '/',
        other => other,
    });
    let turned: String = turned.collect();
    format!("{turned:>END_COLUMNS$}").trim_end().to_owned()
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
