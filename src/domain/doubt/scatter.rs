//! How much a tape scatters: one person and one tape read a whole roof, so all
//! edges of a job are asked together.
//!
//! A few courses are a poor measure of their own scatter: six that happen to lie
//! together hide that the tape is read to 1/8 in, six that happen to lie apart
//! hide a slip. So an edge's own scatter is weighed against the job's, and the
//! job's against a usual one, each as if it had been seen in so many courses
//! (the mean of variances with prior degrees of freedom, NIST/SEMATECH e-Handbook
//! 1.3.5.17 for the cut-off; the weights from memory and by trial, docs/doubts.md).

use super::reach::{Reach, reaches_of};
use crate::domain::{log::Edge, measure::Length, piece::median, settings::Settings};

/// An edge with fewer courses has no line, and so no scatter, of its own.
pub(super) const FEWEST_COURSES: usize = 5;

/// A usual standard deviation of a step: a tape read to a little under 1/8 in.
pub(super) const USUAL_MM: f64 = 3.8;
/// So many courses' worth the usual one counts beside a job's.
const USUAL_COUNTS: f64 = 5.0;
/// So many courses' worth the job's counts beside an edge's.
const JOB_COUNTS: f64 = 60.0;
/// The MAD's share of what a mean of squares tells of as many courses.
pub(super) const MAD_COUNTS: f64 = 0.37;
/// Courses further off the median than so many deviations tell nothing of it.
const NEAR: f64 = 2.3;
/// What those within so many deviations scatter less by: their squares are
/// `1 - 2 c φ(c) / (2 Φ(c) - 1)` of all squares, c 2.3 (the variance of a normal
/// distribution cut off at both ends, from memory).
const OF_NEAR: f64 = 0.867;
/// As near at least, for a level does not move for less: 1/4 in.
const NEAREST_MM: f64 = 6.35;
/// `1 / Φ⁻¹(3/4)`: makes the MAD a standard deviation.
pub(super) const OF_MAD: f64 = 1.4826;

/// The standard deviation of a step `b - t` over a full exposure.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
pub struct Scatter {
    mm: f64,
    /// So many courses' worth it counts beside what an edge tells.
    counts: f64,
}

/// What the courses of an edge agree on.
pub(super) struct Level {
    pub(super) step: Length,
    /// How far those lie from it that agree, squared and summed, in mm2.
    squares: f64,
    count: usize,
}

impl Scatter {
    /// Where nothing is known of the tape.
    pub const USUAL: Self = Self {
        mm: USUAL_MM,
        counts: USUAL_COUNTS,
    };

    /// That of the tape with which `edges` were read.
    pub fn of_job<'a>(edges: impl Iterator<Item = &'a Edge>, settings: &Settings) -> Self {
        let steps = edges.filter_map(|edge| full_steps(&reaches_of(edge, settings), settings));
        let steps: Vec<Vec<Length>> = steps.collect();
        let mut offs = Vec::new();
        for edge in &steps {
            let middle = median(&mut edge.clone()).unwrap_or(Length::ZERO);
            offs.extend(edge.iter().map(|step| *step - middle));
        }
        let counts = MAD_COUNTS * float(offs.len());
        let Some(mad) = mad(offs, Length::ZERO) else {
            return Self::USUAL;
        };
        let mad = mad.max(settings.division.step().half()).mm() * OF_MAD;
        let rough = Self::USUAL.with(mad * mad * counts, counts);
        let levels = steps.iter().filter_map(|steps| rough.level(steps));
        let (squares, counts) = levels.fold((0.0, 0.0), |(squares, counts), level| {
            (squares + level.squares, counts + level.free())
        });
        Self {
            counts: JOB_COUNTS,
            ..Self::USUAL.with(squares, counts)
        }
    }

    /// With `squares` of mm seen that count as many courses' worth.
    fn with(self, squares: f64, counts: f64) -> Self {
        let known = self.mm * self.mm * self.counts;
        let counted = self.counts + counts;
        Self {
            mm: ((known + squares) / counted).sqrt(),
            counts: counted,
        }
    }

    /// That of an edge whose courses lie around `level`.
    pub(super) fn at(self, level: &Level) -> Self {
        self.with(level.squares, level.free())
    }

    /// That of courses off a known line by `offs`.
    pub(super) fn about(self, offs: impl Iterator<Item = Length>) -> Self {
        let near = offs.map(Length::mm).filter(|off| off.abs() <= self.near());
        let (squares, count) = near.fold((0.0, 0), |(squares, count), off| {
            (squares + off * off, count + 1)
        });
        self.with(squares / OF_NEAR, float(count))
    }

    /// How near courses lie that tell of a level, in mm.
    fn near(self) -> f64 {
        (NEAR * self.mm).max(NEAREST_MM)
    }

    /// The level of `steps`: the mean of those near their median.
    pub(super) fn level(self, steps: &[Length]) -> Option<Level> {
        let middle = median(&mut steps.to_vec())?;
        let reach = Length::rounded_from_mm(self.near());
        let near = steps.iter().filter(|step| (**step - middle).abs() <= reach);
        let count = near.clone().count();
        let sum: Length = near.clone().copied().sum();
        let step = match i64::try_from(count) {
            Ok(count) if count > 0 => sum.divided(count),
            _ => middle,
        };
        let squares: f64 = near.map(|near| (*near - step).mm().powi(2)).sum();
        Some(Level {
            step,
            squares: squares / OF_NEAR,
            count,
        })
    }

    /// In millimetres.
    pub(super) const fn mm(self) -> f64 {
        self.mm
    }

    /// A course further off its line than this is doubted.
    pub fn cut_off(self, settings: &Settings) -> Length {
        let as_mad = Length::rounded_from_mm(self.mm / OF_MAD);
        settings.tolerance.max(stands_out_beyond(as_mad))
    }
}

/// The median of how far `values` lie from `about`, whichever way: the MAD.
pub fn mad(values: Vec<Length>, about: Length) -> Option<Length> {
    let apart = values.into_iter().map(|value| (value - about).abs());
    median(&mut apart.collect::<Vec<_>>())
}

/// `3.5 * 1.4826 * mad`: what lies further from the middle stands out
/// (NIST/SEMATECH e-Handbook 1.3.5.17, after Iglewicz and Hoaglin, there as
/// `0.6745 |x - median| / MAD > 3.5`).
pub fn stands_out_beyond(mad: Length) -> Length {
    mad.scaled(Length::from_nm(51_891), Length::from_nm(10_000))
}

impl Level {
    /// So many courses' worth its scatter counts: one less, for the level itself.
    fn free(&self) -> f64 {
        (float(self.count) - 1.0).max(0.0)
    }
}

/// The steps that set an edge's line, over a full exposure: those of full
/// courses where there are enough, for a short one magnifies a tape's error.
pub(super) fn full_steps(reaches: &[Reach], settings: &Settings) -> Option<Vec<Length>> {
    let exposure = settings.exposure;
    let read = reaches.iter().filter(|reach| reach.step.is_some());
    let full = read.clone().filter(|reach| reach.height == exposure);
    let enough = |courses: &Vec<&Reach>| courses.len() >= FEWEST_COURSES;
    let full = Some(full.collect()).filter(enough);
    let courses = full.or_else(|| Some(read.collect()).filter(enough))?;
    let steps = courses.into_iter();
    let steps = steps.filter_map(|reach| Some(reach.step?.scaled(exposure, reach.height)));
    Some(steps.collect())
}

#[expect(clippy::cast_precision_loss, reason = "courses are few")]
pub(super) fn float(count: usize) -> f64 {
    count as f64
}
