//! Version 1 of offcuts, promises and what pieces are cut from.

use super::{
    v1_range::{FARTHEST, counted, offcut_number, piece_id, within},
    v1_settings::{HandV1, bare, length},
};
use crate::domain::{
    bench::{CutRest, GoneBy, MarkedStock, SavedOffcut},
    measure::{Hand, Length, SkewLine},
    piece::{Panel, PieceId},
    stock::Offcut,
};
use serde::{Deserialize, Serialize};

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "Piece", deny_unknown_fields)]
pub(super) struct PieceV1 {
    edge: u32,
    course: u32,
    piece: u32,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "Stock", deny_unknown_fields)]
pub(super) enum StockV1 {
    New {
        panel: u32,
    },
    Offcut {
        offcut: u32,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
        panel: Option<u32>,
    },
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "Rest", deny_unknown_fields)]
pub(super) enum RestV1 {
    Kept { offcut: u32, promised: PieceV1 },
    Waste,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "Offcut", deny_unknown_fields)]
pub(super) struct OffcutV1 {
    #[serde(with = "HandV1")]
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
pub(super) struct SavedV1 {
    number: u32,
    offcut: OffcutV1,
    promised: PieceV1,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "GoneBy")]
pub(super) enum GoneByV1 {
    Thrown,
    Used,
}

impl PieceV1 {
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

impl StockV1 {
    pub(super) fn of(stock: MarkedStock) -> Self {
        match stock {
            MarkedStock::New { panel } => Self::New { panel },
            MarkedStock::Offcut { offcut, panel } => Self::Offcut {
                offcut: offcut.0,
                panel,
            },
        }
    }

    pub(super) fn checked(self) -> Result<MarkedStock, String> {
        Ok(match self {
            Self::New { panel } => MarkedStock::New {
                panel: counted("panel", panel)?,
            },
            Self::Offcut { offcut, panel } => MarkedStock::Offcut {
                offcut: offcut_number(offcut)?,
                panel: panel.map(|panel| counted("panel", panel)).transpose()?,
            },
        })
    }
}

impl RestV1 {
    pub(super) fn of(rest: CutRest) -> Self {
        match rest {
            CutRest::Kept { offcut, promised } => Self::Kept {
                offcut: offcut.0,
                promised: PieceV1::of(promised),
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

impl OffcutV1 {
    pub(super) fn of(offcut: &Offcut) -> Self {
        let Offcut {
            whole,
            panel: Panel { width, height },
            limit:
                SkewLine {
                    at_nose,
                    at_rise,
                    rise,
                },
        } = *offcut;
        Self {
            whole,
            at_nose,
            at_rise,
            rise,
            panel_width: width,
            panel_height: height,
        }
    }

    pub(super) fn checked(self) -> Result<Offcut, String> {
        let least = Length::from_nm(1);
        within("at_nose", self.at_nose, -FARTHEST, FARTHEST)?;
        within("at_rise", self.at_rise, -FARTHEST, FARTHEST)?;
        within("rise", self.rise, least, Length::LONGEST)?;
        within("panel_width", self.panel_width, least, Length::LONGEST)?;
        within("panel_height", self.panel_height, least, Length::LONGEST)?;
        Ok(Offcut {
            whole: self.whole,
            panel: Panel {
                width: self.panel_width,
                height: self.panel_height,
            },
            limit: SkewLine {
                at_nose: self.at_nose,
                at_rise: self.at_rise,
                rise: self.rise,
            },
        })
    }
}

impl SavedV1 {
    pub(super) fn of(saved: &SavedOffcut) -> Self {
        let SavedOffcut {
            number,
            offcut,
            promised,
        } = saved;
        Self {
            number: number.0,
            offcut: OffcutV1::of(offcut),
            promised: PieceV1::of(*promised),
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

impl GoneByV1 {
    pub(super) const fn of(by: GoneBy) -> Self {
        match by {
            GoneBy::Thrown => Self::Thrown,
            GoneBy::Used => Self::Used,
        }
    }

    pub(super) const fn checked(self) -> GoneBy {
        match self {
            Self::Thrown => GoneBy::Thrown,
            Self::Used => GoneBy::Used,
        }
    }
}
