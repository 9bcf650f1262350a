//! The line an edge's courses are judged against, and how far off is too far.
//!
//! With five courses or more it is the edge's own: the refined median of its
//! steps `b - t` (see [`crate::domain::piece`]). A course is doubted beyond
//! `max(tolerance, 3.5 * 1.4826 * max(MAD, half a tape division))`: the 3.5
//! from NIST/SEMATECH e-Handbook 1.3.5.17 (after Iglewicz and Hoaglin), the
//! 1.4826 = 1 / Φ⁻¹(3/4) that makes the MAD a standard deviation. The floor
//! belongs on the MAD, which readings to 1/16 in make zero often. With fewer
//! courses the roof's slope is used.

use super::{
    given::Given,
    reach::{EdgeLog, Reach},
};
use crate::domain::log::Edge;
use crate::domain::measure::Length;
use crate::domain::piece::{level, median};
use crate::domain::settings::Settings;

/// What the courses of an edge were judged by.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Basis {
    Own,
    /// Too few courses: the roof's slope alone.
    Roof,
    /// Too few courses and no slope: only which way an edge of its kind goes.
    Kind,
    /// Too few courses, and nothing known of the roof: nothing was judged.
    Nothing,
}

impl Basis {
    /// In words, for the place where doubts are listed.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Own => "judged by the edge's own line",
            Self::Roof => "too few courses: judged by the roof's slope alone",
            Self::Kind => "too few courses and no slope: judged only by which way it goes",
            Self::Nothing => "too few courses and no slope: not judged",
        }
    }
}

/// An edge with fewer courses has no line of its own.
const FEWEST_COURSES: usize = 5;

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
        Self::of_log(&EdgeLog::of(edge, settings), &Given::of(edge, settings))
    }

    /// The same where the log is made ready already.
    pub(super) fn of_log(log: &EdgeLog, given: &Given<'_>) -> Option<Self> {
        let roof = || Some(Self::calm(Basis::Roof, given.roof_step()?, given.settings));
        Self::own(log, given.settings).or_else(roof)
    }

    /// A line whose courses are taken not to scatter.
    pub(super) fn calm(basis: Basis, step: Length, settings: &Settings) -> Self {
        Self {
            basis,
            step,
            cut_off: cut_off(Length::ZERO, settings),
        }
    }

    /// The edge's own line. A short course magnifies a tape's error, so the
    /// full ones set the line where there are enough of them.
    fn own(log: &EdgeLog, settings: &Settings) -> Option<Self> {
        let exposure = settings.exposure;
        let read = log.reaches.iter().filter(|reach| reach.step.is_some());
        let full = read.clone().filter(|reach| reach.height == exposure);
        let enough = |courses: &Vec<&Reach>| courses.len() >= FEWEST_COURSES;
        let full = Some(full.collect()).filter(enough);
        let courses = full.or_else(|| Some(read.collect()).filter(enough))?;
        let steps = courses.iter();
        let steps = steps.filter_map(|reach| Some(reach.step?.scaled(exposure, reach.height)));
        let step = level(steps.collect())?;
        let offs = courses.iter().filter_map(|reach| reach.off(step, exposure));
        let offs = offs.collect();
        Some(Self {
            basis: Basis::Own,
            step,
            cut_off: cut_off(mad(offs, Length::ZERO)?, settings),
        })
    }
}

/// The median of how far `values` lie from `about`, whichever way: the MAD.
pub fn mad(values: Vec<Length>, about: Length) -> Option<Length> {
    let apart = values.into_iter().map(|value| (value - about).abs());
    median(&mut apart.collect::<Vec<_>>())
}

/// `3.5 * 1.4826 * mad`: what lies further from the middle stands out
/// (NIST/SEMATECH e-Handbook 1.3.5.17, there as `0.6745 |x - median| / MAD > 3.5`).
pub fn stands_out_beyond(mad: Length) -> Length {
    mad.scaled(Length::from_nm(51_891), Length::from_nm(10_000))
}

/// Beyond what a course is doubted whose edge scatters by `mad`.
pub fn cut_off(mad: Length, settings: &Settings) -> Length {
    let half = settings.division.step().half();
    settings.tolerance.max(stands_out_beyond(mad.max(half)))
}
