//! How far the two ends of true planes together are off a line, for those who set
//! the limits: left and right finished width, added up, modulo the cover.

use crate::maker::Chance;
use crate::whole_roof::cases;
use crate::whole_roof_plane::{CLEARANCE, LAP, Laid, Plane, Rows, float, inches};

fn middle(mut of: Vec<f64>) -> f64 {
    of.sort_by(f64::total_cmp);
    let half = of.len() / 2;
    if of.len() % 2 == 1 {
        of[half]
    } else {
        f64::midpoint(of[half - 1], of[half])
    }
}

fn at_share(sorted: &[f64], share: f64) -> f64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "a place in a list"
    )]
    let at = (share * sorted.len() as f64) as usize;
    sorted[at.min(sorted.len() - 1)]
}

/// Finished widths of both ends added up, at the bottom and top of each course.
fn sums(plane: &Plane, read: &[Vec<[i64; 2]>; 2]) -> Vec<[f64; 2]> {
    let added = plane.sides.iter().map(|side| {
        let lap = if side.to_panel_edge { LAP } else { 0 };
        lap - if side.hard { CLEARANCE } else { 0 }
    });
    let added: i64 = added.sum();
    let pairs = read[0].iter().zip(&read[1]);
    let sum = |(left, right): (&[i64; 2], &[i64; 2])| {
        [0, 1].map(|end| inches(left[end] + right[end] + added))
    };
    pairs.map(sum).collect()
}

/// How far each course is off the line through all of them. The step is first
/// what both ends together narrow within a course; then the medians of all
/// slopes between two courses and of what they leave (Theil and Sen).
fn off_the_line(sums: &[f64], step: f64, cover: f64) -> Vec<f64> {
    let around = |off: f64| off - cover * (off / cover).round();
    let mut before = 0.0;
    let mut drift = Vec::new();
    for (at, sum) in (0..).zip(sums) {
        let off = sum + step * float(at) - sums[0];
        before += around(off - before);
        drift.push((float(at), before));
    }
    let pairs = drift.iter().enumerate();
    let slopes = pairs.flat_map(|(at, (x, y))| {
        let later = drift[at + 1..].iter();
        later.map(move |(later, to)| (to - y) / (later - x))
    });
    let slope = middle(slopes.collect());
    let level = middle(drift.iter().map(|(x, y)| y - slope * x).collect());
    drift.iter().map(|(x, y)| y - slope * x - level).collect()
}

struct Scatter {
    bottoms: Vec<f64>,
    /// The mean of bottom and top.
    means: Vec<f64>,
    /// The worst mean of each plane.
    worst: Vec<f64>,
}

fn scatter(deviation: f64, laid: Laid, fits: impl Fn(&Plane) -> bool) -> Scatter {
    let (mut bottoms, mut means, mut worst) = (Vec::new(), Vec::new(), Vec::new());
    for seed in 0..20 * cases() {
        let mut chance = Chance::seeded(seed * 8 + 5);
        let rows = Rows::ALL[usize::try_from(seed % 4).unwrap()];
        let [plane] = Plane::house(rows, laid, &mut chance);
        let read = plane.read(deviation, &mut chance);
        if !fits(&plane) {
            continue;
        }
        let cover = inches(plane.roof.panel - LAP);
        let sums = sums(&plane, &read);
        let step = middle(sums.iter().map(|[bottom, top]| bottom - top).collect());
        let of = |which: &dyn Fn(&[f64; 2]) -> f64| {
            let sums: Vec<f64> = sums.iter().map(which).collect();
            let off = off_the_line(&sums, step, cover);
            off.into_iter().map(f64::abs)
        };
        bottoms.extend(of(&|pair| pair[0]));
        let mean: Vec<f64> = of(&|pair| f64::midpoint(pair[0], pair[1])).collect();
        worst.push(mean.iter().copied().fold(0.0, f64::max));
        means.extend(mean);
    }
    for list in [&mut bottoms, &mut means, &mut worst] {
        list.sort_by(f64::total_cmp);
    }
    Scatter {
        bottoms,
        means,
        worst,
    }
}

type Fits = fn(&Plane) -> bool;

#[test]
fn both_ends_together_lie_on_a_line() {
    let all: [(&str, Fits); 6] = [
        ("all", |_| true),
        ("5 to 7 courses", |plane| plane.full.len() < 8),
        ("8 to 20 courses", |plane| plane.full.len() >= 8),
        ("up to 4 panels", |plane| plane.full[0] <= 4),
        ("5 to 8 panels", |plane| (5..=8).contains(&plane.full[0])),
        ("9 panels and more", |plane| plane.full[0] > 8),
    ];
    println!("How far left + right is off its line, in; each: median, 99 %, 99.9 %");
    println!(
        "| reading | laid | planes | one line, both ends | mean of bottom and top | the worst mean of a plane |"
    );
    println!("|---|---|---|---|---|---|");
    for deviation in [1.0 / 16.0, 1.0 / 8.0] {
        // Where a dormer breaks the rows, the ends of these lie anywhere.
        for laid in [Laid::True, Laid::Alike, Laid::RowByRow] {
            for (words, fits) in all {
                let scatter = scatter(deviation, laid, fits);
                let Scatter {
                    bottoms,
                    means,
                    worst,
                } = &scatter;
                let shares = [bottoms, means, worst].map(|list| {
                    [0.5, 0.99, 0.999]
                        .map(|share| format!("{:.3}", at_share(list, share)))
                        .join(", ")
                });
                let laid = laid.word();
                println!(
                    "| {deviation} | {laid} | {words} | {} |",
                    shares.join(" | ")
                );
            }
            let all = scatter(deviation, laid, |_| true);
            // A tenth of what a reading to the panel's edge would make.
            assert!(at_share(&all.means, 0.5) < 0.2);
        }
    }
}
