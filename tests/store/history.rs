//! The line of changes at the end of a job's file: what it takes, how far it
//! reaches, and that nothing in it keeps the job in front of it from being read.
//!
//! Over 400 lines: what is forged stands beside what comes of it.

use crate::jobs::{cases, full_job};
use bendmark::domain::{
    bench::{BenchEvent, Fact},
    cutting::{Job, NamedChange, ReadingAt, Spot},
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::{Hand, Length, Name},
    piece::PieceId,
    roof::EdgeKind,
    settings::Settings,
};
use bendmark::storage::job_file::{Decoded, MOST_CHANGES, MOST_LINE_BYTES, Seal, decode, encode};
use proptest::prelude::*;
use std::fmt::Write;

fn number(course: u32) -> CourseNumber {
    CourseNumber::new(course).unwrap()
}

fn inches(inches: u32) -> Option<Reading> {
    Reading::new(Length::from_inches(i64::from(inches))).ok()
}

fn text(job: &Job) -> String {
    String::from_utf8(encode(job).unwrap()).unwrap()
}

/// `text` with the checksum that belongs to it.
fn sealed(text: &str) -> String {
    let content = text.rfind("// checksum ").map_or(text, |at| &text[..at]);
    let mut sealed = content.to_owned();
    let sum = crc32fast::hash(content.as_bytes());
    writeln!(sealed, "// checksum {sum:08x}").unwrap();
    sealed
}

fn read(text: &str) -> Decoded {
    decode(text.as_bytes()).unwrap()
}

fn change(job: &mut Job, words: &str, spot: Spot, change: impl FnOnce(&mut Job)) {
    let before = job.clone();
    change(job);
    let words = words.to_owned();
    assert!(job.keep_change(&before, NamedChange { words, spot }));
}

/// Reads a course's top, as the Log does.
fn log(job: &mut Job, edge: EdgeId, course: u32, top: u32) {
    let spot = Spot::Reading(ReadingAt {
        edge,
        course: number(course),
        end: End::Top,
    });
    let words = format!("top of Hip {} course {course}: {top} in", edge.0);
    change(job, &words, spot, |job| {
        job.edge_mut(edge).unwrap().put(Course {
            bottom: inches(30),
            top: inches(top),
            ..Course::unread(number(course))
        });
    });
}

/// Twenty hips of twenty courses, nothing of it kept as a change.
fn large() -> Job {
    let mut job = Job::new(Name::or("Cedar Lane", "?"), Settings::default());
    for hip in 1..=20 {
        let name = Name::or(&format!("Hip {hip}"), "?");
        let id = job.add_edge(name, EdgeKind::Hip, Hand::Left);
        job.edge_mut(id)
            .unwrap()
            .put_all((1..=20).map(|course| Course {
                bottom: inches(30 + course % 7),
                top: inches(20 + course % 5),
                ..Course::unread(number(course))
            }));
    }
    job
}

fn bent(piece: u32) -> Fact {
    Fact::Bent(PieceId {
        edge: EdgeId(1),
        course: number(1),
        number: piece,
    })
}

fn by_fact(_: &[BenchEvent]) -> NamedChange {
    NamedChange {
        words: "a fact".to_owned(),
        spot: Spot::Rack,
    }
}

/// How often a change can be taken back.
fn steps_back(mut job: Job) -> usize {
    std::iter::from_fn(|| job.undo(by_fact)).count()
}

/// The part of the file behind the job's own.
fn line_of(job: &Job) -> String {
    let text = text(job);
    let at = text.find("    undo: [").or(text.find("    redo: ["));
    at.map_or_else(String::new, |at| text[at..].to_owned())
}

#[test]
fn a_change_is_kept_as_what_it_touched() {
    let mut job = large();
    let without = text(&job).len();
    log(&mut job, EdgeId(3), 5, 24);
    let with = text(&job).len();
    assert!(with - without < 250, "{} bytes", with - without);
    change(&mut job, "Hip 20 deleted", Spot::Edge(EdgeId(20)), |job| {
        job.remove_edge(EdgeId(20));
        let name = Name::or("Cedar Lane 2", "?");
        job.name = name;
    });
    job.record(vec![bent(1)], None);
    log(&mut job, EdgeId(1), 21, 3);
    log(&mut job, EdgeId(1), 22, 2);
    job.undo(by_fact);
    let line = line_of(&job);
    let shown = line.replace(&line_of_courses(&line), "COURSES");
    insta::assert_snapshot!(shown.split("// checksum").next().unwrap(), @r#"
        undo: [
            (words: "top of Hip 3 course 5: 24 in", at: Reading(3, 5, Top), courses: [(edge: 3, course: 5, bottom: 889000000, top: 508000000)]),
            (words: "Hip 20 deleted", at: Edge(20), name: "Cedar Lane", order: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20], edges: [(id: 20, name: "Hip 20", kind: Hip, hand: Left)], courses: [(edge: 20, course: 1, bottom: 787400000, top: 533400000), COURSES]),
            (words: "top of Hip 1 course 21: 3 in", at: Reading(1, 21, Top), after: 1, no_courses: [(1, 21)]),
        ],
        redo: [
            (words: "top of Hip 1 course 22: 2 in", at: Reading(1, 22, Top), after: 1, courses: [(edge: 1, course: 22, bottom: 762000000, top: 50800000)]),
        ],
    )
    "#);
}

/// All but the first of the courses of a deleted hip.
fn line_of_courses(line: &str) -> String {
    let start = line.find("(edge: 20, course: 2,").unwrap();
    let end = start + line[start..].find("])").unwrap();
    line[start..end].to_owned()
}

#[test]
fn the_nearest_500_are_kept_each_way() {
    let mut job = large();
    for turn in 0..600 {
        log(
            &mut job,
            EdgeId(turn / 60 + 1),
            turn % 60 + 1,
            5 + turn % 11,
        );
    }
    assert_eq!(steps_back(job.clone()), 600, "until the program is left");
    let read = read(&text(&job));
    assert_eq!(read.job, job);
    assert!(!read.job.history().is_cut());
    assert_eq!(steps_back(read.job), MOST_CHANGES);
    for _ in 0..550 {
        job.undo(by_fact).unwrap();
    }
    let mut again = decode(text(&job).as_bytes()).unwrap().job;
    let redone = std::iter::from_fn(|| again.redo()).count();
    assert_eq!(redone, MOST_CHANGES);
    assert_eq!(steps_back(again), 50 + MOST_CHANGES);
}

#[test]
fn what_was_done_at_the_bench_can_be_taken_back_without_a_limit() {
    let mut job = large();
    log(&mut job, EdgeId(1), 21, 3);
    for piece in 1..=700 {
        job.record(vec![bent(piece)], None);
    }
    let read = read(&text(&job));
    assert_eq!(steps_back(read.job), 701);
}

#[test]
fn each_list_takes_at_most_half_of_the_stated_bytes_or_of_the_job_itself() {
    let mut job = large();
    let own = text(&job).len();
    for turn in 0..60 {
        // Every reading of the job, so that each change is half as large as it.
        change(&mut job, "all of it", Spot::Rack, |job| {
            for edge in (1..=20).map(EdgeId) {
                let edge = job.edge_mut(edge).unwrap();
                edge.put_all((1..=20).map(|course| Course {
                    bottom: inches(30 + turn),
                    ..Course::unread(number(course))
                }));
            }
        });
    }
    let kept = steps_back(read(&text(&job)).job);
    assert!((2..60).contains(&kept), "{kept}");
    let line = line_of(&job).len();
    assert!(
        own < MOST_LINE_BYTES && line <= MOST_LINE_BYTES / 2 + 100,
        "{line}"
    );
    for _ in 0..40 {
        job.undo(by_fact).unwrap();
    }
    let line = line_of(&job).len();
    assert!(
        line > MOST_LINE_BYTES / 2 && line <= MOST_LINE_BYTES + 200,
        "{line}"
    );
}

#[test]
fn every_sort_of_change_is_read_from_the_seed_of_the_fuzzing() {
    let seed = include_str!("../fuzz/seeds/job_file/changes.ron");
    if std::env::var_os("BENDMARK_WRITE_DOCS").is_some() {
        std::fs::write("tests/fuzz/seeds/job_file/changes.ron", text(&full_job())).unwrap();
    }
    let read = read(seed);
    assert_eq!(seed, text(&full_job()));
    assert!(!read.job.history().is_cut());
    assert_eq!(read.job.history().undone().count(), 1);
    assert_eq!(read.job.history().done_on_paper().count(), 1);
}

#[test]
fn a_job_without_a_change_has_no_line() {
    assert_eq!(line_of(&large()), "");
    let again = read(&text(&large())).job;
    assert!(!again.history().is_cut());
    assert_eq!(steps_back(again), 0);
}

#[test]
fn a_line_goes_with_its_file_and_ends_with_an_edit_by_hand() {
    let mut job = large();
    log(&mut job, EdgeId(3), 5, 24);
    let whole = text(&job);
    assert_eq!(steps_back(read(&whole).job), 1);
    // A figure changed by hand: what was before no longer fits it.
    let edited = whole.replace("Cedar Lane", "Cedar Row");
    let read_edited = read(&edited);
    assert_eq!(read_edited.seal, Seal::Mismatch);
    assert_eq!(read_edited.job.name.as_str(), "Cedar Row");
    assert!(read_edited.job.history().is_cut());
    assert_eq!(steps_back(read_edited.job), 0);
    // The fields in another order.
    let moved = whole.replacen("    changes: 0,\n", "", 1);
    let (own, line) = moved.split_once("    undo: [\n").unwrap();
    let (line, end) = line.split_once("    ],\n").unwrap();
    let (head, events) = own.split_once("    next_edge").unwrap();
    let moved = format!("{head}    undo: [\n{line}    ],\n    next_edge{events}{end}");
    let read_moved = read(&sealed(&moved));
    assert_eq!(read_moved.job, job);
    assert!(read_moved.job.history().is_cut());
}

#[test]
fn a_file_cut_off_in_its_line_is_read_without_it() {
    let mut job = large();
    for course in 1..9 {
        log(&mut job, EdgeId(3), course, 9);
    }
    job.undo(by_fact);
    let whole = text(&job);
    let from = whole.find("    undo: [\n").unwrap() + "    undo: [\n".len();
    for end in from..whole.len() - 1 {
        let read = decode(&whole.as_bytes()[..end]).unwrap();
        assert_eq!(read.job, job, "{end}");
        assert_ne!(read.seal, Seal::Whole);
        assert!(read.job.history().is_cut());
    }
}

/// What a line would bring back is kept as far as it would be read; the job
/// itself is read in any case.
#[track_caller]
fn check(from: &str, to: &str, kept: usize) {
    let mut job = large();
    log(&mut job, EdgeId(3), 21, 9);
    change(&mut job, "Hip 20 deleted", Spot::Edge(EdgeId(20)), |job| {
        job.remove_edge(EdgeId(20));
    });
    log(&mut job, EdgeId(3), 22, 9);
    let whole = text(&job);
    let at = whole.find("    undo: [").unwrap();
    assert_eq!(whole[at..].matches(from).count(), 1, "{from}");
    let forged = format!("{}{}", &whole[..at], whole[at..].replace(from, to));
    let read = read(&sealed(&forged));
    assert_eq!(read.seal, Seal::Whole);
    assert_eq!(read.job, job);
    assert_eq!(read.job.history().is_cut(), kept < 3, "{to}");
    assert_eq!(steps_back(read.job), kept, "{to}");
}

#[test]
fn what_would_bring_back_a_job_that_is_refused_is_left_out_with_all_before_it() {
    check("Hip 20 deleted", "Hip 20 gone", 3);
    // The latest of three.
    check("no_courses: [(3, 22)]", "no_courses: [(3, 0)]", 0);
    check("no_courses: [(3, 22)]", "no_courses: [(33, 22)]", 0);
    check("no_courses: [(3, 22)]", "no_courses: [(3, 22), (3, 22)]", 0);
    check("no_courses: [(3, 22)]", "next_edge: 7", 0);
    check("no_courses: [(3, 22)]", "next_edge: 4294967295", 0);
    check("no_courses: [(3, 22)]", "order: [1, 1]", 0);
    check("no_courses: [(3, 22)]", "order: [1, 99]", 0);
    check("no_courses: [(3, 22)]", "name: \"\"", 0);
    check("no_courses: [(3, 22)]", "surprise: 1", 0);
    check(
        "no_courses: [(3, 22)]",
        "events: [(0, (fact: Bent(edge: 1, course: 1, piece: 1)))]",
        0,
    );
    check(
        "no_courses: [(3, 22)]",
        "courses: [(edge: 3, course: 1, to: 3)]",
        0,
    );
    check(
        "no_courses: [(3, 22)]",
        "courses: [(edge: 3, course: 1, to: 99)]",
        0,
    );
    check(
        "no_courses: [(3, 22)]",
        "courses: [(edge: 3, course: 1, top: 100000000001)]",
        0,
    );
    check(
        "no_courses: [(3, 22)]",
        "after: 4, no_courses: [(3, 22)]",
        0,
    );
    check(
        "no_courses: [(3, 22)]",
        "press: [(fact: Bent(edge: 1, course: 1, piece: 1))]",
        0,
    );
    check("Reading(3, 22, Top)", "Setting(\"no-such\")", 0);
    check("Reading(3, 22, Top)", "Reading(3, 22, Middle)", 0);
    // The one before it.
    check("(id: 20, name: \"Hip 20\"", "(id: 21, name: \"Hip 20\"", 1);
    check("(id: 20, name: \"Hip 20\"", "(id: 0, name: \"Hip 20\"", 1);
    check("(id: 20, name: \"Hip 20\"", "(id: 20, name: \"\"", 1);
    // The first.
    check("no_courses: [(3, 21)]", "no_courses: [(33, 21)]", 2);
}

#[test]
fn more_pieces_than_a_job_may_have_are_not_brought_back() {
    let mut job = large();
    let edge = EdgeId(1);
    log(&mut job, edge, 21, 9);
    change(&mut job, "a figure far too long", Spot::Edge(edge), |job| {
        let log = (30..=2_000).map(|course| Course {
            bottom: Reading::new(Length::from_mm(100_000)).ok(),
            top: Reading::new(Length::from_mm(99_000)).ok(),
            ..Course::unread(number(course))
        });
        job.edge_mut(edge).unwrap().put_all(log);
    });
    assert!(encode(&job).is_err());
    change(&mut job, "taken out", Spot::Edge(edge), |job| {
        for course in 30..=2_000 {
            job.edge_mut(edge).unwrap().remove(number(course));
        }
    });
    let text = text(&job);
    let again = read(&text).job;
    assert!(again.history().is_cut());
    assert_eq!((steps_back(job), steps_back(again)), (3, 0));
}

#[test]
fn words_of_a_line_reach_no_terminal_unclean() {
    let mut job = large();
    log(&mut job, EdgeId(3), 5, 24);
    let forged = text(&job).replace("top of Hip 3", "\\u{1b}[2J\\u{202e}top\\n of Hip 3");
    let mut again = read(&sealed(&forged)).job;
    let named = again.undo(by_fact).unwrap();
    assert_eq!(named.words, "[2Jtop of Hip 3 course 5: 24 in");
}

#[test]
fn every_form_of_the_sheet_is_the_same_with_and_without_a_line() {
    use bendmark::sheet::{csv::csv, json::json, rows::Rows, text::WIDTH, text::text};
    let with = full_job();
    let mut without = with.clone();
    without.set_history(bendmark::domain::cutting::History::new());
    let all = |job: &Job| {
        let rows = Rows::of(job);
        (csv(&rows), json(&rows), text(&rows, WIDTH))
    };
    assert!(!line_of(&with).is_empty());
    assert_eq!(all(&with), all(&without));
}

/// Back to the start and forward to the end, each state a job that is read as it
/// was written.
fn goes_both_ways(mut job: Job) -> Result<(), TestCaseError> {
    let is_read = |job: &Job| {
        let file = encode(job).map_err(|error| TestCaseError::fail(error.to_string()))?;
        let read = decode(&file).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert_eq!(&read.job, job);
        Ok(())
    };
    while job.redo().is_some() {
        is_read(&job)?;
    }
    while job.undo(by_fact).is_some() {
        is_read(&job)?;
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn prop_a_damaged_line_never_keeps_the_job_and_never_brings_back_one_that_is_refused(
        damage in proptest::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>(), 0..4_u8), 1..4),
    ) {
        let job = full_job();
        let whole = text(&job);
        let start = whole.find("    undo: [\n").unwrap() + "    undo: [\n".len();
        let end = whole.rfind("    ],\n").unwrap();
        let mut line: Vec<char> = whole[start..end].chars().collect();
        for (at, from, how) in damage {
            let (at, from) = (at.index(line.len()), from.index(line.len()));
            match how {
                0 => line[at] = line[from],
                1 => drop(line.remove(at)),
                2 => line[at] = char::from(b'0' + u8::try_from(from % 10).unwrap()),
                _ => line.insert(at, line[from]),
            }
        }
        let line: String = line.into_iter().collect();
        let damaged = sealed(&format!("{}{line}{}", &whole[..start], &whole[end..]));
        if let Ok(read) = decode(damaged.as_bytes()) {
            prop_assert_eq!(&read.job, &job);
            goes_both_ways(read.job)?;
        } else {
            // Only where a line of it begins like a field of the job.
            prop_assert!(line.lines().any(|line| !line.starts_with("     ")), "{}", line);
        }
    }
}
