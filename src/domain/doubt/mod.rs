//! Doubtful readings: which figures of a log are likely wrong, and why.
//!
//! An edge is straight, so every course of it narrows (or widens) alike; the
//! roof's slope says by how much; and where the bond is regular, the joints at
//! the course lines say which of two readings is wrong. Nothing here changes a
//! log, and nothing doubtful is an error: it is for the cutter to measure
//! again. What cannot be seen, and how much is, stands in docs/doubts.md.

pub mod cause;
pub mod line;
mod reach;
pub mod joints;
mod slips;
pub mod fix;
pub mod set_aside;
mod suspects;
mod placement;
mod shift;
mod whole_edge;
mod courses;
pub mod expected;
pub mod width;

pub use cause::Cause;
pub use fix::Fix;
pub use line::{Basis, Line};
pub use set_aside::SetAside;

use crate::domain::course::{CourseNumber, Reading};
use crate::domain::edge::Edge;
use crate::domain::length::Length;
use crate::domain::roof::RoofLine;
use crate::domain::settings::Settings;
use courses::Case;
use reach::Log;

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
    #[must_use]
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
    fn of(
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
    #[must_use]
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

/// What is doubtful about `edge`, a whole edge first, then going up; without
/// what was set aside. Judged on the readings as they were written.
#[must_use]
pub fn check(
    edge: &Edge,
    roof: &RoofLine,
    settings: &Settings,
    set_aside: &[SetAside],
) -> Vec<Doubt> {
    let log = Log::of(edge, settings);
    let case = Case {
        log: &log,
        kind: edge.kind,
        roof,
        settings,
    };
    let is_answered = |doubt: &Doubt| {
        set_aside
            .iter()
            .any(|answer| answer.answers(doubt, edge, settings.tolerance))
    };
    let mut doubts = match case.shifted() {
        Some((mut below, shift)) if !is_answered(&shift) => {
            below.push(shift);
            below
        }
        // Measured again, nothing is left out: the courses above count too.
        _ => case.unshifted(),
    };
    doubts.retain(|doubt| !is_answered(doubt));
    doubts
}

/// What the courses of `edge` are judged by as its log stands.
#[must_use]
pub fn basis(edge: &Edge, roof: &RoofLine, settings: &Settings) -> Basis {
    match Line::of(edge, roof, settings) {
        Some(line) => line.basis,
        None if roof.trend(edge.kind).is_some() => Basis::Kind,
        None => Basis::Nothing,
    }
}
