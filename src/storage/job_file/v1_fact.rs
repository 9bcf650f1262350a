//! Version 1 of the bench's facts, one line each.
//!
//! Over 400 lines: every fact, and the way there and back.

use super::{
    error::DecodeError,
    v1_offcut::{GoneByV1, OffcutV1, PieceV1, RestV1, SavedV1, StockV1},
    v1_range::{FARTHEST, lot_in, offcut_number, piece_id, within},
    v1_settings::{HandV1, KindV1, bare, length, optional},
};
use crate::domain::{
    bench::{BenchEvent, CutRest, Fact, MarkedStock, Utc},
    log::EdgeId,
    measure::{Hand, Length, Name, SkewLine},
    piece::{Panel, PieceId, PieceSpec},
    roof::EdgeKind,
};
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(rename = "Event", deny_unknown_fields)]
pub(super) struct EventV1 {
    /// Seconds since 1970; left out where unknown.
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    at: Option<i64>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    joined: bool,
    fact: FactV1,
}

#[derive(Serialize, Deserialize)]
#[serde(rename = "Fact", deny_unknown_fields)]
enum FactV1 {
    Marked {
        edge: u32,
        course: u32,
        piece: u32,
        #[serde(with = "KindV1")]
        kind: EdgeKind,
        #[serde(with = "HandV1")]
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
        stock: StockV1,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
        lot: Option<String>,
    },
    Cut {
        edge: u32,
        course: u32,
        piece: u32,
        rest: RestV1,
    },
    Bent {
        edge: u32,
        course: u32,
        piece: u32,
    },
    Stacked {
        edge: u32,
        course: u32,
        piece: u32,
    },
    Spoiled {
        edge: u32,
        course: u32,
        piece: u32,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        saved: Vec<SavedV1>,
    },
    Found {
        number: u32,
        offcut: OffcutV1,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
        lot: Option<String>,
    },
    Gone {
        offcut: u32,
        by: GoneByV1,
    },
    Promised {
        offcut: u32,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
        piece: Option<PieceV1>,
    },
    Corrected {
        edge: u32,
        #[serde(with = "length")]
        by: Length,
    },
}

impl EventV1 {
    pub(super) fn of(event: &BenchEvent) -> Self {
        let BenchEvent { at, joined, fact } = event;
        Self {
            at: at.map(|at| at.0),
            joined: *joined,
            fact: FactV1::of(fact),
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

impl FactV1 {
    // Over 60 lines: an arm a fact.
    fn of(fact: &Fact) -> Self {
        let parts = |id: &PieceId| (id.edge.0, id.course.get(), id.number);
        match fact {
            Fact::Marked {
                piece,
                spec,
                stock,
                lot,
            } => Self::marked(*piece, spec, *stock, lot.as_ref()),
            Fact::Cut { piece: id, rest } => {
                let (edge, course, piece) = parts(id);
                Self::Cut {
                    edge,
                    course,
                    piece,
                    rest: RestV1::of(*rest),
                }
            }
            Fact::Spoiled { piece: id, saved } => {
                let (edge, course, piece) = parts(id);
                Self::Spoiled {
                    edge,
                    course,
                    piece,
                    saved: saved.iter().map(SavedV1::of).collect(),
                }
            }
            Fact::Found {
                number,
                offcut,
                lot,
            } => Self::Found {
                number: number.0,
                offcut: OffcutV1::of(offcut),
                lot: lot.as_ref().map(Name::to_string),
            },
            Fact::Gone { offcut, by } => Self::Gone {
                offcut: offcut.0,
                by: GoneByV1::of(*by),
            },
            Fact::Promised { offcut, piece } => Self::Promised {
                offcut: offcut.0,
                piece: piece.map(PieceV1::of),
            },
            Fact::Bent(id) => {
                let (edge, course, piece) = parts(id);
                Self::Bent {
                    edge,
                    course,
                    piece,
                }
            }
            Fact::Stacked(id) => {
                let (edge, course, piece) = parts(id);
                Self::Stacked {
                    edge,
                    course,
                    piece,
                }
            }
            Fact::Corrected { edge, by } => Self::Corrected {
                edge: edge.0,
                by: *by,
            },
        }
    }

    fn marked(id: PieceId, spec: &PieceSpec, stock: MarkedStock, lot: Option<&Name>) -> Self {
        let PieceSpec {
            kind,
            hand,
            bend,
            allowance,
            panel,
            across,
        } = *spec;
        let SkewLine {
            at_nose,
            at_rise,
            rise,
        } = bend;
        let Panel { width, height } = panel;
        Self::Marked {
            edge: id.edge.0,
            course: id.course.get(),
            piece: id.number,
            kind,
            hand,
            at_nose,
            at_rise,
            rise,
            allowance,
            panel_width: width,
            panel_height: height,
            across,
            stock: StockV1::of(stock),
            lot: lot.map(Name::to_string),
        }
    }

    // Over 60 lines: an arm a fact.
    fn checked(self) -> Result<Fact, String> {
        Ok(match self {
            Self::Marked {
                edge,
                course,
                piece,
                kind,
                hand,
                at_nose,
                at_rise,
                rise,
                allowance,
                panel_width,
                panel_height,
                across,
                stock,
                lot,
            } => {
                let spec = PieceSpec {
                    kind,
                    hand,
                    bend: SkewLine {
                        at_nose,
                        at_rise,
                        rise,
                    },
                    allowance,
                    panel: Panel {
                        width: panel_width,
                        height: panel_height,
                    },
                    across,
                };
                Fact::Marked {
                    piece: piece_id(edge, course, piece)?,
                    spec: Box::new(in_range(spec)?),
                    stock: stock.checked()?,
                    lot: lot_in(lot)?,
                }
            }
            Self::Cut {
                edge,
                course,
                piece,
                rest,
            } => Fact::Cut {
                piece: piece_id(edge, course, piece)?,
                rest: rest.checked()?,
            },
            Self::Spoiled {
                edge,
                course,
                piece,
                saved,
            } => Fact::Spoiled {
                piece: piece_id(edge, course, piece)?,
                saved: saved
                    .into_iter()
                    .map(SavedV1::checked)
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
                by: by.checked(),
            },
            Self::Promised { offcut, piece } => Fact::Promised {
                offcut: offcut_number(offcut)?,
                piece: piece.map(PieceV1::checked).transpose()?,
            },
            Self::Bent {
                edge,
                course,
                piece,
            } => Fact::Bent(piece_id(edge, course, piece)?),
            Self::Stacked {
                edge,
                course,
                piece,
            } => Fact::Stacked(piece_id(edge, course, piece)?),
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

/// What arithmetic and drawing rely on: a panel with a width and a height, a
/// line with a rise.
fn in_range(spec: PieceSpec) -> Result<PieceSpec, String> {
    let least = Length::from_nm(1);
    within("at_nose", spec.bend.at_nose, -FARTHEST, FARTHEST)?;
    within("at_rise", spec.bend.at_rise, -FARTHEST, FARTHEST)?;
    within("rise", spec.bend.rise, least, Length::LONGEST)?;
    within("allowance", spec.allowance, Length::ZERO, FARTHEST)?;
    within("panel_width", spec.panel.width, least, Length::LONGEST)?;
    within("panel_height", spec.panel.height, least, Length::LONGEST)?;
    if let Some(across) = spec.across {
        within("across", across, least, Length::LONGEST)?;
    }
    Ok(spec)
}

/// Every edge that a fact names.
fn edges_of(fact: &Fact) -> Vec<EdgeId> {
    match fact {
        Fact::Marked { piece, .. } | Fact::Bent(piece) | Fact::Stacked(piece) => vec![piece.edge],
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
