//! True roof planes, some forty kinds of slip, two reading errors.
//!
//! Made apart from the checker: it shares `Length` and the job's types with it
//! and nothing of its formulas or list of slips, and asks a whole job for its
//! doubts. `BENDMARK_CASES` sets how many slips a cell gets; `cargo test
//! --release --test doubts whole_roof -- --nocapture` prints the tables of
//! docs/doubts.md, and with `BENDMARK_EACH` every cell by itself.

use crate::maker::Chance;
use crate::whole_roof_job::{Case, Clean, Logged, gaps_of_two_pieces, job, readings, rightly};
use crate::whole_roof_kinds::Slip;
use crate::whole_roof_plane::{Creep, Plane, Rows};
use crate::whole_roof_tally::{Cell, Tables, share};

/// Few, for the tests of every day.
fn cases() -> u64 {
    let cases = std::env::var("BENDMARK_CASES").ok();
    cases.and_then(|cases| cases.parse().ok()).unwrap_or(2)
}

/// How the rows creep in planes with a slip: each by itself, the hardest to judge,
/// unless `BENDMARK_CREEP` is another of the words.
fn creep() -> Creep {
    let word = std::env::var("BENDMARK_CREEP").ok();
    let named = |creep: &Creep| Some(creep.word()) == word.as_deref();
    Creep::ALL.into_iter().find(named).unwrap_or(Creep::OfRow)
}

/// Planes without a slip for each slip of a cell.
const CLEAN: u64 = 5;

fn ways() -> impl Iterator<Item = (bool, bool)> {
    [true, false]
        .into_iter()
        .flat_map(|both| [true, false].map(|slope_given| (both, slope_given)))
}

fn logged(both: bool, slope_given: bool, at: usize) -> Logged {
    let only = (!both).then_some(at);
    Logged { slope_given, only }
}

fn clean_planes(deviation: f64, rows: Rows, creep: Creep, tables: &mut Tables) {
    for seed in 0..CLEAN * cases() {
        let mut chance = Chance::seeded(seed * 4 + 1);
        let plane = Plane::made(rows, creep, &mut chance);
        let read = plane.read(deviation, &mut chance);
        let at = usize::from(chance.coin());
        let written = rightly(&plane, &read);
        for (both, slope_given) in ways() {
            let job = job(&plane, &written, logged(both, slope_given, at));
            let cell = Cell {
                both,
                slope_given,
                rows,
                creep,
            };
            let edges = if both { 2 } else { 1 };
            let planes = tables.planes_in(cell);
            planes.count(Clean::of(&job), edges, readings(&job));
        }
    }
}

fn slips(deviation: f64, rows: Rows, slip: Slip, tables: &mut Tables) {
    let (mut made, mut seed) = (0, 0);
    while made < cases() {
        seed += 1;
        assert!(seed < 1_000 + 100 * cases(), "{slip:?} hardly ever happens");
        let mut chance = Chance::seeded(seed * 64 + slip as u64);
        let plane = Plane::made(rows, creep(), &mut chance);
        let read = plane.read(deviation, &mut chance);
        let at = usize::from(chance.coin());
        let right = rightly(&plane, &read);
        let mut wrong = right.clone();
        let Some(place) = slip.happens(&plane, &mut wrong, at, &mut chance) else {
            continue;
        };
        made += 1;
        for (both, slope_given) in ways() {
            if slip.needs_slope() && !slope_given {
                continue;
            }
            let logged = logged(both, slope_given, at);
            let case = Case {
                slip,
                place,
                at,
                slipped: &job(&plane, &wrong, logged),
                right: &job(&plane, &right, logged),
            };
            let cell = Cell {
                both,
                slope_given,
                rows,
                creep: creep(),
            };
            tables
                .slips_in(cell, slip)
                .count(case.seen(), readings(case.right));
        }
    }
}

fn tables(deviation: f64) -> Tables {
    let mut tables = Tables::default();
    for rows in Rows::ALL {
        for creep in Creep::ALL {
            clean_planes(deviation, rows, creep, &mut tables);
        }
        for slip in Slip::ALL {
            slips(deviation, rows, slip, &mut tables);
        }
    }
    let each = std::env::var_os("BENDMARK_EACH").is_some();
    let head = format!("Reading error: standard deviation {deviation} in");
    println!("{}", tables.text(&head, each));
    tables
}

#[test]
fn at_a_careful_reading_hardly_a_clean_plane_is_doubted() {
    let tables = tables(1.0 / 16.0);
    // A row that creeps by itself makes the joints at its far end look like slips
    // in both readings of a course.
    let clean = tables.clean(|cell| cell.creep != Creep::OfRow);
    assert!(clean.doubts * 10_000 <= clean.readings, "{clean:?}");
}

#[test]
fn at_the_reading_of_a_roof_the_large_slips_are_found() {
    let tables = tables(1.0 / 8.0);
    for slip in [Slip::FootDropped, Slip::FootAdded, Slip::TenOff] {
        let sum = tables.sum(slip, |cell| cell.both);
        assert!(share(sum.found, sum.made) >= 97.0, "{slip:?} {sum:?}");
    }
}

/// A quarter of all gaps take two pieces: another panel would not fit, since
/// their narrow end is under it.
#[test]
fn ordinary_gaps_of_two_pieces_are_among_them() {
    let (mut two, mut all) = (0, 0);
    for seed in 0..400 {
        let plane = Plane::made(
            Rows::ALL[seed % 4],
            creep(),
            &mut Chance::seeded(seed as u64),
        );
        let (in_it, of) = gaps_of_two_pieces(&plane);
        two += in_it;
        all += of;
    }
    let share = share(two, all);
    println!("{share:.1} % of {all} gaps take two pieces");
    assert!((10.0..40.0).contains(&share));
}
