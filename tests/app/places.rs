//! What is selected, and so what the next key is for, once something else has
//! changed; and that nothing typed is lost on the way.

use crate::support::{Program, inches, job_with_hip, put};
use bendmark::domain::{
    cutting::Job,
    log::{CourseNumber, EdgeId, End},
    measure::{Hand, Name},
    roof::EdgeKind,
};

fn number(number: u32) -> CourseNumber {
    CourseNumber::new(number).unwrap()
}

/// Three hips of six courses, an inch burned at one top of each.
fn three_slips() -> Job {
    let mut job = job_with_hip(6, Hand::Left);
    for name in ["Hip 2", "Hip 3"] {
        let edge = job.add_edge(Name::or(name, "?"), EdgeKind::Hip, Hand::Left);
        let courses = job.edge(EdgeId(1)).unwrap().courses().to_vec();
        job.edge_mut(edge).unwrap().put_all(courses);
    }
    for (edge, course) in [(1, 4), (2, 2), (3, 6)] {
        put(&mut job, EdgeId(edge), course, "24 1/4", "12 3/4");
    }
    job
}

#[test]
fn the_key_for_the_next_doubt_goes_through_all_edges_to_the_very_reading() {
    let mut program = Program::with(three_slips());
    program.press("<f3><tab>");
    let mut seen = Vec::new();
    for _ in 0..4 {
        // Where a doubt stands the key explains it; one course on it goes on.
        program.press("d");
        let log = &program.state.log;
        assert_eq!(log.end, End::Top);
        seen.push((log.edge.unwrap().0, log.course.get()));
        program.press("<up>");
    }
    // The Log begins above the last course of hip 1.
    assert_eq!(seen, [(2, 2), (3, 6), (1, 4), (2, 2)]);
}

#[test]
fn a_hip_finished_with_a_doubt_says_so() {
    let mut program = Program::with(three_slips());
    program.press("<f3><tab><end><enter>");
    let screen = program.screen(80, 24);
    let said = "Hip 1: 6 courses logged. 1 place of it is DOUBTFUL, marked ?";
    assert!(screen.contains(said), "{screen}");
    let mut clean = Program::with(job_with_hip(3, Hand::Left));
    let screen = clean.press("<f3><tab><end><enter>").screen(80, 24);
    assert!(!screen.contains("DOUBTFUL"), "{screen}");
}

#[test]
fn a_doubt_is_a_block_of_its_own_and_an_unknown_cause_is_not_clear() {
    let mut job = job_with_hip(8, Hand::Left);
    put(&mut job, EdgeId(1), 4, "24 1/4", "12 3/4");
    let mut program = Program::with(job);
    let screen = program.press("<f3><tab>d").screen(80, 24);
    let rows: Vec<&str> = screen.lines().collect();
    let doubt = rows
        .iter()
        .position(|row| row.contains("? course 4"))
        .unwrap();
    let is_line = |at: usize| rows[at].contains("\u{2500}\u{2500}");
    assert!(is_line(doubt - 1), "{screen}");
    assert!((doubt + 1..rows.len() - 2).any(is_line), "{screen}");
    assert_eq!(
        bendmark::domain::doubt::Cause::Unknown.words(),
        "cause not clear"
    );
}

#[test]
fn a_digit_after_the_undo_of_a_new_hip_overwrites_nothing() {
    let before = job_with_hip(2, Hand::Left);
    let mut program = Program::with(before.clone());
    program.press("<f3>a16<enter>u");
    assert_eq!(*program.job(), before);
    program.press("9<enter>");
    for course in [1, 2] {
        let edge = |job: &Job| job.edge(EdgeId(1)).unwrap().course(number(course)).copied();
        assert_eq!(edge(program.job()), edge(&before));
    }
}

#[test]
fn a_nought_that_is_taken_back_leaves_what_was_there() {
    let before = job_with_hip(2, Hand::Left);
    let mut program = Program::with(before.clone());
    program.press("<f3><tab>");
    program.state.log.course = number(2);
    program.state.log.end = End::Top;
    program.press("0<enter>");
    assert!(program.state.dialog.is_some());
    program.press("<esc>");
    assert_eq!(program.job().edges(), before.edges());
}

#[test]
fn a_list_that_became_shorter_has_its_last_row_selected() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.state.rack.offcut = 9;
    program.state.hips.edge = 9;
    program.press("<f2>");
    assert_eq!((program.state.rack.offcut, program.state.hips.edge), (0, 0));
    program.state.hips.piece = 9;
    program.press("<f2>");
    assert_eq!(program.state.hips.piece, 2);
}

#[test]
fn an_arrow_does_not_lose_what_is_typed_for_a_detail() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("<f3>s6<down><enter><esc>");
    let slope = program.job().edge(EdgeId(1)).unwrap().roof.slope;
    assert_eq!(slope.unwrap().to_string(), "6 in 12");
}

#[test]
fn a_reading_that_is_typed_over_is_said() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f3><tab>");
    program.state.log.course = number(1);
    program.state.log.end = End::Bottom;
    program.press("37<enter>");
    let screen = program.screen(120, 40);
    assert!(
        screen.contains("course 1 bottom: 37 in, it was 36 3/4 in"),
        "{screen}"
    );
    let edge = program.job().edge(EdgeId(1)).unwrap();
    assert_eq!(
        edge.course(number(1)).unwrap().bottom.unwrap().length(),
        inches("37")
    );
}

/// At 60x18 the figure is not covered by what is expected of it.
#[test]
fn what_is_typed_is_never_covered() {
    let mut program = Program::with(job_with_hip(6, Hand::Left));
    program.press("<f3><tab>");
    program.state.log.course = number(6);
    program.state.log.end = End::Top;
    program.press("12 5/8");
    for columns in 60..=130 {
        let screen = program.screen(columns, 18);
        assert!(
            screen.contains("course 6 top: 12 5/8"),
            "{columns}\n{screen}"
        );
    }
}
