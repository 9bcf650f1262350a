//! Panels to carry of each colour lot: as an outside matching counts them, run for
//! the pieces of one lot at a time.

use crate::outside::most_pairs;
use crate::random_job::quarters;
use crate::{Random, cases};
use bendmark::domain::bench::Progress;
use bendmark::domain::cutting::{CutList, Job, PanelsToCarry};
use bendmark::domain::log::{Course, CourseNumber, Edge, End, LaterLot, Reading};
use bendmark::domain::measure::{Hand, Name};
use bendmark::domain::roof::EdgeKind;
use bendmark::domain::settings::Settings;
use bendmark::domain::stock::LeftToCut;
use std::sync::Arc;

const LOTS: [Option<&str>; 3] = [Some("Slate 7"), Some("Slate 9"), None];

/// Five edges of either hand, each of one of two lots or of none.
fn job(seed: u64) -> Job {
    let mut random = Random::new(seed);
    let mut job = Job::new(Name::or("Beech Row", "?"), Settings::default());
    for number in 1..=5 {
        let hand = if random.one_in(2) {
            Hand::Left
        } else {
            Hand::Right
        };
        let name = Name::or(&format!("hip {number}"), "?");
        let id = job.add_edge(name, EdgeKind::Hip, hand);
        let edge = job.edge_mut(id).unwrap();
        edge.lot = LOTS[random.below(3)].and_then(|lot| Name::new(lot).ok());
        if random.one_in(2) {
            let from = u32::try_from(random.within(2, 7)).unwrap();
            edge.later_lots = vec![LaterLot {
                from: CourseNumber::new(from).unwrap(),
                lot: Name::or(["A", "B"][random.below(2)], "?"),
            }];
        }
        for course in 1..=random.within(1, 9) {
            let bottom = random.within(24, 190);
            let read = |count| Reading::new(quarters(count)).ok();
            let number = CourseNumber::new(u32::try_from(course).unwrap()).unwrap();
            edge.put(
                Course::unread(number)
                    .with(End::Bottom, read(bottom))
                    .with(End::Top, read(bottom - 24)),
            );
        }
    }
    job
}

#[test]
fn prop_panels_of_each_lot_are_as_few_as_an_outside_matching_of_that_lot_finds() {
    for seed in 0..cases(60) {
        let job = job(seed);
        let list = CutList::of(&job, &Progress::default());
        let carry = PanelsToCarry::of([], &list.plan);
        let by_lot = carry.by_lot(&job);
        let is_named = |edge: &Arc<Edge>| edge.lot.is_some() || !edge.later_lots.is_empty();
        let named = job.edges().iter().any(is_named);
        assert_eq!(by_lot.is_empty(), !named);
        for panels in &by_lot {
            let of_lot = list.pieces.iter().filter(|piece| {
                let edge = job.edge(piece.id.edge).unwrap();
                let later = edge.later_lots.first();
                let later = later.filter(|later| piece.id.course >= later.from);
                later.map_or(edge.lot.clone(), |later| Some(later.lot.clone())) == panels.lot
            });
            let left: Vec<LeftToCut> = of_lot
                .map(|piece| LeftToCut {
                    id: piece.id,
                    spec: piece.spec,
                    lot: panels.lot.clone(),
                })
                .collect();
            let fewest = left.len() - most_pairs(&left, &[], job.settings.spare);
            assert_eq!(panels.left, fewest, "seed {seed}, {:?}", panels.lot);
            assert_eq!(panels.whole_job, fewest, "seed {seed}, {:?}", panels.lot);
        }
    }
}
