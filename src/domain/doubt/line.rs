//! The line an edge's courses are judged against, and how far off is too far.
//!
//! With five courses or more it is the edge's own: the refined median of its
//! steps `b - t`. With fewer the roof's slope is used. How far off is too far
//! says the scatter of the job's tape (`scatter.rs`).

use super::{
    given::Given,
    reach::EdgeLog,
    scatter::{Scatter, full_steps},
};
use crate::domain::log::Edge;
use crate::domain::measure::Length;
use crate::domain::settings::Settings;
use std::borrow::Cow;

/// What the courses of an edge were judged by.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Basis {
    Own,
    /// The other end of the course, by so many whole rows of the plane.
    OtherEnd {
        rows: usize,
    },
    /// The joints of the bond.
    Joints,
    /// How wide a gap the panel leaves.
    Panel,
    /// Where the boards of the plane's two edges meet.
    Meeting,
    /// The course below, both of its gaps.
    Below,
    /// Too few courses: the roof's slope alone.
    Roof,
    /// Too few courses and no slope: only which way an edge of its kind goes.
    Kind,
    /// Too few courses, and nothing known of the roof: nothing was judged.
    Nothing,
}

impl Basis {
    /// In words, for the place where doubts are listed.
    pub fn words(self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Own => "judged by the edge's own line and by how this tape reads",
            Self::OtherEnd { rows } => {
                let words = format!("judged by the other end of the course: {rows} whole rows");
                return Cow::Owned(words);
            }
            Self::Joints => "judged by the joints from course to course",
            Self::Panel => "judged by the panel's width and side lap",
            Self::Below => "judged by the course below it, read at both edges",
            Self::Meeting => "judged by where the boards of both edges meet",
            Self::Roof => "fewer than five courses: judged by the roof's slope alone",
            Self::Kind => {
                "fewer than five courses and no slope said: all that is checked is which end is the wider one"
            }
            Self::Nothing => "fewer than five courses and no slope said: not checked",
        })
    }
}

/// A line to judge courses against.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct EdgeLine {
    /// Where it comes from; [`Basis::Own`] or [`Basis::Roof`].
    pub basis: Basis,
    /// How much a course narrows over a full exposure.
    pub step: Length,
    pub cut_off: Length,
}

impl EdgeLine {
    /// The line of `edge`: its own, or the roof's where it has too few courses.
    pub fn of(edge: &Edge, settings: &Settings) -> Option<Self> {
        let given = Given::of(edge, settings, Scatter::USUAL);
        Self::of_log(&EdgeLog::of(edge, settings), &given)
    }

    /// The same where the log is made ready already.
    pub(super) fn of_log(log: &EdgeLog, given: &Given<'_>) -> Option<Self> {
        let roof = || {
            let step = given.roof_step()?;
            let reaches = log.reaches.iter();
            let offs = reaches.filter_map(|reach| reach.off(step, given.settings.exposure));
            let scatter = given.scatter.about(offs);
            Some(Self {
                basis: Basis::Roof,
                step,
                cut_off: scatter.cut_off(given.settings),
            })
        };
        Self::own(log, given).or_else(roof)
    }

    /// A line whose courses scatter as those of the job do.
    pub(super) fn at(basis: Basis, step: Length, given: &Given<'_>) -> Self {
        Self {
            basis,
            step,
            cut_off: given.scatter.cut_off(given.settings),
        }
    }

    /// The edge's own line.
    fn own(log: &EdgeLog, given: &Given<'_>) -> Option<Self> {
        let level = given
            .scatter
            .level(&full_steps(&log.reaches, given.settings)?)?;
        Some(Self {
            basis: Basis::Own,
            step: level.step,
            cut_off: given.scatter.at(&level).cut_off(given.settings),
        })
    }
}
