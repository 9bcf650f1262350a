//! An edge with the other edge of its plane, and what their rows tell.

use super::{
    forgotten,
    given::Given,
    line::EdgeLine,
    moved::Stand,
    reach::{EdgeLog, Reach},
    rows::{BothEnds, RowLine, RowOff},
    scatter::{MAD_COUNTS, OF_MAD, float, mad},
};
use crate::domain::log::{CourseNumber, Edge};
use crate::domain::measure::Length;

/// So many joints' worth the scatter of a usual one counts.
const USUAL_COUNTS: f64 = 3.0;

/// Joints further off than so many deviations say nothing of how the rest scatter.
const JOINTS_NEAR: f64 = 4.0;

/// An edge's log with what is known of the edge.
#[derive(Clone, Copy)]
pub(super) struct End<'a> {
    pub(super) edge: &'a Edge,
    pub(super) log: &'a EdgeLog,
    pub(super) given: Given<'a>,
    pub(super) line: Option<EdgeLine>,
}

/// Both ends of a plane's rows, seen from one edge.
pub(super) struct PlaneEnd<'a> {
    pub(super) this: Given<'a>,
    pub(super) other: End<'a>,
    /// The rows with this edge first, and with the other one first.
    pub(super) rows: BothEnds<'a>,
    pub(super) from_other: BothEnds<'a>,
}

/// What the rows tell of this edge's courses.
pub(super) struct Seen {
    pub(super) line: RowLine,
    /// How far the row of each course is off, where its other end is in line.
    pub(super) offs: Vec<Option<RowOff>>,
}

const AS_LOGGED: fn(usize, &Reach) -> (CourseNumber, Length) =
    |_, reach| (reach.number, Length::ZERO);
const ONE_UP: fn(usize, &Reach) -> (CourseNumber, Length) =
    |_, reach| (reach.number.next(), Length::ZERO);

impl<'a> PlaneEnd<'a> {
    pub(super) fn of(this: End<'a>, other: End<'a>, broken: &'a [CourseNumber]) -> Self {
        let added = this.given.added + other.given.added;
        let both = (added, this.given.settings.exposure, this.given.scatter);
        Self {
            this: this.given,
            other,
            rows: BothEnds::of(this.log, other.log, broken, both),
            from_other: BothEnds::of(other.log, this.log, broken, both),
        }
    }

    /// What the rows tell, where enough of them agree.
    pub(super) fn seen(&self) -> Option<Seen> {
        let line = self.rows.line(&AS_LOGGED).filter(RowLine::is_sound)?;
        let in_line = self.other.numbers_in_line();
        let mut offs = self.rows.offs(&line, &AS_LOGGED);
        for (off, reach) in offs.iter_mut().zip(&self.rows.this.reaches) {
            *off = off.filter(|_| in_line.binary_search(&reach.number).is_ok());
        }
        Some(Seen { line, offs })
    }

    /// Where this edge's courses stand, and the other edge's.
    pub(super) fn stands<'s>(&'s self, this: End<'s>, line: &RowLine) -> [Stand<'s>; 2] {
        [
            (this, self.other, &self.rows),
            (self.other, this, &self.from_other),
        ]
        .map(|(end, beyond, rows)| {
            let in_line = beyond.numbers_in_line();
            let both = |number: CourseNumber| in_line.binary_search(&number).is_ok();
            let offs = |numbers| {
                let offs = rows.offs(line, numbers);
                offs.into_iter().map(|off| off.map(RowOff::both))
            };
            let reaches = || end.log.reaches.iter();
            let as_logged = offs(&AS_LOGGED).zip(reaches());
            let as_logged = as_logged.map(|(off, reach)| off.filter(|_| both(reach.number)));
            let above = offs(&ONE_UP).zip(reaches());
            let above = above.map(|(off, reach)| off.filter(|_| both(reach.number.next())));
            end.stand(as_logged.collect(), above.collect(), Some(*line))
        })
    }
}

impl<'a> End<'a> {
    pub(super) fn of(edge: &'a Edge, log: &'a EdgeLog, given: Given<'a>) -> Self {
        let line = EdgeLine::of_log(log, &given);
        Self {
            edge,
            log,
            given,
            line,
        }
    }

    /// Whether each course is read in full and lies on the edge's line.
    fn in_line(self) -> Vec<bool> {
        let exposure = self.given.settings.exposure;
        let lies = |reach: &Reach| {
            let line = self.line?;
            Some(reach.off(line.step, exposure)?.abs() <= line.cut_off)
        };
        let reaches = self.log.reaches.iter();
        reaches.map(|reach| lies(reach) == Some(true)).collect()
    }

    /// The numbers of those courses, rising.
    fn numbers_in_line(self) -> Vec<CourseNumber> {
        let reaches = self.log.reaches.iter().zip(self.in_line());
        let reaches = reaches.filter(|(_, in_line)| *in_line);
        reaches.map(|(reach, _)| reach.number).collect()
    }

    /// Where its courses stand by the joints alone.
    pub(super) fn alone(self) -> Stand<'a> {
        let none = vec![None; self.log.reaches.len()];
        self.stand(none.clone(), none, None)
    }

    /// How much the joints scatter that lie together, with a usual row behind it.
    fn joint_sd(self, joints: &[Option<Length>]) -> f64 {
        let offs: Vec<Length> = joints.iter().flatten().copied().collect();
        let counts = MAD_COUNTS * float(offs.len());
        let sd = mad(offs.clone(), Length::ZERO).map_or(0.0, |mad| OF_MAD * mad.mm());
        let usual = self
            .given
            .scatter
            .mm()
            .max(self.given.settings.tolerance.mm() / 3.0);
        let squares = USUAL_COUNTS * usual * usual + counts * sd * sd;
        let rough = (squares / (USUAL_COUNTS + counts)).sqrt();
        let near = offs.iter().map(|off| off.mm());
        let near = near.filter(|off| off.abs() <= JOINTS_NEAR * rough);
        let (squares, count) = near.fold((0.0, 0.0), |(squares, count), off| {
            (squares + off * off, count + 1.0)
        });
        ((USUAL_COUNTS * usual * usual + squares) / (USUAL_COUNTS + count)).sqrt()
    }

    fn stand(
        self,
        mut rows: Vec<Option<Length>>,
        mut rows_above: Vec<Option<Length>>,
        line: Option<RowLine>,
    ) -> Stand<'a> {
        let in_line = self.in_line();
        let lies = |at: usize| in_line.get(at).copied().unwrap_or(false);
        for (at, row) in rows.iter_mut().chain(&mut rows_above).enumerate() {
            *row = row.filter(|_| lies(at % in_line.len().max(1)));
        }
        let joint = |at: usize| self.log.joint_off(at).filter(|_| lies(at) && lies(at + 1));
        let joints: Vec<_> = (0..self.log.joints.len()).map(joint).collect();
        Stand {
            edge: self.edge,
            step: self.line.map(|line| line.step),
            bond_holds: forgotten::bond_holds(self.log, &self.given),
            log: self.log,
            given: self.given,
            joint_sd: self.joint_sd(&joints),
            joints,
            rows,
            rows_above,
            line,
        }
    }
}
