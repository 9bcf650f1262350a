//! The times of one kind of step, and what they come to.
//!
//! What is a pause, and what it counts as, stands in `pace.rs`.

use super::seconds::Seconds;
use std::collections::BTreeMap;

/// A kind's mean time in seconds, and how often it was done, with a time or without.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub(super) struct Kind {
    pub mean: f64,
    pub count: u32,
}

/// The times of one kind of step: how often each whole second was taken, and how
/// often a step was done whose time is no work. From it the mean comes at once,
/// however many steps there were.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(super) struct Times {
    known: BTreeMap<Seconds, u32>,
    count: u32,
}

/// Over how many medians a time is a pause, and what it must be over besides.
const PAUSE: f64 = 3.0;
const LEAST_PAUSE: f64 = 60.0;

/// The most medians that one time counts.
const MOST: f64 = 1.75;

impl Times {
    /// One more; `None` for a pause.
    pub(super) fn add(&mut self, time: Option<Seconds>) {
        self.count = self.count.saturating_add(1);
        if let Some(time) = time {
            let count = self.known.entry(time).or_default();
            *count = count.saturating_add(1);
        }
    }

    /// Nothing where all were pauses.
    pub(super) fn kind(&self) -> Option<Kind> {
        let known: u32 = self.known.values().sum();
        // The `at`-th of the known times in rising order, from 0.
        let nth = |at: u32| {
            let mut below = 0;
            let mut times = self.known.iter();
            let time = times.find(|(_, count)| {
                below += **count;
                below > at
            });
            time.map(|(time, _)| time.to_f64())
        };
        let median = nth(known.saturating_sub(1) / 2)?.midpoint(nth(known / 2)?);
        let work = |time: f64| {
            let is_work = time <= (PAUSE * median).max(LEAST_PAUSE);
            if is_work {
                time.min(MOST * median)
            } else {
                median
            }
        };
        let times = self.known.iter();
        let sum: f64 = times
            .map(|(time, count)| work(time.to_f64()) * f64::from(*count))
            .sum();
        let pauses = f64::from(self.count.saturating_sub(known)) * median;
        Some(Kind {
            mean: (sum + pauses) / f64::from(self.count),
            count: self.count,
        })
    }
}
