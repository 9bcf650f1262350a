//! How many pieces a log makes, so that a small file cannot fill the memory: a
//! gap of 100 m takes a thousand panels of the narrowest.

use crate::domain::{
    bench::{BenchEvent, Fact},
    cutting::Job,
    log::{Course, Edge, EdgeId},
    measure::Length,
    settings::Settings,
};
use std::collections::HashMap;

/// The most pieces of a job: more than any roof takes, and few enough to be
/// planned in a moment.
pub const MOST_PIECES: usize = 100_000;

/// About how many pieces the log of `job` makes; never fewer than it does.
pub(super) fn pieces(job: &Job) -> usize {
    let corrections = corrections(job.events());
    job.edges().iter().fold(0, |sum: usize, edge| {
        let longer = corrections.get(&edge.id).copied().unwrap_or_default();
        sum.saturating_add(of_edge(edge, longer, &job.settings))
    })
}

/// The same of one edge, whose pieces are so much longer, in nm.
pub(super) fn of_edge(edge: &Edge, longer: i64, settings: &Settings) -> usize {
    let courses = edge.courses().iter();
    courses.fold(0, |sum: usize, course| {
        sum.saturating_add(of_course(course, longer, settings))
    })
}

/// How much longer the pieces of each edge are cut than they were read, in nm.
fn corrections(events: &[BenchEvent]) -> HashMap<EdgeId, i64> {
    let mut corrections = HashMap::new();
    for event in events {
        if let Fact::Corrected { edge, by } = &event.fact {
            let sum: &mut i64 = corrections.entry(*edge).or_default();
            *sum = sum.saturating_add(by.nm());
        }
    }
    corrections
}

fn of_course(course: &Course, longer: i64, settings: &Settings) -> usize {
    let height = course.height_in(settings.exposure);
    let Some(gap) = course.gap(height) else {
        return 0;
    };
    let widest = gap.bottom.max(gap.top).nm().saturating_add(longer.max(0));
    // Wider ones are refused where they are planned.
    let widest = widest.min(Length::LONGEST.nm());
    let beyond = widest + settings.side_lap.nm() - settings.panel_width.nm();
    if beyond <= 0 {
        return 1;
    }
    let cover = settings.cover().nm().max(1);
    2 + usize::try_from(beyond / cover).unwrap_or(usize::MAX - 2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        bench::Progress,
        cutting::CutList,
        log::{CourseNumber, End, Reading},
        measure::{Hand, Name},
        roof::EdgeKind,
    };

    #[test]
    fn the_count_is_never_below_the_pieces_that_are_planned() {
        let mut job = Job::new(Name::or("x", "x"), Settings::default());
        let edge = job.add_edge(Name::or("x", "x"), EdgeKind::Hip, Hand::Left);
        for number in 1..=300 {
            let read = |mm: i64| Reading::new(Length::from_mm(mm * 37)).ok();
            let course = Course::unread(CourseNumber::new(number).unwrap())
                .with(End::Bottom, read(i64::from(number)))
                .with(End::Top, read(i64::from(300 - number)));
            job.edge_mut(edge).unwrap().put(course);
        }
        let planned = CutList::of(&job, &Progress::of(&[])).pieces.len();
        let counted = pieces(&job);
        assert!(
            planned <= counted && counted <= planned + 600,
            "{planned} {counted}"
        );
    }
}
