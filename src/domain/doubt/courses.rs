//! Going through an edge's courses: which are off the line, and what that makes
//! of them together.

use super::{
    fix::Fix,
    joints::around,
    line::{Basis, Line},
    placement,
    reach::{Log, Reach},
    shift::{self, Known, Shift},
    slips::{Rarity, slips},
    suspects::{Evidence, suspects},
    verdict::{Doubt, DoubtedReading, Suspect},
    whole_edge,
};
use crate::domain::{
    log::End,
    measure::Length,
    piece::median,
    roof::{EdgeKind, RoofLine},
    settings::Settings,
};

/// An edge's log with all that is known of it.
pub(super) struct Case<'a> {
    pub(super) log: &'a Log,
    pub(super) kind: EdgeKind,
    pub(super) roof: &'a RoofLine,
    pub(super) settings: &'a Settings,
}

impl Case<'_> {
    fn line(&self) -> Option<Line> {
        Line::of_log(self.log, self.kind, self.roof, self.settings)
    }

    /// Where the readings stand one place off from somewhere on: the doubts up to
    /// there, and the one about that.
    pub(super) fn shifted(&self) -> Option<(Vec<Doubt>, Doubt)> {
        let known = Known {
            kind: self.kind,
            roof: self.roof,
            settings: self.settings,
            line: self.line(),
        };
        let shift = shift::find(self.log, &known)?;
        self.up_to(shift, known.line)
    }

    /// The doubts where no reading was left out or written twice.
    pub(super) fn unshifted(&self) -> Vec<Doubt> {
        let line = self.line();
        match line {
            None => self.by_kind(),
            Some(line) => {
                let edge = self.whole_edge(&line);
                let alone = line.basis == Basis::Roof && edge.is_some();
                let mut doubts: Vec<Doubt> = edge.into_iter().collect();
                if !alone {
                    doubts.extend(self.courses(&line));
                }
                doubts
            }
        }
    }

    /// From where the readings stand one place off there is nothing to judge
    /// until that is put right.
    fn up_to(&self, shift: Shift, line: Option<Line>) -> Option<(Vec<Doubt>, Doubt)> {
        let Shift { at, step, suspects } = shift;
        let log = self.log.before(at, self.settings.cover());
        let basis = line.map_or(Basis::Own, |line| line.basis);
        let line = Line {
            basis,
            step,
            cut_off: super::line::cut_off(Length::ZERO, self.settings),
        };
        let doubts = Case { log: &log, ..*self }.courses(&line);
        let reach = self.log.reaches.get(at)?;
        let off = off_by(reach, &suspects);
        let doubt = Doubt::of(Some(reach.number), off, suspects, basis)?;
        Some((doubts, doubt))
    }

    /// The edge as a whole. By the roof alone, two courses or more must agree
    /// with each other and none of them with the roof.
    fn whole_edge(&self, line: &Line) -> Option<Doubt> {
        let step = match line.basis {
            Basis::Own => line.step,
            Basis::Roof | Basis::Kind | Basis::Nothing => {
                let mut offs: Vec<Length> = self.offs(line.step).into_iter().flatten().collect();
                let all_off = offs.iter().all(|off| off.abs() > line.cut_off);
                let middle = median(&mut offs)?;
                let agree = offs
                    .iter()
                    .all(|off| (*off - middle).abs() <= self.settings.tolerance);
                (offs.len() > 1 && all_off && agree).then_some(line.step + middle)?
            }
        };
        let (off, suspects) = whole_edge::suspects(step, self.kind, self.roof, self.settings)?;
        Doubt::of(None, off, suspects, line.basis)
    }

    /// Too few courses and no slope: only a course that goes the wrong way is
    /// odd, or all of them.
    fn by_kind(&self) -> Vec<Doubt> {
        let tolerance = self.settings.tolerance;
        let against =
            |step: Length| whole_edge::against_trend(step, self.kind, self.roof, tolerance);
        let mut steps: Vec<Length> = self.log.reaches.iter().filter_map(|r| r.step).collect();
        if steps.len() > 1 && steps.iter().all(|step| against(*step)) {
            let edge = median(&mut steps)
                .and_then(|step| whole_edge::suspects(step, self.kind, self.roof, self.settings));
            return edge
                .and_then(|(off, suspects)| Doubt::of(None, off, suspects, Basis::Kind))
                .into_iter()
                .collect();
        }
        let odd = |reach: &&Reach| reach.step.is_some_and(against);
        let doubt = |reach: &Reach| self.widening(reach);
        self.log
            .reaches
            .iter()
            .filter(odd)
            .filter_map(doubt)
            .collect()
    }

    fn widening(&self, reach: &Reach) -> Option<Doubt> {
        let seen = Evidence {
            off: reach.step? + reach.step?,
            below: None,
            above: None,
        };
        let suspects: Vec<Suspect> = suspects(reach, seen, self.kind, self.settings)
            .into_iter()
            .filter(|suspect| suspect.cause == super::cause::Cause::Swapped)
            .collect();
        let off = off_by(reach, &suspects);
        Doubt::of(Some(reach.number), off, suspects, Basis::Kind)
    }

    fn offs(&self, step: Length) -> Vec<Option<Length>> {
        let exposure = self.settings.exposure;
        let off = |reach: &Reach| reach.off(step, exposure);
        self.log.reaches.iter().map(off).collect()
    }

    /// The courses off the line, each or by placements, going up.
    fn courses(&self, line: &Line) -> Vec<Doubt> {
        let offs = self.offs(line.step);
        let off = |at: usize| offs.get(at).copied().flatten();
        let doubted = |at: usize| off(at).is_some_and(|off| self.is_doubted(at, off, line));
        let pair = |at: usize| {
            let both = (off(at)?, off(at + 1)?);
            // Two off alike the opposite way bear each other out.
            let beyond = |off: Length| off.abs() > self.settings.tolerance;
            if doubted(at) || doubted(at + 1) || beyond(both.0) && beyond(both.1) {
                placement::agreement(self.log, at, both, self.settings).map(|apart| (apart, both))
            } else {
                None
            }
        };
        let mut doubts = Vec::new();
        let mut at = 0;
        while at < offs.len() {
            let above = pair(at + 1).map(|(apart, _)| apart);
            let here = pair(at).filter(|(apart, _)| above.is_none_or(|above| *apart <= above));
            if let Some((_, both)) = here {
                doubts.extend(self.placement(at, both, line.basis));
                at += 2;
                continue;
            }
            if let Some(off) = off(at).filter(|_| doubted(at)) {
                doubts.extend(self.course(at, off, line.basis));
            } else if !(at > 0 && doubted(at - 1) || doubted(at + 1)) {
                doubts.extend(self.both_alike(at, line.basis));
            }
            at += 1;
        }
        doubts
    }

    /// Beyond the cut-off a course is doubted as it is. Between the tolerance and
    /// a cut-off that the scatter of a few courses has raised it is, where a
    /// slip that its own figures tell of fits: half the tolerance is what two
    /// readings to 1/16 in are off together at most.
    fn is_doubted(&self, at: usize, off: Length, line: &Line) -> bool {
        if off.abs() > line.cut_off || off.abs() <= self.settings.tolerance {
            return off.abs() > line.cut_off;
        }
        let fits = |end: End, read: Length| {
            let too_long = match end {
                End::Bottom => off,
                End::Top => -off,
            };
            slips(read, self.settings.unit()).iter().any(|slip| {
                let misfit = (read - slip.likely - too_long).abs();
                slip.rarity == Rarity::Common && misfit + misfit <= self.settings.tolerance
            })
        };
        self.log.reaches.get(at).is_some_and(|reach| {
            let told = |end: End| reach.reading(end).is_some_and(|read| fits(end, read));
            End::BOTH.into_iter().any(told)
        })
    }

    fn course(&self, at: usize, off: Length, basis: Basis) -> Option<Doubt> {
        let reach = self.log.reaches.get(at)?;
        let seen = Evidence::of(self.log, at, off, self.settings.cover());
        let suspects = suspects(reach, seen, self.kind, self.settings);
        Doubt::of(
            Some(reach.number),
            off_by(reach, &suspects),
            suspects,
            basis,
        )
    }

    fn placement(&self, at: usize, both: (Length, Length), basis: Basis) -> Option<Doubt> {
        let (by, suspect) = placement::suspect(self.log, at, both, self.settings)?;
        let number = self.log.reaches.get(at)?.number;
        Doubt::of(Some(number), by, vec![suspect], basis)
    }

    /// The same slip in both readings of a course leaves its lean alone; only
    /// the joints of a regular bond move, by the same amount the opposite way.
    /// A row that was laid out of bond looks alike, so only a slip of a usual
    /// size is doubted.
    fn both_alike(&self, at: usize, basis: Basis) -> Vec<Doubt> {
        let Some(by) = self.moved_by(at) else {
            return Vec::new();
        };
        let Some(reach) = self.log.reaches.get(at) else {
            return Vec::new();
        };
        let doubt = |end: End| {
            let read = reach.reading(end)?;
            let slip = self.slip_of(read, by)?;
            let suspect = Suspect {
                reading: end.into(),
                likely: slip.likely,
                cause: slip.cause,
                fix: Fix::Reading {
                    course: reach.number,
                    end,
                    to: slip.likely,
                },
            };
            Doubt::of(Some(reach.number), read - slip.likely, vec![suspect], basis)
        };
        match End::BOTH.map(doubt) {
            [Some(bottom), Some(top)] => vec![bottom, top],
            _ => Vec::new(),
        }
    }

    fn moved_by(&self, at: usize) -> Option<Length> {
        let cover = self.settings.cover();
        let tolerance = self.settings.tolerance;
        let below = self.log.joint_off(at.checked_sub(1)?, cover)?;
        let above = self.log.joint_off(at, cover)?;
        let alike = around(below + above, cover).abs() <= tolerance;
        (alike && below.abs() > tolerance && above.abs() > tolerance).then_some(above)
    }

    /// A slip of a fixed size that makes `read` too long by `by`, on the circle.
    fn slip_of(&self, read: Length, by: Length) -> Option<super::slips::Slip> {
        use super::cause::Cause::{FootAdded, FootDropped, InchBurned, TenOff};
        slips(read, self.settings.unit()).into_iter().find(|slip| {
            let fixed = [InchBurned, FootDropped, FootAdded, TenOff].contains(&slip.cause);
            let apart = around(read - slip.likely - by, self.settings.cover());
            fixed && apart.abs() <= self.settings.tolerance
        })
    }
}

/// What was read less what the first suspect says.
fn off_by(reach: &Reach, suspects: &[Suspect]) -> Length {
    let Some(first) = suspects.first() else {
        return Length::ZERO;
    };
    let read = match first.reading {
        DoubtedReading::Bottom => reach.bottom,
        DoubtedReading::Top => reach.top,
        DoubtedReading::Placement | DoubtedReading::Edge => None,
    };
    read.map_or(Length::ZERO, |read| read - first.likely)
}
