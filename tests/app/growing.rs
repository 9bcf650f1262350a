//! A log that grows: where an edge starts, courses put in and taken out.

use crate::support::{Program, job_with_hip};
use bendmark::app::state::Notice;
use bendmark::domain::{
    log::{CourseNumber, Edge, EdgeId, End, SetAside, Struck},
    measure::Hand,
};
use proptest::prelude::*;
use std::collections::BTreeSet;

fn number(number: u32) -> CourseNumber {
    CourseNumber::new(number).unwrap()
}

fn said(program: &Program) -> &str {
    match &program.state.notice {
        Some(Notice::Said(text) | Notice::Trouble(text)) => text,
        None => "",
    }
}

/// The labels in cutting order.
fn labels(program: &Program) -> Vec<String> {
    let open = program.state.open.as_ref().unwrap();
    let pieces = open.list.pieces.iter();
    pieces.map(|piece| open.labels.piece(piece.id)).collect()
}

#[test]
fn what_is_known_of_a_course_goes_with_it_when_one_is_put_in_below() {
    let mut job = job_with_hip(5, Hand::Left);
    let edge = job.edge_mut(EdgeId(1)).unwrap();
    edge.set_aside.push(SetAside::of_course(edge, number(4)));
    edge.struck.push(Struck {
        course: number(4),
        end: End::Top,
        was: edge.course(number(4)).unwrap().top.unwrap(),
    });
    let before = edge.clone();
    let mut program = Program::with(job);
    program.press("<f3><enter><home><up><up>+");
    let edge = program.job().edge(EdgeId(1)).unwrap();
    assert_eq!(edge.course(number(3)), None);
    for (from, to) in [(1, 1), (2, 2), (3, 4), (4, 5), (5, 6)] {
        let read = |edge: &Edge, at| End::BOTH.map(|end| edge.reading(number(at), end));
        assert_eq!(read(edge, to), read(&before, from), "{from}");
    }
    assert_eq!(edge.set_aside, [SetAside::of_course(edge, number(5))]);
    assert_eq!(edge.struck[0].course, number(5));
    assert!(program.screen(80, 24).contains("course 3 put in"));
    // Taking it out again moves all back.
    program.press("-");
    assert_eq!(program.job().edge(EdgeId(1)).unwrap(), &before);
}

#[test]
fn marked_steel_keeps_its_label_and_the_course_put_in_is_written_with_a_b() {
    let mut program = Program::with(job_with_hip(4, Hand::Left));
    program.press("<f4><enter>/1-3<enter><enter>");
    let before = program.job().clone();
    assert_eq!(labels(&program), ["H1-1 L", "H1-2 L", "H1-3 L", "H1-4 L"]);
    program.press("<f3><enter><home><up><up>+36 3/4<enter>24 1/4<enter>");
    assert_eq!(
        labels(&program),
        ["H1-1 L", "H1-2 L", "H1-3b L", "H1-3 L", "H1-5 L"]
    );
    // The b is on steel once it is marked, and found by what is written.
    program.press("<f4>/1-3b<enter><enter>");
    let piece = program.state.piece_in_hand().unwrap();
    assert_eq!(piece.id.course, number(3));
    assert!(program.screen(80, 24).contains("H1-3b L"));
    program.press("<f3><enter><home>+");
    assert_eq!(
        labels(&program),
        ["H1-2 L", "H1-3bb L", "H1-3b L", "H1-3 L", "H1-6 L"]
    );
    // One undo a change, facts and all.
    program.press("uuuuu");
    assert_eq!(program.job(), &before);
}

#[test]
fn a_course_with_marked_steel_is_not_taken_out_until_it_is_spoiled() {
    let mut program = Program::with(job_with_hip(4, Hand::Left));
    program.press("<f4><enter>/1-3<enter><enter><f3><enter><home><up><up>-");
    let words = "H1-3 L is marked already: x at the Bench spoils it, then its course can go";
    assert!(said(&program).contains(words), "{}", said(&program));
    program.press("<f4>/1-3<enter>x<f3><enter><home><up><up>-");
    assert_eq!(labels(&program), ["H1-1 L", "H1-2 L", "H1-3 L"]);
    let open = program.state.open.as_ref().unwrap();
    assert_eq!(open.progress.spoiled(), 1);
    assert!(
        open.list
            .pieces
            .iter()
            .all(|piece| open.progress.done(piece.id).is_none())
    );
}

#[test]
fn no_course_is_put_in_where_none_stands_there_or_above() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f3><enter><end>+");
    assert!(said(&program).contains("no course at 3 or above it"));
    program.press("-");
    assert!(said(&program).contains("no course 3 to take out"));
    assert_eq!(program.job(), &job_with_hip(2, Hand::Left));
}

proptest! {
    /// Marked, put in, taken out in any order: what is on steel stays, and no
    /// label is there twice.
    #[test]
    fn prop_no_two_pieces_bear_one_label_and_no_label_on_steel_changes(
        steps in proptest::collection::vec((0_u8..4, 1_u32..7), 1..25)
    ) {
        let mut program = Program::with(job_with_hip(4, Hand::Left));
        program.press("<f4><enter>");
        for (step, at) in steps {
            let on_steel = |program: &Program| {
                let open = program.state.open.as_ref().unwrap();
                open.progress.marked().map(|(piece, _)| open.labels.piece(piece)).collect::<BTreeSet<_>>()
            };
            let before = on_steel(&program);
            let ups = "<up>".repeat(at as usize - 1);
            match step {
                0 => program.press(&format!("<f3><enter><home>{ups}+36 3/4<enter>24 1/4<enter>")),
                1 => program.press(&format!("<f3><enter><home>{ups}-")),
                _ => program.press(&format!("<f4>/1-{at}<enter><enter>")),
            };
            let after = on_steel(&program);
            prop_assert!(before.is_subset(&after), "{before:?} {after:?}");
            let all = labels(&program);
            let once: BTreeSet<_> = all.iter().collect();
            prop_assert_eq!(once.len(), all.len(), "{:?}", all);
        }
    }
}
