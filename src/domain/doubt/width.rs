//! Gaps that are odd for the panel, whatever their lean: judged at the narrow
//! end, for a gap of two pieces is an honest one (common practice).

use super::{
    cause::Cause,
    fix::Fix,
    given::Given,
    line::Basis,
    reach::Reach,
    verdict::{Doubt, DoubtedReading, Suspect},
};
use crate::domain::log::{Edge, ReadTo};

/// The doubts about courses of `edge` whose gaps are odd, going up.
pub(super) fn odd_widths(edge: &Edge, given: &Given<'_>) -> Vec<Doubt> {
    let settings = given.settings;
    let courses = edge.courses().iter();
    // Lines that run out are said to, and a struck line is another's lap.
    let plain = courses.filter(|course| {
        course.runs_out.is_none() && course.to.is_none() && course.reads_to.is_none()
    });
    plain
        .filter_map(|course| {
            let reach = Reach::of(course, settings.exposure);
            let (bottom, top) = (reach.bottom?, reach.top?);
            let narrow = bottom.min(top) + given.added;
            // The last full panel reaches one side lap past its side-lap line.
            let lies = narrow + settings.tolerance >= settings.side_lap;
            let (cause, by) = if narrow >= settings.panel_width + settings.tolerance {
                let room = narrow - settings.side_lap;
                let rest = room.modulo(settings.cover());
                (Cause::AnotherPanelFits, room - rest)
            } else if !lies && given.read_to == ReadTo::LapLine {
                given.other_line()
            } else {
                return None;
            };
            let number = reach.number;
            let fix = Fix::Both {
                first: number,
                last: number,
                by,
            };
            let suspect = Suspect::new(DoubtedReading::Both, bottom - by, cause, fix);
            Doubt::of(Some(number), by, vec![suspect], Basis::Panel)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        doubt::Scatter,
        log::{Course, CourseNumber, EdgeId, End, Reading},
        measure::{Hand, Length, Name},
        roof::EdgeKind,
        settings::Settings,
    };

    #[track_caller]
    fn check(bottom: i64, top: i64, expected: Option<(Cause, i64)>) {
        let name = Name::or("A", "A");
        let mut edge = Edge::new(EdgeId(1), name, EdgeKind::Hip, Hand::Left);
        let read = |inches| Reading::new(Length::from_inches(inches)).ok();
        let course = Course::unread(CourseNumber::FIRST);
        let course = course.with(End::Bottom, read(bottom));
        edge.put(course.with(End::Top, read(top)));
        let settings = Settings::default();
        let given = Given::of(&edge, &settings, Scatter::USUAL);
        let found = odd_widths(&edge, &given).pop();
        let found = found.map(|doubt| (doubt.cause, doubt.likely));
        let expected = expected.map(|(cause, likely)| (cause, Length::from_inches(likely)));
        assert_eq!(found, expected, "{bottom} {top}");
    }

    #[test]
    fn only_the_narrower_end_tells_whether_a_panel_fits() {
        check(60, 47, None);
        check(62, 49, Some((Cause::AnotherPanelFits, 16)));
        check(110, 97, Some((Cause::AnotherPanelFits, 18)));
        check(14, 2, None);
        check(13, 1, Some((Cause::PanelEdge, 15)));
    }
}
