//! What was done about pieces that no longer fit.

use super::{
    offcut::SavedTwin,
    range::{line_in, piece_id},
    settings::{bare, length},
};
use crate::domain::{
    bench::{Asked, Fact, SpoiledBy},
    measure::{Length, SkewLine},
    piece::PieceId,
};
use serde::{Deserialize, Serialize};

/// A line across a course.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "Line", deny_unknown_fields)]
pub(super) struct LineTwin {
    #[serde(with = "length")]
    at_nose: Length,
    #[serde(with = "length")]
    at_rise: Length,
    #[serde(with = "length")]
    rise: Length,
}

impl LineTwin {
    pub(super) const fn of(line: &SkewLine) -> Self {
        Self {
            at_nose: line.at_nose,
            at_rise: line.at_rise,
            rise: line.rise,
        }
    }

    pub(super) fn checked(self) -> Result<SkewLine, String> {
        line_in(self.at_nose, self.at_rise, self.rise)
    }
}

#[derive(Serialize, Deserialize)]
#[serde(rename = "TakenBack", deny_unknown_fields)]
pub(super) struct TakenBackTwin {
    edge: u32,
    course: u32,
    piece: u32,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    kept: Option<SavedTwin>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename = "BendStruck", deny_unknown_fields)]
pub(super) struct BendStruckTwin {
    edge: u32,
    course: u32,
    piece: u32,
    bend: LineTwin,
}

#[derive(Serialize, Deserialize)]
#[serde(rename = "Stays", deny_unknown_fields)]
pub(super) struct StaysTwin {
    edge: u32,
    course: u32,
    piece: u32,
    /// The bend line that the log asked for; left out where it asked for another
    /// piece altogether.
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    asked: Option<LineTwin>,
    /// The near one of a piece cut at both ends.
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    near: Option<LineTwin>,
}

impl TakenBackTwin {
    pub(super) fn of(piece: PieceId, kept: Option<SavedTwin>) -> Self {
        Self {
            edge: piece.edge.0,
            course: piece.course.get(),
            piece: piece.number,
            kept,
        }
    }

    pub(super) fn checked(self) -> Result<Fact, String> {
        Ok(Fact::TakenBack {
            piece: piece_id(self.edge, self.course, self.piece)?,
            kept: self.kept.map(SavedTwin::checked).transpose()?,
        })
    }
}

impl BendStruckTwin {
    pub(super) const fn of(piece: PieceId, bend: &SkewLine) -> Self {
        Self {
            edge: piece.edge.0,
            course: piece.course.get(),
            piece: piece.number,
            bend: LineTwin::of(bend),
        }
    }

    pub(super) fn checked(self) -> Result<Fact, String> {
        Ok(Fact::BendStruck {
            piece: piece_id(self.edge, self.course, self.piece)?,
            bend: self.bend.checked()?,
        })
    }
}

impl StaysTwin {
    pub(super) fn of(piece: PieceId, asked: Asked) -> Self {
        let (bend, near) = match asked {
            Asked::Lines { bend, near } => (Some(bend), near),
            Asked::Otherwise => (None, None),
        };
        Self {
            edge: piece.edge.0,
            course: piece.course.get(),
            piece: piece.number,
            asked: bend.as_ref().map(LineTwin::of),
            near: near.as_ref().map(LineTwin::of),
        }
    }

    pub(super) fn checked(self) -> Result<Fact, String> {
        let near = self.near.map(LineTwin::checked).transpose()?;
        let asked = match self.asked {
            Some(bend) => Asked::Lines {
                bend: bend.checked()?,
                near,
            },
            None if near.is_some() => {
                return Err("near without asked: expected both lines".to_owned());
            }
            None => Asked::Otherwise,
        };
        Ok(Fact::Stays {
            piece: piece_id(self.edge, self.course, self.piece)?,
            asked,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "SpoiledBy", rename = "SpoiledBy")]
enum SpoiledByTwin {
    Reading,
    Mark,
    Cut,
    Bend,
    Dropped,
}

/// What a piece was spoiled by, or nothing.
pub(super) mod spoiled_by {
    use super::{SpoiledBy, SpoiledByTwin};
    use serde::{Deserializer, Serializer};

    pub(in crate::storage::job_file) fn serialize<S: Serializer>(
        why: &Option<SpoiledBy>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        match why {
            Some(why) => SpoiledByTwin::serialize(why, serializer),
            None => serializer.serialize_unit(),
        }
    }

    pub(in crate::storage::job_file) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<SpoiledBy>, D::Error> {
        SpoiledByTwin::deserialize(deserializer).map(Some)
    }
}
