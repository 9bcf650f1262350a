//! What leaves the lean of every course alone: both readings of a course off
//! alike, all from some course on read to another line, two courses exchanged,
//! a course skipped. Only what stands beside it shows such a slip: the joints of
//! a regular bond, and the rows from edge to edge of the plane.

use super::{
    cause::Cause,
    fix::Fix,
    forgotten,
    given::Given,
    joints::around,
    line::Basis,
    moves::{Move, Way},
    reach::EdgeLog,
    rows::RowLine,
    slips::{Rarity, of_fixed_size, on_a_division},
    verdict::{Doubt, DoubtedReading, OrAt, Suspect},
};
use crate::domain::{log::Edge, measure::Length};
use std::ops::Range;

/// A joint that contradicts counts no more than this, a row no more than that:
/// in standard deviations, squared.
const MOST_PER_JOINT: f64 = 16.0;
const MOST_PER_ROW: f64 = 20.0;
/// Something is odd from here on.
const ODD: f64 = 9.0;
/// Nothing is up to here.
const CALM: f64 = 4.0;
/// What a move has to explain at least to be worth a doubt.
const WORTH: f64 = 10.0;
/// The other edge's move has to explain so much more to be the only one.
const CLEARLY: f64 = 6.0;
/// Moves this much worse than the best are told beside it.
const NEARLY: f64 = 6.0;
/// How seldom each happens beside a usual slip.
const SELDOM: f64 = 3.0;
const UNKNOWN: f64 = 4.0;
const SKIPPED: f64 = 4.0;
const ODD_WIDTH: f64 = 4.0;
/// Fewer calm joints are no bond yet.
const FEWEST_CALM: usize = 4;
/// So many are told of one place.
const MOST_TOLD: usize = 3;

/// What beside an edge's leans tells where its courses stand.
pub(super) struct Stand<'a> {
    pub(super) edge: &'a Edge,
    pub(super) log: &'a EdgeLog,
    pub(super) given: Given<'a>,
    /// How much a course of it narrows.
    pub(super) step: Option<Length>,
    /// Whether its joints lie as the bond has them, but for a few.
    pub(super) bond_holds: bool,
    /// How far each joint is off the bond, and each row off the plane's line;
    /// none where a reading beside it is doubted for itself.
    pub(super) joints: Vec<Option<Length>>,
    pub(super) rows: Vec<Option<Length>>,
    /// How much the joints scatter, in mm.
    pub(super) joint_sd: f64,
    /// The rows as they were with one course more below each of these.
    pub(super) rows_above: Vec<Option<Length>>,
    pub(super) line: Option<RowLine>,
}

impl Stand<'_> {
    /// The doubts about this edge's courses, going up; what `other`, the stand of
    /// the plane's other edge, explains clearly better is left to it.
    pub(super) fn doubts(&self, other: Option<&Self>) -> Vec<Doubt> {
        let (mut moves, others) = (self.moves(), other.map(Self::moves).unwrap_or_default());
        let number = |stand: &Self, at: usize| stand.log.reaches.get(at).map(|reach| reach.number);
        // How much more than `best` the best there explains.
        let rival = |best: &Move| {
            let (start, end) = (best.courses.start, best.courses.end);
            let (first, last) = (number(self, start), number(self, end - 1));
            let touching = others.iter().filter(|theirs| {
                let other = |at| other.and_then(|other| number(other, at));
                let touch =
                    other(theirs.courses.end - 1) >= first && other(theirs.courses.start) <= last;
                touch || theirs.is_run() && best.is_run()
            });
            let more = touching.map(|theirs| theirs.beside(best) - best.beside(theirs));
            more.max_by(f64::total_cmp)
        };
        let mut doubts: Vec<(usize, Doubt)> = Vec::new();
        while let Some(best) = moves.first().cloned() {
            let (here, rest): (Vec<Move>, Vec<Move>) = moves
                .into_iter()
                .partition(|other| best.touches(&other.courses));
            moves = rest;
            let more = rival(&best);
            if more.is_none_or(|more| more <= CLEARLY) {
                let more = more.filter(|more| *more >= -CLEARLY);
                let or_at = other.zip(more);
                let or_at = or_at.map(|(other, more)| OrAt::of(other.edge, more > 0.0));
                let doubt = self.doubt(&here);
                doubts.extend(doubt.map(|doubt| (best.courses.start, Doubt { or_at, ..doubt })));
            }
        }
        doubts.sort_by_key(|(at, _)| *at);
        doubts.into_iter().map(|(_, doubt)| doubt).collect()
    }

    /// All moves that explain enough, best first.
    fn moves(&self) -> Vec<Move> {
        let count = self.log.reaches.len();
        let mut moves = Vec::new();
        // Only where something is odd; a course moves the joints on both sides of it.
        let odd_row = |at: usize| self.row_cost(at, Length::ZERO) >= ODD;
        for at in 0..count {
            let below = at.checked_sub(1);
            let odd_below = below.is_some_and(|below| self.is_odd_joint(below));
            let beside = odd_below || self.is_odd_joint(at);
            let between_calm =
                below.is_some_and(|below| self.is_calm_joint(below)) || self.is_calm_joint(at);
            if odd_row(at) || beside && !between_calm {
                self.try_both(at, &mut moves);
            }
            if odd_row(at) || odd_below || below.is_some_and(odd_row) {
                self.try_from(at, &mut moves);
            }
            let inside = self.is_odd_joint(at) || odd_below && self.is_odd_joint(at + 1);
            if odd_row(at) || odd_row(at + 1) || inside {
                self.try_exchange(at, &mut moves);
            }
        }
        moves.sort_by(|one, other| other.gain.total_cmp(&one.gain));
        moves
    }

    fn is_odd_joint(&self, at: usize) -> bool {
        self.joint_cost(at, Length::ZERO) >= ODD
    }

    fn is_calm_joint(&self, at: usize) -> bool {
        self.is_joint(at) && !self.is_odd_joint(at)
    }

    fn is_joint(&self, at: usize) -> bool {
        self.joints.get(at).is_some_and(Option::is_some)
    }

    /// Both readings of one course.
    fn try_both(&self, at: usize, moves: &mut Vec<Move>) {
        let (one, settings) = (at..at + 1, self.given.settings);
        let mut tell = |by, cause, rarity| {
            moves.extend(self.try_move(one.clone(), Way::By(by), cause, rarity));
        };
        if self.is_lone(&one, ODD) {
            for (cause, by, rarity) in of_fixed_size(settings.unit()) {
                let rarity = match rarity {
                    Rarity::Common => 0.0,
                    Rarity::Seldom => SELDOM,
                };
                tell(by, cause, rarity);
            }
            let (other_line, lap) = self.given.other_line();
            tell(lap, other_line, 0.0);
        }
        let row = self.rows.get(at).copied().flatten();
        let sure = row.filter(|row| self.of_row(*row) >= MOST_PER_ROW);
        if let Some(by) = sure.filter(|_| self.is_lone(&one, CALM)) {
            tell(on_a_division(by, settings), Cause::Unknown, UNKNOWN);
        }
    }

    /// All from one course on, and all below it.
    fn try_from(&self, at: usize, moves: &mut Vec<Move>) {
        let (other_line, lap) = self.given.other_line();
        let count = self.log.reaches.len();
        for run in [at..count, 0..at] {
            if run.len() > 1 && run.len() < count {
                moves.extend(self.try_move(run, Way::By(lap), other_line, 1.0));
            }
        }
        if at > 0 && self.line.is_some() && !self.joint_denies(at - 1) {
            let (above, cause) = (at..count, Cause::CourseForgotten);
            moves.extend(self.try_move(above, Way::Skipped, cause, SKIPPED));
        }
    }

    /// Whether the joint above the course at `at` has no room for another course.
    fn joint_denies(&self, at: usize) -> bool {
        let denied = |step| forgotten::is_denied(at, self.log, step, &self.given);
        self.bond_holds && self.step.is_some_and(denied)
    }

    /// A course and the one above it.
    fn try_exchange(&self, at: usize, moves: &mut Vec<Move>) {
        let calm = |at: usize| self.row_cost(at, Length::ZERO) < ODD;
        let beside = at.checked_sub(1).is_none_or(calm) || calm(at + 2);
        if beside && at + 1 < self.log.reaches.len() {
            let cause = Cause::CoursesExchanged;
            moves.extend(self.try_move(at..at + 2, Way::Exchanged, cause, 1.0));
        }
    }

    /// Whether the rows beside `courses` cost less than `odd`: rows off one above
    /// the other are broken by something on the roof.
    fn is_lone(&self, courses: &Range<usize>, odd: f64) -> bool {
        let beside = [courses.start.checked_sub(1), Some(courses.end)];
        let mut beside = beside.into_iter().flatten();
        beside.all(|at| self.row_cost(at, Length::ZERO) < odd)
    }

    /// The move, where it explains enough; `rarity` is how seldom it happens.
    fn try_move(&self, courses: Range<usize>, way: Way, cause: Cause, rarity: f64) -> Option<Move> {
        let joints = courses.start.saturating_sub(1)..courses.end;
        let by = |at: usize| match courses.contains(&at) {
            true => self.by(way, &courses, at),
            false => Length::ZERO,
        };
        let mut gain = -rarity;
        if way == Way::Skipped {
            // The bond is asked elsewhere: with one course more it is another.
            for at in courses.clone() {
                let then = self.rows_above.get(at).copied().flatten();
                let now = self.rows.get(at).copied().flatten();
                // A row that would be none tells nothing for it.
                if let (Some(now), Some(then)) = (now, then) {
                    gain += self.of_row(now) - self.of_row(then);
                }
            }
        } else {
            for at in joints {
                let moved = by(at) - by(at + 1);
                gain += self.joint_cost(at, Length::ZERO) - self.joint_cost(at, moved);
            }
            for at in courses.clone() {
                gain += self.row_cost(at, Length::ZERO) - self.row_cost(at, by(at));
                gain += self.width_cost(at, Length::ZERO) - self.width_cost(at, by(at));
                let reach = self.log.reaches.get(at)?;
                let readings = [reach.bottom, reach.top].into_iter().flatten();
                let mut then = readings.map(|reading| reading - by(at));
                if then.any(|then| then < Length::ZERO) {
                    return None;
                }
            }
        }
        let told = gain >= WORTH && (self.line.is_some() || self.bond_holds(&by));
        told.then_some(Move {
            courses,
            way,
            cause,
            gain,
        })
    }

    /// Whether enough joints are calm as they are, for a few agree by chance, and
    /// nearly all once each course is shorter by `by`.
    fn bond_holds(&self, by: &impl Fn(usize) -> Length) -> bool {
        let all = 0..self.joints.len();
        let known = all.filter(|at| self.is_joint(*at));
        let known: Vec<usize> = known.collect();
        let calm = |moved: &dyn Fn(usize) -> Length| {
            let calm = known.iter();
            calm.filter(|at| self.joint_cost(**at, moved(**at)) < ODD)
                .count()
        };
        let then = calm(&|at| by(at) - by(at + 1));
        calm(&|_| Length::ZERO) >= FEWEST_CALM && 5 * then >= 4 * known.len()
    }

    /// By how much the course at `at` is too long.
    fn by(&self, way: Way, courses: &Range<usize>, at: usize) -> Length {
        let bottom = |at: usize| self.log.reaches.get(at).and_then(|reach| reach.bottom);
        match way {
            Way::By(by) => by,
            Way::Skipped => Length::ZERO,
            Way::Exchanged => {
                let apart = match (bottom(courses.start), bottom(courses.start + 1)) {
                    (Some(low), Some(high)) => low - high,
                    _ => Length::ZERO,
                };
                if at == courses.start { apart } else { -apart }
            }
        }
    }

    fn joint_cost(&self, at: usize, moved: Length) -> f64 {
        let sd = self.joint_sd;
        let off = self.joints.get(at).copied().flatten();
        off.map_or(0.0, |off| {
            let off = around(off - moved, self.log.cover);
            (off.mm() / sd).powi(2).min(MOST_PER_JOINT)
        })
    }

    fn row_cost(&self, at: usize, moved: Length) -> f64 {
        let off = self.rows.get(at).copied().flatten();
        off.map_or(0.0, |off| self.of_row(around(off - moved, self.log.cover)))
    }

    fn of_row(&self, off: Length) -> f64 {
        let sd = self.line.map_or(1.0, |line| line.sd);
        (off.mm() / sd).powi(2).min(MOST_PER_ROW)
    }

    /// Whether the last full panel would lie there, and no other one would fit.
    fn width_cost(&self, at: usize, moved: Length) -> f64 {
        let narrow = self.log.reaches.get(at).and_then(|reach| {
            let narrow = reach.bottom?.min(reach.top?) + self.given.added;
            Some(narrow - moved)
        });
        match narrow {
            Some(narrow) if !self.given.panels_leave(narrow) => ODD_WIDTH,
            _ => 0.0,
        }
    }

    /// The doubt that moves at one place, best first, make.
    fn doubt(&self, moves: &[Move]) -> Option<Doubt> {
        let best = moves.first()?;
        let near = moves
            .iter()
            .filter(|other| other.gain + NEARLY >= best.gain);
        // Nobody is told the same thing twice.
        let mut told: Vec<Suspect> = Vec::with_capacity(MOST_TOLD);
        for suspect in near.filter_map(|told| self.suspect(told)) {
            if told.len() < MOST_TOLD && told.iter().all(|told| told.fix != suspect.fix) {
                told.push(suspect);
            }
        }
        let by_rows = self.rows.get(best.courses.clone());
        let by_rows = by_rows.is_some_and(|rows| rows.iter().any(Option::is_some));
        let basis = match self.line.filter(|_| by_rows) {
            Some(line) => Basis::OtherEnd { rows: line.rows },
            None => Basis::Joints,
        };
        let first = self.log.reaches.get(best.courses.start)?.number;
        let course = match best.way {
            Way::Skipped => {
                self.log
                    .reaches
                    .get(best.courses.start.checked_sub(1)?)?
                    .number
            }
            _ => first,
        };
        let off = self.by(best.way, &best.courses, best.courses.start);
        Doubt::of(Some(course), off, told, basis)
    }

    fn suspect(&self, told: &Move) -> Option<Suspect> {
        let reach = |at: usize| self.log.reaches.get(at);
        let (first, last) = (reach(told.courses.start)?, reach(told.courses.end - 1)?);
        let by = self.by(told.way, &told.courses, told.courses.start);
        let (reading, likely, fix) = match told.way {
            Way::By(by) => {
                let (first, last) = (first.number, last.number);
                let fix = Fix::Both { first, last, by };
                (DoubtedReading::Both, by, fix)
            }
            Way::Exchanged => {
                let fix = Fix::Exchange {
                    below: first.number,
                };
                (DoubtedReading::Both, by, fix)
            }
            Way::Skipped => {
                let below = reach(told.courses.start.checked_sub(1)?)?;
                let fix = Fix::CourseBetween {
                    below: below.number,
                };
                (DoubtedReading::Placement, below.top?, fix)
            }
        };
        let likely = match told.way {
            Way::Skipped => likely,
            _ => first.bottom? - likely,
        };
        Some(Suspect::new(reading, likely, told.cause, fix))
    }
}
