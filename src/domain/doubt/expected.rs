//! What a reading should be, to stand beside the field while it is typed.
//!
//! Expected figures are shown as such and never stored as read. A figure below
//! zero says that the line runs out before the course line is reached.

use super::{given::Given, joints::Bond, line::EdgeLine, reach::EdgeLog};
use crate::domain::{
    log::{CourseNumber, Edge},
    measure::Length,
    roof::RoofLine,
    settings::Settings,
};

/// The expected top of a course whose bottom is read: one step less, by the
/// edge's own line or, with too few courses, by the roof.
pub fn expected_top(
    edge: &Edge,
    roof: &RoofLine,
    settings: &Settings,
    course: CourseNumber,
) -> Option<Length> {
    let walk = Walk::of(edge, roof, settings)?;
    let bottom = edge.course(course)?.bottom?.length();
    Some(bottom - walk.step(course))
}

/// The expected bottom of a course: one step more than its top where that is
/// read, else from the top below it where the bond is regular.
pub fn expected_bottom(
    edge: &Edge,
    roof: &RoofLine,
    settings: &Settings,
    course: CourseNumber,
) -> Option<Length> {
    let walk = Walk::of(edge, roof, settings)?;
    if let Some(top) = edge.course(course).and_then(|course| course.top) {
        return Some(top.length() + walk.step(course));
    }
    let below = course.before();
    let top = edge.course(below)?.top?.length();
    walk.bottom_above(below, top, course)
        .filter(|_| below < course)
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
    roof: &RoofLine,
    settings: &Settings,
    last: CourseNumber,
    bond: Option<Bond>,
) -> Vec<Expected> {
    let Some(mut walk) = Walk::of(edge, roof, settings) else {
        return Vec::new();
    };
    walk.bond = bond.or(walk.bond);
    let numbers = (1..=last.get()).filter_map(CourseNumber::new);
    let mut courses: Vec<Expected> = numbers.map(|number| walk.as_read(number)).collect();
    let mut below = None;
    for course in &mut courses {
        if course.bottom.is_none() {
            *course = walk.above(below, course.number);
        }
        below = Some(*course);
    }
    let mut above = None;
    for course in courses.iter_mut().rev() {
        if course.bottom.is_none() {
            *course = walk.below(above, course.number);
        }
        above = Some(*course);
    }
    courses
}

/// Going from course to course by the line and the bond.
struct Walk<'a> {
    edge: &'a Edge,
    settings: &'a Settings,
    line: EdgeLine,
    bond: Option<Bond>,
}

impl<'a> Walk<'a> {
    fn of(edge: &'a Edge, roof: &RoofLine, settings: &'a Settings) -> Option<Self> {
        let log = EdgeLog::of(edge, settings);
        Some(Self {
            edge,
            settings,
            line: EdgeLine::of_log(&log, &Given::of(edge, roof, settings))?,
            bond: log.bond,
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

    fn as_read(&self, number: CourseNumber) -> Expected {
        let course = self.edge.course(number);
        let bottom = course.and_then(|c| c.bottom).map(|r| r.length());
        let top = course.and_then(|c| c.top).map(|r| r.length());
        let step = self.step(number);
        Expected {
            number,
            bottom: bottom.or_else(|| top.map(|top| top + step)),
            top: top.or_else(|| bottom.map(|bottom| bottom - step)),
        }
    }

    fn above(&self, below: Option<Expected>, number: CourseNumber) -> Expected {
        let bottom = below.and_then(|below| self.bottom_above(below.number, below.top?, number));
        self.with_bottom(number, bottom)
    }

    fn below(&self, above: Option<Expected>, number: CourseNumber) -> Expected {
        let bottom = above.and_then(|above| {
            let joint = self.bond?.joint_above(number, self.settings.cover());
            Some(self.laid(above.bottom? + joint + self.step(number), number))
        });
        self.with_bottom(number, bottom)
    }

    fn with_bottom(&self, number: CourseNumber, bottom: Option<Length>) -> Expected {
        Expected {
            number,
            bottom,
            top: bottom.map(|bottom| bottom - self.step(number)),
        }
    }

    /// The bottom of the course `number` above the `top` of the course `below`.
    fn bottom_above(
        &self,
        below: CourseNumber,
        top: Length,
        number: CourseNumber,
    ) -> Option<Length> {
        let joint = self.bond?.joint_above(below, self.settings.cover());
        Some(self.laid(top - joint, number))
    }

    /// A bottom known but for whole covers, brought to where the last full panel
    /// lies: the narrower finished width at least the side lap, and no other panel
    /// fits (common practice).
    fn laid(&self, bottom: Length, number: CourseNumber) -> Length {
        let settings = self.settings;
        let narrow =
            bottom.min(bottom - self.step(number)) + settings.added_to_reading(self.edge.kind);
        let wanted = settings.side_lap + (narrow - settings.side_lap).modulo(settings.cover());
        bottom + wanted - narrow
    }
}
