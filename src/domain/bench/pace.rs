//! How long the rest takes, from what was done at the bench so far.
//!
//! The time of a step is the time since the key before it. A time longer than
//! three times the median of its kind, and than a minute, is a pause: somebody
//! called, or it was noon; so is one longer than the job says, and the one after a
//! pause key. A pause counts as one median of work, and no time as more than one
//! and three quarters, so that a single call moves the figure by under a tenth. What
//! is left is the sum over the steps that are left, each at the mean of its kind; a
//! piece still to be marked has as many cuts and bends as those before it had.
//!
//! It asks no clock and does not know the present time: nothing it says changes
//! while nothing is done.

use super::{
    event::{BenchEvent, Fact, Utc},
    seconds::Seconds,
    times::{Kind, Times},
};
use crate::domain::settings::{BenchOrder, Minutes};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

/// What one key press did.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Step {
    Mark,
    Cut,
    Bend,
    Stack,
    /// Several of these at once: a piece with one key.
    Several,
}

/// How fast the steps are made.
#[derive(Clone, PartialEq, Debug)]
pub struct Pace {
    /// A time longer than this is a pause.
    longest: Seconds,
    times: BTreeMap<Step, Times>,
    /// What follows from them.
    kinds: BTreeMap<Step, Kind>,
    /// How many pieces are stacked with a time.
    stacked: usize,
    /// When the last key was.
    before: Option<Utc>,
    /// The pause key was pressed, and no step came since.
    paused: bool,
}

/// How long something takes, from the least to the most it may.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TimeLeft {
    pub least: Seconds,
    pub most: Seconds,
}

/// From so many pieces on, one figure is said.
const SURE_FROM: usize = 5;

impl Pace {
    /// The pace of what was done so far; a time longer than `pause` is one.
    pub fn of(events: &[BenchEvent], pause: Minutes) -> Self {
        let mut pace = Self {
            longest: Seconds::from(pause),
            times: BTreeMap::new(),
            kinds: BTreeMap::new(),
            stacked: 0,
            before: None,
            paused: false,
        };
        pace.take(events);
        let kinds = pace.times.iter();
        pace.kinds = kinds
            .filter_map(|(step, times)| Some((*step, times.kind()?)))
            .collect();
        pace
    }

    /// The same once these key presses were made, too.
    pub fn go_on(&mut self, events: &[BenchEvent]) {
        for step in self.take(events) {
            if let Some(kind) = self.times.get(&step).and_then(Times::kind) {
                self.kinds.insert(step, kind);
            }
        }
    }

    /// Says of which steps there are new times.
    fn take(&mut self, events: &[BenchEvent]) -> BTreeSet<Step> {
        let mut steps = BTreeSet::new();
        let mut rest = events;
        while let Some(first) = rest.first() {
            let joined = rest.iter().skip(1).take_while(|event| event.joined).count();
            let (press, others) = rest.split_at(1 + joined);
            rest = others;
            self.paused |= press.iter().any(|event| event.fact == Fact::Paused);
            if let Some(step) = step_of(press) {
                // Without the time of both keys nothing is known of it.
                if let Some(time) = between(self.before, first.at) {
                    let is_work = !self.paused && time <= self.longest;
                    let times = self.times.entry(step).or_default();
                    times.add(is_work.then_some(time));
                    let is_last = |event: &BenchEvent| matches!(event.fact, Fact::Stacked(_));
                    self.stacked += usize::from(press.iter().any(is_last));
                    steps.insert(step);
                }
                self.paused = false;
            }
            self.before = first.at;
        }
        steps
    }

    /// How long the rest takes where so many pieces stand `at` each stage, in the
    /// order of [`crate::domain::bench::Stage::ALL`]; `None` before a piece is stacked.
    pub fn time_for(&self, at: [usize; 5], order: BenchOrder) -> Option<TimeLeft> {
        if self.stacked == 0 || self.kinds.is_empty() {
            return None;
        }
        let [mark, cut, bend, stack, _] = at.map(|count| {
            let count = u32::try_from(count).unwrap_or(u32::MAX);
            f64::from(count)
        });
        if let Some(several) = self.kinds.get(&Step::Several) {
            // With one key for all, a piece that is begun is one still.
            return Some(self.reach((mark + cut + bend + stack) * several.mean));
        }
        let kind = |step| self.kinds.get(&step).copied().unwrap_or_default();
        let marked = f64::from(kind(Step::Mark).count.max(1));
        // A full panel is neither cut nor bent, a piece with two ends is both twice.
        let each = |step| kind(step).mean * f64::from(kind(step).count) / marked;
        let (cuts, bends) = (each(Step::Cut), each(Step::Bend));
        let stacks = kind(Step::Stack).mean;
        let (cut_left, bend_left) = match order {
            BenchOrder::CutFirst => (kind(Step::Cut).mean + bends, kind(Step::Bend).mean),
            BenchOrder::BendFirst => (kind(Step::Cut).mean, kind(Step::Bend).mean + cuts),
        };
        let sum = mark * (kind(Step::Mark).mean + cuts + bends + stacks)
            + cut * (cut_left + stacks)
            + bend * (bend_left + stacks)
            + stack * stacks;
        Some(self.reach(sum))
    }

    /// While few pieces are stacked the figure may be far off, and says how far.
    fn reach(&self, seconds: f64) -> TimeLeft {
        let (least, most) = if self.stacked < SURE_FROM {
            let count = u32::try_from(self.stacked.max(1)).unwrap_or(1);
            let factor = 1.0 + 1.0 / f64::from(count).sqrt();
            (seconds / factor, seconds * factor)
        } else {
            (seconds, seconds)
        };
        TimeLeft {
            least: Seconds::rounded(least),
            most: Seconds::rounded(most),
        }
    }
}

/// What the facts of one key press amount to; nothing where no piece came further.
fn step_of(press: &[BenchEvent]) -> Option<Step> {
    let steps = press.iter().filter_map(|event| match event.fact {
        Fact::Marked { .. } => Some(Step::Mark),
        Fact::FirstCut(_) | Fact::Cut { .. } => Some(Step::Cut),
        Fact::Bent(_) => Some(Step::Bend),
        Fact::Stacked(_) => Some(Step::Stack),
        _ => None,
    });
    let mut steps: Vec<Step> = steps.collect();
    steps.dedup();
    match steps.as_slice() {
        [] => None,
        [step] => Some(*step),
        _ => Some(Step::Several),
    }
}

/// `about 40 min`, `15 to 40 min`.
impl fmt::Display for TimeLeft {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (least, most) = (self.least, self.most);
        if least.minutes() == most.minutes() {
            write!(f, "about {most}")
        } else if most.minutes() < 60 {
            write!(f, "{} to {most}", least.minutes())
        } else {
            write!(f, "{least} to {most}")
        }
    }
}

/// How much later `after` is; `None` where one is unknown or the clock ran back.
fn between(before: Option<Utc>, after: Option<Utc>) -> Option<Seconds> {
    let seconds = after?.0.checked_sub(before?.0)?;
    u64::try_from(seconds).ok().map(Seconds::new)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        log::{CourseNumber, EdgeId},
        piece::PieceId,
    };

    fn piece() -> PieceId {
        PieceId {
            edge: EdgeId(1),
            course: CourseNumber::FIRST,
            number: 1,
        }
    }

    fn event(at: Option<i64>, fact: Fact) -> BenchEvent {
        BenchEvent {
            at: at.map(Utc),
            joined: false,
            fact,
        }
    }

    /// Ten pieces that are still to be stacked.
    const TEN: [usize; 5] = [0, 0, 0, 10, 0];

    fn left(events: &[BenchEvent], at: [usize; 5]) -> Option<TimeLeft> {
        Pace::of(events, Minutes(20)).time_for(at, BenchOrder::CutFirst)
    }

    /// What is said of ten pieces after these were stacked at these seconds.
    #[track_caller]
    fn check(seconds: &[Option<i64>], expected: &str) {
        let stacked = |at: &Option<i64>| event(*at, Fact::Stacked(piece()));
        let events: Vec<_> = seconds.iter().map(stacked).collect();
        let said = left(&events, TEN).map_or_else(String::new, |said| said.to_string());
        assert_eq!(said, expected);
    }

    #[test]
    fn nothing_is_said_before_there_is_a_time() {
        check(&[], "");
        check(&[Some(5)], "");
        check(&[Some(5), None, Some(9)], "");
        check(&[Some(9), Some(5)], "");
    }

    #[test]
    fn the_first_pieces_give_a_reach_and_then_one_figure() {
        check(&[Some(0), Some(120)], "10 to 40 min");
        let five = [0, 120, 240, 360, 480, 600].map(Some);
        check(&five, "about 20 min");
    }

    #[test]
    fn a_call_is_a_pause_and_counts_as_one_median() {
        let with_call = [0, 120, 240, 1_440, 1_560, 1_680].map(Some);
        check(&with_call, "about 20 min");
        // Longer than the job's own pause, a time is none even where it is usual.
        let slow = [0, 1_300, 2_600].map(Some);
        check(&slow, "");
    }

    #[test]
    fn after_the_pause_key_the_time_of_the_next_step_does_not_count() {
        let mut events: Vec<_> = [0, 60, 120, 180, 240, 300]
            .map(|at| event(Some(at), Fact::Stacked(piece())))
            .into();
        events.push(event(Some(301), Fact::Paused));
        events.push(event(Some(440), Fact::Stacked(piece())));
        let most = left(&events, TEN).map(|left| left.most);
        assert_eq!(most, Some(Seconds::new(600)));
    }

    #[test]
    fn a_piece_to_be_marked_is_cut_and_bent_as_often_as_those_before_it() {
        let rest = crate::domain::bench::CutRest::Waste;
        // Of two that were marked one was cut; none was bent.
        let facts = [
            (0, Fact::Bent(piece())),
            (60, Fact::Stacked(piece())),
            (
                100,
                Fact::Cut {
                    piece: piece(),
                    rest,
                },
            ),
        ];
        let events: Vec<_> = facts
            .into_iter()
            .map(|(at, fact)| event(Some(at), fact))
            .collect();
        let most = |at| left(&events, at).map(|left| left.most.get());
        // One stacked piece: the figure may be twice as much.
        assert_eq!(most([0, 0, 0, 1, 0]), Some(120));
        assert_eq!(most([0, 1, 0, 0, 0]), Some(200));
    }

    #[test]
    fn times_are_said_in_minutes_and_hours() {
        let said = [0, 4, 91, 3_540, 3_541, 7_500].map(|s| Seconds::new(s).to_string());
        assert_eq!(
            said,
            [
                "1 min",
                "1 min",
                "2 min",
                "59 min",
                "1 h 00 min",
                "2 h 05 min"
            ]
        );
    }
}
