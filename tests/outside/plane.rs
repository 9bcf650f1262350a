//! The core's panels and lines as shapes of the `geo` crate.
//!
//! One unit is one nanometre: every coordinate is a whole number below 2^53,
//! which `f64` holds exactly, so that nothing is rounded on the way over.

use bendmark::domain::measure::{self, Length, SkewLine};
use bendmark::domain::piece::Panel;
use geo::{Area, Coord, Line, LineString, MultiPolygon, Polygon, Rect};

/// A coordinate in nanometres.
pub(crate) fn nm(length: Length) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "below 2^53, so exact")]
    let nm = length.nm() as f64;
    nm
}

/// The panel's outline.
pub(crate) fn outline(panel: Panel) -> Polygon {
    Rect::new(
        Coord { x: 0.0, y: 0.0 },
        Coord {
            x: nm(panel.width),
            y: nm(panel.height),
        },
    )
    .to_polygon()
}

/// The four sides of the panel's outline: nose, back, far side, hand side.
pub(crate) fn sides(panel: Panel) -> [Line; 4] {
    let (w, h) = (nm(panel.width), nm(panel.height));
    [
        Line::new((0.0, 0.0), (w, 0.0)),
        Line::new((0.0, h), (w, h)),
        Line::new((w, 0.0), (w, h)),
        Line::new((0.0, 0.0), (0.0, h)),
    ]
}

/// The line, `times` its rise further at both ends. Exact: its ends move by
/// whole multiples of whole numbers.
pub(crate) fn extended(line: &SkewLine, times: i64) -> Line {
    let run = line.at_rise - line.at_nose;
    let below = (line.at_nose - run.times(times), -line.rise.times(times));
    let above = (line.at_rise + run.times(times), line.rise.times(times + 1));
    Line::new((nm(below.0), nm(below.1)), (nm(above.0), nm(above.1)))
}

/// All of the plane on the whole edge's side of the line, as far as it matters:
/// one rise beyond the panel below and above, and out to the left of everything.
pub(crate) fn half_plane(line: &SkewLine, panel: Panel) -> Polygon {
    let times = nm(panel.height).div_euclid(nm(line.rise)) + 1.0;
    #[expect(clippy::cast_possible_truncation, reason = "a few at most")]
    let edge = extended(line, times as i64);
    let left = edge.start.x.min(edge.end.x).min(0.0) - 1e7;
    ring(&[
        (left, edge.start.y),
        (edge.start.x, edge.start.y),
        (edge.end.x, edge.end.y),
        (left, edge.end.y),
    ])
}

/// A polygon of the core, moved `by` away from the whole edge.
pub(crate) fn polygon(polygon: &measure::Polygon, by: Length) -> MultiPolygon {
    if polygon.is_empty() {
        return MultiPolygon::new(Vec::new());
    }
    let corners: Vec<_> = polygon
        .corners()
        .iter()
        .map(|corner| (nm(corner.x + by), nm(corner.y)))
        .collect();
    ring(&corners).into()
}

/// A polygon by its corners.
pub(crate) fn ring(corners: &[(f64, f64)]) -> Polygon {
    Polygon::new(LineString::from(corners.to_vec()), Vec::new())
}

/// The area in square millimetres.
pub(crate) fn mm2(shape: &impl Area<f64>) -> f64 {
    shape.unsigned_area() / 1e12
}
