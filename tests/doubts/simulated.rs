//! Hands a simulated hip to the checker.

use crate::maker::{Hip, sixteenths};
use crate::worked::{beside, check_alone};
use bendmark::domain::{
    doubt::Doubt,
    log::{Course, CourseNumber, Edge, EdgeId, End, ReadTo, Reading},
    measure::{Hand, Length, Name},
    roof::{EdgeKind, RoofLine, Slope, SlopeForm},
    settings::{RawSettings, Settings},
};

/// The smallest slip counted: 1/2 in. Anything up to the tolerance of 3/8 in is
/// not worth a doubt by the job's own setting; see the small ones below.
pub(crate) const LEAST: i64 = 8;

pub(crate) fn cases() -> u64 {
    std::env::var("BENDMARK_CASES")
        .ok()
        .and_then(|cases| cases.parse().ok())
        .unwrap_or(400)
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum SlopeIs {
    Given,
    Unknown,
}

pub(crate) const SLOPES: [SlopeIs; 2] = [SlopeIs::Given, SlopeIs::Unknown];

pub(crate) fn settings(hip: &Hip) -> Settings {
    Settings::checked(RawSettings {
        panel_width: sixteenths(hip.panel_width),
        side_lap: sixteenths(hip.side_lap),
        exposure: sixteenths(hip.exposure),
        ..RawSettings::default()
    })
    .unwrap()
}

pub(crate) fn roof(hip: &Hip, slope: SlopeIs) -> RoofLine {
    match slope {
        SlopeIs::Unknown => RoofLine::default(),
        SlopeIs::Given => {
            RoofLine::even(Slope::new(SlopeForm::RiseIn12, hip.rise_in_12 * 100_000).unwrap())
        }
    }
}

pub(crate) fn number(course: usize) -> CourseNumber {
    CourseNumber::new(u32::try_from(course + 1).unwrap()).unwrap()
}

/// The log of a row of readings going up.
pub(crate) fn edge(row: &[i64]) -> Edge {
    let mut edge = Edge::new(EdgeId(1), Name::or("hip", "?"), EdgeKind::Hip, Hand::Left);
    for (at, pair) in row.chunks(2).enumerate() {
        let mut course = Course::unread(number(at));
        for (figure, end) in pair.iter().zip(End::BOTH) {
            course = course.with(end, Some(Reading::new(sixteenths(*figure)).unwrap()));
        }
        edge.put(course);
    }
    edge
}

pub(crate) fn doubts(hip: &Hip, row: &[i64], slope: SlopeIs) -> Vec<Doubt> {
    check_alone(&beside(&edge(row), roof(hip, slope)), &settings(hip), &[])
}

/// The same hip read to the last panel's edge, so each reading a side lap less;
/// none where that would be below zero.
pub(crate) fn doubts_to_panel_edge(hip: &Hip, row: &[i64], slope: SlopeIs) -> Option<Vec<Doubt>> {
    let row: Vec<_> = row.iter().map(|figure| figure - hip.side_lap).collect();
    if row.iter().any(|figure| *figure < 0) {
        return None;
    }
    let mut edge = beside(&edge(&row), roof(hip, slope));
    edge.reads_to = Some(ReadTo::PanelEdge);
    Some(check_alone(&edge, &settings(hip), &[]))
}

pub(crate) fn near(one: Length, other: Length) -> bool {
    (one - other).abs() <= sixteenths(2)
}
