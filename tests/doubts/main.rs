//! How many slips the checker points out, on simulated hips.
//!
//! Seeded; the hips and the slips come from `maker`, which shares only `Length`
//! with the checker. `BENDMARK_CASES` sets how many hips a cell of the table
//! gets; `cargo test --release --test doubts -- --nocapture` prints the table
//! that stands in docs/doubts.md. Sizes and shares of the slips are common
//! practice's list, in equal shares.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a failing test may panic, and the table is printed"
)]

mod maker;
mod tally;

use bendmark::domain::course::{Course, CourseNumber, End, Reading};
use bendmark::domain::doubt::{Cause, Doubt, DoubtedReading, Fix, check};
use bendmark::domain::edge::{Edge, EdgeId, EdgeKind};
use bendmark::domain::hand::Hand;
use bendmark::domain::length::Length;
use bendmark::domain::name::Name;
use bendmark::domain::roof::RoofLine;
use bendmark::domain::settings::{RawSettings, Settings};
use bendmark::domain::slope::{Slope, SlopeForm};
use maker::{Chance, Hip, Joints, Made, Slip, sixteenths, slip_somewhere};
use tally::Tally;

/// The smallest slip counted: 1/2 in. Anything up to the tolerance of 3/8 in is
/// not worth a doubt by the job's own setting; see the small ones below.
const LEAST: i64 = 8;

fn cases() -> u64 {
    std::env::var("BENDMARK_CASES")
        .ok()
        .and_then(|cases| cases.parse().ok())
        .unwrap_or(400)
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum SlopeIs {
    Given,
    Unknown,
}

const SLOPES: [SlopeIs; 2] = [SlopeIs::Given, SlopeIs::Unknown];

fn settings(hip: &Hip) -> Settings {
    Settings::checked(RawSettings {
        panel_width: sixteenths(hip.panel_width),
        side_lap: sixteenths(hip.side_lap),
        exposure: sixteenths(hip.exposure),
        ..RawSettings::default()
    })
    .unwrap()
}

fn roof(hip: &Hip, slope: SlopeIs) -> RoofLine {
    match slope {
        SlopeIs::Unknown => RoofLine::default(),
        SlopeIs::Given => {
            RoofLine::even(Slope::new(SlopeForm::RiseIn12, hip.rise_in_12 * 100_000).unwrap())
        }
    }
}

fn number(course: usize) -> CourseNumber {
    CourseNumber::new(u32::try_from(course + 1).unwrap()).unwrap()
}

/// The log of a row of readings going up.
fn edge(row: &[i64]) -> Edge {
    let mut edge = Edge::new(EdgeId(1), Name::or("hip", "?"), EdgeKind::Hip, Hand::Left);
    for (at, pair) in row.chunks(2).enumerate() {
        let mut course = Course::unread(number(at));
        for (figure, end) in pair.iter().zip(End::BOTH) {
            course = course.with(end, Some(Reading::new(sixteenths(*figure)).unwrap()));
        }
        edge.put(course);
    }
    edge
}

fn doubts(hip: &Hip, row: &[i64], slope: SlopeIs) -> Vec<Doubt> {
    check(&edge(row), &roof(hip, slope), &settings(hip), &[])
}

fn near(one: Length, other: Length) -> bool {
    (one - other).abs() <= sixteenths(2)
}

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

/// Not counted above: within the tolerance a wrong side of the mark is rarely
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
            "wrong side of the mark by {least}/16 in: {:.1} % seen",
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
            }
        }
    }
    println!("clean hips: {doubted} doubts in {readings} readings");
    assert!(doubted * 10_000 <= readings);
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

/// Whole edges: the share that is one doubt about the edge with the right cause
/// among the first two.
fn edge_doubts(cause: Cause, mut make: impl FnMut(&mut Chance) -> Option<(Hip, RoofLine)>) -> f64 {
    let (mut hips, mut right) = (0, 0);
    for seed in 0..2 * cases() {
        let Some((hip, roof)) = make(&mut Chance::seeded(seed)) else {
            continue;
        };
        let doubts = check(&edge(&hip.row()), &roof, &settings(&hip), &[]);
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
    println!("whole edge, {cause}: one doubt with that cause among two {share:.2} % of {hips}");
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
