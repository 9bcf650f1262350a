//! How a reading is taken: where it ends on the field's side, and how the tape
//! is held at the board.
//!
//! Which way the panels lap says to what an edge is read. Looking up, where
//! each panel lies over its left neighbour, the piece at the right end of a
//! course lies on top: its lap line is in sight. The piece at the left end goes
//! under the last panel and is read to that panel's edge (common practice).
//!
//! ```text
//!   over its left neighbour     edge /|   |1      [2      [3      |\ edge
//!                                   under the edge of 1    on 3's lap line
//! ```

use crate::domain::measure::Hand;

/// Where a reading ends on the field's side.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum ReadTo {
    /// The side-lap line on the last full panel.
    LapLine,
    /// The edge of the last full panel; the side lap is added.
    PanelEdge,
}

impl ReadTo {
    /// Both, the usual one first.
    pub const ALL: [Self; 2] = [Self::LapLine, Self::PanelEdge];

    /// The one that the piece at the other side of a lap is read to.
    pub const fn other(self) -> Self {
        match self {
            Self::LapLine => Self::PanelEdge,
            Self::PanelEdge => Self::LapLine,
        }
    }

    /// `lap-line` or `panel-edge`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::LapLine => "lap-line",
            Self::PanelEdge => "panel-edge",
        }
    }

    /// [`ReadTo::word`] as people say it.
    pub const fn said(self) -> &'static str {
        match self {
            Self::LapLine => "to the side-lap line",
            Self::PanelEdge => "to the last panel's edge",
        }
    }
}

/// How the tape's end is held at the hip board.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum TapeEnd {
    /// Off the board by the clearance; the reading already has it.
    HeldOff,
    /// Hard against the board; the bench takes the clearance off.
    Hard,
}

impl TapeEnd {
    /// Both, the usual one first.
    pub const ALL: [Self; 2] = [Self::HeldOff, Self::Hard];

    /// `held-off` or `hard`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::HeldOff => "held-off",
            Self::Hard => "hard",
        }
    }

    /// [`TapeEnd::word`] as people say it.
    pub const fn said(self) -> &'static str {
        match self {
            Self::HeldOff => "held off",
            Self::Hard => "hard against it",
        }
    }
}

/// Over which neighbour each panel lies, looking up the roof.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum PanelsLie {
    #[default]
    NotSaid,
    OverLeft,
    OverRight,
}

impl PanelsLie {
    /// To what an edge with pieces of `hand` is read, where that follows.
    pub const fn reads_to(self, hand: Hand) -> Option<ReadTo> {
        Some(match (self, hand) {
            (Self::NotSaid, _) => return None,
            (Self::OverLeft, Hand::Left) | (Self::OverRight, Hand::Right) => ReadTo::LapLine,
            (Self::OverLeft, Hand::Right) | (Self::OverRight, Hand::Left) => ReadTo::PanelEdge,
        })
    }
}
