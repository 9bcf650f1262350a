//! Measuring two pieces of work against each other.

use std::fmt;
use std::time::{Duration, Instant};

/// Two pieces of work, and how far apart they may be.
pub(crate) struct Ratio {
    name: &'static str,
    ours: Duration,
    bare: Duration,
    bar: f64,
}

impl Ratio {
    /// Runs `ours` and `bare` by turns, so that a slow moment of the machine
    /// hits both.
    pub(crate) fn of(
        name: &'static str,
        bar: f64,
        mut ours: impl FnMut(),
        mut bare: impl FnMut(),
    ) -> Self {
        let (mut our_times, mut bare_times) = (Vec::new(), Vec::new());
        ours();
        bare();
        for _ in 0..rounds() {
            our_times.push(time(&mut ours));
            bare_times.push(time(&mut bare));
        }
        Self {
            name,
            ours: median(our_times),
            bare: median(bare_times),
            bar,
        }
    }

    fn ratio(&self) -> f64 {
        self.ours.as_secs_f64() / self.bare.as_secs_f64()
    }

    pub(crate) fn is_over(&self) -> bool {
        self.ratio() > self.bar
    }
}

impl fmt::Display for Ratio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let ms = |time: Duration| time.as_secs_f64() * 1e3;
        write!(
            f,
            "{:<58} {:>9.2} {:>9.2} {:>6.2} {:>5.1}{}",
            self.name,
            ms(self.ours),
            ms(self.bare),
            self.ratio(),
            self.bar,
            if self.is_over() { "  OVER" } else { "" }
        )
    }
}

fn rounds() -> usize {
    let asked = std::env::var("BENDMARK_ROUNDS").ok();
    asked.and_then(|rounds| rounds.parse().ok()).unwrap_or(21)
}

fn time(work: &mut impl FnMut()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times[times.len() / 2]
}
