//! What a reading should be, to stand beside the field while it is typed.
//!
//! Expected figures are shown as such and never stored as read. A figure below
//! zero says that the line runs out before the course line is reached.

use super::{joints::Bond, line::Line, reach::Log};
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
    let line = Line::of(edge, roof, settings)?;
    let bottom = edge.course(course)?.bottom?.length();
    Some(bottom - step_of(edge, &line, settings, course))
}

/// The expected bottom of a course: one step more than its top where that is
/// read, else from the top below it where the bond is regular.
pub fn expected_bottom(
    edge: &Edge,
    roof: &RoofLine,
    settings: &Settings,
    course: CourseNumber,
) -> Option<Length> {
    let line = Line::of(edge, roof, settings)?;
    let step = step_of(edge, &line, settings, course);
    if let Some(top) = edge.course(course).and_then(|course| course.top) {
        return Some(top.length() + step);
    }
    let bond = found_bond(edge, settings)?;
    let below = course.before();
    let top = edge.course(below)?.top?.length();
    let joint = bond.joint_above(below, settings.cover());
    (below < course).then(|| laid(top - joint, step, edge, settings))
}

/// The bond found in the log of an edge, where it is regular.
pub(super) fn found_bond(edge: &Edge, settings: &Settings) -> Option<Bond> {
    Log::of(edge, settings).bond
}

/// One course as the slope, the bond and the readings there are tell it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Expected {
    /// Which course.
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
    let Some(line) = Line::of(edge, roof, settings) else {
        return Vec::new();
    };
    let walk = Walk {
        edge,
        settings,
        line,
        bond: bond.or_else(|| found_bond(edge, settings)),
    };
    let numbers = || (1..=last.get()).filter_map(CourseNumber::new);
    let mut courses: Vec<Expected> = numbers().map(|number| walk.as_read(number)).collect();
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

struct Walk<'a> {
    edge: &'a Edge,
    settings: &'a Settings,
    line: Line,
    bond: Option<Bond>,
}

impl Walk<'_> {
    fn step(&self, number: CourseNumber) -> Length {
        step_of(self.edge, &self.line, self.settings, number)
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
        let step = self.step(number);
        let bottom = below.and_then(|below| {
            let joint = self.bond?.joint_above(below.number, self.settings.cover());
            Some(laid(below.top? - joint, step, self.edge, self.settings))
        });
        Expected {
            number,
            bottom,
            top: bottom.map(|bottom| bottom - step),
        }
    }

    fn below(&self, above: Option<Expected>, number: CourseNumber) -> Expected {
        let step = self.step(number);
        let bottom = above.and_then(|above| {
            let joint = self.bond?.joint_above(number, self.settings.cover());
            let bottom = above.bottom? + joint + step;
            Some(laid(bottom, step, self.edge, self.settings))
        });
        Expected {
            number,
            bottom,
            top: bottom.map(|bottom| bottom - step),
        }
    }
}

fn step_of(edge: &Edge, line: &Line, settings: &Settings, number: CourseNumber) -> Length {
    let own = edge.course(number).and_then(|course| course.height);
    own.map_or(line.step, |height| {
        line.step.scaled(height.length(), settings.exposure)
    })
}

/// A bottom known but for whole covers, brought to where the last full panel
/// lies: the narrower finished width at least the side lap, and no other panel
/// fits (common practice).
fn laid(bottom: Length, step: Length, edge: &Edge, settings: &Settings) -> Length {
    let narrow = bottom.min(bottom - step) + settings.added_to_reading(edge.kind);
    let wanted = settings.side_lap + (narrow - settings.side_lap).modulo(settings.cover());
    bottom + wanted - narrow
}
