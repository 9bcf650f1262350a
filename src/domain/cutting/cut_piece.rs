//! One piece in the cutting order, with its stage and its stock.

use crate::domain::bench::Stage;
use crate::domain::measure::{Hand, Polygon};
use crate::domain::piece::{Lie, Marks, PieceId, PieceSpec};
use crate::domain::stock::{Offcut, OffcutNumber, Rest};

/// One piece as it stands in the cutting order.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CutPiece {
    pub id: PieceId,
    /// Its figures: as marked, or as the log and settings give them.
    pub spec: PieceSpec,
    pub stage: Stage,
    pub stock: PieceStock,
    /// What of that stock is left, or will be, and what for.
    pub rest: Rest,
    pub log_gives: LogGives,
}

impl CutPiece {
    /// Whether anything is still to be done with it.
    pub fn is_open(&self) -> bool {
        self.stage != Stage::Stacked
    }

    /// What is left of its stock once it is cut, `x` from its own whole edge.
    pub fn left_of_stock(&self, marks: &Marks) -> Polygon {
        match self.stock.offcut() {
            Some(offcut) => offcut.left_after(&self.spec),
            None => marks.left.clone(),
        }
    }

    /// How its stock lies for the cut; none where nothing is cut.
    pub fn lie(&self, marks: &Marks, blade: Hand) -> Option<Lie> {
        let left = self.left_of_stock(marks).area();
        marks
            .cut
            .map(|_| Lie::of(marks.kept.area(), left, self.spec.hand, blade))
    }
}

/// Whether a marked piece is still the one the log asks for.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum LogGives {
    /// It is, or it is not marked yet.
    TheSame,
    /// Readings, hand or kind were changed after it was marked.
    Otherwise,
}

/// What a piece is, or will be, cut from.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum PieceStock {
    New {
        panel: u32,
    },
    /// An offcut that has lain on the rack.
    Rack {
        number: OffcutNumber,
        offcut: Offcut,
        /// The panel it came from; none for one found on site.
        panel: Option<u32>,
    },
    /// The offcut that a piece before it will leave.
    LeftBy {
        piece: PieceId,
        offcut: Offcut,
        panel: u32,
    },
}

impl PieceStock {
    /// The panel it comes from; none for an offcut found on site.
    pub const fn panel(&self) -> Option<u32> {
        match self {
            Self::New { panel } | Self::LeftBy { panel, .. } => Some(*panel),
            Self::Rack { panel, .. } => *panel,
        }
    }

    /// The offcut it is cut from; none for a new panel.
    pub const fn offcut(&self) -> Option<&Offcut> {
        match self {
            Self::New { .. } => None,
            Self::Rack { offcut, .. } | Self::LeftBy { offcut, .. } => Some(offcut),
        }
    }

    /// `new` or `offcut`.
    pub const fn word(&self) -> &'static str {
        match self.offcut() {
            None => "new",
            Some(_) => "offcut",
        }
    }
}
