//! One slip, two slips, none: how many are pointed out, and how well.

use crate::maker::{Chance, Hip, Joints, Made, Slip, sixteenths, slip_somewhere};
use crate::simulated::{LEAST, SLOPES, SlopeIs, cases, doubts, doubts_to_panel_edge, near, number};
use crate::tally::Tally;
use bendmark::domain::doubt::{Doubt, DoubtedReading};
use bendmark::domain::measure::Length;

/// Whether the suspicion names the reading that was slipped, within 1/8 in.
fn right(suspect_of: DoubtedReading, likely: Length, made: Made, before: [i64; 2]) -> bool {
    let is = |end: usize, word: DoubtedReading| {
        suspect_of == word
            && (made.slip == Slip::Swapped || made.end == end)
            && near(likely, sixteenths(before[end]))
    };
    is(0, DoubtedReading::Bottom) || is(1, DoubtedReading::Top)
}

fn one_slip(joints: Joints, slope: SlopeIs, slip: Slip, least: i64, most: i64) -> Tally {
    let mut tally = Tally::default();
    let mut seed = 0;
    while tally.slips < cases() {
        seed += 1;
        let mut chance = Chance::seeded(seed * 7 + u64::from(slip.words().as_bytes()[0]));
        let clean = Hip::made(joints, &mut chance);
        let mut hip = clean.clone();
        let Some(made) = slip_somewhere(&mut hip, slip, least, &mut chance) else {
            continue;
        };
        if made.size > most {
            continue;
        }
        let doubts = doubts(&hip, &hip.row(), slope);
        let before = clean.read[made.course];
        count_slip(&mut tally, &doubts, made, before);
        tally.clean_readings += u64::try_from(2 * hip.read.len() - 2).unwrap();
    }
    tally
}

fn count_slip(tally: &mut Tally, doubts: &[Doubt], made: Made, before: [i64; 2]) {
    tally.slips += 1;
    let course = number(made.course);
    let of_course = |doubt: &&Doubt| doubt.course.is_some() && doubt.touches(course);
    let found = doubts.iter().find(of_course);
    tally.found += u64::from(found.is_some());
    if made.size >= 10 {
        tally.large += 1;
        tally.large_found += u64::from(found.is_some());
    }
    let elsewhere = doubts.iter().filter(|doubt| !of_course(doubt)).count();
    tally.clean_doubted += u64::try_from(elsewhere).unwrap();
    let Some(doubt) = found else { return };
    let first_two: Vec<_> = doubt.suspects().take(2).collect();
    let is_right = |at: usize| {
        first_two
            .get(at)
            .is_some_and(|suspect| right(suspect.reading, suspect.likely, made, before))
    };
    tally.first += u64::from(is_right(0));
    tally.first_two += u64::from(is_right(0) || is_right(1));
    let cause = first_two
        .iter()
        .any(|suspect| suspect.cause.words() == made.slip.words());
    tally.cause += u64::from(cause);
}

fn assert_bars(tally: &Tally, joints: Joints, what: &str) {
    assert!(tally.share(tally.found) >= 99.0, "{what}: found {tally:?}");
    assert_eq!(tally.large_found, tally.large, "{what}: of 5/8 in and more");
    if joints.regular() {
        assert!(tally.share(tally.first) >= 95.0, "{what}: first {tally:?}");
    }
    assert!(
        tally.share(tally.first_two) >= 95.0,
        "{what}: two {tally:?}"
    );
    assert!(tally.share(tally.cause) >= 95.0, "{what}: cause {tally:?}");
    assert!(
        tally.clean_doubted * 10_000 <= tally.clean_readings,
        "{what}: clean readings doubted {tally:?}"
    );
}

#[test]
fn slips_are_pointed_out_with_reading_and_cause() {
    println!("{}", Tally::HEAD);
    for slope in SLOPES {
        for joints in Joints::ALL {
            let mut all = Tally::default();
            for slip in Slip::ALL {
                let tally = one_slip(joints, slope, slip, LEAST, i64::MAX);
                println!(
                    "{}",
                    tally.line(&format!("{slope:?}"), &format!("{joints:?}"), slip.words())
                );
                all.add(&tally);
            }
            let what = format!("slope {slope:?}, joints {joints:?}");
            println!(
                "{}",
                all.line(
                    &format!("{slope:?}"),
                    &format!("{joints:?}"),
                    "**all seven**"
                )
            );
            assert_bars(&all, joints, &what);
        }
    }
}

/// Not counted above: within the tolerance a fraction counted backwards is rarely
/// seen, and costs no more than a careless tape does.
#[test]
fn slips_within_the_tolerance_are_rarely_seen() {
    for (least, most) in [(2, 2), (4, 4), (6, 6)] {
        let mut all = Tally::default();
        for joints in Joints::ALL {
            all.add(&one_slip(
                joints,
                SlopeIs::Given,
                Slip::WrongSide,
                least,
                most,
            ));
        }
        println!(
            "fraction counted backwards by {least}/16 in: {:.1} % seen",
            all.share(all.found)
        );
        assert!(all.clean_doubted * 10_000 <= all.clean_readings, "{all:?}");
    }
}

#[test]
fn clean_hips_are_not_doubted() {
    let (mut readings, mut doubted) = (0, 0);
    for slope in SLOPES {
        for joints in Joints::ALL {
            for seed in 0..4 * cases() {
                let hip = Hip::made(joints, &mut Chance::seeded(seed));
                readings += 2 * hip.read.len();
                doubted += doubts(&hip, &hip.row(), slope).len();
                // Read either way.
                if let Some(doubts) = doubts_to_panel_edge(&hip, &hip.row(), slope) {
                    readings += 2 * hip.read.len();
                    doubted += doubts.len();
                }
            }
        }
    }
    println!("clean hips: {doubted} doubts in {readings} readings");
    assert!(doubted * 10_000 <= readings);
}

/// Outside what the bars ask for, so only printed: tapes that are off by more
/// than the tolerance was made for.
#[test]
fn a_careless_tape_is_doubted_seldom() {
    for noise in [1, 2, 3] {
        let (mut hips, mut doubted, mut hips_doubted) = (0, 0, 0);
        for seed in 0..2 * cases() {
            let mut chance = Chance::seeded(seed);
            let mut hip = Hip::made(Joints::Random, &mut chance);
            hip.read_carelessly(noise, &mut chance);
            let doubts = doubts(&hip, &hip.row(), SlopeIs::Given).len();
            hips += 1;
            doubted += doubts;
            hips_doubted += u32::from(doubts > 0);
        }
        let share = 100.0 * f64::from(hips_doubted) / f64::from(hips);
        println!(
            "up to {noise}/16 in more noise: {share:.2} % of {hips} clean hips with a doubt, {doubted} doubts"
        );
        assert!(noise > 1 || share < 1.0);
    }
}

#[test]
fn two_slips_in_one_hip_are_both_found() {
    for slope in SLOPES {
        for joints in Joints::ALL {
            let (mut hips, mut both, mut clean) = (0, 0, 0);
            for seed in 0..4 * cases() {
                let mut chance = Chance::seeded(seed);
                let mut hip = Hip::made(joints, &mut chance);
                let mut slip = |hip: &mut Hip| {
                    let which = Slip::ALL[usize::try_from(chance.whole(0, 6)).unwrap()];
                    slip_somewhere(hip, which, LEAST, &mut chance)
                };
                let before = hip.clone();
                let (Some(one), Some(two)) = (slip(&mut hip), slip(&mut hip)) else {
                    continue;
                };
                let undone = |made: Made| hip.read[made.course] == before.read[made.course];
                if undone(one) || undone(two) {
                    continue;
                }
                let doubts = doubts(&hip, &hip.row(), slope);
                let named = |made: Made| {
                    let course = number(made.course);
                    let of_course = |doubt: &Doubt| doubt.course.is_some() && doubt.touches(course);
                    doubts.iter().any(of_course)
                };
                hips += 1;
                both += i32::from(named(one) && named(two));
                let of_either = |doubt: &&Doubt| {
                    doubt.course.is_some()
                        && (doubt.touches(number(one.course)) || doubt.touches(number(two.course)))
                };
                clean += i32::from(doubts.iter().any(|doubt| !of_either(&doubt)));
            }
            let share = 100.0 * f64::from(both) / f64::from(hips);
            println!(
                "two slips, slope {slope:?}, joints {joints:?}: both {share:.2} % of {hips}; another doubt in {clean}"
            );
            assert!(share >= 95.0);
        }
    }
}
