//! The list of a doubt's explanations, and what its keys do.

use crate::support::{Program, job_with_hip, put};
use bendmark::app::state::{Choice, Dialog, Notice};
use bendmark::domain::{
    cutting::{Job, doubt_words, doubts_of},
    log::{CourseNumber, EdgeId, End, Reading},
    measure::{Hand, Name},
    roof::{EdgeKind, Slope},
    tape::Unit,
};

/// A hip of five courses, the bottom of course 3 read an inch too much, its list of
/// explanations open.
fn asked() -> Program {
    let mut job = job_with_hip(5, Hand::Left);
    put(&mut job, EdgeId(1), 3, "37 3/4", "24 1/4");
    let mut program = Program::with(job);
    program.press("<f3>d");
    if !is_asked(&program) {
        program.press("d");
    }
    assert!(is_asked(&program));
    program
}

fn is_asked(program: &Program) -> bool {
    matches!(
        program.state.dialog,
        Some(Dialog::Choice {
            what: Choice::Doubt { .. },
            ..
        })
    )
}

fn bottom_of_course_3(program: &Program) -> String {
    let third = CourseNumber::new(3).unwrap();
    let course = program.job().edge(EdgeId(1)).unwrap().course(third);
    format!("{:?}", course.unwrap().reading(End::Bottom))
}

#[test]
fn the_list_of_a_doubt_takes_a_digit_the_first_and_the_readings_stand() {
    let as_read = bottom_of_course_3(&asked());
    let mut by_digit = asked();
    by_digit.press("1");
    assert!(!is_asked(&by_digit));
    assert!(doubts_of(by_digit.job()).is_empty());
    assert_ne!(bottom_of_course_3(&by_digit), as_read);

    let mut stands = asked();
    stands.press("x");
    assert!(!is_asked(&stands));
    assert!(doubts_of(stands.job()).is_empty());
    assert_eq!(bottom_of_course_3(&stands), as_read);

    let mut left = asked();
    left.press("<esc>");
    assert!(!is_asked(&left));
    assert_eq!(doubts_of(left.job()).len(), 1);
}

/// A hip in a regular bond, whose joints tell that it was the bottom of course 3.
#[test]
fn f_takes_the_first_where_what_was_read_tells_which_reading_it_is() {
    let mut job = job_with_hip(0, Hand::Left);
    let read = [
        ["30 1/4", "18 1/4"],
        ["18 1/4", "6 1/4"],
        ["53 1/4", "40 1/4"],
        ["40 1/4", "28 1/4"],
        ["28 1/4", "16 1/4"],
        ["16 1/4", "4 1/4"],
    ];
    for (course, [bottom, top]) in (1..).zip(read) {
        put(&mut job, EdgeId(1), course, bottom, top);
    }
    let words = "course 3 bottom likely 52 1/4 in (an inch too much)";
    assert_eq!(words_of(&job), [words]);
    for keys in ["<f3><tab><home><up><up>f", "<f3><tab><home>ddf"] {
        let mut program = Program::with(job.clone());
        program.press(keys);
        assert!(!is_asked(&program));
        assert_eq!(words_of(program.job()), [""; 0], "{keys}");
    }
}

/// Four courses of a hip at 7 in 12: 12 3/32 in a course. Course 3 is an inch off, and
/// nothing tells whether its bottom is an inch short or its top an inch too much.
#[test]
fn where_nothing_tells_which_of_two_readings_it_is_both_are_said_and_f_takes_neither() {
    let mut job = job_with_hip(0, Hand::Left);
    job.edge_mut(EdgeId(1)).unwrap().roof.slope = Slope::parse("7 in 12").ok();
    let read = [
        ["30 1/4", "18 3/16"],
        ["27 1/2", "15 3/8"],
        ["45 3/4", "34 5/8"],
        ["21", "8 15/16"],
    ];
    for (course, [bottom, top]) in (1..).zip(read) {
        put(&mut job, EdgeId(1), course, bottom, top);
    }
    let words = "course 3: either top likely 33 5/8 in (an inch too much) or bottom likely 46 3/4 in (an inch short)";
    assert_eq!(words_of(&job), [words]);
    let mut program = Program::with(job.clone());
    // Held down, it still takes neither; nor does Enter before one is chosen.
    program.press("<f3><tab><home><up><up>fff<enter>");
    assert!(is_asked(&program));
    assert_eq!(program.job().edges(), job.edges());
    program.press("f");
    let Some(Notice::Trouble(why)) = &program.state.notice else {
        panic!("nothing said");
    };
    assert!(why.contains("nothing tells which of the two"), "{why}");
    let screen = program.screen(80, 24);
    assert!(screen.contains("1 and 2 are as likely"), "{screen}");
    assert!(!screen.contains("f the first"), "{screen}");
    // Either can be taken.
    for (keys, end, likely) in [
        ("1", End::Top, "33 5/8"),
        ("2", End::Bottom, "46 3/4"),
        ("<down><down><enter>", End::Bottom, "46 3/4"),
    ] {
        let mut program = Program::with(job.clone());
        program.press("<f3><tab><home><up><up>f").press(keys);
        let course = program.job().edges()[0].courses()[2];
        let likely = Reading::parse(likely, Unit::Inch).ok();
        assert_eq!(course.reading(end), likely, "{keys}");
        assert_eq!(words_of(program.job()), [""; 0], "{keys}");
    }
}

fn words_of(job: &Job) -> Vec<String> {
    let doubts = doubts_of(job);
    let words = doubts
        .iter()
        .map(|found| doubt_words(&found.doubt, job.settings.division));
    words.collect()
}

#[test]
fn a_digit_that_no_row_has_is_said_and_the_list_stays() {
    let mut program = asked();
    program.press("9");
    assert!(is_asked(&program));
    let Some(Notice::Trouble(why)) = &program.state.notice else {
        panic!("nothing said");
    };
    assert!(why.starts_with("no 9 in the list, expected 1 to "), "{why}");
    assert_eq!(doubts_of(program.job()).len(), 1);
}

/// Each explanation is told to its end, its digit before it, also where it is long.
#[test]
fn the_list_of_a_doubt_clips_nothing_and_numbers_its_rows() {
    let mut program = asked();
    for (columns, rows) in [(80, 24), (60, 18)] {
        let screen = program.screen(columns, rows);
        assert!(screen.contains("1  "), "{screen}");
        let inside: Vec<&str> = screen
            .lines()
            .filter_map(|line| line.split('│').nth(1))
            .filter(|line| line.trim_end().ends_with(".."))
            .collect();
        assert_eq!(inside, [""; 0], "{screen}");
    }
}

#[test]
fn the_same_key_goes_to_the_next_doubt_among_the_hips_and_among_the_readings() {
    let mut job = job_with_hip(5, Hand::Left);
    put(&mut job, EdgeId(1), 3, "37 3/4", "24 1/4");
    for keys in ["<f3><esc><home>d", "<f3><tab>d"] {
        let mut program = Program::with(job.clone());
        program.press(keys);
        assert_eq!(program.state.log.course.get(), 3, "{keys}");
        assert_eq!(program.job().edges().len(), 1);
    }
}

/// The doubt that was told at a reading is the one its key leads to, whatever else is
/// doubtful in the job; another edge is named when it is gone to.
#[test]
fn the_key_leads_to_what_was_just_read_before_any_other_edge() {
    let mut job = job_with_hip(5, Hand::Left);
    put(&mut job, EdgeId(1), 3, "37 3/4", "24 1/4");
    let second = job.add_edge(Name::or("Hip 2", "?"), EdgeKind::Hip, Hand::Right);
    for (course, [bottom, top]) in (1..).zip([["36 3/4", "24 1/4"], ["24 1/4", "11 3/4"]]) {
        put(&mut job, second, course, bottom, top);
        put(&mut job, second, course + 2, bottom, top);
    }
    let mut program = Program::with(job);
    program
        .press("<f3><down><enter><end>")
        .press("37-3/4<enter>24-1/4<enter>");
    assert_eq!(program.state.log.course.get(), 6);
    program.press("d");
    assert_eq!(program.state.log.edge, Some(second));
    assert_eq!(program.state.log.course.get(), 5);
    program.press("<end>d");
    assert_eq!(program.state.log.edge, Some(EdgeId(1)));
    assert_eq!(
        program.state.notice,
        Some(Notice::Said("now at H1 Hip 1: the doubt here".to_owned()))
    );
}
