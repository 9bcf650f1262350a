//! Fewest panels: the plan against an outside matching on polygons, published
//! examples, every way tried one by one, and a bench that goes wrong.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a failing test may panic, and a long run prints its figures"
)]

#[path = "../support/split_mix.rs"]
mod split_mix;
mod bench;
mod every_way;
mod outside;
mod published;
mod random_job;
mod samples;
mod short_courses;
mod lots;

use bendmark::domain::{
    bench::Progress,
    cutting::{CutList, Job, PanelsToCarry},
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::{Hand, Length, Name, SkewLine},
    piece::{NearEnd, PieceSpec},
    roof::EdgeKind,
    settings::Settings,
    stock::{LeftToCut, Plan, PlannedPiece, PlannedStock, Rest, choose_hands, share_a_panel},
};
use outside::{first_fit, most_pairs, most_pairs_either_way};
use random_job::{Random, RandomJob, blank, quarters, random_job, random_roof};
use std::collections::HashSet;

/// How many random cases, unless `BENDMARK_CASES` says otherwise.
pub(crate) fn cases(default: u64) -> u64 {
    let asked = std::env::var("BENDMARK_CASES").ok();
    asked.and_then(|text| text.parse().ok()).unwrap_or(default)
}

/// Every offcut is used once, and only for what fits and is cut later.
pub(crate) fn check_sound(job: &RandomJob, plan: &Plan) {
    let place = |id| job.left.iter().position(|piece| piece.id == id).unwrap();
    let mut used = HashSet::new();
    for (at, planned) in plan.pieces.iter().enumerate() {
        let piece = &job.left[at];
        assert_eq!(planned.id, piece.id);
        let part = outside::Part::piece(piece);
        match planned.stock {
            PlannedStock::New => {}
            PlannedStock::Rack(number) => {
                let offcut = job.rack.iter().find(|o| o.number == number).unwrap();
                assert!(outside::Part::lacking(offcut).beside(&part, job.spare));
                assert!(used.insert(Err(number)));
                assert_eq!(plan.rack.get(&number), Some(&planned.id));
            }
            PlannedStock::LeftBy(other) => {
                let before = place(other);
                assert!(before < at, "an offcut is used before it is cut");
                let before = outside::Part::piece(&job.left[before]);
                assert!(before.beside(&part, job.spare), "{planned:?} beside it");
                assert!(used.insert(Ok(other)));
                assert_eq!(plan.pieces[place(other)].rest, Rest::kept_for(planned.id));
            }
        }
        if let Rest::KeptFor { piece: other, .. } = planned.rest {
            assert_eq!(planned.stock, PlannedStock::New);
            assert_eq!(
                plan.pieces[place(other)].stock,
                PlannedStock::LeftBy(planned.id)
            );
        }
    }
    assert_eq!(plan.pieces.len(), job.left.len());
}

#[test]
fn prop_the_plan_opens_as_few_panels_as_an_outside_matching_on_polygons() {
    let cases = cases(60);
    let (mut more, mut pieces, mut planned, mut first, mut on_rack) = (0, 0, 0, 0, 0);
    let (mut across, mut from_higher) = (0, 0);
    for seed in 0..cases {
        let job = random_job(seed, 300);
        let plan = Plan::of(&job.left, &job.rack, job.spare);
        check_sound(&job, &plan);
        let outside = job.left.len() - most_pairs(&job.left, &job.rack, job.spare);
        assert_eq!(plan.new_panels(), outside, "seed {seed}");
        let first_fit = first_fit(&job.left, &job.rack, job.spare);
        assert!(first_fit >= outside, "seed {seed}");
        more += u64::from(first_fit > outside);
        pieces += job.left.len();
        planned += plan.new_panels();
        first += first_fit;
        on_rack += plan.most_on_rack();
        across += job.left.iter().filter(|p| p.spec.across.is_some()).count();
        from_higher += cut_from_higher(&job, &plan);
    }
    println!(
        "{cases} jobs, {pieces} pieces: {planned} panels planned, {first} by first fit; \
         first fit opens more in {more}; {on_rack} on the rack at most, summed; \
         {across} pieces cut across, {from_higher} of them from a higher offcut"
    );
    assert!(from_higher > 0);
    assert!(
        more * 2 >= cases,
        "first fit opens more in {more} of {cases}"
    );
}

/// How many pieces come from an offcut that is higher than they are cut across.
fn cut_from_higher(job: &RandomJob, plan: &Plan) -> usize {
    let from = |stock| match stock {
        PlannedStock::New => None,
        PlannedStock::Rack(number) => {
            let offcut = job.rack.iter().find(|o| o.number == number).unwrap();
            Some(offcut.offcut.panel.height)
        }
        PlannedStock::LeftBy(other) => {
            let before = job.left.iter().find(|p| p.id == other).unwrap();
            Some(blank(&before.spec).height)
        }
    };
    let pieces = job.left.iter().zip(&plan.pieces);
    let is_higher = |(piece, planned): &(&LeftToCut, &PlannedPiece)| {
        from(planned.stock).is_some_and(|height| height > blank(&piece.spec).height)
    };
    pieces.filter(is_higher).count()
}

/// Pieces cut at both ends may be taken from either side.
#[test]
fn prop_the_plan_with_pieces_cut_at_both_ends_opens_as_few_panels_as_an_outside_matching() {
    let cases = cases(60);
    let (mut turned_at_all, mut both, mut saved) = (0, 0, 0);
    for seed in 0..cases {
        let mut random = Random::new(seed ^ 0xB07);
        let most = 12 + random.below(40);
        let mut job = random_job(seed, most);
        let count = random.below(7).min(job.left.len());
        let mut other = Vec::new();
        for _ in 0..count {
            let at = random.below(job.left.len());
            let piece = &mut job.left[at];
            if other.iter().any(|known: &LeftToCut| known.id == piece.id) {
                continue;
            }
            let (usual, turned) = both_ways(piece.spec, &mut random);
            piece.spec = usual;
            other.push(LeftToCut {
                spec: turned,
                ..piece.clone()
            });
        }
        let outside = most_pairs_either_way(&job.left, &other, &job.rack, job.spare);
        let without = most_pairs(&job.left, &job.rack, job.spare);
        let turned = other.iter().map(|piece| (piece.id, piece.spec)).collect();
        let before = job.left.clone();
        assert!(choose_hands(&mut job.left, &turned, &job.rack, job.spare));
        let plan = Plan::of(&job.left, &job.rack, job.spare);
        assert_eq!(plan.new_panels(), job.left.len() - outside, "seed {seed}");
        check_sound(&job, &plan);
        both += other.len();
        saved += outside - without;
        turned_at_all += before.iter().zip(&job.left).filter(|(a, b)| a != b).count();
        // Nothing is turned that need not be.
        assert!(outside > without || before == job.left, "seed {seed}");
    }
    println!(
        "{cases} jobs, {both} pieces cut at both ends, {turned_at_all} turned, {saved} panels saved"
    );
    assert!(saved > 0);
}

/// A piece with a near end on the grid, from either side.
fn both_ways(spec: PieceSpec, random: &mut Random) -> (PieceSpec, PieceSpec) {
    let frame = |far: i64, run: i64| SkewLine {
        at_nose: quarters(far),
        at_rise: quarters(far - run),
        rise: spec.bend.rise,
    };
    let wide = random.within(30, 120);
    let (run, near_run) = (random.within(-40, 60), random.within(-40, 60));
    let near = |far: EdgeId| {
        Some(NearEnd {
            edges: [EdgeId(99), far],
            kind: EdgeKind::Hip,
            bend: frame(8, -near_run),
            allowance: quarters(8),
        })
    };
    let usual = PieceSpec {
        bend: frame(8 + wide, run),
        near: near(EdgeId(1)),
        ..spec
    };
    let turned = PieceSpec {
        hand: spec.hand.other(),
        bend: frame(12 + wide, near_run),
        near: near(EdgeId(1)),
        ..spec
    };
    (usual, turned)
}

/// With more of them than can be tried in every way that is said, and no panel
/// more is opened than without turning any.
#[test]
fn beyond_six_pieces_cut_at_both_ends_they_are_turned_one_at_a_time_and_it_is_said() {
    let mut random = Random::new(5);
    let mut job = random_job(5, 40);
    for piece in &mut job.left {
        piece.lot = None;
        piece.spec.panel = job.frame.panel();
    }
    job.rack.clear();
    let mut turned = foldhash::HashMap::default();
    for piece in job.left.iter_mut().take(9) {
        let (usual, other) = both_ways(piece.spec, &mut random);
        piece.spec = usual;
        turned.insert(piece.id, other);
    }
    let before = Plan::of(&job.left, &job.rack, job.spare).new_panels();
    assert!(!choose_hands(&mut job.left, &turned, &job.rack, job.spare));
    let plan = Plan::of(&job.left, &job.rack, job.spare);
    assert!(plan.new_panels() <= before);
    check_sound(&job, &plan);
}

/// The pair test alone: every two parts of a job, on polygons and by its own
/// arithmetic; and often enough the clipped ends would have misled.
#[test]
fn prop_every_two_parts_are_judged_as_their_polygons_are() {
    let (mut pairs, mut misled) = (0_u64, 0_u64);
    for seed in 0..cases(60) {
        let job = random_job(seed, 120);
        for (at, one) in job.left.iter().enumerate() {
            for other in &job.left[at + 1..] {
                if one.lot != other.lot || one.spec.hand == other.spec.hand {
                    continue;
                }
                let fits = share_a_panel(&one.spec, &other.spec, job.spare);
                let (part, partner) = (outside::Part::piece(one), outside::Part::piece(other));
                assert_eq!(fits, part.beside(&partner, job.spare), "seed {seed}");
                pairs += 1;
                misled += u64::from(fits != clipped_ends_fit(&one.spec, &other.spec, job.spare));
            }
        }
    }
    println!("{pairs} pairs, clipped ends would have misled in {misled}");
    assert!(misled > 0);
}

fn clipped_ends_fit(one: &PieceSpec, other: &PieceSpec, spare: Length) -> bool {
    let panel = blank(other);
    let width = |spec: &PieceSpec, y| spec.cut().x(y).clamp(Length::ZERO, panel.width);
    blank(one) == panel
        && [Length::ZERO, panel.height].into_iter().all(|y| {
            let (one, other) = (width(one, y), width(other, y));
            one == Length::ZERO || other == Length::ZERO || one + other + spare <= panel.width
        })
}

/// As many pieces as no roof has.
#[test]
fn a_large_job_is_planned_soundly() {
    let job = random_roof(Random::new(7), 260, 3_000);
    assert!(job.left.len() > 2_500);
    check_sound(&job, &Plan::of(&job.left, &job.rack, job.spare));
}

/// Beyond those planned each piece counts as a new panel, at its edge too.
#[test]
fn no_piece_of_a_job_beyond_all_measure_is_left_out_of_the_panels() {
    let mut job = Job::new(Name::or("Large", "?"), Settings::default());
    let edge = job.add_edge(Name::or("Hip", "?"), EdgeKind::Hip, Hand::Left);
    let read = |inches| Reading::new(Length::from_inches(inches)).ok();
    let courses = (1..=2_100).map(|number| {
        Course::unread(CourseNumber::new(number).unwrap())
            .with(End::Bottom, read(40))
            .with(End::Top, read(30))
    });
    job.edge_mut(edge).unwrap().put_all(courses);
    let list = CutList::of(&job, &Progress::default());
    let carry = PanelsToCarry::of([], &list.plan);
    assert_eq!((carry.left, carry.whole_job), (2_100, 2_100));
    assert_eq!(carry.by_edge.get(&edge), Some(&2_100));
    let rests = |rest| {
        list.pieces
            .iter()
            .filter(|piece| piece.rest == rest)
            .count()
    };
    assert_eq!(rests(Rest::Waste), 2_100);
}
