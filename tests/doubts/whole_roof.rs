//! True roof planes, some forty kinds of slip, two reading errors.
//!
//! Made apart from the checker: it shares `Length` and the job's types with it
//! and nothing of its formulas or list of slips, and asks a whole job for its
//! doubts. `BENDMARK_CASES` sets how many slips a cell gets; `cargo test
//! --release --test doubts whole_roof -- --nocapture` prints the tables of
//! docs/doubts.md, and with `BENDMARK_EACH` every cell by itself.
//!
//! *Found*: a doubt, at either end of the plane, touches the course; of what is
//! wrong with a whole edge, it is about an edge. *Reading first*: the first
//! suspicion is about the reading that is wrong. *Figure first*: taking it gives
//! every finished width of the edge within 1/8 in of what should have been written.
//! *Elsewhere*: doubts about anything else.

use crate::maker::Chance;
use crate::whole_roof_job::{Case, Clean, Ends, Read, gaps_of_two_pieces, job, readings, rightly};
use crate::whole_roof_kinds::Slip;
use crate::whole_roof_plane::{Laid, Plane, Rows};
use crate::whole_roof_slips::Written;
use crate::whole_roof_tally::{Cell, Tables, share};

/// Few, for the tests of every day.
pub(crate) fn cases() -> u64 {
    let cases = std::env::var("BENDMARK_CASES").ok();
    cases.and_then(|cases| cases.parse().ok()).unwrap_or(2)
}

/// How the rows lie in planes with a slip: each creeps by itself, the hardest to
/// judge, unless `BENDMARK_LAID` is another of the words.
pub(crate) fn laid() -> Laid {
    let word = std::env::var("BENDMARK_LAID").ok();
    let named = |laid: &Laid| Some(laid.word()) == word.as_deref();
    Laid::ALL.into_iter().find(named).unwrap_or(Laid::RowByRow)
}

/// Houses without a slip for each slip of a cell.
const CLEAN: u64 = 5;

pub(crate) const PLANES: usize = 4;

/// What is logged, and whether the slopes are given.
pub(crate) fn ways() -> impl Iterator<Item = (Ends, bool)> {
    let ends = Ends::ALL.into_iter();
    ends.flat_map(|ends| [true, false].map(|slope_given| (ends, slope_given)))
}

pub(crate) fn house<'a>(planes: &'a [Plane], written: &'a [[Written; 2]]) -> Vec<Read<'a>> {
    planes.iter().zip(written).collect()
}

fn without_slip(deviation: f64, rows: Rows, laid: Laid, tables: &mut Tables) {
    for seed in 0..CLEAN * cases() {
        let mut chance = Chance::seeded(seed * 4 + 1);
        let planes: [Plane; PLANES] = Plane::house(rows, laid, &mut chance);
        let written = planes.each_ref().map(|plane| {
            let read = plane.read(deviation, &mut chance);
            rightly(plane, &read)
        });
        let at = usize::from(chance.coin());
        for (ends, slope_given) in ways() {
            let job = job(&house(&planes, &written), ends, at, slope_given);
            let cell = Cell {
                ends,
                slope_given,
                rows,
                laid,
            };
            tables.planes_in(cell).count(Clean::of(&job));
        }
    }
}

fn slips(deviation: f64, rows: Rows, slip: Slip, tables: &mut Tables) {
    let (mut made, mut seed, laid) = (0, 0, laid());
    while made < cases() {
        seed += 1;
        assert!(seed < 1_000 + 100 * cases(), "{slip:?} hardly ever happens");
        let mut chance = Chance::seeded(seed * 64 + slip as u64);
        let planes: [Plane; PLANES] = Plane::house(rows, laid, &mut chance);
        let right = planes.each_ref().map(|plane| {
            let read = plane.read(deviation, &mut chance);
            rightly(plane, &read)
        });
        let at = usize::from(chance.coin());
        let mut wrong = right.clone();
        let Some(place) = slip.happens(&planes[0], &mut wrong[0], at, &mut chance) else {
            continue;
        };
        made += 1;
        for (ends, slope_given) in ways() {
            // A whole house takes as long as four planes: in turn with slopes and
            // without.
            let in_turn = ends == Ends::House && slope_given != (made % 2 == 0);
            if in_turn || slip.needs_slope() && !slope_given {
                continue;
            }
            let job = |written| job(&house(&planes, written), ends, at, slope_given);
            let case = Case {
                slip,
                place,
                at,
                slipped: &job(&wrong),
                right: &job(&right),
            };
            let cell = Cell {
                ends,
                slope_given,
                rows,
                laid,
            };
            let slips = tables.slips_in(cell, slip);
            slips.count(case.seen(), readings(case.right));
        }
    }
}

fn tables(deviation: f64) -> Tables {
    let mut tables = Tables::default();
    for rows in Rows::ALL {
        for laid in Laid::ALL {
            without_slip(deviation, rows, laid, &mut tables);
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
    let clean = tables.clean(|cell| matches!(cell.laid, Laid::True | Laid::Alike));
    assert!(clean.doubts * 10_000 <= clean.readings, "{clean:?}");
    let both = |cell: Cell| cell.ends != Ends::One;
    for (slip, bar) in [
        (Slip::BothFootShort, 97.0),
        (Slip::BothTwoShort, 96.0),
        (Slip::Exchanged, 93.0),
        (Slip::Skipped, 50.0),
        (Slip::PanelEdgeFrom, 80.0),
    ] {
        let sum = tables.sum(slip, both);
        // Few cases a day: a bar of 97 % is not missed by one of twenty.
        let slack = if cases() < 200 { 12.0 } else { 0.0 };
        assert!(
            share(sum.found, sum.made) >= bar - slack,
            "{slip:?} {sum:?}"
        );
    }
}

#[test]
fn at_the_reading_of_a_roof_the_large_slips_are_found() {
    let tables = tables(1.0 / 8.0);
    for slip in [Slip::FootDropped, Slip::FootAdded, Slip::TenOff] {
        let sum = tables.sum(slip, |cell| cell.ends != Ends::One);
        assert!(share(sum.found, sum.made) >= 97.0, "{slip:?} {sum:?}");
    }
    // The scatter of a whole house's tape; one edge alone knows it less well.
    let house = |cell: Cell| cell.ends == Ends::House && cell.laid != Laid::Broken;
    let clean = tables.clean(house);
    assert!(clean.doubts * 10_000 <= 25 * clean.readings, "{clean:?}");
}

/// A quarter of all gaps take two pieces: another panel would not fit, since
/// their narrow end is under it.
#[test]
fn ordinary_gaps_of_two_pieces_are_among_them() {
    let (mut two, mut all) = (0, 0);
    for seed in 0..400 {
        let chance = &mut Chance::seeded(seed as u64);
        let [plane] = Plane::house(Rows::ALL[seed % 4], laid(), chance);
        let (in_it, of) = gaps_of_two_pieces(&plane);
        two += in_it;
        all += of;
    }
    let share = share(two, all);
    println!("{share:.1} % of {all} gaps take two pieces");
    assert!((10.0..40.0).contains(&share));
}
