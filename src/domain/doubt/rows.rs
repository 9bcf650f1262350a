//! The rows of a roof plane, from its one edge to its other.
//!
//! The field is unbroken: a row's gap at its left end, its gap at its right end
//! (as finished widths, so however each is read) and some whole covers are the
//! plane's width there, and the plane's edges are straight. So the two gaps
//! together go evenly from course to course, modulo the cover, whatever the bond
//! (common practice: nothing but whole panels lies between). A row that creeps,
//! laid a little tight or loose, is off by that; the rows tell how much.

use super::{
    joints::{around, densest_within},
    reach::{EdgeLog, Reach},
    scatter::{Scatter, float},
};
use crate::domain::log::{CourseNumber, Edge};
use crate::domain::measure::Length;
use crate::domain::piece::median;

/// The other edge of an edge's plane.
#[derive(Clone, Copy, Debug)]
pub struct OtherEnd<'a> {
    pub edge: &'a Edge,
    /// Courses in which a third edge of the plane breaks the row, in rising order.
    pub broken: &'a [CourseNumber],
}

/// Fewer rows tell nothing.
const FEWEST_ROWS: usize = 5;
/// A usual standard deviation of a row, with creep and four readings.
const USUAL_MM: f64 = 5.0;
/// So many rows' worth the usual one counts.
const USUAL_COUNTS: f64 = 4.0;
/// Rows that lie this near together agree: 1 in.
const TOGETHER: Length = Length::from_inches(1);
/// The narrowing of a course is tried so many steps either way of what is read,
/// which are so many standard deviations of it together.
const SLOPES: i64 = 5;
const SLOPES_REACH: f64 = 2.5;
/// How much a creep that grows along the rows adds to a narrowing, in mm.
const CREEP_MM: f64 = 0.5;

/// How much longer the two gaps of a row are together than the other rows let
/// expect; on the circle, so at most half a cover either way.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct RowOff {
    pub(super) at_bottom: Length,
    pub(super) at_top: Length,
}

impl RowOff {
    /// By both course lines together.
    pub(super) fn both(self) -> Length {
        (self.at_bottom + self.at_top).half()
    }
}

/// One row with both of its ends read.
#[derive(Clone, Copy, Debug)]
struct Row {
    /// Which of this edge's courses it is.
    at: usize,
    number: i64,
    /// Both gaps together at its bottom and its top.
    bottom: Length,
    top: Length,
}

/// The line that most rows of a plane lie on.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct RowLine {
    /// How much the plane narrows in a course.
    narrows: Length,
    /// Both gaps together at course line 0, modulo the cover.
    at_zero: Length,
    cover: Length,
    /// The standard deviation of a row, in mm.
    pub(super) sd: f64,
    /// How many rows were read, and how many of them lie on it.
    pub(super) rows: usize,
    pub(super) agree: usize,
}

/// Which number each of this edge's courses has, and how much too long it is: as
/// logged, or as it may have to be.
pub(super) type Numbers<'n> = &'n dyn Fn(usize, &Reach) -> (CourseNumber, Length);

/// Both ends of a plane's rows.
pub(super) struct BothEnds<'a> {
    pub(super) this: &'a EdgeLog,
    other: &'a EdgeLog,
    /// What makes two raw readings finished widths.
    added: Length,
    broken: &'a [CourseNumber],
    exposure: Length,
    scatter: Scatter,
}

impl<'a> BothEnds<'a> {
    pub(super) const fn of(
        this: &'a EdgeLog,
        other: &'a EdgeLog,
        broken: &'a [CourseNumber],
        (added, exposure, scatter): (Length, Length, Scatter),
    ) -> Self {
        Self {
            this,
            other,
            added,
            broken,
            exposure,
            scatter,
        }
    }

    /// The rows with this edge's courses numbered so.
    fn rows(&self, number: Numbers<'_>) -> Vec<Row> {
        let rows = self.this.reaches.iter().enumerate();
        let rows = rows.filter_map(|(at, reach)| self.row(at, reach, number(at, reach)));
        rows.collect()
    }

    fn row(
        &self,
        at: usize,
        reach: &Reach,
        (number, too_long): (CourseNumber, Length),
    ) -> Option<Row> {
        let others = &self.other.reaches;
        let other = others.binary_search_by_key(&number, |reach| reach.number);
        let other = others.get(other.ok()?)?;
        let is_full = |reach: &Reach| reach.height == self.exposure;
        let is_whole = is_full(reach) && is_full(other) && !self.broken.contains(&number);
        let both = |one: Option<Length>, other: Option<Length>| {
            Some(one? + other? + self.added - too_long)
        };
        Some(Row {
            at,
            number: i64::from(number.get()),
            bottom: both(reach.bottom, other.bottom).filter(|_| is_whole)?,
            top: both(reach.top, other.top)?,
        })
    }

    /// The line of the rows with this edge's courses numbered so, where enough
    /// of them agree.
    pub(super) fn line(&self, number: Numbers<'_>) -> Option<RowLine> {
        RowLine::of(&self.rows(number), self.this.cover, self.scatter)
    }

    /// How far each of this edge's courses, numbered so, is off `line`.
    pub(super) fn offs(&self, line: &RowLine, number: Numbers<'_>) -> Vec<Option<RowOff>> {
        let mut offs = vec![None; self.this.reaches.len()];
        for row in self.rows(number) {
            if let Some(off) = offs.get_mut(row.at) {
                *off = Some(line.off(&row));
            }
        }
        offs
    }
}

impl RowLine {
    fn of(rows: &[Row], cover: Length, scatter: Scatter) -> Option<Self> {
        if rows.len() < FEWEST_ROWS {
            return None;
        }
        let mut narrows: Vec<Length> = rows.iter().map(|row| row.bottom - row.top).collect();
        let narrows = median(&mut narrows)?;
        // Of two edges, by the median, which scatters a quarter more than a mean.
        let sd = 1.25 * std::f64::consts::SQRT_2 * scatter.mm() / float(rows.len()).sqrt();
        let sd = sd.hypot(CREEP_MM);
        let step = Length::rounded_from_mm(SLOPES_REACH * sd).divided(SLOPES);
        let slopes = (-SLOPES..=SLOPES).map(|times| narrows + step.times(times));
        let near = slopes.filter_map(|slope| {
            let levels = rows.iter().map(|row| row.level(slope).modulo(cover));
            let cluster = densest_within(levels.collect(), Some(cover), TOGETHER)?;
            Some((cluster, slope))
        });
        // Of those that fit as many rows the one nearest to the readings.
        let (cluster, slope) = near.max_by_key(|(cluster, slope)| {
            (cluster.count, std::cmp::Reverse((*slope - narrows).abs()))
        })?;
        let line = Self {
            narrows: slope,
            at_zero: cluster.centre,
            cover,
            sd: 0.0,
            rows: rows.len(),
            agree: cluster.count,
        };
        Some(line.refined(rows, (narrows, sd)))
    }

    /// The line through the rows that agree by least squares, held near how much
    /// a course is read to narrow with its standard deviation, and their scatter.
    fn refined(self, rows: &[Row], (narrows, sd_narrows): (Length, f64)) -> Self {
        let near = rows.iter().filter_map(|row| {
            let off = self.off(row).both();
            #[expect(clippy::cast_precision_loss, reason = "courses are few")]
            let number = row.number as f64;
            (off.abs() <= TOGETHER.half()).then_some((number, off.mm()))
        });
        let near: Vec<(f64, f64)> = near.collect();
        let count = float(near.len().max(1));
        let mean = |of: fn(&(f64, f64)) -> f64| near.iter().map(of).sum::<f64>() / count;
        let (number, off) = (mean(|near| near.0), mean(|near| near.1));
        let across = |near: &(f64, f64)| (near.0 - number) * (near.1 - off);
        let spread: f64 = near.iter().map(|near| (near.0 - number).powi(2)).sum();
        let hold = (USUAL_MM / sd_narrows).powi(2);
        let held = hold * (self.narrows - narrows).mm();
        let slope = (near.iter().map(across).sum::<f64>() + held) / (spread + hold);
        let rest = |near: &(f64, f64)| (near.1 - off - slope * (near.0 - number)).powi(2);
        let squares: f64 = near.iter().map(rest).sum();
        let counts = USUAL_COUNTS + (count - 2.0).max(0.0);
        let sd = ((USUAL_COUNTS * USUAL_MM * USUAL_MM + squares) / counts).sqrt();
        Self {
            narrows: self.narrows - Length::rounded_from_mm(slope),
            at_zero: self.at_zero + Length::rounded_from_mm(off - slope * (number - 0.5)),
            sd,
            agree: near.len(),
            ..self
        }
    }

    fn off(&self, row: &Row) -> RowOff {
        let off = |sum: Length, line: i64| {
            around(sum + self.narrows.times(line) - self.at_zero, self.cover)
        };
        RowOff {
            at_bottom: off(row.bottom, row.number - 1),
            at_top: off(row.top, row.number),
        }
    }

    /// Whether so many rows agree that the others are the odd ones.
    pub(super) const fn is_sound(&self) -> bool {
        self.agree >= FEWEST_ROWS - 1 && 3 * self.agree >= 2 * self.rows
    }
}

impl Row {
    /// Both gaps together at course line 0, if the plane narrows so in a course.
    fn level(&self, narrows: Length) -> Length {
        let at_bottom = self.bottom + narrows.times(self.number - 1);
        let at_top = self.top + narrows.times(self.number);
        (at_bottom + at_top).half()
    }
}
