//! Offcuts, promises and what pieces are cut from.

use super::{
    range::{line_in, offcut_number, panel_in, piece_id},
    settings::{HandTwin, bare, length},
};
use crate::domain::{
    bench::{CutRest, GoneBy, MarkedStock, SavedOffcut},
    measure::{Hand, Length},
    piece::PieceId,
    stock::{Offcut, OffcutNumber},
};
use serde::{Deserialize, Serialize};

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "Piece", deny_unknown_fields)]
pub(super) struct PieceTwin {
    edge: u32,
    course: u32,
    piece: u32,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "OffcutNumber", transparent)]
struct OffcutNumberTwin(u32);

#[derive(Serialize, Deserialize)]
#[serde(remote = "MarkedStock", rename = "Stock", deny_unknown_fields)]
pub(super) enum StockTwin {
    New {
        panel: u32,
    },
    Offcut {
        #[serde(with = "OffcutNumberTwin")]
        offcut: OffcutNumber,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
        panel: Option<u32>,
    },
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "Rest", deny_unknown_fields)]
pub(super) enum RestTwin {
    Kept { offcut: u32, promised: PieceTwin },
    Waste,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "Offcut", deny_unknown_fields)]
pub(super) struct OffcutTwin {
    #[serde(with = "HandTwin")]
    whole: Hand,
    #[serde(with = "length")]
    at_nose: Length,
    #[serde(with = "length")]
    at_rise: Length,
    #[serde(with = "length")]
    rise: Length,
    #[serde(with = "length")]
    panel_width: Length,
    #[serde(with = "length")]
    panel_height: Length,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "Saved", deny_unknown_fields)]
pub(super) struct SavedTwin {
    number: u32,
    offcut: OffcutTwin,
    promised: PieceTwin,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "GoneBy", rename = "GoneBy")]
pub(super) enum GoneByTwin {
    Thrown,
    Used,
}

impl PieceTwin {
    pub(super) fn of(id: PieceId) -> Self {
        Self {
            edge: id.edge.0,
            course: id.course.get(),
            piece: id.number,
        }
    }

    pub(super) fn checked(self) -> Result<PieceId, String> {
        piece_id(self.edge, self.course, self.piece)
    }
}

impl RestTwin {
    pub(super) fn of(rest: CutRest) -> Self {
        match rest {
            CutRest::Kept { offcut, promised } => Self::Kept {
                offcut: offcut.0,
                promised: PieceTwin::of(promised),
            },
            CutRest::Waste => Self::Waste,
        }
    }

    pub(super) fn checked(self) -> Result<CutRest, String> {
        Ok(match self {
            Self::Kept { offcut, promised } => CutRest::Kept {
                offcut: offcut_number(offcut)?,
                promised: promised.checked()?,
            },
            Self::Waste => CutRest::Waste,
        })
    }
}

impl OffcutTwin {
    pub(super) fn of(offcut: &Offcut) -> Self {
        Self {
            whole: offcut.whole,
            at_nose: offcut.limit.at_nose,
            at_rise: offcut.limit.at_rise,
            rise: offcut.limit.rise,
            panel_width: offcut.panel.width,
            panel_height: offcut.panel.height,
        }
    }

    pub(super) fn checked(self) -> Result<Offcut, String> {
        Ok(Offcut {
            limit: line_in(self.at_nose, self.at_rise, self.rise)?,
            panel: panel_in(self.panel_width, self.panel_height)?,
            whole: self.whole,
        })
    }
}

impl SavedTwin {
    pub(super) fn of(saved: &SavedOffcut) -> Self {
        Self {
            number: saved.number.0,
            offcut: OffcutTwin::of(&saved.offcut),
            promised: PieceTwin::of(saved.promised),
        }
    }

    pub(super) fn checked(self) -> Result<SavedOffcut, String> {
        Ok(SavedOffcut {
            number: offcut_number(self.number)?,
            offcut: self.offcut.checked()?,
            promised: self.promised.checked()?,
        })
    }
}
