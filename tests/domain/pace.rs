//! Simulated days at the bench: what is said to be left against what is left.
//!
//! Steps are log-normal (sigma 0.5; medians 90, 30, 25 and 20 s), calls of 1 to 20
//! min come now and then, and there is a noon. The truth is the time of work that
//! is still to come, without calls.

use bendmark::domain::bench::{BenchEvent, CutRest, Fact, MarkedStock, Pace, Utc};
use bendmark::domain::log::{CourseNumber, EdgeId};
use bendmark::domain::measure::{Hand, Length, SkewLine};
use bendmark::domain::piece::{Panel, PieceId, PieceSpec};
use bendmark::domain::roof::EdgeKind;
use bendmark::domain::settings::{BenchOrder, Minutes};

use crate::split_mix::SplitMix;

const PIECES: u32 = 80;
const MEDIANS: [f64; 4] = [90.0, 30.0, 25.0, 20.0];

struct Random(SplitMix);

impl Random {
    /// In 0 to 1.
    fn even(&mut self) -> f64 {
        f64::from(u32::try_from(self.0.next() >> 32).unwrap()) / 4_294_967_296.0
    }

    /// Of mean 0 and deviation 1 (Box and Muller 1958).
    fn normal(&mut self) -> f64 {
        let (radius, turn) = (self.even().max(1e-12), self.even());
        (-2.0 * radius.ln()).sqrt() * (std::f64::consts::TAU * turn).cos()
    }
}

fn fact(step: usize, number: u32) -> Fact {
    let piece = PieceId {
        edge: EdgeId(1),
        course: CourseNumber::new(number).unwrap(),
        number: 1,
    };
    match step {
        0 => Fact::Marked {
            piece,
            spec: Box::new(PieceSpec {
                kind: EdgeKind::Hip,
                hand: Hand::Left,
                bend: SkewLine {
                    at_nose: Length::from_inches(20),
                    at_rise: Length::from_inches(10),
                    rise: Length::from_inches(14),
                },
                allowance: Length::from_inches(2),
                panel: Panel {
                    width: Length::from_inches(48),
                    height: Length::from_inches(14),
                },
                across: None,
                near: None,
            }),
            stock: MarkedStock::New { panel: number },
            lot: None,
            written: None,
        },
        1 => Fact::Cut {
            piece,
            rest: CutRest::Waste,
        },
        2 => Fact::Bent(piece),
        _ => Fact::Stacked(piece),
    }
}

/// A day: the work of each step and the call before it, in seconds.
fn day(seed: u64) -> Vec<(f64, f64)> {
    let mut random = Random(SplitMix::at(seed));
    let steps = PIECES as usize * 4;
    let noon = steps / 2 + usize::try_from(seed % 40).unwrap();
    (0..steps)
        .map(|step| {
            let work = MEDIANS[step % 4] * (0.5 * random.normal()).exp();
            let called = random.even() < 1.0 / 60.0;
            let length = 60.0 + 1_140.0 * random.even();
            let call = match step == noon {
                true => 1_800.0 + 1_800.0 * random.even(),
                false if called => length,
                false => 0.0,
            };
            (work, call)
        })
        .collect()
}

/// The steps of a day with their times; `without` one of the calls.
fn events(day: &[(f64, f64)], without: Option<usize>) -> Vec<BenchEvent> {
    let mut now = 0.0;
    let mut events = Vec::new();
    for (at, (work, call)) in day.iter().enumerate() {
        now += work + if without == Some(at) { 0.0 } else { *call };
        #[expect(clippy::cast_possible_truncation, reason = "a day")]
        let time = now.round() as i64;
        events.push(BenchEvent {
            at: Some(Utc(1_790_000_000 + time)),
            joined: false,
            fact: fact(at % 4, u32::try_from(at / 4).unwrap() + 1),
        });
    }
    events
}

/// What is said after each step, in seconds; `without` one of the calls.
fn said(day: &[(f64, f64)], without: Option<usize>) -> Vec<Option<f64>> {
    let all = events(day, without);
    let mut said = Vec::new();
    for at in 0..day.len() {
        // The piece in hand, and those that are not begun.
        let in_hand = (at + 1) % 4;
        let begun = at / 4 + usize::from(in_hand == 0);
        let mut left = [PIECES as usize - begun, 0, 0, 0, begun];
        if in_hand != 0 {
            left[0] -= 1;
            left[in_hand] = 1;
        }
        let pace = Pace::of(&all[..=at], Minutes(20));
        let time = pace.time_for(left, BenchOrder::CutFirst);
        said.push(time.map(|time| time.most.get() as f64));
    }
    said
}

/// From ten stacked pieces on.
const FROM: usize = 40;

#[test]
fn once_ten_pieces_are_stacked_the_time_left_is_near_the_truth() {
    let (mut near, mut all) = (0_u32, 0_u32);
    for seed in 0..60 {
        let day = day(seed);
        for (at, said) in said(&day, None).into_iter().enumerate().skip(FROM) {
            let truth: f64 = day[at + 1..].iter().map(|(work, _)| work).sum();
            if truth < 60.0 {
                continue;
            }
            all += 1;
            let off = (said.unwrap() - truth).abs() / truth;
            near += u32::from(off <= 0.25);
        }
    }
    let share = f64::from(near) / f64::from(all);
    println!(
        "within 25 % of the truth in {:.1} % of {all} moments",
        share * 100.0
    );
    assert!(share >= 0.90, "{share}");
}

#[test]
fn a_single_call_moves_what_is_said_by_at_most_a_tenth() {
    let mut most = 0.0_f64;
    for seed in 0..20 {
        let day = day(seed);
        let with = said(&day, None);
        let calls = day.iter().enumerate().filter(|(_, (_, call))| *call > 0.0);
        for (call, _) in calls.filter(|(at, _)| *at >= FROM) {
            let without = said(&day, Some(call));
            let pairs = with.iter().zip(&without).skip(call.max(FROM));
            for (with, without) in pairs {
                let (with, without) = (with.unwrap(), without.unwrap());
                if without >= 60.0 {
                    most = most.max((with - without).abs() / without);
                }
            }
        }
    }
    println!("at most {:.1} %", most * 100.0);
    assert!(most <= 0.10, "{most}");
}

/// Gone on with from key to key it is what it is made anew.
#[test]
fn the_pace_of_what_was_done_before_goes_on() {
    for seed in 0..20 {
        let events = events(&day(seed), None);
        let mut pace = Pace::of(&[], Minutes(20));
        for at in 0..events.len() {
            pace.go_on(&events[at..=at]);
            assert_eq!(
                pace,
                Pace::of(&events[..=at], Minutes(20)),
                "seed {seed}, {at}"
            );
        }
    }
}
