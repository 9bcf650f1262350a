//! What a plan is made of: what comes in, and what it says of each piece.

use super::{offcut::Offcut, rack::OffcutNumber};
use crate::domain::measure::Name;
use crate::domain::piece::{PieceId, PieceSpec};

/// A piece left to cut.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct LeftToCut {
    pub id: PieceId,
    pub spec: PieceSpec,
    /// The colour lot it must have; those without one are a lot of their own.
    pub lot: Option<Name>,
}

/// What a piece is planned to be cut from.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum PlannedStock {
    New,
    Rack(OffcutNumber),
    /// The offcut that a piece cut earlier will leave.
    LeftBy(PieceId),
}

/// What becomes of what a cut leaves of its stock.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Rest {
    /// It is kept for a piece cut later.
    KeptFor {
        piece: PieceId,
        /// What is written on it, once it is cut.
        number: Option<OffcutNumber>,
    },
    /// It has no use.
    Waste,
    /// Nothing is left: a full panel or a bent corner.
    Nothing,
}

impl Rest {
    /// Kept for `piece`, and not cut yet.
    pub const fn kept_for(piece: PieceId) -> Self {
        Self::KeptFor {
            piece,
            number: None,
        }
    }
}

/// One piece of a plan.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct PlannedPiece {
    pub id: PieceId,
    pub stock: PlannedStock,
    pub rest: Rest,
}

impl PlannedPiece {
    /// A new panel for it alone.
    pub fn alone(piece: &LeftToCut) -> Self {
        Self {
            id: piece.id,
            stock: PlannedStock::New,
            rest: match Offcut::left_by(&piece.spec) {
                Some(_) => Rest::Waste,
                None => Rest::Nothing,
            },
        }
    }
}

/// Why a promise is released.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum WhyReleased {
    NotLeft,
    /// The piece does not fit the offcut, or no longer.
    NoFit,
    /// The piece is promised an offcut already, by an older promise.
    PromisedBefore,
    /// Fewer panels are opened without it.
    FewerPanels,
}

/// A promise that the plan does not keep.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Released {
    pub offcut: OffcutNumber,
    pub piece: PieceId,
    pub why: WhyReleased,
}
