//! A bench that goes wrong: random events, and after each one a new plan that
//! must be the best for what is left, keep its word, and lose no metal.
//!
//! The model here is what the bench will write down; every rule it follows is
//! the trade's, none is the planner's.

use crate::outside::{graph, most_pairs, parts};
use crate::random_job::{Frame, Random, RandomJob, blank, rack_offcut, random_job};
use crate::{cases, check_sound};
use bendmark::domain::measure::{Hand, Polygon};
use bendmark::domain::piece::PieceSpec;
use bendmark::domain::stock::{
    LeftToCut, Offcut, OffcutNumber, Plan, PlannedStock, Promise, RackOffcut, Rest, WhyReleased,
};
use petgraph::algo::maximum_matching;
use std::collections::HashSet;

/// The bench as it stands.
#[derive(Clone)]
struct Bench {
    job: RandomJob,
    plan: Plan,
    next_number: u32,
    promises: u32,
    /// Areas in square millimetres.
    opened: f64,
    found: f64,
    pieces: f64,
    waste: f64,
}

fn mm2(polygon: &Polygon) -> f64 {
    polygon.area().mm2()
}

/// The piece with what it has over the ridge.
fn whole(spec: &PieceSpec) -> f64 {
    mm2(&blank(spec).outline().cut_by(&spec.cut()).0)
}

impl Bench {
    fn new(seed: u64) -> Self {
        let mut job = random_job(seed, 60);
        for offcut in &mut job.rack {
            offcut.number.0 += 100;
        }
        let found = job.rack.iter().map(|o| mm2(&o.offcut.outline())).sum();
        let mut bench = Self {
            job,
            plan: Plan::default(),
            next_number: 1000,
            promises: 0,
            opened: 0.0,
            found,
            pieces: 0.0,
            waste: 0.0,
        };
        bench.replan(seed);
        bench
    }

    /// Plans afresh, checks the plan, and promises as it says.
    fn replan(&mut self, seed: u64) {
        let job = &self.job;
        let before: Vec<_> = job.rack.iter().filter(|o| o.promise.is_some()).collect();
        let plan = Plan::of(&job.left, &job.rack, job.spare);
        check_sound(job, &plan);
        let most = most_pairs(&job.left, &job.rack, job.spare);
        assert_eq!(plan.from_offcuts(), most, "seed {seed}");
        for offcut in &before {
            let kept = plan.rack.get(&offcut.number) == offcut.promise.map(|p| p.piece).as_ref();
            let named = plan.released.iter().any(|r| r.offcut == offcut.number);
            assert!(kept != named, "seed {seed}");
        }
        let for_panels = |r: &&_| {
            let r: &bendmark::domain::stock::Released = r;
            r.why == WhyReleased::FewerPanels
        };
        if plan.released.iter().filter(for_panels).count() > 0 {
            assert!(!self.all_can_be_kept(most), "seed {seed}");
        }
        let pieces: HashSet<_> = plan.rack.values().collect();
        assert_eq!(pieces.len(), plan.rack.len(), "a piece is promised two");
        for offcut in &mut self.job.rack {
            let planned = plan.rack.get(&offcut.number).copied();
            if offcut.promise.map(|p| p.piece) != planned {
                self.promises += 1;
                let since = self.promises;
                offcut.promise = planned.map(|piece| Promise { piece, since });
            }
        }
        self.plan = plan;
        self.check_areas(seed);
    }

    /// By the outside matching: whether the most pairs can be had with every
    /// promise that is possible at all.
    fn all_can_be_kept(&self, most: usize) -> bool {
        let parts = parts(&self.job.left, &self.job.rack);
        let mut graph = graph(&parts, self.job.spare);
        let mut promised = Vec::new();
        for (at, offcut) in self.job.rack.iter().enumerate() {
            let piece = offcut
                .promise
                .and_then(|p| parts.iter().position(|q| q.id == Some(p.piece)));
            let Some(piece) = piece else { continue };
            if parts[at].beside(&parts[piece], self.job.spare) {
                promised.push((at, piece));
            }
        }
        graph.retain_edges(|graph, edge| {
            let (one, other) = graph.edge_endpoints(edge).unwrap();
            let touched = |at: usize| promised.iter().any(|(o, p)| *o == at || *p == at);
            !touched(one.index()) && !touched(other.index())
        });
        maximum_matching(&graph).edges().count() + promised.len() == most
    }

    /// Panels opened and offcuts brought = pieces + rack + waste.
    fn check_areas(&self, seed: u64) {
        let rack: f64 = self.job.rack.iter().map(|o| mm2(&o.offcut.outline())).sum();
        let all = self.opened + self.found;
        let off = (all - self.pieces - rack - self.waste).abs();
        assert!(off < 1e-3, "seed {seed}: {off} mm2 of {all}");
    }

    /// Cuts the next piece as planned: what was cut, what it was cut from, and
    /// what is left of that with the piece it is kept for.
    fn cut(&mut self) -> (LeftToCut, Option<(Offcut, Option<Promise>)>) {
        let piece = self.job.left.remove(0);
        let planned = self.plan.pieces[0];
        match planned.stock {
            PlannedStock::LeftBy(_) => panic!("nothing was cut before"),
            PlannedStock::Rack(number) => {
                let at = self
                    .job
                    .rack
                    .iter()
                    .position(|o| o.number == number)
                    .unwrap();
                let stock = self.job.rack.remove(at).offcut;
                // Of a higher one what is above is waste.
                let (all, stock) = (stock.outline(), stock.outline());
                let stock = stock.below(blank(&piece.spec).height);
                let (kept, left) = stock.cut_by(&piece.spec.cut());
                let off = (mm2(&kept) - whole(&piece.spec)).abs();
                assert!(off < 1e-3, "the offcut is too small");
                self.waste += mm2(&all) - mm2(&stock) + mm2(&left);
                (piece, None)
            }
            PlannedStock::New => {
                self.opened += mm2(&blank(&piece.spec).outline());
                let rest = Offcut::left_by(&piece.spec);
                if rest.is_none() {
                    // Above the marks something may be over that nobody cuts.
                    self.waste += mm2(&blank(&piece.spec).outline()) - whole(&piece.spec);
                }
                assert_eq!(rest.is_none(), planned.rest == Rest::Nothing);
                self.promises += 1;
                let promise = match planned.rest {
                    Rest::KeptFor { piece, .. } => Some(Promise {
                        piece,
                        since: self.promises,
                    }),
                    Rest::Waste | Rest::Nothing => None,
                };
                (piece, rest.map(|rest| (rest, promise)))
            }
        }
    }

    fn lay_down(
        &mut self,
        offcut: Offcut,
        promise: Option<Promise>,
        like: &LeftToCut,
    ) -> OffcutNumber {
        self.next_number += 1;
        let number = OffcutNumber(self.next_number);
        let lot = like.lot.clone();
        self.job.rack.push(RackOffcut {
            number,
            offcut,
            lot,
            promise,
        });
        number
    }

    fn cut_well(&mut self) {
        let (piece, rest) = self.cut();
        self.pieces += whole(&piece.spec);
        match rest {
            Some((rest, Some(promise))) => drop(self.lay_down(rest, Some(promise), &piece)),
            Some((rest, None)) => self.waste += mm2(&rest.outline()),
            None => {}
        }
    }

    /// The next piece is cut and then bent wrong: it must be cut again. What is
    /// left, and its own part up to the bend line, go to the rack if of use.
    fn spoil(&mut self) {
        let (piece, rest) = self.cut();
        self.job.left.insert(0, piece.clone());
        let own = Offcut::own_part(&piece.spec, piece.spec.bend);
        let bent = whole(&piece.spec) - mm2(&own.outline());
        self.waste += bent;
        let own = (!own.outline().is_empty()).then_some((own, None));
        let mut laid = Vec::new();
        for (offcut, promise) in own.into_iter().chain(rest) {
            laid.push(self.lay_down(offcut, promise, &piece));
        }
        let plan = Plan::of(&self.job.left, &self.job.rack, self.job.spare);
        for number in laid {
            if !plan.rack.contains_key(&number) {
                self.throw_away(number);
            }
        }
    }

    fn throw_away(&mut self, number: OffcutNumber) {
        let at = self
            .job
            .rack
            .iter()
            .position(|o| o.number == number)
            .unwrap();
        self.waste += mm2(&self.job.rack.remove(at).offcut.outline());
    }

    fn find(&mut self, random: &mut Random) {
        self.next_number += 1;
        let frame: Frame = self.job.frame;
        let mut offcut = rack_offcut(self.next_number, &self.job.left, &frame, random);
        if random.one_in(2) {
            // One as left by nothing of this job.
            offcut.offcut.whole = random.hand();
        }
        self.found += mm2(&offcut.offcut.outline());
        self.job.rack.push(offcut);
    }

    /// A reading is taken again: one piece changes its figures, or its hand.
    fn reread(&mut self, random: &mut Random) {
        let at = random.below(self.job.left.len());
        let spec = &mut self.job.left[at].spec;
        let by = crate::random_job::quarters(random.within(-20, 21));
        let wide = spec.panel.width;
        if (spec.bend.at_nose + by).max(spec.bend.at_rise + by) <= wide {
            spec.bend = spec.bend.moved(by);
        }
        if spec.cut().at_nose.max(spec.cut().x(spec.panel.height)).nm() <= 0 {
            spec.bend = spec.bend.moved(-by);
        }
        if random.one_in(6) {
            spec.hand = match spec.hand {
                Hand::Left => Hand::Right,
                Hand::Right => Hand::Left,
            };
        }
    }

    /// The edges are cut in another order.
    fn reorder(&mut self, random: &mut Random) {
        let by = random.below(self.job.left.len());
        self.job.left.rotate_left(by);
    }
}

#[test]
fn prop_after_every_event_the_plan_is_the_best_and_keeps_its_word() {
    for seed in 0..cases(40) {
        let mut random = Random::new(seed.wrapping_add(1 << 41));
        let mut past: Vec<Bench> = Vec::new();
        let mut bench = Bench::new(seed);
        for _ in 0..50 {
            if bench.job.left.is_empty() {
                break;
            }
            let before = bench.clone();
            match random.below(16) {
                0..6 => bench.cut_well(),
                6..8 => bench.spoil(),
                8..10 => {
                    if let Some(offcut) = bench.job.rack.first() {
                        bench.throw_away(offcut.number);
                    }
                }
                10 => bench.find(&mut random),
                11..13 => bench.reread(&mut random),
                13 => bench.reorder(&mut random),
                _ => {
                    if let Some(earlier) = past.pop() {
                        let was = earlier.plan.clone();
                        bench = earlier;
                        bench.replan(seed);
                        assert_eq!(bench.plan.new_panels(), was.new_panels());
                    }
                    continue;
                }
            }
            past.push(before);
            bench.replan(seed);
        }
    }
}

/// As long as all goes well, nothing that was planned changes.
#[test]
fn prop_cutting_on_as_planned_opens_what_was_planned_and_breaks_no_promise() {
    for seed in 0..cases(40) {
        let mut bench = Bench::new(seed);
        let planned = bench.plan.new_panels();
        let waiting = bench.plan.waiting();
        let mut opened = 0;
        while !bench.job.left.is_empty() {
            opened += usize::from(bench.plan.pieces[0].stock == PlannedStock::New);
            bench.cut_well();
            bench.replan(seed);
            assert!(bench.plan.released.is_empty(), "seed {seed}");
            assert!(bench.plan.waiting() <= waiting, "seed {seed}");
        }
        assert_eq!(opened, planned, "seed {seed}");
    }
}
