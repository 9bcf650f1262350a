//! One thing that may have been done to courses whose leans are as they should be.

use super::cause::Cause;
use crate::domain::measure::Length;
use std::ops::Range;

/// A forgotten course leaves no figure open that would fit anything, as a course off by
/// no usual amount does: beside that it counts so much more.
const LEAVES_NOTHING_OPEN: f64 = 7.0;

/// What may have been done to some courses.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Way {
    /// Both readings are too long by so much.
    By(Length),
    /// The course and the one above it are each other's.
    Exchanged,
    /// A course below the first was skipped.
    Skipped,
}

/// Something that explains what is seen.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Move {
    pub(super) courses: Range<usize>,
    pub(super) way: Way,
    pub(super) cause: Cause,
    /// How much of what is odd it explains.
    pub(super) gain: f64,
}

impl Move {
    /// Whether it is about all courses from one on, or up to one: such a one may be told
    /// by either part.
    pub(super) fn is_run(&self) -> bool {
        self.way == Way::Skipped || self.courses.len() > 1 && self.way != Way::Exchanged
    }

    /// What it explains, compared with `other` at the plane's other edge.
    pub(super) fn beside(&self, other: &Self) -> f64 {
        let nothing_open = self.way == Way::Skipped && other.cause == Cause::Unknown;
        self.gain
            + if nothing_open {
                LEAVES_NOTHING_OPEN
            } else {
                0.0
            }
    }

    pub(super) fn touches(&self, courses: &Range<usize>) -> bool {
        self.courses.start < courses.end && courses.start < self.courses.end
    }
}
