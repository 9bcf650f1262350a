//! A doubt with its explanations, likeliest first.

use super::{cause::Cause, fix::Fix, line::Basis};
use crate::domain::{log::CourseNumber, measure::Length};

/// What a doubt is about.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum DoubtedReading {
    /// The bottom of the course.
    Bottom,
    /// The top of the course.
    Top,
    /// One placement of the tape: the top of the course and the bottom of the
    /// next one.
    Placement,
    /// All readings of the edge.
    Edge,
}

impl DoubtedReading {
    /// `bottom`, `top`, `placement` or `edge`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bottom => "bottom",
            Self::Top => "top",
            Self::Placement => "placement",
            Self::Edge => "edge",
        }
    }
}

/// One explanation of what is odd.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Suspect {
    /// What would be wrong.
    pub reading: DoubtedReading,
    /// What it likely should be: of a placement the top reading, of an edge
    /// the step `b - t` over a full exposure.
    pub likely: Length,
    /// How it came about.
    pub cause: Cause,
    /// What taking the suggestion changes.
    pub fix: Fix,
}

/// Something odd in the readings of an edge, with its likeliest explanation.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Doubt {
    /// The course, for a placement the one below the line; none for an edge.
    pub course: Option<CourseNumber>,
    /// What is likely wrong.
    pub reading: DoubtedReading,
    /// What was read less what is likely; of an edge its step less the
    /// expected one.
    pub off: Length,
    /// What it likely should be, as in [`Suspect::likely`].
    pub likely: Length,
    /// How it likely came about.
    pub cause: Cause,
    /// What taking the suggestion changes.
    pub fix: Fix,
    /// Other explanations, best first.
    pub others: Vec<Suspect>,
    /// What it was judged by.
    pub basis: Basis,
}

impl Doubt {
    /// The doubt that `suspects`, best first, make; `off` is what it is off by
    /// if the first of them is right.
    pub(super) fn of(
        course: Option<CourseNumber>,
        off: Length,
        suspects: Vec<Suspect>,
        basis: Basis,
    ) -> Option<Self> {
        let mut suspects = suspects.into_iter();
        let first = suspects.next()?;
        Some(Self {
            course,
            reading: first.reading,
            off,
            likely: first.likely,
            cause: first.cause,
            fix: first.fix,
            others: suspects.collect(),
            basis,
        })
    }

    /// Every explanation, best first.
    pub fn suspects(&self) -> impl Iterator<Item = Suspect> + '_ {
        let first = Suspect {
            reading: self.reading,
            likely: self.likely,
            cause: self.cause,
            fix: self.fix,
        };
        std::iter::once(first).chain(self.others.iter().copied())
    }

    /// Whether `course` has a reading that this doubt is about.
    pub fn touches(&self, course: CourseNumber) -> bool {
        match self.reading {
            DoubtedReading::Edge => true,
            DoubtedReading::Placement => self
                .course
                .is_some_and(|below| below == course || below.next() == course),
            DoubtedReading::Bottom | DoubtedReading::Top => self.course == Some(course),
        }
    }
}
