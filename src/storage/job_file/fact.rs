//! The bench's facts, one line each.

use super::{
    error::DecodeError,
    marked::MarkedTwin,
    misfit::{BendStruckTwin, StaysTwin, TakenBackTwin, spoiled_by},
    offcut::{GoneByTwin, OffcutTwin, PieceTwin, RestTwin, SavedTwin},
    range::{FARTHEST, course_number, lot_in, offcut_number, piece_id, within},
    settings::{bare, length},
};
use crate::domain::{
    bench::{BenchEvent, CutRest, Fact, GoneBy, SpoiledBy, Utc},
    log::EdgeId,
    measure::{Length, Name},
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
        #[serde(default, skip_serializing_if = "Option::is_none", with = "spoiled_by")]
        why: Option<SpoiledBy>,
    },
    TakenBack(TakenBackTwin),
    BendStruck(BendStruckTwin),
    Stays(StaysTwin),
    Found {
        number: u32,
        offcut: OffcutTwin,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
        lot: Option<String>,
    },
    Measured {
        offcut: u32,
        #[serde(with = "length")]
        at_nose: Length,
        #[serde(with = "length")]
        at_back: Length,
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
    Paused,
    Corrected {
        edge: u32,
        #[serde(with = "length")]
        by: Length,
    },
    ReadAgain {
        edge: u32,
        course: u32,
        corrected: bool,
    },
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
    // Over 60 lines: a row a fact, both ways.
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
            Fact::Measured {
                offcut,
                at_nose,
                at_back,
                lot,
            } => Self::Measured {
                offcut: offcut.0,
                at_nose: *at_nose,
                at_back: *at_back,
                lot: lot.as_ref().map(Name::to_string),
            },
            Fact::Spoiled { piece, saved, why } => Self::Spoiled {
                edge: piece.edge.0,
                course: piece.course.get(),
                piece: piece.number,
                saved: saved.iter().map(SavedTwin::of).collect(),
                why: *why,
            },
            Fact::TakenBack { piece, kept } => {
                Self::TakenBack(TakenBackTwin::of(*piece, kept.as_ref().map(SavedTwin::of)))
            }
            Fact::BendStruck { piece, bend } => Self::BendStruck(BendStruckTwin::of(*piece, bend)),
            Fact::Stays { piece, asked } => Self::Stays(StaysTwin::of(*piece, *asked)),
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
            Fact::Paused => Self::Paused,
            Fact::Corrected { edge, by } => Self::Corrected {
                edge: edge.0,
                by: *by,
            },
            Fact::ReadAgain {
                edge,
                course,
                corrected,
            } => Self::ReadAgain {
                edge: edge.0,
                course: course.get(),
                corrected: *corrected,
            },
        }
    }

    // Over 60 lines: a row a fact.
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
                why,
            } => Fact::Spoiled {
                piece: piece_id(edge, course, piece)?,
                saved: saved
                    .into_iter()
                    .map(SavedTwin::checked)
                    .collect::<Result<_, _>>()?,
                why,
            },
            Self::Measured {
                offcut,
                at_nose,
                at_back,
                lot,
            } => {
                for width in [at_nose, at_back] {
                    within("width", width, -FARTHEST, FARTHEST)?;
                }
                Fact::Measured {
                    offcut: offcut_number(offcut)?,
                    at_nose,
                    at_back,
                    lot: lot_in(lot)?,
                }
            }
            Self::TakenBack(taken_back) => taken_back.checked()?,
            Self::BendStruck(struck) => struck.checked()?,
            Self::Stays(stays) => stays.checked()?,
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
            Self::Paused => Fact::Paused,
            Self::Corrected { edge, by } => {
                within("by", by, -Length::LONGEST, Length::LONGEST)?;
                Fact::Corrected {
                    edge: EdgeId(edge),
                    by,
                }
            }
            Self::ReadAgain {
                edge,
                course,
                corrected,
            } => Fact::ReadAgain {
                edge: EdgeId(edge),
                course: course_number(course)?,
                corrected,
            },
        })
    }
}

/// Every edge that a fact names.
pub(super) fn edges_of(fact: &Fact) -> Vec<EdgeId> {
    match fact {
        Fact::Marked { piece, spec, .. } => {
            let both = spec.near.iter().flat_map(|near| near.edges);
            std::iter::once(piece.edge).chain(both).collect()
        }
        Fact::FirstCut(piece)
        | Fact::Bent(piece)
        | Fact::Stacked(piece)
        | Fact::BendStruck { piece, .. }
        | Fact::Stays { piece, .. } => vec![piece.edge],
        Fact::TakenBack { piece, kept } => std::iter::once(piece.edge)
            .chain(kept.iter().map(|kept| kept.promised.edge))
            .collect(),
        Fact::Cut { piece, rest } => match rest {
            CutRest::Kept { promised, .. } => vec![piece.edge, promised.edge],
            CutRest::Waste => vec![piece.edge],
        },
        Fact::Spoiled { piece, saved, .. } => std::iter::once(piece.edge)
            .chain(saved.iter().map(|saved| saved.promised.edge))
            .collect(),
        Fact::Promised { piece, .. } => piece.iter().map(|piece| piece.edge).collect(),
        Fact::Found { .. } | Fact::Measured { .. } | Fact::Gone { .. } | Fact::Paused => Vec::new(),
        Fact::Corrected { edge, .. } | Fact::ReadAgain { edge, .. } => vec![*edge],
    }
}
