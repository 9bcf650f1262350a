//! Blur, noise, and reading by comparing.
//!
//! Everything is measured in the eye's smallest readable detail: 1 arcminute at
//! 20/20, 2 at 20/40, so that 20/40 sees from one metre what 20/20 sees from two.
//!
//! The blur is a Gaussian, the usual plain stand-in for the eye's optics and
//! retina (from memory): with `s` = half a detail it passes `exp(-2 (pi s f)^2)`
//! of a grating of `f` lines a detail, that is 29 % of the finest that is resolved,
//! one line and one gap a detail each (`f` = 1/2). After it comes white noise, as
//! strong as lets digits of five details be read right in 55 %. What is seen is
//! then taken for the alternative nearest to it, pixel by pixel, each under the
//! same blur: no reader does better.
//!
//! Two figures were chosen to meet the table in `before.rs`: the width of the
//! blur, and how much wider a bold stroke is (`pixels.rs`). The noise was not.
//!
//! Noise counts only along what alternatives differ by, so it is drawn there: as
//! many normal numbers a trial as there are alternatives, from a fixed seed.

use super::pixels::{ARCMIN, Page};
use crate::split_mix::SplitMix;

/// The blur, in details.
const BLUR: f64 = 0.5;

/// The noise: its standard deviation over one square detail, where white is 0 and
/// black 1. `digits_of_five_details_are_read_right_in_55_per_cent` holds it.
const NOISE: f64 = 0.405;

/// How often each alternative is shown.
const TRIALS: usize = 4_000;

/// How often each of `pages` is taken for another: per cent.
pub(crate) fn errors(pages: &[Page], detail: f64, contrast: f64) -> Vec<f64> {
    let seen = products(&blurred(pages, detail));
    // In units of the noise.
    let strength = contrast / NOISE;
    let noise = root(&seen);
    let count = pages.len();
    let mut random = SplitMix::at(0x20_40);
    let mut wrong = vec![0_usize; count];
    for _ in 0..TRIALS {
        let normal: Vec<f64> = (0..count).map(|_| normal(&mut random)).collect();
        let along: Vec<f64> = noise
            .iter()
            .map(|row| row.iter().zip(&normal).map(|(a, b)| a * b).sum())
            .collect();
        for shown in 0..count {
            // How much nearer than nothing, less what all have in common.
            let near = |at: usize| strength * (seen[shown][at] - seen[at][at] / 2.0) + along[at];
            let own = near(shown);
            if (0..count).any(|at| at != shown && near(at) >= own) {
                wrong[shown] += 1;
            }
        }
    }
    let per_cent = |wrong: usize| 100.0 * wrong as f64 / TRIALS as f64;
    wrong.into_iter().map(per_cent).collect()
}

/// Each page under the blur, less the mean of all, in samples; squares of samples
/// add up to square details.
fn blurred(pages: &[Page], detail: f64) -> Vec<Vec<f64>> {
    let pixel = ARCMIN / detail;
    let same = |page: &Page| (page.width, page.height) == (pages[0].width, pages[0].height);
    assert!(
        pages.iter().all(same),
        "alternatives have to be of the same size"
    );
    let across = weights(pages[0].width, pixel);
    let down = weights(pages[0].height, pixel);
    let blur = |page: &Page| {
        let mut rows: Vec<Vec<f64>> = Vec::new();
        let mut before: &[f64] = &[];
        for row in page.ink.chunks(page.width) {
            // Most rows of pixels of a drawn dot are the same.
            let same = rows.last().filter(|_| row == before).cloned();
            rows.push(same.unwrap_or_else(|| across.iter().map(|w| w.of(row)).collect()));
            before = row;
        }
        let column = |x: usize| rows.iter().map(|row| row[x]).collect::<Vec<f64>>();
        let columns = (0..across.len()).map(column);
        columns
            .flat_map(|column| down.iter().map(move |weights| weights.of(&column)))
            .collect::<Vec<f64>>()
    };
    let mut seen: Vec<Vec<f64>> = pages.iter().map(blur).collect();
    for at in 0..seen[0].len() {
        let mean = seen.iter().map(|page| page[at]).sum::<f64>() / seen.len() as f64;
        for page in &mut seen {
            page[at] = (page[at] - mean) * STEP;
        }
    }
    seen
}

/// From one sample to the next, in details: nothing that passes the blur is lost.
const STEP: f64 = 0.6 * BLUR;

/// What a sample gets from the pixels of a line, beginning with `first`.
struct Weights {
    first: usize,
    of_each: Vec<f64>,
}

impl Weights {
    fn of(&self, line: &[f64]) -> f64 {
        let pixels = line[self.first..].iter();
        self.of_each.iter().zip(pixels).map(|(a, b)| a * b).sum()
    }
}

/// The samples over a line of pixels, and as far beyond it as the blur reaches.
fn weights(pixels: usize, pixel: f64) -> Vec<Weights> {
    let reach = 3.0 * BLUR;
    let long = pixels as f64 * pixel;
    let samples = ((long + 2.0 * reach) / STEP).ceil() as usize;
    let weights = |sample: usize| {
        let at = sample as f64 * STEP - reach;
        let pixel_at = |place: f64| ((place / pixel).max(0.0) as usize).min(pixels);
        let first = pixel_at(at - reach);
        let of = |other: usize| {
            let far = ((other as f64 + 0.5) * pixel - at) / BLUR;
            pixel / (BLUR * std::f64::consts::TAU.sqrt()) * (-far * far / 2.0).exp()
        };
        Weights {
            first,
            of_each: (first..pixel_at(at + reach)).map(of).collect(),
        }
    };
    (0..samples).map(weights).collect()
}

/// Every one times every other.
fn products(seen: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let times = |a: &Vec<f64>, b: &Vec<f64>| a.iter().zip(b).map(|(a, b)| a * b).sum();
    seen.iter()
        .map(|a| seen.iter().map(|b| times(a, b)).collect())
        .collect()
}

/// The lower triangle whose product with its mirror is `square` (Cholesky): with
/// it, independent noise becomes noise along the alternatives.
fn root(square: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let mut lower: Vec<Vec<f64>> = Vec::new();
    for (at, row) in square.iter().enumerate() {
        let mut next: Vec<f64> = Vec::new();
        for other in 0..at {
            let known: f64 = next.iter().zip(&lower[other]).map(|(a, b)| a * b).sum();
            // What depends on those before it adds nothing of its own.
            let own = lower[other][other];
            next.push(if own > 1e-9 {
                (row[other] - known) / own
            } else {
                0.0
            });
        }
        let known: f64 = next.iter().map(|a| a * a).sum();
        next.push((row[at] - known).max(0.0).sqrt());
        lower.push(next);
    }
    lower
}

/// A normal number (Box and Muller).
fn normal(random: &mut SplitMix) -> f64 {
    let mut unit = || ((random.next() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64;
    let (length, turn) = (unit(), unit());
    (-2.0 * length.ln()).sqrt() * (std::f64::consts::TAU * turn).cos()
}
