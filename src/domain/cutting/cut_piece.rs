//! One piece in the cutting order, with its stage and its stock.

use super::{fit::Fit, second_trip::OnTrip};
use crate::domain::bench::Stage;
use crate::domain::measure::{Hand, Polygon};
use crate::domain::piece::{Lie, LineAt, Marks, PieceId, PieceSpec};
use crate::domain::stock::{Offcut, OffcutNumber, Rest};

/// One piece as it stands in the cutting order.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CutPiece {
    pub id: PieceId,
    /// Its figures: as marked, or as the log and settings give them.
    pub spec: PieceSpec,
    pub stage: Stage,
    /// One of its two lines is cut already, of a piece cut at both ends.
    pub first_cut: bool,
    pub stock: PieceStock,
    /// What of that stock is left, or will be, and what for.
    pub rest: Rest,
    /// How it fits what the log asks for now.
    pub fit: Fit,
    /// On which trip to the roof it is laid.
    pub trip: OnTrip,
}

impl CutPiece {
    /// Whether anything is still to be done with it.
    pub fn is_open(&self) -> bool {
        self.stage != Stage::Stacked
    }

    /// Whether it is not to be marked before the pieces before it are laid and the
    /// gap over them is read.
    pub fn waits(&self) -> bool {
        self.trip == OnTrip::Waits && self.stage == Stage::ToMark
    }

    /// What is left of its stock once it is cut, `x` from its own whole end; of
    /// one cut at both ends beyond its far cut.
    pub fn left_of_stock(&self, marks: &Marks) -> Polygon {
        match self.stock.offcut() {
            Some(offcut) => offcut.left_after(&self.spec),
            None => marks.left.clone(),
        }
    }

    /// The cut that comes now, or the last one; `None` where nothing is cut.
    pub fn cut_now(&self) -> Option<CutNow> {
        CutNow::of(&self.spec, self.stock.offcut(), self.first_cut)
    }

    /// How its stock lies for the cut; none where nothing is cut.
    pub fn lie(&self, blade: Hand) -> Option<Lie> {
        self.cut_now().map(|cut| cut.lie(blade))
    }
}

/// One cut at the table, with the parts as it makes them.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CutNow {
    pub line: LineAt,
    /// The piece with its line at the far end, from whose side all is measured:
    /// for the near line it is looked at from the far side.
    pub spec: PieceSpec,
    /// What lies on the table before the cut.
    pub stock: Polygon,
    /// Its part with the piece in it.
    pub kept: Polygon,
    /// What is taken off.
    pub left: Polygon,
}

impl CutNow {
    /// The cut of `spec` from its panel, or from `offcut`; the second one where
    /// the `first_cut` of two is made. `None` where nothing is cut.
    pub fn of(spec: &PieceSpec, offcut: Option<&Offcut>, first_cut: bool) -> Option<Self> {
        let cuts = Marks::of(spec).cuts();
        let (first, last) = (cuts.first().copied()?, cuts.last().copied()?);
        let line = if first_cut { last } else { first };
        let whole = || spec.panel.outline();
        let mut stock = offcut.map_or_else(whole, |offcut| offcut.outline_for(spec));
        let at = |line| match line {
            LineAt::Far => Some(spec.cut()),
            LineAt::Near => spec.near_cut(),
        };
        if line != first {
            let (nearer, farther) = stock.cut_by(&at(first)?);
            stock = match first {
                LineAt::Far => nearer,
                LineAt::Near => farther,
            };
        }
        let spec = match line {
            LineAt::Far => PieceSpec {
                near: None,
                ..*spec
            },
            LineAt::Near => {
                stock = stock.mirrored(spec.panel.width);
                spec.from_far_side()?
            }
        };
        let (kept, left) = stock.cut_by(&spec.cut());
        Some(Self {
            line,
            spec,
            stock,
            kept,
            left,
        })
    }

    /// How the stock lies for it at a table whose blade stands at `blade`.
    pub fn lie(&self, blade: Hand) -> Lie {
        Lie::of(self.kept.area(), self.left.area(), self.spec.hand, blade)
    }
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
