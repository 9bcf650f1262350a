//! Small jobs, every way to cut them tried one by one: the fewest panels, the
//! oldest promises kept, the least waiting, in that order.

use crate::cases;
use crate::outside::{Part, parts};
use crate::random_job::{Random, RandomJob, random_job};
use bendmark::domain::measure::Length;
use bendmark::domain::stock::{LeftToCut, Plan, Promise, Released, WhyReleased};
use std::cmp::Reverse;

/// How good a way is; the greatest is the best.
type Worth = (usize, Vec<bool>, Reverse<usize>);

/// What a job's parts are to the search: the rack's first, then the pieces.
struct Every<'a> {
    parts: Vec<Part<'a>>,
    job: &'a RandomJob,
    /// By age: the offcut and the part it is promised to.
    promises: Vec<(usize, usize)>,
}

impl Every<'_> {
    fn place(&self, part: usize) -> usize {
        (part + 1).saturating_sub(self.job.rack.len())
    }

    /// The best way to pair the parts from `at` on, given the pairs so far.
    fn best(&self, at: usize, mate: &mut Vec<Option<usize>>) -> Worth {
        if at == self.parts.len() {
            return self.worth(mate);
        }
        let mut best = self.best(at + 1, mate);
        if mate[at].is_some() {
            return best;
        }
        for other in at + 1..self.parts.len() {
            let fits = self.parts[at].beside(&self.parts[other], self.job.spare);
            if mate[other].is_none() && fits {
                mate[at] = Some(other);
                mate[other] = Some(at);
                best = best.max(self.best(at + 1, mate));
                mate[at] = None;
                mate[other] = None;
            }
        }
        best
    }

    fn worth(&self, mate: &[Option<usize>]) -> Worth {
        let pairs = || {
            let both = mate.iter().enumerate();
            both.filter_map(|(at, mate)| mate.filter(|mate| *mate > at).map(|mate| (at, mate)))
        };
        let waits = |(one, other)| self.place(other) - self.place(one) - 1;
        let kept = self
            .promises
            .iter()
            .map(|(offcut, piece)| mate[*offcut] == Some(*piece));
        (
            pairs().count(),
            kept.collect(),
            Reverse(pairs().map(waits).sum()),
        )
    }
}

/// At most twelve parts of one lot and width that mostly leave each other room,
/// some of the offcuts promised, not always possibly.
fn small_job(seed: u64) -> RandomJob {
    let mut random = Random::new(seed.wrapping_add(1 << 40));
    let mut job = random_job(seed, 300);
    let panel = job.frame.panel();
    let narrow = panel.width.scaled(Length::from_nm(7), Length::from_nm(10));
    let usual = |piece: &LeftToCut| {
        let cut = piece.spec.cut();
        let usual = piece.spec.panel == panel || piece.spec.across.is_some();
        usual && cut.at_nose.max(cut.at_rise) < narrow
    };
    job.left.retain(|piece| usual(piece) || random.one_in(30));
    if job.left.is_empty() {
        job.left = random_job(seed, 3).left;
    }
    for piece in &mut job.left {
        piece.lot = None;
    }
    // Neighbours in cutting order are alike; take pieces from all over.
    while job.left.len() > 8 {
        let at = random.below(job.left.len());
        job.left.remove(at);
    }
    job.rack.clear();
    for _ in 0..random.below(5) {
        let number = 1 + u32::try_from(job.rack.len()).unwrap();
        let offcut = crate::random_job::rack_offcut(number, &job.left, &job.frame, &mut random);
        job.rack.push(offcut);
    }
    for offcut in &mut job.rack {
        if random.one_in(3) {
            continue;
        }
        let fits: Vec<_> = job
            .left
            .iter()
            .filter(|piece| {
                random.one_in(12) || Part::lacking(offcut).beside(&Part::piece(piece), job.spare)
            })
            .map(|piece| piece.id)
            .collect();
        if !fits.is_empty() {
            let piece = fits[random.below(fits.len())];
            let since = u32::try_from(random.below(3)).unwrap();
            offcut.promise = Some(Promise { piece, since });
        }
    }
    job
}

#[test]
fn prop_no_way_is_better_than_the_plan() {
    let (mut by_promise, mut kept_in_all, mut pairs_in_all) = (0, 0, 0);
    for seed in 0..cases(60) * 20 {
        let job = small_job(seed);
        let mut ages: Vec<_> = job
            .rack
            .iter()
            .enumerate()
            .filter_map(|(at, offcut)| offcut.promise.map(|p| (p.since, offcut.number, at, p)))
            .collect();
        ages.sort_by_key(|(since, number, ..)| (*since, *number));
        let place = |id| job.left.iter().position(|piece| piece.id == id).unwrap();
        let promises = ages
            .iter()
            .map(|(_, _, at, promise)| (*at, job.rack.len() + place(promise.piece)));
        let every = Every {
            parts: parts(&job.left, &job.rack),
            promises: promises.collect(),
            job: &job,
        };
        let (pairs, kept, Reverse(waiting)) = every.best(0, &mut vec![None; every.parts.len()]);
        let plan = Plan::of(&job.left, &job.rack, job.spare);
        crate::check_sound(&job, &plan);
        assert_eq!(plan.from_offcuts(), pairs, "seed {seed}");
        let planned: Vec<_> = ages
            .iter()
            .map(|(_, number, _, promise)| plan.rack.get(number) == Some(&promise.piece))
            .collect();
        assert_eq!(planned, kept, "seed {seed}");
        assert_eq!(plan.waiting(), waiting, "seed {seed}");
        check_released(&job, &plan, seed);
        let fewer = |r: &&Released| r.why == WhyReleased::FewerPanels;
        by_promise += plan.released.iter().filter(fewer).count();
        kept_in_all += kept.iter().filter(|kept| **kept).count();
        pairs_in_all += pairs;
    }
    println!("{pairs_in_all} pairs, {kept_in_all} promises kept, {by_promise} for a panel");
    assert!(by_promise > 0, "no promise ever stood against a panel");
}

/// What is not kept is named, with the newest first and the right reason.
fn check_released(job: &RandomJob, plan: &Plan, seed: u64) {
    let named = |number| plan.released.iter().find(|r| r.offcut == number);
    let mut last = None;
    for released in &plan.released {
        let offcut = job.rack.iter().find(|o| o.number == released.offcut);
        let age = (offcut.unwrap().promise.unwrap().since, released.offcut);
        assert!(last.is_none_or(|last| age < last), "seed {seed}");
        last = Some(age);
    }
    for offcut in &job.rack {
        let Some(promise) = offcut.promise else {
            continue;
        };
        let kept = plan.rack.get(&offcut.number) == Some(&promise.piece);
        assert_eq!(named(offcut.number).is_none(), kept, "seed {seed}");
        let piece = job.left.iter().find(|p| p.id == promise.piece).unwrap();
        let fits = Part::lacking(offcut).beside(&Part::piece(piece), job.spare);
        let no_fit = named(offcut.number).is_some_and(|r| r.why == WhyReleased::NoFit);
        assert_eq!(!fits, no_fit, "seed {seed}");
    }
}

/// Worked by hand.
#[test]
fn a_promise_is_released_only_for_a_panel_or_for_an_older_one() {
    use crate::published::{offcut, piece};
    use bendmark::domain::measure::Hand::Right;
    // Offcut 1 serves every piece, offcut 2 all but the largest.
    let left = [piece(1, Right, 10, 10), piece(2, Right, 30, 30)];
    let mut rack = [offcut(1, Right, 30, 30), offcut(2, Right, 20, 20)];
    let promised = |piece: &LeftToCut, since| {
        Some(Promise {
            piece: piece.id,
            since,
        })
    };
    // Kept, it would cost a panel: piece 2 fits nothing else.
    rack[0].promise = promised(&left[0], 4);
    let plan = Plan::of(&left, &rack, Length::ZERO);
    assert_eq!(plan.new_panels(), 0);
    assert_eq!(plan.released.len(), 1);
    assert_eq!(plan.released[0].why, WhyReleased::FewerPanels);
    // Where both are had anyway, the promise stands although it waits longer.
    let left = [piece(1, Right, 10, 10), piece(2, Right, 20, 20)];
    rack[0].promise = promised(&left[1], 4);
    let plan = Plan::of(&left, &rack, Length::ZERO);
    assert_eq!(plan.rack[&rack[0].number], left[1].id);
    assert!(plan.released.is_empty());
    // Promised twice: the older one stands.
    rack[1].promise = promised(&left[1], 3);
    let plan = Plan::of(&left, &rack, Length::ZERO);
    assert_eq!(plan.rack[&rack[1].number], left[1].id);
    assert_eq!(plan.released[0].offcut, rack[0].number);
    assert_eq!(plan.released[0].why, WhyReleased::PromisedBefore);
}
