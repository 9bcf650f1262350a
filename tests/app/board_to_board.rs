//! A course that runs to another edge, by keys: logged at one edge, refused at
//! the other, cut through with a key a step, and on from between the two cuts.

use crate::support::Program;
use bendmark::app::message::{Message, Opened};
use bendmark::domain::{
    bench::Stage,
    cutting::Job,
    log::{Course, CourseNumber, EdgeId, End, ReadTo, Reading},
    measure::{Hand, Length, Name},
    piece::CourseTrouble,
    roof::{EdgeKind, RoofLine, Slope},
    settings::{Setting, Settings},
};

fn number(course: u32) -> CourseNumber {
    CourseNumber::new(course).unwrap()
}

/// Two hips of one plane, five courses each that lean 12 1/2 in.
fn two_hips(plane: [&str; 2]) -> Job {
    let mut job = Job::new(Name::or("Peak", "?"), Settings::default());
    let hips = [("East", Hand::Left), ("West", Hand::Right)];
    for ((name, hand), plane) in hips.into_iter().zip(plane) {
        let id = job.add_edge(Name::or(name, "?"), EdgeKind::Hip, hand);
        let edge = job.edge_mut(id).unwrap();
        edge.plane = Name::new(plane).ok();
        for course in 1..=5 {
            let read = |half: i64| Reading::new(Length::from_64ths(32 * half)).ok();
            edge.put(
                Course::unread(number(course))
                    .with(End::Bottom, read(90))
                    .with(End::Top, read(65)),
            );
        }
    }
    job
}

fn course(program: &Program, edge: u32, course: u32) -> Option<Course> {
    let edge = program.job().edge(EdgeId(edge)).unwrap();
    edge.course(number(course)).copied()
}

#[test]
fn a_course_is_said_to_run_to_the_planes_other_edge_and_is_read_from_board_to_board() {
    let mut program = Program::with(two_hips(["South", "South"]));
    program.press("<f3><enter>b");
    assert_eq!(program.state.log.course, number(6));
    assert_eq!(course(&program, 1, 6).unwrap().to, Some(EdgeId(2)));
    let screen = program.screen(80, 24);
    assert!(screen.contains("board to board"), "{screen}");
    program.press("40<enter>15<enter>");
    let open = program.state.open.as_ref().unwrap();
    let mut pieces = open.list.pieces.iter();
    let piece = pieces.find(|piece| piece.spec.near.is_some());
    let piece = piece.unwrap().clone();
    let label = program.state.open.as_ref().unwrap().labels.piece(piece.id);
    assert_eq!(label, "H1+H2-6");
    // Read hard, whatever the job says: a clearance of 1/4 at either end.
    let near = piece.spec.near.unwrap();
    let wide = piece.spec.bend.at_nose - near.bend.at_nose;
    assert_eq!(wide, Length::from_64ths(40 * 64 - 32));
    // The other edge shows where it is read, and takes no readings of it.
    program.press("<tab><down><enter><up><up>7");
    let screen = program.screen(80, 24);
    assert!(screen.contains("see H1-6"), "{screen}");
    assert!(program.state.field.is_none());
    assert!(
        screen.contains("course 6 is read from board to board at East (H1)"),
        "{screen}"
    );
    assert_eq!(course(&program, 2, 6), None);
}

#[test]
fn pressed_again_it_ends_in_the_field_as_before() {
    let job = two_hips(["South", "South"]);
    let mut program = Program::with(job.clone());
    program.press("<f3><enter>bb");
    assert_eq!(program.job().edges(), job.edges());
    program.press("bu");
    assert_eq!(program.job().edges(), job.edges());
}

#[test]
fn boards_that_meet_take_the_place_of_the_top() {
    let mut program = Program::with(two_hips(["South", "South"]));
    program.press("<f3><enter>b20<enter>o");
    let screen = program.screen(80, 24);
    assert!(screen.contains("the boards meet, so far up"), "{screen}");
    program.press("11.2<enter>");
    let read = course(&program, 1, 6).unwrap();
    // 20 (1 - 14 / 11.2) = -5.
    assert_eq!(
        read.gap(Length::from_inches(14)).unwrap().top,
        Length::from_inches(-5)
    );
    program.press("<down>");
    let screen = program.screen(120, 40);
    assert!(screen.contains("meet 11.2"), "{screen}");
    assert!(screen.contains("nip the tip off last"), "{screen}");
}

#[test]
fn an_edge_with_readings_of_its_own_there_is_not_run_to() {
    let mut program = Program::with(two_hips(["South", "South"]));
    program.press("<f3><enter><home>bb");
    assert_eq!(course(&program, 1, 1).unwrap().to, None);
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("course 1 of West has readings of its own"),
        "{screen}"
    );
}

#[test]
fn without_a_plane_the_edges_of_the_other_hand_come_in_turn() {
    let mut job = two_hips(["South", ""]);
    job.add_edge(Name::or("Far", "?"), EdgeKind::Rake, Hand::Right);
    let mut program = Program::with(job);
    let mut to = |keys: &str| {
        program.press(keys);
        course(&program, 1, 6).and_then(|course| course.to)
    };
    assert_eq!(to("<f3><enter>b"), Some(EdgeId(2)));
    assert_eq!(to("b"), Some(EdgeId(3)));
    assert_eq!(to("b"), None);
}

#[test]
fn where_no_lean_is_known_it_says_which_figures_are_wanted() {
    let mut job = Job::new(Name::or("Peak", "?"), Settings::default());
    for (name, hand) in [("East", Hand::Left), ("West", Hand::Right)] {
        job.add_edge(Name::or(name, "?"), EdgeKind::Hip, hand);
    }
    let mut program = Program::with(job);
    program.press("<f3><enter>b40<enter>15<enter>");
    let empty = program.state.open.as_ref().unwrap().list.empty.clone();
    assert_eq!(empty[0].why, CourseTrouble::NoLean);
    let screen = program.screen(120, 40);
    assert!(
        screen.contains("give the slopes: which end leans how much"),
        "{screen}"
    );
}

/// The two cuts are two facts: a file read between them goes on at the second.
#[test]
fn a_program_killed_between_the_two_cuts_goes_on_at_the_second() {
    let mut program = Program::with(two_hips(["South", "South"]));
    program.press("<f3><enter>b40<enter>15<enter><f4><enter>/1-6<enter>");
    program.press("<enter><enter><enter>");
    let piece = program.state.piece_in_hand().unwrap().clone();
    assert_eq!((piece.stage, piece.first_cut), (Stage::ToCut, true));
    let job = program.job().clone();
    let mut again = Program::without_job();
    again.take(Message::Opened(Box::new(Opened {
        path: "/jobs/test.ron".into(),
        job,
        odd: None,
        later: None,
        read_only: None,
    })));
    again.press("<f4><enter>/1-6<enter>");
    let piece = again.state.piece_in_hand().unwrap().clone();
    assert_eq!((piece.stage, piece.first_cut), (Stage::ToCut, true));
    again.press("<enter>");
    assert_eq!(again.state.piece_in_hand().unwrap().stage, Stage::ToBend);
    // Two pages for the two bends, then the stack.
    again.press("<enter>");
    assert_eq!(again.state.piece_in_hand().unwrap().stage, Stage::ToBend);
    again.press("<enter>");
    assert_eq!(again.state.piece_in_hand().unwrap().stage, Stage::ToStack);
}

/// Both-ended pieces come last in their edge, in either order of laying.
#[test]
fn pieces_cut_at_both_ends_come_last_in_their_edge() {
    let mut program = Program::with(two_hips(["South", "South"]));
    program.press("<f3><enter>b40<enter>15<enter>");
    let list = &program.state.open.as_ref().unwrap().list;
    let east: Vec<_> = list
        .pieces
        .iter()
        .filter(|piece| piece.id.edge == EdgeId(1))
        .collect();
    assert!(east.last().unwrap().spec.near.is_some());
    assert_eq!(
        east.iter()
            .filter(|piece| piece.spec.near.is_some())
            .count(),
        1
    );
}

/// Too wide for one panel: the lap is in the sum of the two widths once,
/// whichever of them lies on top.
#[test]
fn a_line_struck_for_two_pieces_has_the_lap_in_their_widths_once() {
    for lie in ["not-said", "left-neighbour", "right-neighbour"] {
        let mut job = two_hips(["South", "South"]);
        job.settings = Setting::PanelsLie.set(&job.settings, lie).unwrap();
        let mut program = Program::with(job);
        program.press("<f3><enter>b70<enter>45<enter><down>");
        let screen = program.screen(120, 40);
        assert!(screen.contains("too wide for one panel"), "{screen}");
        program.press("l");
        let said = |program: &Program, edge| course(program, edge, 6).unwrap();
        let halves = [1, 2].map(|edge| said(&program, edge).reads_to.unwrap());
        assert_ne!(halves[0], halves[1], "{lie}");
        // East's pieces are left-hand, so they lie on top over the left neighbour.
        let east_on_top = lie != "right-neighbour";
        assert_eq!(halves[0] == ReadTo::LapLine, east_on_top, "{lie}");
        assert!(said(&program, 1).to.is_none() && said(&program, 1).bottom.is_none());
        program.press("30<enter>17 1/2<enter><tab><down><enter>");
        while program.state.log.course != number(6) {
            program.press(if program.state.log.course < number(6) {
                "<up>"
            } else {
                "<down>"
            });
        }
        program.press("40<enter>27 1/2<enter>");
        let open = program.state.open.as_ref().unwrap();
        let width = |edge| {
            let pieces = open.pieces_of_course(EdgeId(edge), number(6));
            assert_eq!(pieces.len(), 1, "{lie}");
            pieces[0].spec.bend.at_nose
        };
        // The tape is held off by the clearance at either board.
        let lap = Length::from_inches(2);
        assert_eq!(width(1) + width(2), Length::from_inches(70) + lap, "{lie}");
        assert!(open.doubts.is_empty(), "{lie}: {:?}", open.doubts);
        program.press("<f3>uuuuu");
        assert_eq!(course(&program, 1, 6).unwrap().to, Some(EdgeId(2)));
    }
}

#[test]
fn a_line_is_struck_only_where_a_course_runs_from_board_to_board() {
    let mut program = Program::with(two_hips(["South", "South"]));
    let before = program.job().clone();
    program.press("<f3><enter><home>l");
    let screen = program.screen(80, 24);
    assert!(screen.contains("press b first"), "{screen}");
    assert_eq!(program.job(), &before);
}

#[test]
fn between_a_hip_and_a_valley_the_bench_says_which_way_each_line_is_bent() {
    let mut job = Job::new(Name::or("Both", "?"), Settings::default());
    let edges = [
        ("East", EdgeKind::Hip, Hand::Left),
        ("West", EdgeKind::Valley, Hand::Right),
    ];
    for (name, kind, hand) in edges {
        let id = job.add_edge(Name::or(name, "?"), kind, hand);
        job.edge_mut(id).unwrap().roof = RoofLine::even(Slope::parse("6 in 12").unwrap());
    }
    let mut program = Program::with(job);
    program.press("<f3><enter>b28<enter>28<enter><f4><enter>");
    program.press("<enter><enter><enter><enter>");
    assert_eq!(program.state.piece_in_hand().unwrap().stage, Stage::ToBend);
    let labels = &program.state.open.as_ref().unwrap().labels;
    let [hip, valley] = [1, 2].map(|id| labels.edge(EdgeId(id)).to_owned());
    // A page for each line, the tape's end first.
    let mut seen = Vec::new();
    for _ in 0..2 {
        let screen = program.screen(120, 40);
        let said = [(&hip, "toward"), (&valley, "away from")];
        let line = said.iter().position(|(line, way)| {
            screen.contains(&format!("THE {line} LINE: bend {way} the stone coat"))
        });
        seen.push(line.unwrap_or_else(|| panic!("{screen}")));
        assert!(!screen.contains(">bend up") && !screen.contains(">bend down"));
        program.press("<enter>");
    }
    seen.sort_unstable();
    assert_eq!(seen, [0, 1]);
}

/// Turned by the plan to save a panel, it keeps that side once it is marked.
#[test]
fn a_marked_piece_keeps_the_side_that_the_plan_chose() {
    let mut program = Program::with(two_hips(["South", "South"]));
    program.press("<f3><enter>b20<enter>o11.2<enter>");
    // A narrow left-hand piece can share its panel where the tape is at the right.
    program.press("<home>20<enter>8<enter>");
    let hand = |program: &Program| {
        let open = program.state.open.as_ref().unwrap();
        let mut pieces = open.list.pieces.iter();
        pieces
            .find(|piece| piece.spec.near.is_some())
            .unwrap()
            .spec
            .hand
    };
    assert_eq!(hand(&program), Hand::Right);
    program.press("<f4><enter>/1-6<enter><enter><enter>");
    assert_eq!(program.state.piece_in_hand().unwrap().stage, Stage::ToCut);
    // Nothing to share with any more: not marked, it would go back.
    program.press("<f3><home>45<enter>32 1/2<enter>");
    assert_eq!(hand(&program), Hand::Right);
    program.press("uuu<f3><home>45<enter>32 1/2<enter>");
    assert_eq!(hand(&program), Hand::Left);
}

#[test]
fn a_lean_taken_from_the_jobs_other_hips_is_said() {
    let mut job = two_hips(["South", ""]);
    let far = job.add_edge(Name::or("Far", "?"), EdgeKind::Hip, Hand::Right);
    job.edge_mut(far).unwrap().plane = Name::new("South").ok();
    let mut program = Program::with(job);
    program.press("<f3><enter>b40<enter>15<enter><down>");
    let screen = program.screen(120, 40);
    assert!(
        screen.contains("How much Far leans is taken from the job's other hips"),
        "{screen}"
    );
}

#[test]
fn the_rack_says_which_both_ended_piece_an_offcut_is_kept_for() {
    let mut program = Program::with(two_hips(["South", "South"]));
    program.press("<f3><enter>b30<enter>5<enter><f5>");
    program.press("a436;36<enter>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("H1+H2-6"), "{screen}");
}
