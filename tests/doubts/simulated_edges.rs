//! Whole edges that do not fit their roof, and hips too short for a line.

use crate::maker::{Chance, Hip, Joints, Slip, slip_somewhere};
use crate::simulated::{LEAST, SLOPES, SlopeIs, cases, doubts, edge, number, roof, settings};
use crate::worked::{beside, check_alone};
use bendmark::domain::doubt::{Cause, Doubt, DoubtedReading};
use bendmark::domain::roof::{RoofLine, Slope, SlopeForm};

/// Whole edges: the share that is one doubt about the edge with the right cause
/// among the first two.
fn edge_doubts(cause: Cause, mut make: impl FnMut(&mut Chance) -> Option<(Hip, RoofLine)>) -> f64 {
    let (mut hips, mut right) = (0, 0);
    for seed in 0..2 * cases() {
        let Some((hip, roof)) = make(&mut Chance::seeded(seed)) else {
            continue;
        };
        let doubts = check_alone(&beside(&edge(&hip.row()), roof), &settings(&hip), &[]);
        let is_right = |doubt: &Doubt| {
            doubt.reading == DoubtedReading::Edge
                && doubt
                    .suspects()
                    .take(2)
                    .any(|suspect| suspect.cause == cause)
        };
        hips += 1;
        right += i32::from(doubts.len() == 1 && is_right(&doubts[0]));
    }
    let share = 100.0 * f64::from(right) / f64::from(hips);
    let words = cause.words();
    println!("whole edge, {words}: one doubt with that cause among two {share:.2} % of {hips}");
    share
}

#[test]
fn columns_swapped_are_one_doubt_about_the_edge() {
    for slope in SLOPES {
        let share = edge_doubts(Cause::Swapped, |chance| {
            let mut hip = Hip::made(Joints::Random, chance);
            for course in &mut hip.read {
                course.reverse();
            }
            let roof = roof(&hip, slope);
            Some((hip, roof))
        });
        assert!(share >= 99.0);
    }
}

#[test]
fn readings_of_the_other_side_are_one_doubt_about_the_edge() {
    let share = edge_doubts(Cause::SlopesExchanged, |chance| {
        let (this, other) = (chance.whole(3, 12), chance.whole(3, 12));
        let hip = Hip::beside(this, other, Joints::Random, chance);
        let given = |rise: i64| Slope::new(SlopeForm::RiseIn12, rise * 100_000).ok();
        let roof = RoofLine {
            slope: given(other),
            other: given(this),
            ..RoofLine::default()
        };
        (this != other).then_some((hip, roof))
    });
    assert!(share >= 99.0);
}

/// Hips of four courses with the slope given: the roof alone must do.
#[test]
fn slips_in_a_short_hip_are_found_by_the_roof_alone() {
    let (mut hips, mut found, mut clean, mut false_doubts) = (0, 0, 0, 0);
    for seed in 0..4 * cases() {
        let mut chance = Chance::seeded(seed);
        let mut hip = Hip::made(Joints::Random, &mut chance);
        hip.read.truncate(4);
        clean += 8;
        false_doubts += doubts(&hip, &hip.row(), SlopeIs::Given).len();
        let slip = Slip::ALL[usize::try_from(chance.whole(0, 6)).unwrap()];
        let Some(made) = slip_somewhere(&mut hip, slip, LEAST, &mut chance) else {
            continue;
        };
        let course = number(made.course);
        let doubts = doubts(&hip, &hip.row(), SlopeIs::Given);
        hips += 1;
        found += i32::from(doubts.iter().any(|doubt| doubt.course == Some(course)));
    }
    let share = 100.0 * f64::from(found) / f64::from(hips);
    println!(
        "four courses, slope given: {share:.2} % of {hips} found; {false_doubts} doubts in {clean} clean readings"
    );
    assert!(share >= 99.0);
    assert!(false_doubts * 10_000 <= clean);
}
