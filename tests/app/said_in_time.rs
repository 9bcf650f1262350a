//! What is said at the moment it matters, and how many keys a day takes.

use crate::batch::both_ends;
use crate::first_day::{in_box, said, two_hips};
use crate::support::{Program, job_with_hip, put};
use bendmark::app::place::Place;
use bendmark::domain::{
    bench::Stage,
    cutting::Job,
    log::{CourseNumber, EdgeId, LaterLot},
    measure::{Hand, Name},
    roof::EdgeKind,
    settings::Setting,
};

/// One key does a whole piece.
fn one_key_a_piece(mut job: Job) -> Program {
    job.settings = Setting::OneKey.set(&job.settings, "piece").unwrap();
    Program::with(job)
}

#[test]
fn where_one_key_goes_on_to_another_hip_or_lot_it_is_said() {
    let mut job = two_hips();
    put(&mut job, EdgeId(2), 1, "36 3/4", "24 1/4");
    job.edge_mut(EdgeId(1)).unwrap().lot = Name::new("A11").ok();
    job.edge_mut(EdgeId(1)).unwrap().later_lots = vec![LaterLot {
        from: CourseNumber::new(3).unwrap(),
        lot: Name::or("B20", "?"),
    }];
    let mut program = one_key_a_piece(job);
    program.press("<f4><enter>");
    let mut heard = Vec::new();
    for _ in 0..4 {
        program.press("<enter>");
        heard.push(said(&program).to_owned());
    }
    assert!(!heard[0].contains("now"), "{heard:?}");
    assert!(heard[1].starts_with("now lot B20"), "{heard:?}");
    assert!(
        heard[2].starts_with("now H2 Hip 2, RIGHT hand"),
        "{heard:?}"
    );
    assert!(heard[3].ends_with("every piece is stacked"), "{heard:?}");
}

#[test]
fn enter_ends_a_hip_only_on_an_empty_course_and_only_there_is_it_said() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f3><enter><end>");
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("Type the bottom of course 4; Enter on"),
        "{screen}"
    );
    program.press("<home>");
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("Type over the bottom of course 1; Enter goes on."),
        "{screen}"
    );
    assert!(!screen.contains("ends this hip"), "{screen}");
}

#[test]
fn a_new_job_says_whose_settings_and_units_it_has() {
    let mut program = Program::with(two_hips());
    program.press("<f6>n");
    let screen = program.screen(80, 24);
    let words = "All settings are taken over from Mill Lane: inches, and so on.";
    assert!(in_box(&screen).contains(words), "{screen}");
}

#[test]
fn only_choices_that_go_with_the_others_are_offered() {
    let mut program = Program::with(two_hips());
    program.press("<f6><home><down>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("Enter: 1/8, 1/32\n"), "{screen}");
}

/// The bars of a first day: an edge three keys, a reading its digits and one, a piece
/// one where one key does it.
#[test]
fn an_edge_takes_three_keys_a_reading_its_digits_and_one_a_piece_one() {
    let mut program = one_key_a_piece(two_hips());
    program.press("<f3>a16");
    let edges = program.job().edges();
    assert_eq!((edges.len(), edges[2].hand), (3, Hand::Right));
    program.press("36.75<enter>24.25<enter>");
    let read = program.job().edges()[2]
        .course(CourseNumber::FIRST)
        .copied();
    assert!(read.is_some_and(|read| read.bottom.is_some() && read.top.is_some()));
    let stacked = |program: &Program| {
        let open = program.state.open.as_ref().unwrap();
        let pieces = open.list.pieces.iter();
        pieces.filter(|piece| !piece.is_open()).count()
    };
    // The cautions are read once.
    program.press("<f4><enter>");
    for count in 1..=4 {
        program.press("<enter>");
        assert_eq!(stacked(&program), count);
    }
}

/// Made again after others of its hip: it comes before the next hip, or that stack
/// goes up with a piece missing.
#[test]
fn a_piece_to_be_made_again_comes_before_the_next_hip() {
    let mut job = two_hips();
    put(&mut job, EdgeId(2), 1, "36 3/4", "24 1/4");
    let mut program = one_key_a_piece(job);
    program.press("<f4><enter><enter><enter>");
    // H1-1 is spoiled after H1-2 is stacked, and left for later.
    program.press("/h1-1<enter>x<enter>/h1-3<enter><enter>");
    let in_hand = program.state.piece_in_hand().unwrap();
    assert_eq!((in_hand.id.edge, in_hand.id.course.get()), (EdgeId(1), 1));
    program.press("<enter>");
    let in_hand = program.state.piece_in_hand().unwrap();
    assert_eq!(in_hand.id.edge, EdgeId(2));
}

/// The steel is marked before the one key of its piece is pressed.
#[test]
fn where_one_key_does_a_piece_it_can_be_spoiled_before_that_key() {
    let mut program = one_key_a_piece(two_hips());
    program.press("<f4><enter>x");
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("spoiled: what of it is usable?"),
        "{screen}"
    );
    program.press("0");
    let spoiled = |program: &Program| program.state.open.as_ref().unwrap().progress.spoiled();
    assert_eq!(spoiled(&program), 1);
    // That it was marked and spoiled is one change.
    program.press("u");
    assert_eq!(spoiled(&program), 0);
    assert!(program.job().events().is_empty());
    program.press("x-1<enter>");
    assert_eq!(spoiled(&program), 1);
}

/// `x` was the wrong key: nothing is marked by it.
#[test]
fn where_one_key_does_a_piece_it_stays_to_mark_when_it_is_not_spoiled_after_all() {
    let mut program = one_key_a_piece(two_hips());
    program.press("<f4><enter>");
    let before = program.screen(80, 24);
    program.press("x<esc>");
    assert_eq!(program.screen(80, 24), before);
    program.press("x-<esc>");
    assert!(program.job().events().is_empty());
}

/// The hand has bent hips up all day.
#[test]
fn where_one_key_does_a_piece_its_marks_say_which_way_it_is_bent() {
    let mut job = two_hips();
    let valley = job.add_edge(Name::or("Dip", "?"), EdgeKind::Valley, Hand::Left);
    put(&mut job, valley, 1, "24", "36 1/2");
    let mut program = one_key_a_piece(job);
    for (find, way) in [("H1-1", "BEND UP"), ("V1-1", "BEND DOWN")] {
        program.press("<f4><enter>/").press(find).press("<enter>");
        let screen = program.screen(80, 24);
        assert!(screen.contains(way), "{screen}");
    }
}

/// It is turned, cut twice and bent along two lines: no page says all of it.
#[test]
fn a_piece_cut_at_both_ends_is_done_a_step_at_a_time_whatever_one_key_does() {
    let mut program = one_key_a_piece(both_ends());
    program.press("<f4><enter>/1-6<enter>");
    let mut steps = Vec::new();
    for _ in 0..12 {
        let stage = program.state.piece_in_hand().map(|piece| piece.stage);
        if !steps.contains(&stage) {
            steps.push(stage);
        }
        program.press("<enter>");
    }
    let all = [Stage::ToMark, Stage::ToCut, Stage::ToBend, Stage::ToStack];
    assert_eq!(steps[..4], all.map(Some));
}

/// Three were marked on a pile when the laptop was shut: the one on top is not the
/// one that comes first in the list.
#[test]
fn after_a_restart_the_pieces_begun_are_named_where_there_are_several() {
    let mut program = Program::with(two_hips());
    program.press("<f4><enter>s3<enter>1<enter><enter><enter>");
    let again = Program::with(program.job().clone());
    let words = "3 pieces are begun: H1-1 L, H1-2 L, H1-3 L. Take up what is written";
    assert!(said(&again).starts_with(words), "{}", said(&again));
    // One alone is simply gone on with.
    let mut program = Program::with(two_hips());
    program.press("<f4><enter><enter>");
    assert_eq!(said(&Program::with(program.job().clone())), "");
}

#[test]
fn where_the_laps_say_how_edges_are_read_the_job_says_so_at_the_setting_they_overrule() {
    let mut job = two_hips();
    let said = |job: &bendmark::domain::cutting::Job| {
        let mut program = Program::with(job.clone());
        program.press("<f6>");
        let screen = program.screen(80, 24);
        let row = screen.lines().find(|row| row.contains("readings go"));
        row.unwrap().to_owned()
    };
    assert!(said(&job).ends_with("to the side-lap line"));
    job.settings = Setting::PanelsLie
        .set(&job.settings, "left-neighbour")
        .unwrap();
    assert!(said(&job).ends_with("as the panels lie, above"));
}

#[test]
fn a_new_edge_without_a_lot_is_told_where_others_have_one() {
    let mut job = two_hips();
    job.edge_mut(EdgeId(1)).unwrap().lot = Name::new("A11").ok();
    let mut program = Program::with(job);
    program.press("<f3>a24");
    assert!(
        said(&program).ends_with("; NO LOT said, others have one: s"),
        "{}",
        said(&program)
    );
}

#[test]
fn a_piece_made_late_is_laid_under_those_that_come_after_it() {
    let mut program = Program::with(job_with_hip(4, Hand::Left));
    program.press("<f4><enter>");
    for _ in 0..4 {
        program.press("<enter><enter><enter><enter>");
    }
    program.press("/h1-2<enter>x<enter><enter><enter><enter>");
    let screen = program.screen(80, 24);
    let words = "STACK it face down, UNDER H1-3 L: lift off 2 first.";
    assert!(screen.contains(words), "{screen}");
}

#[test]
fn an_edge_without_a_lot_says_so_in_the_log_while_others_have_one() {
    let mut job = two_hips();
    let words = "NO COLOUR LOT said, others have one: s says it";
    let log = |job: &bendmark::domain::cutting::Job, keys: &str| {
        let mut program = Program::with(job.clone());
        program.press("<f3><home>").press(keys);
        program.screen(120, 40)
    };
    assert!(!log(&job, "<down>").contains(words));
    job.edge_mut(EdgeId(1)).unwrap().lot = Name::new("A11").ok();
    assert!(!log(&job, "").contains(words));
    assert!(log(&job, "<down>").contains(words));
}
/// From the steel in hand F3 is for its readings, and not for those of the hip that was
/// looked at there an hour ago.
#[test]
fn from_work_at_the_bench_the_log_and_hips_show_the_hip_in_hand() {
    let mut job = two_hips();
    for course in 1..=2 {
        put(&mut job, EdgeId(2), course, "36 3/4", "24 1/4");
    }
    let mut program = Program::with(job);
    program.press("<f3><f4><enter>/2-2<enter><enter>");
    program.press("<f3>");
    assert_eq!(program.state.log.edge, Some(EdgeId(2)));
    assert_eq!(program.state.log.course, CourseNumber::new(2).unwrap());
    assert_eq!(said(&program), "now at H2 Hip 2, the one in hand");
    program.press("<f4><right><f2>");
    assert_eq!(program.state.edge_in_hips(), Some(EdgeId(2)));
    program.press("<enter>");
    assert_eq!(program.state.piece_in_hand().unwrap().id.edge, EdgeId(2));
    // A look at the Bench leaves the log where it was.
    program.press("<f3><tab><home><tab>");
    program.state.log.edge = Some(EdgeId(1));
    program.press("<f4><f3>");
    assert_eq!(program.state.log.edge, Some(EdgeId(1)));
}

#[test]
fn of_a_hip_that_is_done_hips_takes_no_piece_by_itself() {
    let mut program = one_key_a_piece(two_hips());
    program.press("<f4><enter>");
    let of_first = |program: &Program| program.state.piece_in_hand().unwrap().id.edge == EdgeId(1);
    while of_first(&program) && !said(&program).contains("every piece is stacked") {
        program.press("<enter>");
    }
    program.press("<f2><home><enter>");
    assert_eq!(program.state.place, Place::Hips);
    let words = "every piece of H1 is stacked: Tab goes to one of them";
    assert_eq!(said(&program), words);
}

/// In a batch the key only marks, whatever one key does else.
#[test]
fn of_several_no_order_of_a_later_step_stands_at_the_marks() {
    let mut program = one_key_a_piece(two_hips());
    program.press("<f4><enter>");
    assert!(program.screen(80, 24).contains("BEND UP"));
    program.press("s2<enter>1");
    let screen = program.screen(80, 24);
    assert!(!screen.contains("BEND UP"), "{screen}");
    assert!(!screen.contains("CUT as it lies"), "{screen}");
}
