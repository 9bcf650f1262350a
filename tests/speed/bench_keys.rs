//! Keys at the bench to their frame, in a job half of which is done: how that grows
//! with the job. What is saved meanwhile is saved on another thread.

use crate::key_to_saved::{draw, job, opened, press};
use crate::measure::{Ratio, median};
use crate::screens::stacked;
use bendmark::app::{go, key::Code, place::Place, state::ReadingAt, state::Spot, state::State};
use bendmark::domain::{
    bench::{Progress, Utc},
    cutting::{CutList, Job},
    log::{CourseNumber, End},
};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use std::path::Path;
use std::time::{Duration, Instant};

/// What is done, from the last key to its frame.
type Change = fn(&mut Bench) -> Duration;

/// Enter at the sizes of one large roof, of a dozen and of a town, and the keys that
/// change the plan.
pub(crate) fn ratios() -> Vec<Ratio> {
    let enter = |pieces, bar| {
        let mut one = Bench::of(400);
        let mut large = Bench::of(pieces);
        Ratio::measured(
            format!("Enter to the frame, {pieces} pieces / 400"),
            bar,
            || median((0..9).map(|_| large.key(Code::Enter)).collect()),
            || median((0..9).map(|_| one.key(Code::Enter)).collect()),
        )
    };
    let mut all = vec![enter(5_000, 2.0), enter(60_000, 6.0)];
    let changes: [(&str, Change); 3] = [
        ("spoiled", Bench::spoiled),
        ("an offcut found", Bench::found),
        ("a course read again", Bench::read_again),
    ];
    for (what, change) in changes {
        let mut one = Bench::of(400);
        let mut large = Bench::of(5_000);
        let name = format!("{what} to the frame, 5,000 pieces / 400");
        all.push(Ratio::measured(
            name,
            10.0,
            || change(&mut large),
            || change(&mut one),
        ));
    }
    all
}

/// The median and the slowest of so many that a block of pieces comes in, in ms.
pub(crate) fn slowest() -> Vec<(String, f64)> {
    let mut bench = Bench::of(60_000);
    let keys: Vec<Duration> = (0..2_400).map(|_| bench.key(Code::Enter)).collect();
    let ms = |time: Duration| time.as_secs_f64() * 1e3;
    let slowest = keys.iter().copied().max().unwrap_or_default();
    vec![
        (
            "Enter to the frame, the median".to_owned(),
            ms(median(keys)),
        ),
        ("the slowest of 2,400".to_owned(), ms(slowest)),
    ]
}

/// The same with half of its pieces stacked.
fn half_done(pieces: usize) -> Job {
    let mut job = job(pieces);
    let list = CutList::of(&job, &Progress::default());
    let done = list.pieces.iter().take(pieces / 2);
    for (panel, piece) in (1..).zip(done) {
        // Some cutters are slower than others.
        let at = 1_700_000_000 + 97 * i64::from(panel) + i64::from(panel % 13);
        for fact in stacked(piece, panel) {
            job.record(vec![fact], Some(Utc(at)));
        }
    }
    job
}

/// The program at its Bench.
struct Bench {
    state: State,
    buffer: Buffer,
    keys: u64,
}

impl Bench {
    fn of(pieces: usize) -> Self {
        let mut state = opened(Path::new("bench.ron"), half_done(pieces));
        state.place = Place::Bench;
        let mut bench = Self {
            state,
            buffer: Buffer::empty(Rect::new(0, 0, 120, 40)),
            keys: 0,
        };
        for _ in 0..8 {
            bench.key(Code::Enter);
        }
        bench
    }

    /// From a key to its frame. What is to be saved is saved before the next key.
    fn key(&mut self, code: Code) -> Duration {
        self.keys += 1;
        self.state.now = Some(Utc(1_790_000_000 + i64::try_from(31 * self.keys).unwrap()));
        let start = Instant::now();
        let effects = press(&mut self.state, code, 60_000 * self.keys);
        draw(&self.state, &mut self.buffer);
        let took = start.elapsed();
        drop(effects);
        took
    }

    fn facts(&self) -> usize {
        self.state.open.as_ref().unwrap().job().events().len()
    }

    /// The last of these keys, which must write something down.
    fn last(&mut self, code: Code) -> Duration {
        let before = self.state.open.as_ref().unwrap().change();
        let took = self.key(code);
        assert!(self.state.open.as_ref().unwrap().change() > before);
        took
    }

    fn spoiled(&mut self) -> Duration {
        for code in [Code::Enter, Code::Enter, Code::Char('x')] {
            self.key(code);
        }
        let before = self.facts();
        let took = self.last(Code::Enter);
        assert!(self.facts() > before);
        took
    }

    fn found(&mut self) -> Duration {
        self.key(Code::F(5));
        for code in [Code::Char('a'), Code::Char('4')] {
            self.key(code);
        }
        for c in "30; 31".chars() {
            self.key(Code::Char(c));
        }
        self.last(Code::Enter)
    }

    fn read_again(&mut self) -> Duration {
        let edge = self.state.job().unwrap().edges().last().unwrap().id;
        let course = CourseNumber::new(7).unwrap();
        let at = ReadingAt {
            edge,
            course,
            end: End::Bottom,
        };
        go::to(&mut self.state, Spot::Reading(at));
        let reading = if self.keys.is_multiple_of(2) {
            "35 1/4"
        } else {
            "35"
        };
        for c in reading.chars() {
            self.key(Code::Char(c));
        }
        self.last(Code::Enter)
    }
}
