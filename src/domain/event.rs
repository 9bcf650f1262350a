//! What the cutter did at the bench, written down one fact after another.
//!
//! Everything shown about progress is derived from these facts; undo drops the
//! last ones. A fact says what was done, never what follows from it.

use super::edge::EdgeId;
use super::length::Length;
use super::piece::{PieceId, PieceSpec};

/// Seconds since 1970-01-01 00:00:00 UTC.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Utc(pub i64);

/// What a piece is cut from.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Stock {
    /// A panel opened for it, numbered 1 upward.
    New {
        /// The panel's number.
        panel: u32,
    },
}

impl Stock {
    /// The number of the panel it comes from.
    #[must_use]
    pub const fn panel(self) -> u32 {
        match self {
            Self::New { panel } => panel,
        }
    }

    /// `new`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::New { .. } => "new",
        }
    }
}

/// One fact of the bench.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Fact {
    /// The piece was marked, with these figures, on this stock.
    Marked {
        /// Which piece.
        piece: PieceId,
        /// Its figures as they were marked.
        spec: Box<PieceSpec>,
        /// What it is cut from.
        stock: Stock,
    },
    /// It was cut.
    Cut(PieceId),
    /// It was bent.
    Bent(PieceId),
    /// It was labelled and stacked.
    Stacked(PieceId),
    /// The first pieces were tried on the roof: from here on, those of this
    /// edge not yet marked are `by` longer (shorter where below zero).
    Corrected {
        /// Which edge.
        edge: EdgeId,
        /// How much longer.
        by: Length,
    },
}

impl Fact {
    /// The piece it is about, if it is about one.
    #[must_use]
    pub const fn piece(&self) -> Option<PieceId> {
        match self {
            Self::Marked { piece, .. }
            | Self::Cut(piece)
            | Self::Bent(piece)
            | Self::Stacked(piece) => Some(*piece),
            Self::Corrected { .. } => None,
        }
    }

    /// The edge it is about.
    #[must_use]
    pub const fn edge(&self) -> EdgeId {
        match self {
            Self::Marked { piece, .. }
            | Self::Cut(piece)
            | Self::Bent(piece)
            | Self::Stacked(piece) => piece.edge,
            Self::Corrected { edge, .. } => *edge,
        }
    }

    /// What was done, in one word of the trade.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Marked { .. } => "marked",
            Self::Cut(_) => "cut",
            Self::Bent(_) => "bent",
            Self::Stacked(_) => "stacked",
            Self::Corrected { .. } => "corrected",
        }
    }
}

/// A fact with its time.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BenchEvent {
    /// When; `None` where the clock was unknown or had run back.
    pub at: Option<Utc>,
    /// Whether the same key press wrote the event before it too, so that one
    /// undo takes back both.
    pub joined: bool,
    /// What was done.
    pub fact: Fact,
}
