//! The roof as a plan, read back from its cells.

use crate::support::{Program, job_with_hip, put};
use bendmark::app::place::Glyphs;
use bendmark::domain::{
    bench::Stage,
    cutting::Job,
    log::{Course, CourseNumber, EdgeId, Reading},
    measure::{Hand, Name},
    piece::PieceId,
    roof::EdgeKind,
    settings::{Setting, Settings},
    tape::Unit,
};
use bendmark::storage::{files::RealFs, keeping::load};
use proptest::prelude::*;
use std::path::Path;

fn sample(name: &str) -> Job {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("sample-jobs/{name}.ron"));
    load(&RealFs, &path).unwrap().job
}

fn job() -> Job {
    Job::new(Name::or("Larch Yard", "?"), Settings::default())
}

fn edge(job: &mut Job, kind: EdgeKind, hand: Hand, plane: Option<&str>) -> EdgeId {
    let name = format!("Edge {}", job.next_edge());
    let id = job.add_edge(Name::or(&name, "?"), kind, hand);
    job.edge_mut(id).unwrap().plane = plane.and_then(|plane| Name::new(plane).ok());
    id
}

fn read(job: &mut Job, edge: EdgeId, courses: impl IntoIterator<Item = u32>) {
    for number in courses {
        put(job, edge, number, "30", "17 1/2");
    }
}

/// A piece that runs from `from` to `to`, cut at both ends.
fn joined(job: &mut Job, from: EdgeId, to: EdgeId, number: u32) {
    let read = |text: &str| Reading::parse(text, Unit::Inch).ok();
    let mut course = Course::unread(CourseNumber::new(number).unwrap());
    (course.bottom, course.top) = (read("30"), read("5"));
    course.to = Some(to);
    job.edge_mut(from).unwrap().put(course);
}

/// One job of all that a plan has to show.
fn odd_roof() -> Job {
    let mut job = job();
    let left = edge(&mut job, EdgeKind::Hip, Hand::Right, Some("South"));
    let right = edge(&mut job, EdgeKind::Valley, Hand::Left, Some("South"));
    read(&mut job, left, 1..=3);
    read(&mut job, left, 6..=7);
    read(&mut job, right, 5..=8);
    let rake = edge(&mut job, EdgeKind::Rake, Hand::Left, Some("South"));
    read(&mut job, rake, 1..=4);
    put(&mut job, rake, 2, "110", "97 1/2");
    let [one, other] = Hand::BOTH.map(|hand| edge(&mut job, EdgeKind::Hip, hand, Some("North")));
    read(&mut job, one, 1..=3);
    read(&mut job, other, 1..=3);
    joined(&mut job, one, other, 4);
    edge(&mut job, EdgeKind::Rake, Hand::Right, None);
    job
}

#[test]
fn a_roof_of_every_sort_at_80x24_and_120x40() {
    let mut program = Program::with(odd_roof());
    program.press("<f4><enter><enter><enter><enter><enter><enter><f2>");
    insta::assert_snapshot!("plan_80x24", program.screen(80, 24));
    insta::assert_snapshot!("plan_120x40", program.screen(120, 40));
}

#[test]
fn both_sample_jobs_as_a_plan() {
    for name in ["alder-court-inches", "brook-meadow-millimetres"] {
        let mut program = Program::with(sample(name));
        program.press("<f2>");
        for (columns, rows) in [(80, 24), (120, 40)] {
            let screen = program.screen(columns, rows);
            insta::assert_snapshot!(format!("plan_{name}_{columns}x{rows}"), screen);
        }
    }
}

#[test]
fn sixty_courses_and_twelve_edges_are_scrolled_to_what_is_in_hand() {
    let mut job = job();
    for at in 0..12 {
        let hand = Hand::BOTH[at % 2];
        let id = edge(&mut job, EdgeKind::Hip, hand, Some("South"));
        read(&mut job, id, 1..=if at == 7 { 60 } else { 9 });
    }
    let mut program = Program::with(job);
    program.press("<f2><down><down><down><down><down><down><down><tab><pgdn><pgdn><pgdn>");
    insta::assert_snapshot!("plan_60_courses_80x24", program.screen(80, 24));
    insta::assert_snapshot!("plan_60_courses_120x40", program.screen(120, 40));
}

#[test]
fn the_staircase_stands_behind_the_list_where_there_is_no_room_for_both() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f2>vv");
    insta::assert_snapshot!(program.screen(80, 24));
    program.press("v");
    assert!(program.screen(80, 24).contains("\u{2550} Hip 1 \u{2550}"));
}

/// Which sign stands for a stage in plain ASCII.
fn sign(stage: Stage) -> char {
    match stage {
        Stage::ToMark => ':',
        Stage::ToCut => 'C',
        Stage::ToBend => 'B',
        Stage::ToStack => 'S',
        Stage::Stacked => '#',
    }
}

/// What stands at the end of a whole side in the row `up` above the eave, from its
/// line into the field.
fn at_end(rows: &[Vec<char>], eave: usize, up: usize, hand: Hand) -> String {
    let row = &rows[eave - up];
    let row: Vec<char> = match hand {
        Hand::Right => row.clone(),
        Hand::Left => row.iter().rev().copied().collect(),
    };
    let line = row.iter().position(|c| "/\\|".contains(*c)).unwrap();
    row[line + 1..].iter().collect()
}

/// The signs of the courses in one row, each as it is expected.
fn expected(program: &Program, edge: EdgeId, number: u32) -> String {
    let open = program.state.open.as_ref().unwrap();
    let course = CourseNumber::new(number).unwrap();
    let id = |number| PieceId {
        edge,
        course,
        number,
    };
    let pieces = (1..).map_while(|number| open.list.piece(id(number)));
    let stages: Vec<Stage> = pieces.map(|piece| piece.stage).collect();
    let signs: Vec<String> = stages.iter().rev().map(|s| sign(*s).to_string()).collect();
    match stages[..] {
        [] => "--".to_owned(),
        [Stage::ToMark | Stage::Stacked] => signs[0].repeat(2),
        _ => signs.join(" "),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Every course of either edge of a side stands at its end once, in its row, with
    /// the stage of each of its pieces, whatever was done at the bench.
    #[test]
    fn prop_every_course_stands_once_with_its_stage(
        kinds in prop::collection::vec(0_usize..3, 2),
        reach in prop::collection::vec((1_u32..4, 1_u32..9), 2),
        holes in prop::collection::vec(any::<bool>(), 30),
        wide in prop::collection::vec(any::<bool>(), 30),
        steps in 0_usize..60,
    ) {
        let mut job = job();
        let ends = [Hand::Right, Hand::Left];
        for (at, hand) in ends.into_iter().enumerate() {
            let (first, more) = reach[at];
            let id = edge(&mut job, EdgeKind::ALL[kinds[at]], hand, Some("South"));
            for number in first..=first + more {
                let is_end = number == first || number == first + more;
                let place = at * 12 + number as usize;
                if is_end || !holes[place] {
                    let wide = wide[place];
                    let (bottom, top) = if wide { ("80", "70") } else { ("30", "20") };
                    put(&mut job, id, number, bottom, top);
                }
            }
        }
        let mut program = Program::with(job);
        program.press("<f4><enter>");
        program.press(&"<enter>".repeat(steps));
        program.press("<esc><f2>");
        let screen = crate::support::text_of(&program.buffer(80, 24, Glyphs::Ascii));
        let rows: Vec<Vec<char>> = screen.lines().map(|line| line.chars().collect()).collect();
        let eave = screen.lines().position(|line| line.contains("====")).unwrap();
        for (at, hand) in ends.into_iter().enumerate() {
            let (first, more) = reach[at];
            for number in first..=first + more {
                let id = program.job().edges()[at].id;
                let shown = at_end(&rows, eave, number as usize, hand);
                let wanted = expected(&program, id, number);
                let rest = shown.strip_prefix(&wanted);
                prop_assert!(rest.is_some(), "{wanted} at {number} {hand:?}: {shown}\n{screen}");
                // No more signs of a piece behind them.
                let rest = rest.unwrap().trim_start_matches('?').chars().next();
                prop_assert!(rest.is_none_or(|c| c == ' '), "{shown}\n{screen}");
            }
        }
    }
}

#[test]
fn a_piece_that_no_longer_fits_and_a_doubt_are_marked_at_their_course() {
    let mut program = Program::with(job_with_hip(6, Hand::Right));
    // The first is marked, then its reading is found to be another one.
    program.press("<f4><enter><enter><f3><tab><home><left>37 3/4<enter><f2>");
    let screen = program.screen(80, 24);
    assert!(screen.contains(">/CX?"), "{screen}");
    assert!(screen.contains("X no longer fits"), "{screen}");
    assert!(screen.contains("1 NO LONGER FITS: n"), "{screen}");
}

#[test]
fn a_piece_cut_at_both_ends_stands_at_either_end_with_its_stage() {
    let mut job = job();
    let [one, other] = Hand::BOTH.map(|hand| edge(&mut job, EdgeKind::Hip, hand, Some("North")));
    read(&mut job, one, 1..=5);
    read(&mut job, other, 1..=5);
    joined(&mut job, one, other, 6);
    let mut program = Program::with(job);
    // The near line's figures, the far line's, and it is marked.
    program.press("<f4><enter>/1-6<enter><enter><enter><f2>");
    let screen = program.screen(80, 24);
    let row = screen.lines().find(|line| line.contains("/C"));
    // It is the one in hand: the pointer stands at it.
    assert!(row.is_some_and(|row| row.ends_with("C\\<")), "{screen}");
    program.press("<right>");
    assert!(program.screen(80, 24).contains("H2 R 0/5"));
}

/// Those of the second trip are cut last, behind all other edges.
#[test]
fn an_edge_has_its_own_pieces_alone_where_some_are_for_a_second_trip() {
    let mut job = job();
    job.settings = Setting::SecondTrip.set(&job.settings, "yes").unwrap();
    for hand in Hand::BOTH {
        let id = edge(&mut job, EdgeKind::Hip, hand, Some("North"));
        put(&mut job, id, 1, "80", "67 1/2");
        put(&mut job, id, 2, "30", "17 1/2");
    }
    let mut program = Program::with(job);
    program.press("<f2>");
    let open = program.state.open.as_ref().unwrap();
    for id in [EdgeId(1), EdgeId(2)] {
        let pieces = open.pieces_of(id);
        assert_eq!(pieces.len(), 3);
        assert!(pieces.iter().all(|piece| piece.id.edge == id), "{pieces:?}");
    }
    let screen = program.screen(80, 24);
    assert!(screen.contains("of 3"), "{screen}");
}

/// The edge whose label has the pointer.
fn pointed_at(screen: &str) -> String {
    let label = screen.split('>').find(|part| {
        let mut words = part.split_whitespace();
        words.nth(2).is_some_and(|word| word.contains('/'))
    });
    label.unwrap().split_whitespace().next().unwrap().to_owned()
}

#[test]
fn left_and_right_go_where_they_point_and_the_list_keeps_what_is_selected() {
    let mut job = job();
    for (hand, plane) in [
        (Hand::Left, "South"),
        (Hand::Right, "North"),
        (Hand::Left, "North"),
        (Hand::Right, "South"),
    ] {
        let id = edge(&mut job, EdgeKind::Hip, hand, Some(plane));
        read(&mut job, id, 1..=4);
    }
    let mut program = Program::with(job);
    program.press("<f2>");
    let mut seen = vec![pointed_at(&program.screen(80, 24))];
    for key in [
        "<left>", "<left>", "<right>", "<right>", "<right>", "<right>", "<up>",
    ] {
        program.press(key);
        seen.push(pointed_at(&program.screen(80, 24)));
    }
    assert_eq!(seen, ["H1", "H4", "H4", "H1", "H2", "H3", "H3", "H2"]);
    program.press("v");
    assert!(program.screen(80, 24).contains("\n>H2   Edge 2"));
    program.press("vv");
    assert_eq!(pointed_at(&program.screen(80, 24)), "H2");
}

/// A right-hand roof is the mirror of the left-hand one.
#[test]
fn either_end_is_the_mirror_of_the_other() {
    let drawn = |hand: Hand| {
        let mut job = job();
        let id = edge(&mut job, EdgeKind::Hip, hand, None);
        read(&mut job, id, 1..=6);
        let mut program = Program::with(job);
        program.press("<f2>");
        let buffer = program.buffer(80, 24, Glyphs::Ascii);
        let text = crate::support::text_of(&buffer);
        let rows: Vec<String> = text.lines().skip(4).take(6).map(str::to_owned).collect();
        rows
    };
    let [left, right] = Hand::BOTH.map(drawn);
    for (left, right) in left.iter().zip(&right) {
        let turned: String = left
            .trim()
            .chars()
            .rev()
            .map(|c| match c {
                '/' => '\\',
                '\\' => '/',
                '<' => '>',
                c => c,
            })
            .collect();
        assert_eq!(turned.replace(' ', ""), right.trim().replace(' ', ""));
    }
    assert!(left.iter().all(|row| row.contains('\\')), "{left:?}");
}

/// Names of hips begin alike and end alike.
#[test]
fn no_two_edges_of_the_samples_show_the_same_name_at_any_size() {
    for name in ["alder-court-inches", "brook-meadow-millimetres"] {
        let mut program = Program::with(sample(name));
        program.press("<f2>v");
        let edges = program.job().edges().len();
        for (columns, rows) in [(60, 18), (80, 24), (100, 30), (120, 40), (160, 50)] {
            let screen = program.screen(columns, rows);
            let from = screen
                .lines()
                .position(|line| line.starts_with('>'))
                .unwrap();
            let names = screen
                .lines()
                .skip(from)
                .take(edges.min(usize::from(rows) / 2 - 5));
            let mut names: Vec<String> = names
                .map(|line| line.chars().skip(6).collect::<String>())
                .map(|line| line.split("  ").next().unwrap().to_owned())
                .collect();
            if columns >= 80 {
                assert!(names.iter().all(|name| !name.contains("..")), "{screen}");
            }
            let count = names.len();
            assert!(count > 3, "{screen}");
            names.sort();
            names.dedup();
            assert_eq!(names.len(), count, "{screen}");
        }
    }
}

#[test]
fn a_job_without_an_edge_says_where_to_add_one() {
    let mut program = Program::with(job());
    program.press("<f2>");
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("No hip yet: a adds one in the Log"),
        "{screen}"
    );
    program.press("<left><right><up><down><tab><enter>v<right>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("No hip yet"), "{screen}");
}

#[test]
fn no_plan_panics_at_any_size() {
    let mut program = Program::with(odd_roof());
    program.press("<f2>");
    for columns in (1..=130).step_by(3) {
        for rows in 1..=45 {
            program.press("<right>");
            program.screen(columns, rows);
        }
        program.press("<tab><home>");
    }
}
