//! Placements off, readings left out or written twice, and logs as they grow.

use crate::maker::{Chance, Hip, Joints, Slip, sixteenths, slip_somewhere};
use crate::simulated::{LEAST, SLOPES, SlopeIs, cases, doubts, near, number};
use bendmark::domain::doubt::{Cause, Doubt, DoubtedReading, Fix};
use bendmark::domain::log::End;

#[test]
fn one_placement_off_is_one_doubt() {
    for slope in SLOPES {
        for joints in Joints::ALL {
            let (mut hips, mut one, mut named, mut large, mut large_one) = (0, 0, 0, 0, 0);
            for seed in 0..2 * cases() {
                let mut chance = Chance::seeded(seed);
                let mut hip = Hip::made(joints, &mut chance);
                let last = i64::try_from(hip.read.len()).unwrap() - 2;
                let at = usize::try_from(chance.whole(0, last)).unwrap();
                let by = if chance.coin() { 1 } else { -1 } * chance.whole(LEAST, 192);
                if hip.read[at][1] + by < 0 || hip.read[at + 1][0] + by < 0 {
                    continue;
                }
                let right = hip.read[at][1];
                hip.read[at][1] += by;
                hip.read[at + 1][0] += by;
                let doubts = doubts(&hip, &hip.row(), slope);
                let is_one = doubts.len() == 1
                    && doubts[0].touches(number(at))
                    && doubts[0].course.is_some();
                hips += 1;
                one += i32::from(is_one);
                if by.abs() >= 10 {
                    large += 1;
                    large_one += i32::from(is_one);
                }
                named += i32::from(
                    is_one
                        && doubts[0].reading == DoubtedReading::Placement
                        && near(doubts[0].likely, sixteenths(right)),
                );
            }
            let share = |part: i32| 100.0 * f64::from(part) / f64::from(hips);
            println!(
                "placement off, slope {slope:?}, joints {joints:?}: one doubt {:.2} %, of 5/8 in and more {large_one} of {large}, named with its reading {:.2} % of {hips}",
                share(one),
                share(named)
            );
            assert!(share(one) >= 99.0 && share(named) >= 95.0);
        }
    }
}

/// The share of hips in which a moved row of readings is one doubt, and in
/// which that doubt names the right course and place among its first two.
fn moved(joints: Joints, slope: SlopeIs, twice: bool) -> (f64, f64) {
    let (mut hips, mut one, mut place) = (0, 0, 0);
    for seed in 0..4 * cases() {
        let mut chance = Chance::seeded(seed);
        let hip = Hip::made(joints, &mut chance);
        let mut row = hip.row();
        // The last one moves no other: it is simply not read yet, or one more.
        let at = usize::try_from(chance.whole(0, 999)).unwrap() % (row.len() - 1);
        let fix = if twice {
            row.insert(at, row[at]);
            let (course, end) = (number(at.div_ceil(2)), End::BOTH[(at + 1) % 2]);
            Fix::StrikeOut { course, end }
        } else {
            row.remove(at);
            let (course, end) = (number(at / 2), End::BOTH[at % 2]);
            Fix::MakeRoom { course, end }
        };
        let doubts = doubts(&hip, &row, slope);
        let is_one = doubts.len() == 1 && doubts[0].cause == Cause::LeftOutOrTwice;
        let named = is_one
            && doubts[0]
                .suspects()
                .take(2)
                .any(|suspect| suspect.fix == fix);
        hips += 1;
        one += i32::from(is_one);
        place += i32::from(named);
    }
    let share = |part: i32| 100.0 * f64::from(part) / f64::from(hips);
    (share(one), share(place))
}

#[test]
fn a_reading_left_out_or_written_twice_is_one_doubt() {
    for twice in [false, true] {
        for slope in SLOPES {
            for joints in Joints::ALL {
                let (one, place) = moved(joints, slope, twice);
                let what = if twice { "written twice" } else { "left out" };
                println!(
                    "{what}, slope {slope:?}, joints {joints:?}: one doubt {one:.1} %, at the right place {place:.1} %"
                );
                assert!(one >= 90.0, "{what}, {slope:?}, {joints:?}: {one}");
            }
        }
    }
}

/// The log as it grows, reading by reading: nothing clean is doubted on the way,
/// and a slip stands doubted from the moment its course is read at both lines,
/// as soon as there is a line to judge it by.
#[test]
fn while_typing_nothing_clean_is_doubted_and_a_slip_is_at_once() {
    for slope in SLOPES {
        for joints in Joints::ALL {
            let (mut shown, mut at_once, mut steps, mut clean, mut elsewhere) = (0, 0, 0, 0, 0);
            for seed in 0..cases() {
                let mut chance = Chance::seeded(seed);
                let mut hip = Hip::made(joints, &mut chance);
                let row = hip.row();
                for length in 1..=row.len() {
                    steps += 1;
                    clean += doubts(&hip, &row[..length], slope).len();
                }
                let slip = Slip::ALL[usize::try_from(chance.whole(0, 6)).unwrap()];
                let Some(made) = slip_somewhere(&mut hip, slip, LEAST, &mut chance) else {
                    continue;
                };
                let row = hip.row();
                for length in 1..=row.len() {
                    let doubts = doubts(&hip, &row[..length], slope);
                    let named = |doubt: &Doubt| {
                        doubt.course.is_some() && doubt.touches(number(made.course))
                    };
                    elsewhere += doubts.iter().filter(|doubt| !named(doubt)).count();
                    let judged = slope == SlopeIs::Given || length >= 10;
                    if judged && length >= 2 * made.course + 2 {
                        shown += 1;
                        at_once += u64::from(doubts.iter().any(named));
                    }
                }
            }
            println!(
                "typing, slope {slope:?}, joints {joints:?}: {clean} doubts at {steps} steps of clean hips; slip shown at {at_once} of {shown} steps, {elsewhere} doubts elsewhere"
            );
            assert!(clean * 10_000 <= steps);
            assert!(at_once * 100 >= shown * 98);
        }
    }
}
