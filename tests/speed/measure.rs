//! Measuring two pieces of work against each other.

use std::fmt;
use std::time::{Duration, Instant};

/// Two pieces of work, and how far apart they may be.
pub(crate) struct Ratio {
    name: String,
    /// Both sides, where they were measured here.
    times: Option<(Duration, Duration)>,
    ratio: f64,
    bar: f64,
}

impl Ratio {
    /// Runs `ours` and `bare` by turns, so that a slow moment of the machine
    /// hits both.
    pub(crate) fn of(name: &'static str, bar: f64, ours: impl FnMut(), bare: impl FnMut()) -> Self {
        Self::of_named(name.to_owned(), bar, ours, bare)
    }

    /// The same with a name made up on the way.
    pub(crate) fn of_named(
        name: String,
        bar: f64,
        mut ours: impl FnMut(),
        mut bare: impl FnMut(),
    ) -> Self {
        Self::measured(name, bar, || time(&mut ours), || time(&mut bare))
    }

    /// The same where each side says how long it took.
    pub(crate) fn measured(
        name: String,
        bar: f64,
        mut ours: impl FnMut() -> Duration,
        mut bare: impl FnMut() -> Duration,
    ) -> Self {
        let (mut our_times, mut bare_times) = (Vec::new(), Vec::new());
        ours();
        bare();
        for _ in 0..rounds() {
            our_times.push(ours());
            bare_times.push(bare());
        }
        let (ours, bare) = (median(our_times), median(bare_times));
        Self {
            times: Some((ours, bare)),
            ..Self::known(name, ours.as_secs_f64() / bare.as_secs_f64(), bar)
        }
    }

    /// A ratio that was measured elsewhere in this run.
    pub(crate) fn known(name: String, ratio: f64, bar: f64) -> Self {
        Self {
            name,
            times: None,
            ratio,
            bar,
        }
    }

    pub(crate) fn is_over(&self) -> bool {
        self.ratio > self.bar
    }
}

impl Ratio {
    /// What was measured, both sides in ms, their ratio, the bar.
    fn columns(&self) -> [String; 5] {
        let ms = |time: Duration| format!("{:.2}", time.as_secs_f64() * 1e3);
        let (ours, bare) = self
            .times
            .map_or_else(Default::default, |(ours, bare)| (ms(ours), ms(bare)));
        let ratio = format!("{:.3}", self.ratio);
        let bar = format!("{:.1}", self.bar);
        [self.name.clone(), ours, bare, ratio, bar]
    }

    /// As a row of a table.
    pub(crate) fn row(&self) -> String {
        format!("| {} |", self.columns().join(" | "))
    }
}

impl fmt::Display for Ratio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [name, ours, bare, ratio, bar] = self.columns();
        let over = if self.is_over() { "  OVER" } else { "" };
        write!(
            f,
            "{name:<58} {ours:>9} {bare:>9} {ratio:>6} {bar:>5}{over}"
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

pub(crate) fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times[times.len() / 2]
}
