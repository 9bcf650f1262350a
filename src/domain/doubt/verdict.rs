//! A doubt with its explanations, likeliest first.

use super::{cause::Cause, fix::Fix, line::Basis};
use crate::domain::log::{CourseNumber, Edge, EdgeId, End};
use crate::domain::measure::{Length, Name};
use std::ops::Deref;

/// What a doubt is about.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum DoubtedReading {
    Bottom,
    Top,
    /// One placement of the tape: the top of the course and the bottom of the
    /// next one.
    Placement,
    /// Both readings of a course, or of several.
    Both,
    /// All readings of the edge.
    Edge,
}

impl DoubtedReading {
    /// `bottom`, `top`, `placement`, `both` or `edge`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bottom => "bottom",
            Self::Top => "top",
            Self::Placement => "placement",
            Self::Both => "both",
            Self::Edge => "edge",
        }
    }

    /// As the screens and the sheet say it.
    pub const fn said(self) -> &'static str {
        match self {
            Self::Bottom => "bottom",
            Self::Top => "top",
            Self::Placement => "top and the next bottom",
            Self::Both => "both readings",
            Self::Edge => "the whole edge",
        }
    }
}

impl From<End> for DoubtedReading {
    fn from(end: End) -> Self {
        match end {
            End::Bottom => Self::Bottom,
            End::Top => Self::Top,
        }
    }
}

/// One explanation of what is odd.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Suspect {
    pub reading: DoubtedReading,
    /// What it likely should be: of a placement the top reading, of both the
    /// (lowest) bottom, of an edge the step `b - t` over a full exposure.
    pub likely: Length,
    pub cause: Cause,
    /// What taking the suggestion changes.
    pub fix: Fix,
}

impl Suspect {
    pub(super) fn new(
        reading: impl Into<DoubtedReading>,
        likely: Length,
        cause: Cause,
        fix: Fix,
    ) -> Self {
        Self {
            reading: reading.into(),
            likely,
            cause,
            fix,
        }
    }

    /// One reading of `course` that likely is another figure.
    pub(super) fn of_reading(course: CourseNumber, end: End, to: Length, cause: Cause) -> Self {
        Self::new(end, to, cause, Fix::Reading { course, end, to })
    }
}

/// Something odd in the readings of an edge; reads as its likeliest
/// explanation.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Doubt {
    /// The course, for a placement the one below the line; none for an edge.
    pub course: Option<CourseNumber>,
    /// What was read less what is likely; of an edge its step less the
    /// expected one.
    pub off: Length,
    pub likeliest: Suspect,
    /// Other explanations, best first.
    pub others: Vec<Suspect>,
    /// Whether nothing speaks for the likeliest more than for the next one, which is
    /// about the other reading of the course.
    pub is_even: bool,
    pub basis: Basis,
    /// Where nothing tells at which end of the rows it is, the other one.
    pub or_at: Option<OrAt>,
}

/// The other edge of the plane, at which the same may be wrong instead.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct OrAt {
    pub edge: EdgeId,
    pub name: Name,
    /// More speaks for it there.
    pub likelier: bool,
}

impl OrAt {
    pub(super) fn of(edge: &Edge, likelier: bool) -> Self {
        Self {
            edge: edge.id,
            name: edge.name.clone(),
            likelier,
        }
    }
}

impl Deref for Doubt {
    type Target = Suspect;

    fn deref(&self) -> &Suspect {
        &self.likeliest
    }
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
        Some(Self {
            course,
            off,
            likeliest: suspects.next()?,
            others: suspects.collect(),
            is_even: false,
            basis,
            or_at: None,
        })
    }

    pub(super) fn even(self, is_even: bool) -> Self {
        Self { is_even, ..self }
    }

    /// Every explanation, best first.
    pub fn suspects(&self) -> impl Iterator<Item = Suspect> + '_ {
        std::iter::once(self.likeliest).chain(self.others.iter().copied())
    }

    /// Whether `course` has a reading that this doubt is about.
    pub fn touches(&self, course: CourseNumber) -> bool {
        match self.reading {
            DoubtedReading::Edge => true,
            DoubtedReading::Placement => self
                .course
                .is_some_and(|below| below == course || below.next() == course),
            DoubtedReading::Both => match self.fix {
                Fix::Both { first, last, .. } => (first..=last).contains(&course),
                Fix::Exchange { below } => below == course || below.next() == course,
                _ => self.course == Some(course),
            },
            DoubtedReading::Bottom | DoubtedReading::Top => self.course == Some(course),
        }
    }
}
