//! A log that grows: where an edge starts, courses put in and taken out.

use crate::support::{Program, job_with_hip, put};
use bendmark::app::state::Notice;
use bendmark::domain::{
    bench::Progress,
    cutting::{CutList, Job, Lots, doubt_words, doubts_of, odd_planes},
    log::{CourseNumber, Edge, EdgeId, End, SetAside, Struck},
    measure::{Hand, Name},
    roof::{EdgeKind, Slope},
};
use bendmark::sheet::{csv::csv, html::html, json::json, layout::Layout, rows::Rows, text::text};
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
    program.press("<f4>/1-3<enter>x<enter><f3><enter><home><up><up>-");
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

/// A hip of five courses in a straight bond, 12 1/2 in each, of which those that
/// are left out were never written.
fn straight(numbers: &[u32]) -> Job {
    let mut job = job_with_hip(0, Hand::Left);
    for number in numbers {
        let at = |line: u32| format!("{}", 200.0 - 12.5 * f64::from(line));
        put(&mut job, EdgeId(1), *number, &at(number - 1), &at(*number));
    }
    job
}

#[test]
fn a_hole_in_the_log_is_said_on_every_sheet() {
    let job = straight(&[1, 2, 4, 7]);
    let rows = Rows::of(&job);
    assert!(
        csv(&rows)
            .unwrap()
            .contains("\nHip 1,hip,left,3,,,,,,,,,,,,,,not read yet,")
    );
    let found: serde_json::Value = serde_json::from_str(&json(&rows)).unwrap();
    let why = "not read yet";
    let hole = |course: u32| serde_json::json!({"edge": "Hip 1", "course": course, "why": why});
    assert_eq!(
        found["unread"],
        serde_json::json!([hole(3), hole(5), hole(6)])
    );
    for sheet in [text(&rows, 80), html(&rows, &Layout::default())] {
        assert!(sheet.contains("course 3: not read yet"), "{sheet}");
        assert!(sheet.contains("courses 5 to 6: not read yet"), "{sheet}");
    }
    let whole = json(&Rows::of(&straight(&[3, 4, 5])));
    assert!(!whole.contains("unread"), "{whole}");
}

#[test]
fn every_piece_is_never_stacked_while_the_log_has_a_hole() {
    let mut program = Program::with(straight(&[1, 3]));
    program.press("<f4><enter>");
    for _ in 0..80 {
        program.press("<enter>");
        assert!(!said(&program).contains("every piece is stacked"));
    }
    let words = "what is logged is stacked; still to come: Hip 1 course 2, not read yet";
    assert!(said(&program).contains(words), "{}", said(&program));
    program.press("<f3>");
    assert!(program.screen(80, 24).contains("left out"));
}

#[test]
fn a_course_forgotten_between_two_is_a_doubt_and_the_suggestion_puts_one_in() {
    let mut job = job_with_hip(0, Hand::Left);
    for (number, at) in (1..).zip([1, 2, 3, 4, 6, 7, 8]) {
        let bottom = 14.5 + (200.0 - 12.5 * f64::from(at)) % 46.0;
        let [bottom, top] = [bottom, bottom - 12.5].map(|read| read.to_string());
        put(&mut job, EdgeId(1), number, &bottom, &top);
    }
    let doubts = doubts_of(&job);
    let words = doubts
        .iter()
        .map(|found| doubt_words(&found.doubt, job.settings.division));
    let words: Vec<String> = words.collect();
    assert_eq!(
        words,
        ["between course 4 and course 5 likely a course forgotten: those above it move up by one"]
    );
    let mut program = Program::with(job);
    program.press("<f3><enter>df");
    assert_eq!(
        program.job().edge(EdgeId(1)).unwrap().course(number(5)),
        None
    );
    assert!(doubts_of(program.job()).is_empty());
}

#[test]
fn a_new_edge_has_the_slopes_plane_and_lot_of_the_last_one() {
    let mut job = job_with_hip(2, Hand::Left);
    let last = job.edge_mut(EdgeId(1)).unwrap();
    last.roof.slope = Slope::parse("7").ok();
    (last.plane, last.lot) = (Name::new("South").ok(), Name::new("Slate 7").ok());
    let mut program = Program::with(job);
    // The other end of the same plane, then an end that it has already.
    program.press("<f3>a16");
    let words =
        "Hip 2 added like Hip 1: 7 in 12, roof side South, lot Slate 7; s changes that; n names it";
    assert_eq!(said(&program), words);
    program.press("<tab>a16");
    let edges = program.job().edges();
    assert_eq!(edges[1].hand, Hand::Right);
    assert_eq!(
        (&edges[1].plane, &edges[1].lot),
        (&edges[0].plane, &edges[0].lot)
    );
    assert_eq!(edges[1].roof, edges[0].roof);
    assert_eq!((&edges[2].plane, &edges[2].lot), (&None, &edges[0].lot));
}

/// Two hips on plane South, one of each hand, with five courses each.
fn south(lots: [&str; 2]) -> Job {
    let mut job = job_with_hip(5, Hand::Left);
    job.add_edge(Name::or("Hip 2", "?"), EdgeKind::Hip, Hand::Right);
    for at in 1..=5 {
        put(&mut job, EdgeId(2), at, "36 3/4", "24 1/4");
    }
    for (id, lot) in [1, 2].map(EdgeId).into_iter().zip(lots) {
        let edge = job.edge_mut(id).unwrap();
        (edge.plane, edge.lot) = (Name::new("South").ok(), Name::new(lot).ok());
    }
    job
}

fn lots(job: &Job) -> Lots {
    let progress = Progress::of(job.events());
    Lots::of(job, &progress, &CutList::of(job, &progress))
}

#[test]
fn two_lots_in_one_course_of_a_plane_are_a_doubt() {
    assert_eq!(lots(&south(["Slate 7", "Slate 7"])), Lots::default());
    let doubts = lots(&south(["Slate 7", "Slate 8"])).doubts;
    assert_eq!(
        doubts,
        ["roof side South: two lots in one course (Slate 7, Slate 8), course 1 and 4 more"]
    );
    let mut program = Program::with(south(["Slate 7", "Slate 8"]));
    program.press("<f3>");
    assert!(program.screen(120, 40).contains("two lots in one course"));
}

#[test]
fn another_lot_from_a_course_on_is_a_note_once() {
    let mut job = south(["Slate 7", "Slate 8"]);
    let above = job.edge_mut(EdgeId(2)).unwrap();
    for at in 1..=5 {
        above.remove(number(at));
    }
    for at in 6..=9 {
        put(&mut job, EdgeId(2), at, "36 3/4", "24 1/4");
    }
    let found = lots(&job);
    assert!(found.doubts.is_empty(), "{found:?}");
    assert_eq!(
        found.notes,
        ["roof side South: lot Slate 8 from course 6 on"]
    );
}

#[test]
fn two_edges_of_one_hand_are_odd_only_where_they_cannot_both_be_true() {
    let with = |kind, courses: std::ops::RangeInclusive<u32>| {
        let mut job = south(["Slate 7", "Slate 7"]);
        let id = job.add_edge(Name::or("Third", "?"), kind, Hand::Left);
        job.edge_mut(id).unwrap().plane = Name::new("South").ok();
        for at in courses {
            put(&mut job, id, at, "36 3/4", "24 1/4");
        }
        odd_planes(&job).len()
    };
    assert_eq!(with(EdgeKind::Hip, 3..=4), 1);
    // A dormer's valley, and a hip of the courses above.
    assert_eq!(with(EdgeKind::Valley, 3..=4), 0);
    assert_eq!(with(EdgeKind::Hip, 6..=9), 0);
}

#[test]
fn millimetres_typed_into_an_inch_job_are_one_doubt_and_read_right_once_taken() {
    let mut job = job_with_hip(0, Hand::Left);
    let mut clean = job_with_hip(0, Hand::Left);
    for at in 1..=6 {
        let bottom = 14.5 + (100.0 - 12.5 * f64::from(at)) % 46.0;
        let [bottom, top] = [bottom, bottom - 12.5];
        put(
            &mut clean,
            EdgeId(1),
            at,
            &bottom.to_string(),
            &top.to_string(),
        );
        let [bottom, top] = [bottom, top].map(|inches| format!("{:.2}", inches * 25.4));
        put(&mut job, EdgeId(1), at, &bottom, &top);
    }
    let doubts = doubts_of(&job);
    assert_eq!(doubts.len(), 1);
    let words = doubt_words(&doubts[0].doubt, job.settings.division);
    assert_eq!(
        words,
        "all of the edge likely millimetres, written as inches"
    );
    let mut program = Program::with(job);
    program.press("<f3><enter><home>f");
    let read = program.job().edge(EdgeId(1)).unwrap();
    assert_eq!(read.courses(), clean.edge(EdgeId(1)).unwrap().courses());
    assert!(doubts_of(program.job()).is_empty());
}

#[test]
fn inches_typed_into_a_millimetre_job_are_one_doubt() {
    let mut job = Job::new(
        Name::or("Mill Lane", "?"),
        bendmark::domain::settings::Settings::default(),
    );
    job.settings =
        bendmark::domain::settings::Settings::checked(bendmark::domain::settings::RawSettings {
            division: bendmark::domain::tape::Division::Millimetre,
            ..bendmark::domain::settings::RawSettings::default()
        })
        .unwrap();
    let id = job.add_edge(Name::or("Hip 1", "?"), EdgeKind::Hip, Hand::Left);
    for at in 1..=5 {
        let read = |mm: f64| {
            bendmark::domain::log::Reading::parse(
                &format!("{mm}"),
                bendmark::domain::tape::Unit::Millimetre,
            )
            .ok()
        };
        let course = bendmark::domain::log::Course::unread(number(at))
            .with(End::Bottom, read(36.5))
            .with(End::Top, read(24.0));
        job.edge_mut(id).unwrap().put(course);
    }
    let doubts = doubts_of(&job);
    let words: Vec<String> = doubts
        .iter()
        .map(|found| doubt_words(&found.doubt, job.settings.division))
        .collect();
    assert_eq!(
        words,
        ["all of the edge likely inches, written as millimetres"]
    );
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
