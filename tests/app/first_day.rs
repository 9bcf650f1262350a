//! What someone stumbled over who had never seen the program.

use crate::support::{Program, job_with_hip, put};
use bendmark::app::effect::Effect;
use bendmark::app::message::{KeptState, Message};
use bendmark::app::state::Notice;
use bendmark::domain::{
    cutting::{Job, differences, doubt_words, doubts_of},
    log::{Course, CourseNumber, EdgeId, Reading},
    measure::{Hand, Length, Name},
    roof::{EdgeKind, Slope},
    settings::Settings,
};
use std::path::PathBuf;

pub(crate) fn said(program: &Program) -> &str {
    match &program.state.notice {
        Some(Notice::Said(text) | Notice::Trouble(text)) => text,
        None => "",
    }
}

/// The words of the box that stands in front.
pub(crate) fn in_box(screen: &str) -> String {
    let rows = screen.lines().filter_map(|line| line.split('│').nth(1));
    rows.flat_map(str::split_whitespace)
        .collect::<Vec<&str>>()
        .join(" ")
}

/// A hip of three courses and one of the other hand, not read.
pub(crate) fn two_hips() -> Job {
    let mut job = job_with_hip(3, Hand::Left);
    job.add_edge(Name::or("Hip 2", "?"), EdgeKind::Hip, Hand::Right);
    job
}

#[test]
fn what_a_struck_line_drops_is_said_and_comes_back() {
    let mut program = Program::with(two_hips());
    put_in_place(&mut program);
    let before = program.job().clone();
    // A letter that leads to another place everywhere else takes nothing at once.
    program.press("b");
    assert_eq!(*program.job(), before);
    let words = "is read: b again makes it run from board to board";
    assert!(said(&program).ends_with(words), "{}", said(&program));
    program.press("bl");
    let words = "is read: l again strikes a line up it and drops its readings";
    assert!(said(&program).ends_with(words), "{}", said(&program));
    // Another key between is a new beginning.
    program.press("<left><right>l");
    assert!(said(&program).ends_with(words), "{}", said(&program));
    program.press("l");
    let words = "dropped: bottom 36 3/4 in, top 24 1/4 in, u brings them back";
    assert!(said(&program).ends_with(words), "{}", said(&program));
    program.press("uu");
    assert_eq!(program.job().edges(), before.edges());
    // With nothing read there is nothing to drop.
    let mut program = Program::with(two_hips());
    program.press("<f3><enter><end><up>bl");
    assert!(!said(&program).contains("dropped"), "{}", said(&program));
}

/// To the bottom of course 1 of the first hip.
fn put_in_place(program: &mut Program) {
    program.press("<f3><enter><home>");
    assert_eq!(program.state.log.course, CourseNumber::FIRST);
}

#[test]
fn an_earlier_version_is_asked_about_once_and_says_what_leads_back() {
    let mut program = Program::with(two_hips());
    let kept = |differs: &[&str]| KeptState {
        path: PathBuf::from("/jobs/test.copies/1.ron"),
        says: "version          2 h ago        4 readings".to_owned(),
        differs: differs.iter().map(|line| (*line).to_owned()).collect(),
        is_readable: true,
    };
    let read = |program: &Program| {
        let orders = program.effects.iter();
        orders
            .filter(|effect| matches!(effect, Effect::ReadKept(_)))
            .count()
    };
    program.press("<f6>v");
    program.take(Message::KeptListed(vec![kept(&["2 readings, here 6"])]));
    program.press("<enter>");
    assert_eq!(read(&program), 0);
    let screen = program.screen(80, 24);
    for words in [
        "2 h ago 4 readings. It has otherwise:",
        "u does not undo this",
        "v lists it",
    ] {
        assert!(screen.contains(words), "{words}: {screen}");
    }
    // Enter brought it up, and does not answer it; Esc is back at the list.
    program.press("<enter><esc>");
    assert!(program.screen(80, 24).contains("go back to which?"));
    program.press("<enter>y");
    assert_eq!(read(&program), 1);
    program.take(Message::KeptRead(Box::new(Job::new(
        Name::or("test", "?"),
        program.job().settings,
    ))));
    assert!(said(&program).contains("what was here before is kept"));
    let before = program
        .effects
        .iter()
        .rev()
        .find_map(|effect| match effect {
            Effect::SaveJob(to_save) => to_save.before.clone(),
            _ => None,
        });
    assert_eq!(before.unwrap().edges().len(), 2);
    // One that is as the screen takes nothing away.
    program.press("<f6>v");
    program.take(Message::KeptListed(vec![kept(&[])]));
    program.press("<enter>");
    assert_eq!(read(&program), 2);
}

/// Of the readings four are told at most: a piece that is cut must not stand behind.
#[test]
fn steel_that_a_version_knows_nothing_of_is_told_before_its_readings() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    let nothing = program.job().clone();
    program.press("<f4><enter><enter>");
    let begun = program.job().clone();
    program.press("<enter><enter><enter><enter>");
    let mut now = program.job().clone();
    put(&mut now, EdgeId(1), 3, "36 1/2", "24 1/2");
    let told = |now: &Job, other: &Job| differences(now, other)[0].clone();
    assert_eq!(
        told(&now, &nothing),
        "steel: 1 stacked and 1 begun here, not marked in it: to mark again"
    );
    assert_eq!(
        told(&nothing, &now),
        "steel: 1 stacked and 1 begun in it, not marked here"
    );
    assert_eq!(
        differences(&now, &begun)[..2],
        [
            "steel: 1 begun here, not marked in it: to mark again",
            "steel: 1 piece is less far in it than here"
        ]
    );
    assert_eq!(told(&begun, &now), "steel: 1 begun in it, not marked here");
    program.press("<f6>v");
    program.take(Message::KeptListed(vec![KeptState {
        path: PathBuf::from("/jobs/test.copies/1.ron"),
        says: "version          7 min 5 s old   0 of 3 stacked".to_owned(),
        differs: differences(&now, &nothing),
        is_readable: true,
    }]));
    program.press("<enter>");
    let words = in_box(&program.screen(80, 24));
    assert!(
        words.contains("It has otherwise: steel: 1 stacked and 1 begun here, not marked in it"),
        "{words}"
    );
}

#[test]
fn by_what_a_piece_was_spoiled_is_offered_with_its_keys() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f4><enter><enter>x");
    let screen = program.screen(80, 24);
    let words = "r a reading, m a mark, c the cut, b the bend, d dropped";
    assert!(in_box(&screen).contains(words), "{screen}");
    assert!(screen.contains("r m c b d by what"), "{screen}");
    program.press("r");
    let screen = program.screen(80, 24);
    let words = "Spoiled by: reading. Press its key again to take that back.";
    assert!(in_box(&screen).contains(words), "{screen}");
}

#[test]
fn after_a_restart_the_bench_goes_on_with_the_piece_begun() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f4><enter>/1-3<enter><enter>");
    let job = program.job().clone();
    let mut program = Program::with(job);
    program.press("<f4><enter>");
    let in_hand = program.state.piece_in_hand().unwrap();
    assert_eq!(in_hand.id.course.get(), 3);
    program.press("<enter><enter><enter>");
    let open = program.state.open.as_ref().unwrap();
    assert_eq!(open.list.left(), 2);
    // Nothing is begun: from the start.
    let mut program = Program::with(program.job().clone());
    program.press("<f4><enter>");
    let in_hand = program.state.piece_in_hand().unwrap();
    assert_eq!(in_hand.id.course.get(), 1);
}

/// A line that runs out has longer words than all others.
#[test]
fn no_column_of_the_list_of_pieces_runs_into_the_next() {
    let mut job = job_with_hip(3, Hand::Left);
    let read = |in_64ths: i64| Reading::new(Length::from_64ths(in_64ths)).ok();
    job.edge_mut(EdgeId(1)).unwrap().put(Course {
        bottom: read(9 * 64 + 25),
        runs_out: read(10 * 64 + 61),
        ..Course::unread(CourseNumber::new(4).unwrap())
    });
    let mut program = Program::with(job);
    program.press("<f2>v");
    for (columns, rows) in [(80, 24), (120, 40)] {
        let screen = program.screen(columns, rows);
        let listed = screen.lines().filter(|row| row.contains("to mark  "));
        let stock: Vec<_> = listed.filter_map(|row| row.find(" panel ")).collect();
        assert!(stock.len() >= 4, "{screen}");
        assert!(stock.iter().all(|at| *at == stock[0]), "{screen}");
    }
}

/// Five courses of six, the third forgotten: three joints of four agree, and by the
/// slope the fourth jumps by just one course.
#[test]
fn a_course_forgotten_among_few_is_told_where_the_slope_confirms_its_step() {
    let forgotten = |slope: &str| {
        let mut job = job_with_hip(0, Hand::Left);
        job.edge_mut(EdgeId(1)).unwrap().roof.slope = Slope::parse(slope).ok();
        let read = [
            ["30 1/4", "18 3/16"],
            ["18 3/16", "6 1/16"],
            ["52 1/16", "40"],
            ["27 7/8", "15 13/16"],
            ["15 13/16", "3 11/16"],
        ];
        for (number, [bottom, top]) in (1..).zip(read) {
            put(&mut job, EdgeId(1), number, bottom, top);
        }
        let doubts = doubts_of(&job);
        let words = doubts
            .iter()
            .map(|found| doubt_words(&found.doubt, job.settings.division));
        words.collect::<Vec<String>>()
    };
    let words =
        "between course 3 and course 4 likely a course forgotten: those above it move up by one";
    assert_eq!(forgotten("7"), [words]);
    // Without the slope three that agree may do so by chance.
    assert_eq!(forgotten(""), [""; 0]);
}

/// Two hips of one plane that meet in course 4: three courses at either edge, and the
/// fourth from board to board.
fn up_to_the_peak([bottom, top]: [&str; 2]) -> Job {
    let mut job = Job::new(Name::or("Peak", "?"), Settings::default());
    for (name, hand) in [("East", Hand::Left), ("West", Hand::Right)] {
        let id = job.add_edge(Name::or(name, "?"), EdgeKind::Hip, hand);
        let edge = job.edge_mut(id).unwrap();
        edge.plane = Name::new("South").ok();
        edge.roof.slope = Slope::parse("6 in 12").ok();
        for course in 1..=3 {
            put(&mut job, id, course, bottom, top);
        }
    }
    let read = |inches: i64| Reading::new(Length::from_inches(inches)).ok();
    job.edge_mut(EdgeId(1)).unwrap().put(Course {
        bottom: read(20),
        runs_out: Reading::new(Length::from_64ths(11 * 64 + 13)).ok(),
        to: Some(EdgeId(2)),
        ..Course::unread(CourseNumber::new(4).unwrap())
    });
    job
}

fn doubts_in_words(job: &Job) -> Vec<String> {
    let doubts = doubts_of(job);
    let words = doubts.iter().map(|found| {
        let name = &job.edge(found.edge).unwrap().name;
        format!(
            "{name} {}",
            doubt_words(&found.doubt, job.settings.division)
        )
    });
    words.collect()
}

#[test]
fn a_course_above_the_one_in_which_the_boards_meet_is_doubted_at_once_at_either_edge() {
    let job = up_to_the_peak(["23 1/4", "10 3/4"]);
    assert_eq!(doubts_in_words(&job), [""; 0]);
    let words = "course 5, both readings no roof there: the boards of both edges meet in course 4";
    let mut program = Program::with(job);
    program.press("<f3><down><enter>");
    program.state.log.course = CourseNumber::new(5).unwrap();
    program.press("15<enter>");
    assert_eq!(said(&program), format!("DOUBTFUL: {words}"));
    assert_eq!(doubts_in_words(program.job()), [format!("West {words}")]);
    // The suggestion takes the course out, and undo brings it back.
    program.state.log.course = CourseNumber::new(5).unwrap();
    program.press("f");
    assert_eq!(doubts_in_words(program.job()), [""; 0]);
    program.press("u");
    assert_eq!(doubts_in_words(program.job()), [format!("West {words}")]);
    // Measured again, it stands.
    program.state.log.course = CourseNumber::new(5).unwrap();
    program.press("x");
    assert_eq!(doubts_in_words(program.job()), [""; 0]);
    // One more from board to board is above it too.
    let mut job = up_to_the_peak(["23 1/4", "10 3/4"]);
    let read = |inches: i64| Reading::new(Length::from_inches(inches)).ok();
    job.edge_mut(EdgeId(1)).unwrap().put(Course {
        bottom: read(15),
        to: Some(EdgeId(2)),
        ..Course::unread(CourseNumber::new(5).unwrap())
    });
    assert_eq!(doubts_in_words(&job), [format!("East {words}")]);
}

#[test]
fn gaps_wider_than_what_is_left_of_the_plane_are_doubted_with_what_is_left() {
    let mut job = up_to_the_peak(["35 3/4", "23 1/4"]);
    let read = |inches: i64| Reading::new(Length::from_inches(inches)).ok();
    let course = |number: u32| Course::unread(CourseNumber::new(number).unwrap());
    // 45 in wide at course 4, 20 at course 5: they meet in it.
    job.edge_mut(EdgeId(1)).unwrap().put(Course {
        bottom: read(45),
        top: read(20),
        to: Some(EdgeId(2)),
        ..course(4)
    });
    put(&mut job, EdgeId(2), 5, "37 1/2", "25");
    let words =
        "West course 5, both readings wider than the roof side: only 20 in of it is left there";
    assert_eq!(doubts_in_words(&job), [words]);
    put(&mut job, EdgeId(2), 6, "37 1/2", "25");
    let above =
        "West course 6, both readings no roof there: the boards of both edges meet in course 5";
    assert_eq!(doubts_in_words(&job), [words, above]);
    // As wide as it is, from board to board, it stands.
    let mut whole = job.clone();
    for number in [5, 6] {
        whole
            .edge_mut(EdgeId(2))
            .unwrap()
            .remove(CourseNumber::new(number).unwrap());
    }
    whole.edge_mut(EdgeId(1)).unwrap().put(Course {
        bottom: read(20),
        runs_out: Reading::new(Length::from_64ths(11 * 64 + 13)).ok(),
        to: Some(EdgeId(2)),
        ..course(5)
    });
    assert_eq!(doubts_in_words(&whole), [""; 0]);
}
