//! The bench's facts, one line each.

use super::{
    error::DecodeError,
    offcut::{GoneByTwin, OffcutTwin, PieceTwin, RestTwin, SavedTwin, StockTwin},
    range::{
        FARTHEST, LEAST, course_number, line_in, lot_in, offcut_number, panel_in, piece_id,
        stock_in, within,
    },
    settings::{HandTwin, KindTwin, bare, length, optional},
};
use crate::domain::{
    bench::{BenchEvent, CutRest, Fact, GoneBy, MarkedStock, Utc, WrittenCourse},
    log::EdgeId,
    measure::{Hand, Length, Name},
    piece::{NearEnd, PieceId, PieceSpec},
    roof::EdgeKind,
};
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(rename = "Event", deny_unknown_fields)]
pub(super) struct EventTwin {
    /// Seconds since 1970; left out where unknown.
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    at: Option<i64>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    joined: bool,
    fact: FactTwin,
}

#[derive(Serialize, Deserialize)]
#[serde(rename = "Fact", deny_unknown_fields)]
enum FactTwin {
    Marked(MarkedTwin),
    FirstCut(PieceTwin),
    Cut {
        edge: u32,
        course: u32,
        piece: u32,
        rest: RestTwin,
    },
    Bent(PieceTwin),
    Stacked(PieceTwin),
    Spoiled {
        edge: u32,
        course: u32,
        piece: u32,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        saved: Vec<SavedTwin>,
    },
    Found {
        number: u32,
        offcut: OffcutTwin,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
        lot: Option<String>,
    },
    Gone {
        offcut: u32,
        #[serde(with = "GoneByTwin")]
        by: GoneBy,
    },
    Promised {
        offcut: u32,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
        piece: Option<PieceTwin>,
    },
    Corrected {
        edge: u32,
        #[serde(with = "length")]
        by: Length,
    },
}

#[derive(Serialize, Deserialize)]
#[serde(rename = "Marked", deny_unknown_fields)]
struct MarkedTwin {
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

impl EventTwin {
    pub(super) fn of(event: &BenchEvent) -> Self {
        let BenchEvent { at, joined, fact } = event;
        Self {
            at: at.map(|at| at.0),
            joined: *joined,
            fact: FactTwin::of(fact),
        }
    }

    /// The event, where its figures are in range and its edge has been given
    /// out; `count` is its place in the file, from 1.
    pub(super) fn checked(self, count: usize, next_edge: u32) -> Result<BenchEvent, DecodeError> {
        let fact = self
            .fact
            .checked()
            .map_err(|what| DecodeError::value(format!("event {count}"), what))?;
        for edge in edges_of(&fact) {
            if edge.0 == 0 || edge.0 >= next_edge {
                let edge = edge.0;
                return Err(DecodeError::value(
                    format!("event {count}"),
                    format!("edge {edge} was never made, expected 1 or more and below next_edge"),
                ));
            }
        }
        Ok(BenchEvent {
            at: self.at.map(Utc),
            joined: self.joined,
            fact,
        })
    }
}

impl FactTwin {
    fn of(fact: &Fact) -> Self {
        match fact {
            Fact::Marked {
                piece,
                spec,
                stock,
                lot,
                written,
            } => Self::Marked(MarkedTwin::of(*piece, spec, *stock, lot.as_ref(), *written)),
            Fact::FirstCut(piece) => Self::FirstCut(PieceTwin::of(*piece)),
            Fact::Cut { piece, rest } => Self::Cut {
                edge: piece.edge.0,
                course: piece.course.get(),
                piece: piece.number,
                rest: RestTwin::of(*rest),
            },
            Fact::Bent(piece) => Self::Bent(PieceTwin::of(*piece)),
            Fact::Stacked(piece) => Self::Stacked(PieceTwin::of(*piece)),
            Fact::Spoiled { piece, saved } => Self::Spoiled {
                edge: piece.edge.0,
                course: piece.course.get(),
                piece: piece.number,
                saved: saved.iter().map(SavedTwin::of).collect(),
            },
            Fact::Found {
                number,
                offcut,
                lot,
            } => Self::Found {
                number: number.0,
                offcut: OffcutTwin::of(offcut),
                lot: lot.as_ref().map(Name::to_string),
            },
            Fact::Gone { offcut, by } => Self::Gone {
                offcut: offcut.0,
                by: *by,
            },
            Fact::Promised { offcut, piece } => Self::Promised {
                offcut: offcut.0,
                piece: piece.map(PieceTwin::of),
            },
            Fact::Corrected { edge, by } => Self::Corrected {
                edge: edge.0,
                by: *by,
            },
        }
    }

    fn checked(self) -> Result<Fact, String> {
        Ok(match self {
            Self::Marked(marked) => marked.checked()?,
            Self::FirstCut(piece) => Fact::FirstCut(piece.checked()?),
            Self::Cut {
                edge,
                course,
                piece,
                rest,
            } => Fact::Cut {
                piece: piece_id(edge, course, piece)?,
                rest: rest.checked()?,
            },
            Self::Bent(piece) => Fact::Bent(piece.checked()?),
            Self::Stacked(piece) => Fact::Stacked(piece.checked()?),
            Self::Spoiled {
                edge,
                course,
                piece,
                saved,
            } => Fact::Spoiled {
                piece: piece_id(edge, course, piece)?,
                saved: saved
                    .into_iter()
                    .map(SavedTwin::checked)
                    .collect::<Result<_, _>>()?,
            },
            Self::Found {
                number,
                offcut,
                lot,
            } => Fact::Found {
                number: offcut_number(number)?,
                offcut: offcut.checked()?,
                lot: lot_in(lot)?,
            },
            Self::Gone { offcut, by } => Fact::Gone {
                offcut: offcut_number(offcut)?,
                by,
            },
            Self::Promised { offcut, piece } => Fact::Promised {
                offcut: offcut_number(offcut)?,
                piece: piece.map(PieceTwin::checked).transpose()?,
            },
            Self::Corrected { edge, by } => {
                within("by", by, -Length::LONGEST, Length::LONGEST)?;
                Fact::Corrected {
                    edge: EdgeId(edge),
                    by,
                }
            }
        })
    }
}

impl MarkedTwin {
    fn of(
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
    fn checked(self) -> Result<Fact, String> {
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

/// Every edge that a fact names.
fn edges_of(fact: &Fact) -> Vec<EdgeId> {
    match fact {
        Fact::Marked { piece, spec, .. } => {
            let both = spec.near.iter().flat_map(|near| near.edges);
            std::iter::once(piece.edge).chain(both).collect()
        }
        Fact::FirstCut(piece) | Fact::Bent(piece) | Fact::Stacked(piece) => vec![piece.edge],
        Fact::Cut { piece, rest } => match rest {
            CutRest::Kept { promised, .. } => vec![piece.edge, promised.edge],
            CutRest::Waste => vec![piece.edge],
        },
        Fact::Spoiled { piece, saved } => std::iter::once(piece.edge)
            .chain(saved.iter().map(|saved| saved.promised.edge))
            .collect(),
        Fact::Promised { piece, .. } => piece.iter().map(|piece| piece.edge).collect(),
        Fact::Found { .. } | Fact::Gone { .. } => Vec::new(),
        Fact::Corrected { edge, .. } => vec![*edge],
    }
}
