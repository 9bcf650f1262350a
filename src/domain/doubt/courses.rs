//! Going through an edge's courses: which are off the line, and what that makes
//! of them together.

use super::{
    cause::Cause,
    forgotten,
    given::Given,
    left_out::{self, LeftOut},
    line::{Basis, EdgeLine},
    placement::Placement,
    plane_end::{End, PlaneEnd, Seen},
    reach::{EdgeLog, Reach},
    rearranged,
    suspects::{Evidence, are_even, suspects},
    verdict::{Doubt, DoubtedReading, Suspect},
    whole_edge,
};
use crate::domain::{log::Edge, measure::Length, piece::median};

/// An edge's courses with all that is known of the edge.
#[derive(Clone, Copy)]
pub(super) struct Courses<'a> {
    pub(super) edge: &'a Edge,
    pub(super) log: &'a EdgeLog,
    pub(super) given: Given<'a>,
    pub(super) line: Option<EdgeLine>,
    pub(super) plane: Option<&'a PlaneEnd<'a>>,
}

impl Courses<'_> {
    /// Where a reading was left out or written twice: the doubts up to there,
    /// and the one about that. Above it there is nothing to judge until that is
    /// put right.
    pub(super) fn up_to_one_left_out(&self) -> Option<(Vec<Doubt>, Doubt)> {
        let own = self.line;
        let LeftOut { at, step, suspects } = left_out::find(self.log, &self.given, own)?;
        let basis = own.map_or(Basis::Own, |line| line.basis);
        let line = EdgeLine::at(basis, step, &self.given);
        let below = Courses {
            log: &self.log.before(at),
            plane: None,
            ..*self
        };
        let doubt = about(self.log.reaches.get(at)?, suspects, basis)?;
        Some((below.off_line(&line, None), doubt))
    }

    /// The doubts where no reading was left out or written twice.
    pub(super) fn none_left_out(&self) -> Vec<Doubt> {
        let Some(line) = self.line else {
            return self.by_kind();
        };
        let whole_edge = self.whole_edge(&line);
        let mut doubts = Vec::new();
        let seen = self.plane.and_then(PlaneEnd::seen);
        if whole_edge.is_none() || line.basis != Basis::Roof {
            doubts.extend(self.off_line(&line, seen.as_ref()));
        }
        if doubts.is_empty() && whole_edge.is_none() {
            doubts.extend(forgotten::find(self.log, &line, &self.given));
        }
        if whole_edge.is_none()
            && doubts
                .iter()
                .all(|doubt| doubt.cause != Cause::CourseForgotten)
        {
            doubts.extend(self.moved(seen.as_ref()));
        }
        if let Some(plane) = self.plane.filter(|_| doubts.is_empty() && seen.is_none()) {
            doubts.extend(rearranged::find(plane, &line));
        }
        doubts.sort_by_key(|doubt| doubt.course);
        whole_edge.into_iter().chain(doubts).collect()
    }

    /// The course below one that was forgotten, as this edge's own joints tell it.
    pub(super) fn forgotten(&self) -> Option<Doubt> {
        let line = self.line?;
        // Most often there is none: what is dearer comes after it.
        let found = forgotten::find(self.log, &line, &self.given)?;
        let is_sound = self.whole_edge(&line).is_none() && self.off_line(&line, None).is_empty();
        is_sound.then_some(found)
    }

    /// What leaves all leans alone, as far as joints and rows tell.
    fn moved(&self, seen: Option<&Seen>) -> Vec<Doubt> {
        let this = End {
            edge: self.edge,
            log: self.log,
            given: self.given,
            line: self.line,
        };
        match (self.plane, seen) {
            (Some(plane), Some(seen)) => {
                let [stand, other] = plane.stands(this, &seen.line);
                stand.doubts(Some(&other))
            }
            _ if self.log.bond.is_some() => this.alone().doubts(None),
            _ => Vec::new(),
        }
    }

    /// The edge as a whole. By the roof alone, two courses or more must agree
    /// with each other and none of them with the roof.
    fn whole_edge(&self, line: &EdgeLine) -> Option<Doubt> {
        let step = match line.basis {
            Basis::Own => line.step,
            _ => {
                let mut offs: Vec<Length> = self.offs(line.step).into_iter().flatten().collect();
                let all_off = offs.iter().all(|off| off.abs() > line.cut_off);
                let middle = median(&mut offs)?;
                let agree = offs
                    .iter()
                    .all(|off| (*off - middle).abs() <= self.given.settings.tolerance);
                (offs.len() > 1 && all_off && agree).then_some(line.step + middle)?
            }
        };
        self.edge_of(step, line.basis)
    }

    fn edge_of(&self, step: Length, basis: Basis) -> Option<Doubt> {
        let (off, suspects) = whole_edge::suspects(step, &self.given)?;
        Doubt::of(None, off, suspects, basis)
    }

    /// Too few courses and no slope: only a course that goes the wrong way is
    /// odd, or all of them.
    fn by_kind(&self) -> Vec<Doubt> {
        let against = |step: &Length| self.given.against_trend(*step);
        let reaches = self.log.reaches.iter();
        let mut steps: Vec<Length> = reaches.clone().filter_map(|r| r.step).collect();
        if steps.len() > 1 && steps.iter().all(against) {
            let edge = median(&mut steps).and_then(|step| self.edge_of(step, Basis::Kind));
            return Vec::from_iter(edge);
        }
        reaches
            .filter_map(|reach| self.wrong_way(reach, reach.step.filter(against)?))
            .collect()
    }

    fn wrong_way(&self, reach: &Reach, step: Length) -> Option<Doubt> {
        let seen = Evidence {
            off: step + step,
            below: None,
            above: None,
            row: None,
            step: None,
        };
        let mut suspects = suspects(reach, seen, &self.given);
        suspects.retain(|suspect| suspect.cause == Cause::Swapped);
        about(reach, suspects, Basis::Kind)
    }

    fn offs(&self, step: Length) -> Vec<Option<Length>> {
        let exposure = self.given.settings.exposure;
        let off = |reach: &Reach| reach.off(step, exposure);
        self.log.reaches.iter().map(off).collect()
    }

    /// The courses off the line, each or by placements, going up.
    fn off_line(&self, line: &EdgeLine, seen: Option<&Seen>) -> Vec<Doubt> {
        let offs = self.offs(line.step);
        let off = |at: usize| offs.get(at).copied().flatten();
        let doubted = |at: usize| off(at).is_some_and(|off| off.abs() > line.cut_off);
        let placement = |at: usize| {
            let (low, high) = (off(at)?, off(at + 1)?);
            // Two off by as much in opposite directions confirm each other.
            let beyond = |off: Length| off.abs() > line.cut_off.times(4).divided(5);
            (doubted(at) || doubted(at + 1) || beyond(low) && beyond(high))
                .then(|| Placement::at(at, (low, high), self.log, &self.given))?
        };
        let mut doubts = Vec::new();
        let mut at = 0;
        while at < offs.len() {
            let above = placement(at + 1).map(|above| above.apart);
            let here = placement(at).filter(|here| above.is_none_or(|above| here.apart <= above));
            if let Some(here) = here {
                doubts.extend(here.doubt(self.log, self.given.settings, line.basis));
                at += 2;
                continue;
            }
            if let Some(off) = off(at).filter(|_| doubted(at)) {
                doubts.extend(self.course(at, off, line, seen));
            }
            at += 1;
        }
        doubts
    }

    fn course(
        &self,
        at: usize,
        off: Length,
        line: &EdgeLine,
        seen: Option<&Seen>,
    ) -> Option<Doubt> {
        let reach = self.log.reaches.get(at)?;
        let row = seen.and_then(|seen| Some(((*seen.offs.get(at)?)?, seen.line.sd)));
        let step = line.step.scaled(reach.height, self.given.settings.exposure);
        let seen = Evidence {
            row,
            step: Some(step),
            ..Evidence::of(self.log, at, off)
        };
        let suspects = suspects(reach, seen, &self.given);
        let is_even = are_even(reach, seen, &self.given, &suspects);
        Some(about(reach, suspects, line.basis)?.even(is_even))
    }
}

/// The doubt about one course that `suspects`, best first, make: off by what
/// was read less what the first of them says.
fn about(reach: &Reach, suspects: Vec<Suspect>, basis: Basis) -> Option<Doubt> {
    let first = suspects.first()?;
    let read = match first.reading {
        DoubtedReading::Bottom => reach.bottom,
        DoubtedReading::Top => reach.top,
        DoubtedReading::Placement | DoubtedReading::Both | DoubtedReading::Edge => None,
    };
    let off = read.map_or(Length::ZERO, |read| read - first.likely);
    Doubt::of(Some(reach.number), off, suspects, basis)
}
