//! A piece as it was marked, with all its figures.

use super::{
    offcut::StockTwin,
    range::{
        FARTHEST, LEAST, course_number, line_in, lot_in, panel_in, piece_id, stock_in, within,
    },
    settings::{HandTwin, KindTwin, bare, length, optional},
};
use crate::domain::{
    bench::{Fact, MarkedStock, WrittenCourse},
    log::EdgeId,
    measure::{Hand, Length, Name},
    piece::{NearEnd, PieceId, PieceSpec},
    roof::EdgeKind,
};
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(rename = "Marked", deny_unknown_fields)]
pub(super) struct MarkedTwin {
    edge: u32,
    course: u32,
    piece: u32,
    #[serde(with = "KindTwin")]
    kind: EdgeKind,
    #[serde(with = "HandTwin")]
    hand: Hand,
    #[serde(with = "length")]
    at_nose: Length,
    #[serde(with = "length")]
    at_rise: Length,
    #[serde(with = "length")]
    rise: Length,
    #[serde(with = "length")]
    allowance: Length,
    #[serde(with = "length")]
    panel_width: Length,
    #[serde(with = "length")]
    panel_height: Length,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    across: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    near: Option<NearTwin>,
    #[serde(with = "StockTwin")]
    stock: MarkedStock,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    lot: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    written: Option<WrittenTwin>,
}

/// The course as the steel bears it.
#[derive(Serialize, Deserialize)]
#[serde(rename = "Written", deny_unknown_fields)]
struct WrittenTwin {
    course: u32,
    #[serde(default, skip_serializing_if = "is_zero")]
    before: u8,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for it")]
const fn is_zero(before: &u8) -> bool {
    *before == 0
}

/// The near end of a piece cut at both; it holds over the same rise.
#[derive(Serialize, Deserialize)]
#[serde(rename = "Near", deny_unknown_fields)]
struct NearTwin {
    edge: u32,
    far_edge: u32,
    #[serde(with = "KindTwin")]
    kind: EdgeKind,
    #[serde(with = "length")]
    at_nose: Length,
    #[serde(with = "length")]
    at_rise: Length,
    #[serde(with = "length")]
    allowance: Length,
}

impl NearTwin {
    fn of(near: &NearEnd) -> Self {
        let [edge, far_edge] = near.edges.map(|edge| edge.0);
        Self {
            edge,
            far_edge,
            kind: near.kind,
            at_nose: near.bend.at_nose,
            at_rise: near.bend.at_rise,
            allowance: near.allowance,
        }
    }

    fn checked(self, piece: PieceId, rise: Length) -> Result<NearEnd, String> {
        if ![self.edge, self.far_edge].contains(&piece.edge.0) || self.edge == self.far_edge {
            let (edge, far_edge, own) = (self.edge, self.far_edge, piece.edge.0);
            return Err(format!(
                "near edge {edge}, far_edge {far_edge}: expected edge {own} and another one"
            ));
        }
        within("allowance", self.allowance, Length::ZERO, FARTHEST)?;
        Ok(NearEnd {
            edges: [self.edge, self.far_edge].map(EdgeId),
            kind: self.kind,
            bend: line_in(self.at_nose, self.at_rise, rise)?,
            allowance: self.allowance,
        })
    }
}

impl MarkedTwin {
    pub(super) fn of(
        piece: PieceId,
        spec: &PieceSpec,
        stock: MarkedStock,
        lot: Option<&Name>,
        written: Option<WrittenCourse>,
    ) -> Self {
        Self {
            edge: piece.edge.0,
            course: piece.course.get(),
            piece: piece.number,
            kind: spec.kind,
            hand: spec.hand,
            at_nose: spec.bend.at_nose,
            at_rise: spec.bend.at_rise,
            rise: spec.bend.rise,
            allowance: spec.allowance,
            panel_width: spec.panel.width,
            panel_height: spec.panel.height,
            across: spec.across,
            near: spec.near.as_ref().map(NearTwin::of),
            stock,
            lot: lot.map(Name::to_string),
            written: written.map(|written| WrittenTwin {
                course: written.course.get(),
                before: written.before,
            }),
        }
    }

    /// What arithmetic and drawing rely on: a panel with a width and a height,
    /// a line with a rise.
    pub(super) fn checked(self) -> Result<Fact, String> {
        let piece = piece_id(self.edge, self.course, self.piece)?;
        let bend = line_in(self.at_nose, self.at_rise, self.rise)?;
        within("allowance", self.allowance, Length::ZERO, FARTHEST)?;
        let panel = panel_in(self.panel_width, self.panel_height)?;
        if let Some(across) = self.across {
            within("across", across, LEAST, Length::LONGEST)?;
        }
        let spec = PieceSpec {
            kind: self.kind,
            hand: self.hand,
            bend,
            allowance: self.allowance,
            panel,
            across: self.across,
            near: self
                .near
                .map(|near| near.checked(piece, self.rise))
                .transpose()?,
        };
        Ok(Fact::Marked {
            piece,
            spec: Box::new(spec),
            stock: stock_in(self.stock)?,
            lot: lot_in(self.lot)?,
            written: self.written.map(WrittenTwin::checked).transpose()?,
        })
    }
}

impl WrittenTwin {
    fn checked(self) -> Result<WrittenCourse, String> {
        Ok(WrittenCourse {
            course: course_number(self.course)?,
            before: self.before,
        })
    }
}
