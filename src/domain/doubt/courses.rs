//! Going through an edge's courses: which are off the line, and what that makes
//! of them together.

use super::{
    cause::Cause,
    fix::Fix,
    forgotten,
    given::Given,
    joints::around,
    left_out::{self, LeftOut},
    line::{Basis, EdgeLine},
    placement::Placement,
    reach::{EdgeLog, Reach, signed},
    slips::{Rarity, Slip, slips},
    suspects::{Evidence, suspects},
    verdict::{Doubt, DoubtedReading, Suspect},
    whole_edge,
};
use crate::domain::{log::End, measure::Length, piece::median};

/// An edge's courses with all that is known of the edge.
pub(super) struct Courses<'a> {
    pub(super) log: &'a EdgeLog,
    pub(super) given: Given<'a>,
}

impl Courses<'_> {
    /// Where a reading was left out or written twice: the doubts up to there,
    /// and the one about that. Above it there is nothing to judge until that is
    /// put right.
    pub(super) fn up_to_one_left_out(&self) -> Option<(Vec<Doubt>, Doubt)> {
        let own = EdgeLine::of_log(self.log, &self.given);
        let LeftOut { at, step, suspects } = left_out::find(self.log, &self.given, own)?;
        let basis = own.map_or(Basis::Own, |line| line.basis);
        let line = EdgeLine::calm(basis, step, self.given.settings);
        let below = Courses {
            log: &self.log.before(at),
            given: self.given,
        };
        let doubt = about(self.log.reaches.get(at)?, suspects, basis)?;
        Some((below.off_line(&line), doubt))
    }

    /// The doubts where no reading was left out or written twice.
    pub(super) fn none_left_out(&self) -> Vec<Doubt> {
        let Some(line) = EdgeLine::of_log(self.log, &self.given) else {
            return self.by_kind();
        };
        let mut doubts = Vec::from_iter(self.whole_edge(&line));
        if doubts.is_empty() || line.basis != Basis::Roof {
            doubts.extend(self.off_line(&line));
        }
        if doubts.is_empty() {
            doubts.extend(forgotten::find(self.log, &line, self.given.settings));
        }
        doubts
    }

    /// The edge as a whole. By the roof alone, two courses or more must agree
    /// with each other and none of them with the roof.
    fn whole_edge(&self, line: &EdgeLine) -> Option<Doubt> {
        let step = match line.basis {
            Basis::Own => line.step,
            Basis::Roof | Basis::Kind | Basis::Nothing => {
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
    fn off_line(&self, line: &EdgeLine) -> Vec<Doubt> {
        let offs = self.offs(line.step);
        let off = |at: usize| offs.get(at).copied().flatten();
        let doubted = |at: usize| off(at).is_some_and(|off| self.is_doubted(at, off, line));
        let placement = |at: usize| {
            let (low, high) = (off(at)?, off(at + 1)?);
            // Two off by as much in opposite directions confirm each other.
            let beyond = |off: Length| off.abs() > self.given.settings.tolerance;
            (doubted(at) || doubted(at + 1) || beyond(low) && beyond(high))
                .then(|| Placement::at(at, (low, high), self.log, self.given.settings))?
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
                doubts.extend(self.course(at, off, line));
            } else if !(at > 0 && doubted(at - 1) || doubted(at + 1)) {
                doubts.extend(self.both_alike(at, line.basis).into_iter().flatten());
            }
            at += 1;
        }
        doubts
    }

    /// Beyond the cut-off a course is doubted as it is. Between the tolerance and
    /// a cut-off that the scatter of a few courses has raised it is, where a
    /// slip that its own figures tell of fits: half the tolerance is what two
    /// readings to 1/16 in are off together at most.
    fn is_doubted(&self, at: usize, off: Length, line: &EdgeLine) -> bool {
        let tolerance = self.given.settings.tolerance;
        if off.abs() > line.cut_off || off.abs() <= tolerance {
            return off.abs() > line.cut_off;
        }
        let fits = |end: End, read: Length| {
            slips(read, self.given.settings.unit()).iter().any(|slip| {
                let misfit = (read - slip.likely - signed(end, off)).abs();
                slip.rarity == Rarity::Common && misfit + misfit <= tolerance
            })
        };
        let reach = self.log.reaches.get(at);
        let read = |end| reach.and_then(|reach| reach.reading(end));
        let mut ends = End::BOTH.into_iter();
        ends.any(|end| read(end).is_some_and(|read| fits(end, read)))
    }

    fn course(&self, at: usize, off: Length, line: &EdgeLine) -> Option<Doubt> {
        let reach = self.log.reaches.get(at)?;
        let seen = Evidence::of(self.log, at, off);
        let mut suspects = suspects(reach, seen, &self.given);
        if let Some(two) = self.two_courses_in_one(reach, off, line.step) {
            let unknown = |first: &Suspect| first.cause == Cause::Unknown;
            let at = if suspects.first().is_none_or(unknown) {
                0
            } else {
                suspects.len()
            };
            suspects.insert(at, two);
        }
        about(reach, suspects, line.basis)
    }

    /// A course that leans twice as much as it should: its top was read a course
    /// too high, and one was forgotten.
    fn two_courses_in_one(&self, reach: &Reach, off: Length, step: Length) -> Option<Suspect> {
        let tolerance = self.given.settings.tolerance;
        let own = step.scaled(reach.height, self.given.settings.exposure);
        let twice = (off - own).abs() <= tolerance && own.abs() > tolerance + tolerance;
        let (likely, fix) = (reach.bottom? - own, Fix::MeasureAgain);
        reach.top.filter(|_| twice)?;
        Some(Suspect::new(End::Top, likely, Cause::CourseForgotten, fix))
    }

    /// The same slip in both readings of a course leaves its lean alone; only
    /// the joints of a regular bond move, by the same amount the opposite way.
    /// A row that was laid out of bond looks the same, so only a slip of a usual
    /// size is doubted.
    fn both_alike(&self, at: usize, basis: Basis) -> Option<[Doubt; 2]> {
        let by = self.moved_by(at)?;
        let reach = self.log.reaches.get(at)?;
        let doubt = |end: End| {
            let slip = self.slip_of(reach.reading(end)?, by)?;
            let suspect = Suspect::of_reading(reach.number, end, slip.likely, slip.cause);
            about(reach, vec![suspect], basis)
        };
        Some([doubt(End::Bottom)?, doubt(End::Top)?])
    }

    fn moved_by(&self, at: usize) -> Option<Length> {
        let tolerance = self.given.settings.tolerance;
        let below = self.log.joint_off(at.checked_sub(1)?)?;
        let above = self.log.joint_off(at)?;
        let alike = around(below + above, self.log.cover).abs() <= tolerance;
        (alike && below.abs() > tolerance && above.abs() > tolerance).then_some(above)
    }

    /// A slip of a fixed size that makes `read` too long by `by`, on the circle.
    fn slip_of(&self, read: Length, by: Length) -> Option<Slip> {
        use Cause::{FootAdded, FootDropped, InchBurned, TenOff};
        let settings = self.given.settings;
        slips(read, settings.unit()).into_iter().find(|slip| {
            let fixed = [InchBurned, FootDropped, FootAdded, TenOff].contains(&slip.cause);
            let apart = around(read - slip.likely - by, self.log.cover);
            fixed && apart.abs() <= settings.tolerance
        })
    }
}

/// The doubt about one course that `suspects`, best first, make: off by what
/// was read less what the first of them says.
fn about(reach: &Reach, suspects: Vec<Suspect>, basis: Basis) -> Option<Doubt> {
    let first = suspects.first()?;
    let read = match first.reading {
        DoubtedReading::Bottom => reach.bottom,
        DoubtedReading::Top => reach.top,
        DoubtedReading::Placement | DoubtedReading::Edge => None,
    };
    let off = read.map_or(Length::ZERO, |read| read - first.likely);
    Doubt::of(Some(reach.number), off, suspects, basis)
}
