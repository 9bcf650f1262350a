//! One course left out of one hip's log: the rows from hip to hip no longer agree, and
//! only the joints tell at which of the two hips.
//!
//! A side of a hipped roof of 36 x 24 ft at 7 in 12, made apart from the checker
//! (`whole_roof_plane`), each course left out at each hip in turn.

use crate::maker::Chance;
use crate::whole_roof::cases;
use crate::whole_roof_job::{Ends, job, number, rightly};
use crate::whole_roof_plane::{Plane, Rows};
use bendmark::domain::{
    cutting::{EdgeDoubt, Job, doubt_words, doubts_of},
    doubt::{Basis, Fix, OrAt, Suspect},
    log::EdgeId,
};

const RISE: i64 = 7;
/// In feet along the eave: the long sides and the ends.
const EAVES: [i64; 2] = [36, 24];
/// As tape and eye are exact, and as they are.
const DEVIATIONS: [f64; 2] = [0.0, 1.0 / 16.0];

/// A hip with one course left out of its log.
struct Forgotten {
    job: Job,
    /// The hip it is left out of.
    at: EdgeId,
    /// The course that is missing, from 0 at the eave.
    course: usize,
    /// The highest one.
    last: usize,
    is_exact: bool,
    said: String,
}

impl Forgotten {
    fn doubts(&self) -> (Vec<EdgeDoubt>, Vec<EdgeDoubt>) {
        let doubts = doubts_of(&self.job).into_iter();
        doubts.partition(|found| found.edge == self.at)
    }

    fn words(&self) -> String {
        let doubts = doubts_of(&self.job);
        let words = doubts.iter().map(|found| {
            let name = &self.job.edge(found.edge).unwrap().name;
            let words = doubt_words(&found.doubt, self.job.settings.division);
            format!("\n{name}: {words}")
        });
        format!("{}{}", self.said, words.collect::<String>())
    }
}

/// Each course but the lowest and the highest left out, at either hip.
fn each(rows: Rows, seeds: u64, mut hold: impl FnMut(&Forgotten)) {
    for seed in 0..seeds {
        for (eave, deviation) in EAVES
            .into_iter()
            .flat_map(|eave| DEVIATIONS.map(|d| (eave, d)))
        {
            let mut chance = Chance::seeded(seed * 8 + 5);
            let plane = Plane::between_hips(RISE, eave, rows, &mut chance);
            let right = rightly(&plane, &plane.read(deviation, &mut chance));
            let last = plane.full.len() - 1;
            for (at, course) in [0, 1]
                .into_iter()
                .flat_map(|at| (1..last).map(move |of| (at, of)))
            {
                let mut wrong = right.clone();
                wrong[at].courses.remove(course);
                for slope_given in [true, false] {
                    let (word, of) = (rows.word(), course + 1);
                    hold(&Forgotten {
                        job: job(&[(&plane, &wrong)], Ends::Both, 0, slope_given),
                        at: EdgeId([1, 2][at]),
                        course,
                        last,
                        is_exact: deviation < f64::EPSILON,
                        said: format!(
                            "{eave} ft, {word}, seed {seed}, {deviation} in, slope {slope_given}, course {of} left out at {at}"
                        ),
                    });
                }
            }
        }
    }
}

/// How often each thing was said of a course left out.
#[derive(Default, Debug)]
struct Told {
    all: u64,
    at_its_place: u64,
    /// The other hip is doubted for it, and it is not said that it may be this one.
    other_accused: u64,
    /// Both are named, each with the other.
    both_named: u64,
    /// ... and the innocent one as the likelier.
    other_likelier: u64,
}

fn told(rows: Rows, seeds: u64) -> Told {
    let mut told = Told::default();
    each(rows, seeds, |forgotten| {
        let (here, there) = forgotten.doubts();
        let below = number(forgotten.course - 1);
        let is_it = |suspect: Suspect| suspect.fix == Fix::CourseBetween { below };
        let names = |found: &EdgeDoubt| found.doubt.or_at.clone();
        // A reading that is off its own hip's line is doubted for itself.
        let for_it = |found: &&EdgeDoubt| found.doubt.basis != Basis::Own;
        let is_likelier = |or_at: OrAt| or_at.likelier;
        let both = there.iter().any(|found| names(found).is_some());
        told.all += 1;
        told.at_its_place += u64::from(here.iter().any(|it| it.doubt.suspects().any(is_it)));
        let accused = there
            .iter()
            .filter(for_it)
            .any(|found| names(found).is_none());
        told.other_accused += u64::from(accused);
        told.both_named += u64::from(both);
        told.other_likelier += u64::from(here.iter().filter_map(names).any(is_likelier));
        assert_eq!(
            both,
            here.iter().any(|found| names(found).is_some()),
            "{}",
            forgotten.words()
        );
    });
    println!("{}: {told:?}", rows.word());
    told
}

/// Before the joints were asked at both hips, 6 of 18 courses left out of the long side
/// in a regular bond accused the other hip, too.
#[test]
fn a_course_forgotten_at_one_hip_of_a_regular_bond_accuses_that_hip_alone() {
    for rows in [Rows::Straight, Rows::Running, Rows::Alternating] {
        let told = told(rows, 4 * cases());
        assert!(1_000 * told.other_accused <= 3 * told.all, "{told:?}");
        assert!(100 * told.at_its_place >= 97 * told.all, "{told:?}");
        assert!(100 * told.both_named <= told.all, "{told:?}");
    }
}

/// Near the ridge one row is all that is odd: a course is forgotten at this hip, or the
/// one read at the other is off.
#[test]
fn where_only_the_rows_tell_of_a_forgotten_course_both_hips_are_named_or_one() {
    let told = told(Rows::Random, 4 * cases());
    assert!(1_000 * told.other_accused <= 3 * told.all, "{told:?}");
    assert!(100 * told.at_its_place >= 96 * told.all, "{told:?}");
    assert!(100 * told.both_named <= 4 * told.all, "{told:?}");
    assert!(100 * told.other_likelier <= told.all, "{told:?}");
}

/// The roof of the first day, read exactly: which hip carries which doubt.
#[test]
fn every_course_left_out_of_the_first_days_roof_is_told_at_its_place() {
    for rows in [Rows::Straight, Rows::Running, Rows::Alternating] {
        each(rows, 1, |forgotten| {
            let (here, there) = forgotten.doubts();
            if !forgotten.is_exact {
                return;
            }
            assert!(there.is_empty(), "{}", forgotten.words());
            let [found] = &here[..] else {
                panic!("{}", forgotten.words());
            };
            let below = number(forgotten.course - 1);
            // One course alone below it or above it may itself be a foot off, which is
            // near the step.
            let is_it = found.doubt.fix == Fix::CourseBetween { below };
            let alone = forgotten.course == 1 || forgotten.course + 1 == forgotten.last;
            assert!(is_it || alone, "{}", forgotten.words());
        });
    }
}

/// One at each hip, not in the same row: neither explains what is seen at the other.
#[test]
fn a_course_forgotten_at_each_hip_is_told_at_each() {
    for rows in [Rows::Straight, Rows::Running, Rows::Alternating] {
        let mut chance = Chance::seeded(5);
        let plane = Plane::between_hips(RISE, 36, rows, &mut chance);
        let mut wrong = rightly(&plane, &plane.read(0.0, &mut chance));
        let left_out = [2, 6];
        for (hip, course) in wrong.iter_mut().zip(left_out) {
            hip.courses.remove(course);
        }
        let job = job(&[(&plane, &wrong)], Ends::Both, 0, true);
        let fixes: Vec<(EdgeId, Fix)> = doubts_of(&job)
            .iter()
            .map(|found| (found.edge, found.doubt.fix))
            .collect();
        let below = left_out.map(|course| number(course - 1));
        let expected = [1, 2].map(EdgeId).into_iter().zip(below);
        let expected = expected.map(|(edge, below)| (edge, Fix::CourseBetween { below }));
        assert_eq!(fixes, expected.collect::<Vec<_>>(), "{}", rows.word());
    }
}
