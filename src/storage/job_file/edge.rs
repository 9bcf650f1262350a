//! An edge: all but its courses and what a sheet said of them, which are one
//! list each for the whole file.

use super::{
    doubt::{SetAsideTwin, StruckTwin},
    error::DecodeError,
    settings::{HandTwin, KindTwin, ReadToSaid, TapeEndTwin, bare},
};
use crate::domain::log::{CourseNumber, Edge, EdgeId, LaterLot, TapeEnd};
use crate::domain::measure::{Hand, Name};
use crate::domain::roof::{Corner, EdgeKind, RoofLine, Slope, SlopeForm};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

#[derive(Serialize, Deserialize)]
#[serde(rename = "Edge", deny_unknown_fields)]
pub(super) struct EdgeTwin<'a> {
    id: u32,
    #[serde(borrow)]
    name: Cow<'a, str>,
    #[serde(with = "KindTwin")]
    kind: EdgeKind,
    #[serde(with = "HandTwin")]
    hand: Hand,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    slope: Option<SlopeTwin>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    other_slope: Option<SlopeTwin>,
    /// Hundred-thousandths of a degree; left out where it is square.
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    corner: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    plane: Option<Cow<'a, str>>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    lot: Option<Cow<'a, str>>,
    /// Where another lot begins on the way up, in rising order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    later_lots: Vec<(u32, Cow<'a, str>)>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    reads_to: Option<ReadToSaid>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    tape_end: Option<TapeEndSaid>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    set_aside: Vec<SetAsideTwin>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    struck: Vec<StruckTwin>,
}

#[derive(Serialize, Deserialize)]
#[serde(transparent)]
struct TapeEndSaid(#[serde(with = "TapeEndTwin")] TapeEnd);

/// A slope as it was written, in hundred-thousandths.
#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(rename = "Slope")]
enum SlopeTwin {
    RiseIn12(i64),
    Degrees(i64),
    PerCent(i64),
}

impl<'a> EdgeTwin<'a> {
    pub(super) fn of(edge: &'a Edge) -> Self {
        let Edge {
            id,
            name,
            kind,
            hand,
            roof,
            plane,
            lot,
            later_lots,
            reads_to,
            tape_end,
            set_aside,
            struck,
            // The file has a list of each for all edges.
            said: _,
            courses: _,
        } = edge;
        let RoofLine {
            slope,
            other,
            corner,
        } = *roof;
        let text = |name: &'a Name| Cow::Borrowed(name.as_str());
        Self {
            id: id.0,
            name: text(name),
            kind: *kind,
            hand: *hand,
            slope: slope.map(SlopeTwin::of),
            other_slope: other.map(SlopeTwin::of),
            corner: (corner != Corner::SQUARE).then_some(corner.parts()),
            plane: plane.as_ref().map(text),
            lot: lot.as_ref().map(text),
            later_lots: later_lots
                .iter()
                .map(|later| (later.from.get(), text(&later.lot)))
                .collect(),
            reads_to: reads_to.map(ReadToSaid),
            tape_end: tape_end.map(TapeEndSaid),
            set_aside: set_aside.iter().copied().map(SetAsideTwin::of).collect(),
            struck: struck.iter().copied().map(StruckTwin::of).collect(),
        }
    }

    /// The edge without its courses, where its figures are in range.
    pub(super) fn checked(self) -> Result<Edge, DecodeError> {
        let Self {
            id,
            name,
            kind,
            hand,
            slope,
            other_slope,
            corner,
            plane,
            lot,
            later_lots,
            reads_to,
            tape_end,
            set_aside,
            struck,
        } = self;
        if id == 0 {
            let what = "id 0 is out of range, expected 1 or more";
            return Err(DecodeError::value("edges", what));
        }
        let name =
            Name::new(&name).map_err(|error| DecodeError::value(format!("edge {id}"), error))?;
        let at_edge = |what: String| DecodeError::value(format!("edge \"{name}\""), what);
        let roof = RoofLine {
            slope: slope_in("slope", slope).map_err(at_edge)?,
            other: slope_in("other_slope", other_slope).map_err(at_edge)?,
            corner: corner_in(corner).map_err(at_edge)?,
        };
        let plane = name_in("plane", plane).map_err(at_edge)?;
        let lot = name_in("lot", lot).map_err(at_edge)?;
        let mut edge = Edge::new(EdgeId(id), name.clone(), kind, hand);
        (edge.roof, edge.plane, edge.lot) = (roof, plane, lot);
        edge.later_lots = later_lots_in(later_lots).map_err(at_edge)?;
        edge.reads_to = reads_to.map(|said| said.0);
        edge.tape_end = tape_end.map(|said| said.0);
        edge.set_aside = set_aside
            .into_iter()
            .map(SetAsideTwin::checked)
            .collect::<Result<_, _>>()
            .map_err(at_edge)?;
        edge.struck = struck
            .into_iter()
            .map(StruckTwin::checked)
            .collect::<Result<_, _>>()
            .map_err(at_edge)?;
        Ok(edge)
    }
}

impl SlopeTwin {
    fn of(slope: Slope) -> Self {
        let parts = slope.parts();
        match slope.form() {
            SlopeForm::RiseIn12 => Self::RiseIn12(parts),
            SlopeForm::Degrees => Self::Degrees(parts),
            SlopeForm::PerCent => Self::PerCent(parts),
        }
    }
}

fn slope_in(what: &str, slope: Option<SlopeTwin>) -> Result<Option<Slope>, String> {
    let Some(slope) = slope else {
        return Ok(None);
    };
    let (form, parts) = match slope {
        SlopeTwin::RiseIn12(parts) => (SlopeForm::RiseIn12, parts),
        SlopeTwin::Degrees(parts) => (SlopeForm::Degrees, parts),
        SlopeTwin::PerCent(parts) => (SlopeForm::PerCent, parts),
    };
    Slope::new(form, parts).map(Some).map_err(|_| {
        format!(
            "{what} of {slope:?} is out of range, expected more than 0 and less than 85 degrees"
        )
    })
}

fn corner_in(parts: Option<i64>) -> Result<Corner, String> {
    parts.map_or(Ok(Corner::SQUARE), |parts| {
        Corner::new(parts).map_err(|_| {
            format!("corner of {parts} is out of range, expected 1500000 to 16500000 (15 to 165 degrees)")
        })
    })
}

/// Each above the one before.
fn later_lots_in(lots: Vec<(u32, Cow<'_, str>)>) -> Result<Vec<LaterLot>, String> {
    let mut read: Vec<LaterLot> = Vec::new();
    for (number, lot) in lots {
        let above = |from: &CourseNumber| read.last().is_none_or(|last| last.from < *from);
        let from = CourseNumber::new(number).filter(above).ok_or_else(|| {
            format!("later_lots: course {number} is not above the one before or out of range, expected 1 to 99999, rising")
        })?;
        let lot = Name::new(&lot).map_err(|error| format!("later_lots: {error}"))?;
        read.push(LaterLot { from, lot });
    }
    Ok(read)
}

fn name_in(what: &str, text: Option<Cow<'_, str>>) -> Result<Option<Name>, String> {
    text.map(|text| Name::new(&text).map_err(|error| format!("{what}: {error}")))
        .transpose()
}
