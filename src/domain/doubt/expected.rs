//! What a reading should be, to stand beside the field while it is typed.
//!
//! Expected figures are shown as such and never stored as read. A figure below
//! zero says that the line runs out before the course line is reached.

use super::{
    check::{Witness, check},
    given::Given,
    joints::Bond,
    line::EdgeLine,
    reach::{EdgeLog, signed},
    scatter::Scatter,
    verdict::{Doubt, DoubtedReading},
};
use crate::domain::log::{CourseNumber, Edge, End};
use crate::domain::measure::Length;
use crate::domain::settings::Settings;

/// The expected reading at one end of a course. Where its other end is read, one
/// step less or more, by the edge's own line or, with too few courses, by the
/// roof; a bottom else from the top below it where the bond is regular. Of a course
/// that runs to another edge nothing: its two edges tell that together.
pub fn expected_reading(
    edge: &Edge,
    settings: &Settings,
    course: CourseNumber,
    end: End,
) -> Option<Length> {
    if edge
        .course(course)
        .is_some_and(|course| course.to.is_some())
    {
        return None;
    }
    let walk = Walk::of(edge, settings)?;
    let above = || {
        let below = course.before();
        let top = walk.sound(below, End::Top).filter(|_| below < course)?;
        let bottom = walk.bottom_above(below, top, course)?;
        Some(match end {
            End::Bottom => bottom,
            End::Top => bottom - walk.step(course),
        })
    };
    walk.by_step(course, end).or_else(above)
}

/// One course as the slope, the bond and the readings there are tell it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Expected {
    pub number: CourseNumber,
    /// Its bottom, where that can be told.
    pub bottom: Option<Length>,
    /// Its top, where that can be told.
    pub top: Option<Length>,
}

/// The expected readings of the courses 1 to `last`: of a course with one
/// reading the other follows from the step; from course to course they follow
/// from the bond, the one given or the one found; without a bond they stay
/// open, since nothing tells where the full panels of the next course end.
pub fn expected_readings(
    edge: &Edge,
    settings: &Settings,
    last: CourseNumber,
    bond: Option<Bond>,
) -> Vec<Expected> {
    let Some(mut walk) = Walk::of(edge, settings) else {
        return Vec::new();
    };
    walk.bond = bond.or(walk.bond);
    let numbers = (1..=last.get()).filter_map(CourseNumber::new);
    let mut courses: Vec<Expected> = numbers.map(|number| walk.as_read(number)).collect();
    walk.fill(courses.iter_mut(), |below, number| {
        walk.bottom_above(below.number, below.top?, number)
    });
    walk.fill(courses.iter_mut().rev(), |above, number| {
        let in_bond = walk.in_bond(above.number) && walk.in_bond(number);
        let joint = walk
            .bond
            .filter(|_| in_bond)?
            .joint_above(number, settings.cover());
        Some(walk.laid(above.bottom? + joint + walk.step(number), number))
    });
    courses
}

/// The readings that a doubt points at first.
fn doubted(edge: &Edge, settings: &Settings) -> Vec<(CourseNumber, End)> {
    let of_doubt = |doubt: Doubt| {
        let Some(course) = doubt.course else {
            return vec![];
        };
        match doubt.reading {
            DoubtedReading::Bottom => vec![(course, End::Bottom)],
            DoubtedReading::Top => vec![(course, End::Top)],
            DoubtedReading::Placement => {
                vec![(course, End::Top), (course.next(), End::Bottom)]
            }
            DoubtedReading::Both => vec![(course, End::Bottom), (course, End::Top)],
            DoubtedReading::Edge => vec![],
        }
    };
    let doubts = check(
        edge,
        settings,
        &edge.set_aside,
        &Witness::none(edge, settings),
    )
    .into_iter();
    doubts.flat_map(of_doubt).collect()
}

/// Going from course to course by the line and the bond.
struct Walk<'a> {
    edge: &'a Edge,
    settings: &'a Settings,
    line: EdgeLine,
    bond: Option<Bond>,
    /// The readings that are doubted themselves: nothing leans on them.
    doubted: Vec<(CourseNumber, End)>,
}

impl<'a> Walk<'a> {
    fn of(edge: &'a Edge, settings: &'a Settings) -> Option<Self> {
        let log = EdgeLog::of(edge, settings);
        Some(Self {
            edge,
            settings,
            line: EdgeLine::of_log(&log, &Given::of(edge, settings, Scatter::USUAL))?,
            bond: log.bond,
            doubted: doubted(edge, settings),
        })
    }

    /// How much the course narrows over its own height.
    fn step(&self, number: CourseNumber) -> Length {
        let own = self.edge.course(number).and_then(|course| course.height);
        own.map_or(self.line.step, |height| {
            let exposure = self.settings.exposure;
            self.line.step.scaled(height.length(), exposure)
        })
    }

    /// The reading at `end` as the one at the other end and the step give it.
    fn by_step(&self, number: CourseNumber, end: End) -> Option<Length> {
        let other = self.sound(number, end.other())?;
        Some(other + signed(end, self.step(number)))
    }

    /// A reading that is not doubted itself.
    fn sound(&self, number: CourseNumber, end: End) -> Option<Length> {
        let reading = self.edge.reading(number, end)?;
        (!self.doubted.contains(&(number, end))).then_some(reading)
    }

    /// Whether it ends at a joint of the bond: not at another edge's board, and not
    /// at a line struck up the course.
    fn in_bond(&self, number: CourseNumber) -> bool {
        let course = self.edge.course(number);
        course.is_none_or(|course| course.to.is_none() && course.reads_to.is_none())
    }

    fn as_read(&self, number: CourseNumber) -> Expected {
        let course = self.edge.course(number);
        let ends_here = course.is_none_or(|course| course.to.is_none());
        let read = |end| self.edge.reading(number, end);
        let at = |end| read(end).or_else(|| self.by_step(number, end));
        let at = |end| at(end).filter(|_| ends_here);
        Expected {
            number,
            bottom: at(End::Bottom),
            top: at(End::Top),
        }
    }

    /// Gives the courses that have no bottom one `from` the course before them,
    /// in whichever order they come.
    fn fill<'e>(
        &self,
        courses: impl Iterator<Item = &'e mut Expected>,
        from: impl Fn(Expected, CourseNumber) -> Option<Length>,
    ) {
        let mut before: Option<Expected> = None;
        for course in courses {
            if course.bottom.is_none() {
                course.bottom = before.and_then(|before| from(before, course.number));
                course.top = course.bottom.map(|b| b - self.step(course.number));
            }
            before = Some(*course);
        }
    }

    /// The bottom of the course `number` above the `top` of the course `below`.
    fn bottom_above(
        &self,
        below: CourseNumber,
        top: Length,
        number: CourseNumber,
    ) -> Option<Length> {
        let in_bond = self.in_bond(below) && self.in_bond(number);
        let bond = self.bond.filter(|_| in_bond)?;
        let joint = bond.joint_above(below, self.settings.cover());
        Some(self.laid(top - joint, number))
    }

    /// A bottom known but for whole covers, brought to where the last full panel
    /// lies: the narrower finished width at least the side lap, and no other panel
    /// fits (common practice).
    fn laid(&self, bottom: Length, number: CourseNumber) -> Length {
        let settings = self.settings;
        let narrow = bottom.min(bottom - self.step(number)) + settings.added_to_reading(self.edge);
        let wanted = settings.side_lap + (narrow - settings.side_lap).modulo(settings.cover());
        bottom + wanted - narrow
    }
}
