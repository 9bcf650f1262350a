//! What is left of a panel once something was cut from it.
//!
//! An offcut has one edge still whole and serves pieces of **that** edge's
//! hand. It remembers the line it was cut on, measured from the whole end and
//! unclipped: material lies between the whole end and the line, and nowhere
//! beyond the panel's own width.
//!
//! ```text
//!   back   +-----------\ - - - - - +     whole: left
//!          |  offcut    \          |     limit: the line, from the left edge
//!   whole  |             \  taken  |
//!   left   |              \        |
//!   nose   +---------------\ - - - +
//!          |--- at nose -->|
//! ```
//!
//! Three kinds come out the same: what a piece of the other hand left, the own
//! part of a spoiled piece (it keeps the piece's hand and ends at the piece's
//! cut line, or at its bend line once bent), and one found on site and measured
//! at nose and back. A piece that is cut across may come from one that is higher;
//! the offcut is cut across then, when its turn comes. It does not know numbers,
//! lots or promises: that is `rack.rs`.

use super::pair::{Share, SharedPanel};
use crate::domain::measure::{Hand, Length, Polygon, SkewLine};
use crate::domain::piece::{Panel, PieceSpec};

/// A part of a panel with one edge whole.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Offcut {
    /// The edge that is still whole: the hand of the pieces it can serve.
    pub whole: Hand,
    /// What it is a part of, as high as that was after it was cut across.
    pub panel: Panel,
    /// The line it was cut on, measured from the whole end.
    pub limit: SkewLine,
}

impl Offcut {
    /// What the piece `spec` leaves of its panel, the other edge whole; `None`
    /// where its cut line leaves nothing: a full panel or a bent corner.
    pub fn left_by(spec: &PieceSpec) -> Option<Self> {
        let offcut = Self {
            whole: spec.hand.other(),
            panel: spec.blank(),
            limit: spec.cut().mirrored(spec.panel.width),
        };
        // Where no cut is marked none is made, whatever lies above the marks.
        let panel = SharedPanel::new(spec.panel.width, spec.panel.height, Length::ZERO);
        Share::up_to(&offcut.limit, panel)
            .has_width(panel)
            .then_some(offcut)
    }

    /// The own part of a spoiled piece, good up to `line` (measured from the
    /// edge on the piece's hand): its bend line if it was bent, the line it was
    /// really cut on if that came out too short. Up to its own cut line it
    /// would serve the very piece that was spoiled.
    pub fn own_part(spec: &PieceSpec, line: SkewLine) -> Self {
        Self {
            whole: spec.hand,
            panel: spec.blank(),
            limit: line,
        }
    }

    /// One found on site, `at_nose` and `at_back` wide. One that runs to a
    /// point below its back is described by the width below zero that its edge
    /// would have there.
    pub const fn found(whole: Hand, panel: Panel, at_nose: Length, at_back: Length) -> Self {
        Self {
            whole,
            panel,
            limit: SkewLine {
                at_nose,
                at_rise: at_back,
                rise: panel.height,
            },
        }
    }

    /// Its widths at nose and back as a tape finds them: within the panel, to
    /// the nearest nanometre.
    pub fn widths(&self) -> [Length; 2] {
        [Length::ZERO, self.panel.height]
            .map(|y| self.limit.x(y).clamp(Length::ZERO, self.panel.width))
    }

    /// Its outline, `x` from the whole end, `y` up from the nose.
    pub fn outline(&self) -> Polygon {
        self.panel.outline().cut_by(&self.limit).0
    }

    /// Whether it is cut across first for the piece `spec`, which it serves.
    pub fn is_cut_across_for(&self, spec: &PieceSpec) -> bool {
        spec.across.is_some_and(|up| self.panel.height > up)
    }

    /// Its outline as far up as the piece `spec`, which it serves, is marked.
    pub fn outline_for(&self, spec: &PieceSpec) -> Polygon {
        let outline = self.outline();
        if self.panel.height > spec.panel.height {
            outline.below(spec.panel.height)
        } else {
            outline
        }
    }

    /// What is left of that once the piece `spec` is cut from it; `x` from the
    /// whole end.
    pub fn left_after(&self, spec: &PieceSpec) -> Polygon {
        self.outline_for(spec).cut_by(&spec.cut()).1
    }

    /// Whether the piece `spec` can be cut from it with `spare` between the
    /// piece and the line the offcut was cut on. One that is cut across comes from
    /// any that is high enough.
    pub fn serves(&self, spec: &PieceSpec, spare: Length) -> bool {
        let is_high_enough = match spec.across {
            Some(across) => self.panel.height >= across,
            None => self.panel.height == spec.panel.height,
        };
        if self.whole != spec.hand || self.panel.width != spec.panel.width || !is_high_enough {
            return false;
        }
        let panel = SharedPanel::new(self.panel.width, spec.top(), spare);
        Share::up_to(&spec.cut(), panel)
            .fits_beside(&Share::up_to(&self.taken_up_to(), panel), panel)
    }

    /// The line it was cut on, measured from the edge that is gone: up to there
    /// the panel was taken.
    pub(super) fn taken_up_to(&self) -> SkewLine {
        self.limit.mirrored(self.panel.width)
    }
}

/// Whether the piece `then` comes out of what the piece `first` leaves of its
/// panel, with `spare` between them.
pub fn share_a_panel(first: &PieceSpec, then: &PieceSpec, spare: Length) -> bool {
    Offcut::left_by(first).is_some_and(|offcut| offcut.serves(then, spare))
}
