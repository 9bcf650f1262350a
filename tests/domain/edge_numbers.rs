//! Each kind of edge is counted by itself, and what an edge is called stays.

use crate::split_mix::SplitMix;
use bendmark::domain::bench::Progress;
use bendmark::domain::cutting::{EdgeNumbers, Job, Labels, NamedChange, Spot};
use bendmark::domain::log::EdgeId;
use bendmark::domain::measure::{Hand, Name};
use bendmark::domain::roof::EdgeKind;
use bendmark::domain::settings::Settings;
use std::collections::HashMap;

fn job() -> Job {
    Job::new(Name::or("Beech Row", "?"), Settings::default())
}

fn change<T>(job: &mut Job, change: impl FnOnce(&mut Job) -> T) -> T {
    let before = job.clone();
    let said = change(job);
    let words = "a change".to_owned();
    job.keep_change(
        &before,
        NamedChange {
            words,
            spot: Spot::Rack,
        },
    );
    said
}

fn add(job: &mut Job, kind: EdgeKind) -> EdgeId {
    change(job, |job| {
        job.add_edge(Name::or("East", "?"), kind, Hand::Left)
    })
}

fn turn_into(job: &mut Job, edge: EdgeId, kind: EdgeKind) {
    change(job, |job| job.edge_mut(edge).unwrap().kind = kind);
}

fn called(job: &Job) -> Vec<String> {
    let labels = Labels::of(job, &Progress::of(job.events()));
    job.edges()
        .iter()
        .map(|edge| labels.edge(edge.id))
        .collect()
}

/// A job of before kinds were counted apart: a hip, a valley, a hip.
fn of_before() -> Job {
    let mut job = job();
    for kind in [EdgeKind::Hip, EdgeKind::Valley, EdgeKind::Hip] {
        job.add_edge(Name::or("West", "?"), kind, Hand::Right);
    }
    job.set_numbers(EdgeNumbers::default());
    job
}

#[test]
fn each_kind_is_counted_by_itself() {
    let mut job = job();
    for kind in [
        EdgeKind::Valley,
        EdgeKind::Hip,
        EdgeKind::Rake,
        EdgeKind::Hip,
        EdgeKind::Valley,
    ] {
        add(&mut job, kind);
    }
    assert_eq!(called(&job), ["V1", "H1", "R1", "H2", "V2"]);
}

#[test]
fn edges_of_an_older_job_keep_what_they_are_called() {
    let mut job = of_before();
    assert_eq!(called(&job), ["H1", "V2", "H3"]);
    add(&mut job, EdgeKind::Valley);
    add(&mut job, EdgeKind::Hip);
    add(&mut job, EdgeKind::Rake);
    assert_eq!(called(&job), ["H1", "V2", "H3", "V3", "H4", "R1"]);
}

#[test]
fn what_a_deleted_edge_was_called_is_not_given_again() {
    let mut job = of_before();
    change(&mut job, |job| job.remove_edge(EdgeId(3)));
    // Whether H3 or V3 was deleted is not known any more.
    add(&mut job, EdgeKind::Valley);
    let hip = add(&mut job, EdgeKind::Hip);
    assert_eq!(called(&job), ["H1", "V2", "V4", "H4"]);
    change(&mut job, |job| job.remove_edge(hip));
    add(&mut job, EdgeKind::Hip);
    assert_eq!(called(&job), ["H1", "V2", "V4", "H5"]);
}

#[test]
fn an_edge_that_becomes_another_kind_gets_a_number_of_that_and_keeps_the_one_it_had() {
    let mut job = of_before();
    turn_into(&mut job, EdgeId(1), EdgeKind::Valley);
    assert_eq!(called(&job), ["V3", "V2", "H3"]);
    add(&mut job, EdgeKind::Valley);
    turn_into(&mut job, EdgeId(1), EdgeKind::Hip);
    assert_eq!(called(&job), ["H1", "V2", "H3", "V4"]);
}

/// Random changes with undo and redo; half of the jobs are of before.
#[test]
fn no_two_edges_are_ever_called_the_same_and_none_is_called_otherwise() {
    for seed in 0..400 {
        let mut random = SplitMix::at(seed);
        let mut below = |most: usize| usize::try_from(random.next() % most as u64).unwrap();
        let mut job = if below(2) == 0 { job() } else { of_before() };
        // Of what is taken back nothing stays, its numbers neither.
        let mut names: HashMap<(u32, EdgeKind), String> = HashMap::new();
        for _ in 0..60 {
            let kind = EdgeKind::ALL[below(3)];
            let edge = job.edges().get(below(8)).map(|edge| edge.id);
            match (below(8), edge) {
                (0..3, _) => drop(add(&mut job, kind)),
                (3, Some(edge)) => drop(change(&mut job, |job| job.remove_edge(edge))),
                (4 | 5, Some(edge)) => turn_into(&mut job, edge, kind),
                (6, _) => {
                    let numbers = job.numbers().clone();
                    if job
                        .undo(|_| unreachable!("nothing is done at a bench"))
                        .is_some()
                    {
                        let there = job.numbers().clone();
                        assert!(job.redo().is_some());
                        assert_eq!(*job.numbers(), numbers, "seed {seed}");
                        job.undo(|_| unreachable!());
                        assert_eq!(*job.numbers(), there, "seed {seed}");
                        names.clear();
                    }
                }
                _ => {}
            }
            let called = called(&job);
            for (edge, name) in job.edges().iter().zip(&called) {
                let was = names.insert((edge.id.0, edge.kind), name.clone());
                assert!(
                    was.is_none_or(|was| was == *name),
                    "seed {seed}: {called:?}"
                );
            }
            let all = names.values().collect::<std::collections::HashSet<_>>();
            assert_eq!(all.len(), names.len(), "seed {seed}: {names:?}");
        }
    }
}
