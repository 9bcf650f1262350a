//! What the Log says of a course, an edge and a doubt: all of it, where it belongs,
//! in words that are read once.

use crate::support::{Program, job_with_hip, put};
use bendmark::app::state::{LogFocus, Notice};
use bendmark::domain::{
    cutting::{EmptyCourse, Job, doubt_words},
    doubt::{Basis, Cause, Doubt, DoubtedReading, Fix, Suspect},
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::{Hand, Length, Name},
    piece::CourseTrouble,
    roof::{EdgeKind, RoofLine, Slope},
    settings::Settings,
    tape::{Division, Unit, parse_positive},
};
use bendmark::storage::{files::RealFs, keeping::load};
use std::path::Path;

fn number(course: u32) -> CourseNumber {
    CourseNumber::new(course).unwrap()
}

fn inches(text: &str) -> Reading {
    Reading::new(parse_positive(text, Unit::Inch).unwrap()).unwrap()
}

/// Two hips at 7 in 12 with a square corner, nothing read.
fn hips() -> Job {
    let mut job = Job::new(Name::or("Peak", "?"), Settings::default());
    for (name, hand) in [("East", Hand::Left), ("West", Hand::Right)] {
        let id = job.add_edge(Name::or(name, "?"), EdgeKind::Hip, hand);
        let edge = job.edge_mut(id).unwrap();
        edge.plane = Name::new("South").ok();
        edge.roof = RoofLine::even(Slope::parse("7 in 12").unwrap());
    }
    job
}

/// 12 / hypot(12, 7) of 14 in is 12.0921 in an edge: 24.1842 in both, so that
/// 19 15/16 in is used up 14 * 19.9375 / 24.1842 = 11.542 in up.
#[test]
fn what_is_expected_above_both_hips_is_where_their_boards_meet() {
    let mut program = Program::with(hips());
    program.press("<f3><enter>b19 15/16<enter>e");
    let screen = program.screen(80, 24);
    assert!(screen.contains("~meet 11 9/16-"), "{screen}");
    program.press("7");
    let screen = program.screen(120, 40);
    let words = "expected: the boards meet 11 9/16- up";
    assert!(screen.contains(words), "{screen}");
    program.press("<esc>o11 1/2");
    let screen = program.screen(120, 40);
    assert!(screen.contains("expected 11 9/16- (-1/16-)"), "{screen}");
    // Where both are over the line it is a reading, and less by both edges' lean.
    let mut program = Program::with(hips());
    program.press("<f3><enter>b44 3/16<enter>e");
    let screen = program.screen(80, 24);
    assert!(screen.contains("~20 "), "{screen}");
}

#[test]
fn a_course_too_wide_for_one_panel_says_whole_what_to_do_and_which_key() {
    let mut program = Program::with(hips());
    program.press("<f3><enter>b80<enter>55 13/16<enter><home>");
    for (columns, row) in [
        (80, "too wide: press l"),
        (120, "too wide: l strikes a line"),
    ] {
        let screen = program.screen(columns, 40);
        assert!(screen.contains(row) && !screen.contains(".."), "{screen}");
        let said = words_of(&screen);
        let sentence = "Strike a line up the course where a side lap shall be and press l";
        assert!(said.contains(sentence), "{said}");
    }
}

/// The second reading takes the cursor on to the next course: what is wrong with the
/// one just read is said at once, and its key still means that one.
#[test]
fn l_above_a_course_that_is_too_wide_parts_that_course() {
    let mut program = Program::with(hips());
    program.press("<f3><enter>b80<enter>55 13/16<enter>");
    assert_eq!(program.state.log.course, number(2));
    let words =
        "course 1 is too wide for one panel: l strikes a line up it, for a piece at each edge";
    assert_eq!(
        program.state.notice,
        Some(Notice::Trouble(words.to_owned()))
    );
    program.press("l");
    let edges = program.job().edges();
    for edge in edges {
        assert!(edge.course(number(1)).unwrap().reads_to.is_some());
        assert_eq!(edge.courses().len(), 1);
    }
    assert_eq!(program.state.log.course, number(1));
    assert!(matches!(&program.state.notice, Some(Notice::Said(words))
        if words.contains("course 1: a line is struck") && words.contains("dropped: bottom 80 in")));
    // Above one that is not too wide nothing is parted.
    let mut program = Program::with(hips());
    program.press("<f3><enter>b40<enter>15 13/16<enter>l");
    assert!(matches!(&program.state.notice, Some(Notice::Trouble(words))
        if words.contains("press b first")));
    assert_eq!(program.job().edges()[1].courses().len(), 0);
}

/// The right side of a screen in one line.
fn words_of(screen: &str) -> String {
    let right = screen.lines().filter_map(|row| row.split_once('\u{2502}'));
    let words = right.flat_map(|(_, right)| right.split_whitespace());
    words.collect::<Vec<_>>().join(" ")
}

#[test]
fn a_hole_is_named_by_what_is_true_of_it() {
    let hole = |why| EmptyCourse {
        edge: EdgeId(1),
        course: number(4),
        to: number(4),
        why,
    };
    let needs = Length::from_inches(70);
    for (why, words) in [
        (CourseTrouble::Unread, "course 4, not read yet"),
        (CourseTrouble::NotRead(End::Top), "course 4, top not read"),
        (CourseTrouble::NoLean, "course 4, lean not known"),
        (
            CourseTrouble::TooWide { needs },
            "course 4, too wide for one panel",
        ),
    ] {
        assert_eq!(hole(why).place_and_why(), words);
    }
}

#[test]
fn l_where_a_course_does_not_run_from_board_to_board_says_which_key_comes_first() {
    let mut program = Program::with(hips());
    program.press("<f3><enter>30<enter>l");
    let screen = program.screen(80, 24);
    assert!(screen.contains("press b first"), "{screen}");
}

#[test]
fn after_a_line_is_struck_both_edges_are_read_to_it() {
    let mut program = Program::with(hips());
    program.press("<f3><enter>b80<enter><home>l");
    for edge in ["", "<tab><down><enter><home>"] {
        program.press(edge);
        let said = words_of(&program.screen(120, 40));
        assert!(
            said.contains("Readings in inches to the struck line"),
            "{said}"
        );
        // The next course is read as the edge is.
        program.press("<up>");
        let said = words_of(&program.screen(120, 40));
        assert!(
            said.contains("Readings in inches to the side-lap line"),
            "{said}"
        );
    }
}

#[test]
fn boards_that_meet_at_a_long_figure_touch_no_other_column() {
    let mut job = hips();
    let course = Course {
        to: Some(EdgeId(2)),
        bottom: Some(inches("21 15/16")),
        runs_out: Some(inches("12 11/16")),
        ..Course::unread(number(1))
    };
    job.edge_mut(EdgeId(1)).unwrap().put(course);
    let mut program = Program::with(job);
    program.press("<f3><enter>");
    for order in ["", "v"] {
        program.press(order);
        for (columns, rows) in [(80, 24), (120, 40)] {
            let screen = program.screen(columns, rows);
            let row = screen.lines().find(|row| row.contains("meet 12 11/16"));
            let row = row.unwrap();
            let behind = row.split("meet 12 11/16").nth(1).unwrap();
            assert!(behind.is_empty() || behind.starts_with(' '), "{screen}");
            assert!(!row.contains(".."), "{screen}");
        }
    }
}

#[test]
fn what_is_odd_about_one_roof_side_stands_under_its_own_edges_only() {
    let mut job = hips();
    for name in ["North 1", "North 2"] {
        let id = job.add_edge(Name::or(name, "?"), EdgeKind::Hip, Hand::Left);
        job.edge_mut(id).unwrap().plane = Name::new("North").ok();
    }
    let lots = [(EdgeId(1), "Slate 7"), (EdgeId(2), "Slate 9")];
    for (edge, lot) in lots {
        put(&mut job, edge, 1, "20", "7 7/8");
        job.edge_mut(edge).unwrap().lot = Name::new(lot).ok();
    }
    let mut program = Program::with(job);
    program.press("<f3>");
    for (at, odd) in [
        (0, "two lots"),
        (1, "two lots"),
        (2, "2 left-hand"),
        (3, "2 left-hand"),
    ] {
        let said = words_of(&program.screen(120, 40));
        for words in ["two lots", "2 left-hand"] {
            assert_eq!(said.contains(words), words == odd, "{at}: {said}");
        }
        program.press("<down>");
    }
}

#[test]
fn a_leg_under_the_jobs_least_is_said_of_the_edge_and_not_at_every_reading() {
    let low = "less than this job's least of 1 9/16 in";
    let key = "along the nose would reach it. F6 (Job) sets it.";
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f3>");
    let said = words_of(&program.screen(120, 40));
    assert!(said.contains(low) && said.contains(key), "{said}");
    // Last of the lines.
    let last = said.find("Readings in").unwrap();
    assert!(said.find(low) > Some(last), "{said}");
    program.press("<enter>");
    let said = words_of(&program.screen(120, 40));
    assert!(!said.contains(low), "{said}");
    // Nothing read yet, but the slope is known.
    let mut program = Program::with(hips());
    program.press("<f3><enter>");
    let said = words_of(&program.screen(120, 40));
    assert!(said.contains(low) && said.contains(key), "{said}");
}

/// At every course of every edge, by course and by line, with what is expected.
#[test]
fn the_log_of_either_sample_clips_nothing_at_any_course() {
    for name in ["alder-court-inches", "brook-meadow-millimetres"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("sample-jobs/{name}.ron"));
        let job = load(&RealFs, &path).unwrap().job;
        let courses = job.edges().iter().map(|edge| edge.courses().len());
        let courses: Vec<usize> = courses.collect();
        let mut program = Program::with(job);
        program.press("<f3>e");
        for courses in courses {
            program.press("<enter><home>");
            for _ in 0..=courses {
                for _ in 0..2 {
                    program.press("v");
                    let screen = program.screen(80, 24);
                    assert!(!screen.contains(".."), "{screen}");
                }
                program.press("<up>");
            }
            program.press("<tab><down>");
        }
    }
}

fn at_course_4(likeliest: Suspect, others: Vec<Suspect>) -> Doubt {
    Doubt {
        course: Some(number(4)),
        off: Length::from_inches(2),
        likeliest,
        others,
        is_even: false,
        basis: Basis::Own,
        or_at: None,
    }
}

#[test]
fn a_doubt_says_each_thing_once() {
    let (by, likely) = (Length::from_inches(2), Length::from_inches(40));
    let fixes = [
        (
            DoubtedReading::Both,
            Cause::Unknown,
            Fix::Both {
                first: number(4),
                last: number(4),
                by,
            },
            "course 4, both readings likely 2 in too long (cause not clear)",
        ),
        (
            DoubtedReading::Placement,
            Cause::PlacementOff,
            Fix::Placement {
                course: number(4),
                by,
            },
            "course 4 top and course 5 bottom likely 2 in too long, top 40 in (one hold of the tape off)",
        ),
        (
            DoubtedReading::Both,
            Cause::CoursesExchanged,
            Fix::Exchange { below: number(4) },
            "course 4, both readings likely exchanged: courses 4 and 5 have each other's",
        ),
        (
            DoubtedReading::Top,
            Cause::WrongSide,
            Fix::MeasureAgain,
            "course 4 top likely 40 in (fraction counted backwards)",
        ),
    ];
    let suspects = fixes.map(|(reading, cause, fix, words)| {
        let suspect = Suspect {
            reading,
            likely,
            cause,
            fix,
        };
        (suspect, words)
    });
    let words_of =
        |first, others| doubt_words(&at_course_4(first, others), Division::SixteenthInch);
    for (suspect, words) in suspects {
        assert_eq!(words_of(suspect, Vec::new()), words);
    }
    let [both, placement, ..] = suspects.map(|(suspect, _)| suspect);
    assert_eq!(
        words_of(both, vec![placement]),
        "course 4, both readings likely 2 in too long (cause not clear); or top and the next bottom likely 2 in too long, top 40 in (one hold of the tape off)"
    );
}

/// `see H3-12`: the figures of that course stand at the other edge.
#[test]
fn nothing_is_expected_of_a_course_that_is_read_at_its_other_edge() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-jobs/alder-court-inches.ron");
    let mut program = Program::with(load(&RealFs, &path).unwrap().job);
    program.press("<f3><home><down><down><down><enter><end>e");
    let screen = program.screen(120, 40);
    let row = screen
        .lines()
        .find(|row| row.contains("see H3-12"))
        .unwrap();
    assert!(!row.contains('~'), "{row}");
}

#[test]
fn a_course_that_is_read_at_its_other_edge_says_where_and_asks_for_nothing() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-jobs/alder-court-inches.ron");
    let mut program = Program::with(load(&RealFs, &path).unwrap().job);
    program.press("<f3><home><down><down><down><enter><end>");
    let said = words_of(&program.screen(80, 24));
    let words = "Course 12 is read at West end, north-west hip (H3), from board to board; Enter ends this hip.";
    assert!(said.contains(words), "{said}");
    assert!(!said.contains("Type the bottom"), "{said}");
}

/// One put in where it was forgotten: those above stand, and Enter passes it by.
#[test]
fn enter_on_an_empty_course_below_others_goes_on_and_says_so() {
    let mut program = Program::with(job_with_hip(5, Hand::Left));
    program.press("<f3><tab><home><up><up>+");
    let said = |program: &mut Program| words_of(&program.screen(80, 24));
    let words = "Type the bottom of course 3; Enter goes on.";
    assert!(said(&mut program).contains(words));
    program.press("<enter>");
    let words = "Type the top of course 3; Enter goes on.";
    assert!(said(&mut program).contains(words));
    program.press("<enter>");
    let words = "Type over the bottom of course 4; Enter goes on.";
    assert!(said(&mut program).contains(words));
    // Above the last one it ends the hip.
    program.press("<end>");
    let words = "Type the bottom of course 7; Enter on this empty course ends this hip.";
    assert!(said(&mut program).contains(words));
    program.press("<enter>");
    assert_eq!(program.state.log.focus, LogFocus::Edges);
}
