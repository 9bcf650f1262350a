//! Several pieces at once: marked, then cut as they lie, then each bent and
//! stacked in laying order.
//!
//! Over 400 lines: one claim a test, all on the same bench.

use crate::split_mix::SplitMix;
use crate::support::{Program, inches, job_with_hip, put};
use bendmark::app::place::Place;
use bendmark::app::state::{Notice, State};
use bendmark::domain::{
    bench::{Fact, Stage},
    cutting::{CutPiece, Job},
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::{Hand, Name},
    piece::PieceId,
    roof::EdgeKind,
    settings::{Setting, Settings},
    tape::Unit,
};

/// Two hips of `courses` narrow pieces each; each left-hand piece leaves the
/// offcut for a right-hand one.
fn two_hips(courses: u32) -> Job {
    let mut job = Job::new(Name::or("Mill Lane", "?"), Settings::default());
    for hand in Hand::BOTH {
        let edge = job.add_edge(Name::or(hand.word(), "?"), EdgeKind::Hip, hand);
        for course in 1..=courses {
            put(&mut job, edge, course, "20", "7 1/2");
        }
    }
    job
}

/// At the Bench, the cautions read.
fn bench(mut job: Job, settings: &[(Setting, &str)]) -> Program {
    for (setting, value) in settings {
        job.settings = setting.set(&job.settings, value).unwrap();
    }
    let mut program = Program::with(job);
    program.press("<f4><enter>");
    program
}

/// Every step that was made, as its first letter and the piece's label.
fn steps(program: &Program) -> Vec<String> {
    let open = program.state.open.as_ref().unwrap();
    let events = open.job().events().iter();
    let of = |letter: char, id: PieceId| Some(format!("{letter} {}", open.labels.piece(id)));
    events
        .filter_map(|event| match event.fact {
            Fact::Marked { piece, .. } => of('m', piece),
            Fact::FirstCut(piece) => of('f', piece),
            Fact::Cut { piece, .. } => of('c', piece),
            Fact::Bent(piece) => of('b', piece),
            Fact::Stacked(piece) => of('s', piece),
            _ => None,
        })
        .collect()
}

/// The same of hip 1, without its name and hand.
fn courses(program: &Program) -> String {
    let steps = steps(program).join(" ");
    steps.replace(" H1-", "").replace(" L", "")
}

fn said(program: &Program) -> &str {
    match &program.state.notice {
        Some(Notice::Said(words) | Notice::Trouble(words)) => words,
        None => "",
    }
}

fn in_hand(program: &Program) -> &CutPiece {
    program.state.piece_in_hand().unwrap()
}

#[test]
fn in_a_pile_the_last_marked_is_cut_first_and_the_last_cut_bent_first() {
    let mut program = bench(two_hips(3), &[]);
    program.press("s3<enter>1").press(&"<enter>".repeat(12));
    assert_eq!(courses(&program), "m1 m2 m3 c3 c2 c1 b1 s1 b2 s2 b3 s3");
    // It goes on with the next hip, piece by piece.
    program.press("<enter><enter>");
    assert_eq!(steps(&program)[12..], ["m H2-1 R", "c H2-1 R"]);
}

#[test]
fn side_by_side_the_first_marked_is_cut_first() {
    let mut program = bench(two_hips(3), &[]);
    program.press("s3<enter>2").press(&"<enter>".repeat(12));
    assert_eq!(courses(&program), "m1 m2 m3 c1 c2 c3 b1 s1 b2 s2 b3 s3");
}

#[test]
fn where_the_bend_comes_first_the_pile_is_bent_from_its_top() {
    let mut program = bench(two_hips(2), &[(Setting::BenchOrder, "bend")]);
    program.press("s2<enter>1").press(&"<enter>".repeat(8));
    assert_eq!(courses(&program), "m1 m2 b2 b1 c1 s1 c2 s2");
}

#[test]
fn with_one_key_a_piece_it_still_goes_step_by_step() {
    let mut program = bench(two_hips(3), &[(Setting::OneKey, "piece")]);
    program.press("s2<enter>1").press(&"<enter>".repeat(8));
    assert_eq!(courses(&program), "m1 m2 c2 c1 b1 s1 b2 s2");
    program.press("<enter>");
    assert_eq!(courses(&program), "m1 m2 c2 c1 b1 s1 b2 s2 m3 c3 b3 s3");
}

#[test]
fn it_ends_before_a_piece_whose_offcut_is_still_to_come_and_says_so() {
    let mut program = bench(two_hips(3), &[]);
    program.press("s20<enter>1");
    assert_eq!(
        said(&program),
        "3 pieces to H1-3 L; H2-1 R comes from the offcut of H1-1 L: cut that one first"
    );
    program.press(&"<enter>".repeat(12));
    // Once those are cut all of it is there.
    program.press("s20<enter>2");
    assert_eq!(said(&program), "3 pieces to H2-3 R");
    let panels = program.state.open.as_ref().unwrap().progress.panels().len();
    assert_eq!(panels, 3);
    program.press(&"<enter>".repeat(12));
    assert!(said(&program).ends_with("every piece is stacked"));
    assert_eq!(
        program.state.open.as_ref().unwrap().progress.panels().len(),
        3
    );
}

#[test]
fn with_nothing_typed_it_is_the_rest_of_this_hip() {
    let mut job = two_hips(3);
    // Too wide to leave anything: the second hip takes panels of its own.
    for course in 1..=3 {
        put(&mut job, EdgeId(1), course, "40", "27 1/2");
    }
    let mut program = bench(job, &[]);
    program.press("<right>s<enter>1");
    assert_eq!(said(&program), "2 pieces to H1-3 L");
    program.press("<esc>s5<enter>1");
    assert_eq!(said(&program), "5 pieces to H2-3 R");
}

#[test]
fn a_count_that_is_none_is_quoted_and_stays() {
    for bad in ["six", "0", "-3", "2 1/2"] {
        let mut program = bench(two_hips(3), &[]);
        program.press("s").press(bad).press("<enter>");
        let wanted = format!("\"{bad}\" is no count of pieces, expected a number such as 6");
        assert!(said(&program).starts_with(&wanted), "{}", said(&program));
        assert!(program.state.dialog.is_some());
        program.press("<esc>");
        assert!(program.state.several().is_none());
    }
}

#[test]
fn a_piece_that_no_longer_fits_is_passed_over_and_said() {
    let mut program = bench(two_hips(4), &[]);
    program.press("<right><enter>");
    // Course 2 is read anew, far narrower.
    program.press("<f3><enter><home><up><left>14<enter><f4><home>");
    assert_eq!(program.state.open.as_ref().unwrap().list.no_longer_fit(), 1);
    program.press("s3<enter>1");
    assert_eq!(
        said(&program),
        "3 pieces to H1-4 L; held, passed over: H1-2 L"
    );
    program.press(&"<enter>".repeat(12));
    assert_eq!(
        courses(&program),
        "m2 m1 m3 m4 c4 c3 c1 b1 s1 b3 s3 b4 s4",
        "{}",
        program.screen(80, 24)
    );
}

#[test]
fn one_that_is_read_anew_meanwhile_is_passed_over_until_it_is_answered() {
    let mut program = bench(two_hips(3), &[]);
    program.press("s3<enter>1<enter><enter><enter>");
    program.press("<f3><enter><home><up><left>14<enter><f4>");
    assert_eq!(program.state.place, Place::Bench);
    program.press("/1-3<enter>").press("<enter><enter>");
    assert_eq!(courses(&program), "m1 m2 m3 c3 c1");
    program.press("nm");
    // It is marked once more, and lies on top of what is marked.
    program.press(&"<enter>".repeat(8));
    assert_eq!(courses(&program), "m1 m2 m3 c3 c1 m2 c2 b1 s1 b2 s2 b3 s3");
}

#[test]
fn any_piece_is_taken_by_its_number_and_it_goes_on_as_they_lie() {
    let mut program = bench(two_hips(4), &[]);
    program.press("s4<enter>1<enter><enter><enter><enter>");
    program.press("/1-2<enter>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("H1-2 L: taken by its number"), "{screen}");
    program.press("<enter>");
    assert_eq!(courses(&program), "m1 m2 m3 m4 c2");
    let screen = program.screen(80, 24);
    assert!(screen.contains("H1-4 L: on top of the pile"), "{screen}");
    program.press("<enter><enter><enter>");
    assert_eq!(courses(&program), "m1 m2 m3 m4 c2 c4 c3 c1");
    // Bent out of turn it waits for those that lie under it.
    program.press("/1-3<enter><enter>/1-3<enter><enter>");
    assert_eq!(
        said(&program),
        "H1-3 L is not stacked yet: H1-1 L goes on the stack before it"
    );
    assert_eq!(program.state.bench.piece.unwrap().course.get(), 1);
    program.press(&"<enter>".repeat(7));
    assert_eq!(
        courses(&program),
        "m1 m2 m3 m4 c2 c4 c3 c1 b3 b1 s1 b2 s2 s3 b4 s4"
    );
}

#[test]
fn undo_goes_back_through_it_to_the_first_mark_and_it_goes_on_from_anywhere() {
    let whole = "m1 m2 m3 c3 c2 c1 b1 s1 b2 s2 b3 s3";
    for back in 0..=12 {
        let mut program = bench(two_hips(3), &[]);
        let before = program.job().clone();
        program.press("s3<enter>1").press(&"<enter>".repeat(12));
        program.press(&"u".repeat(back));
        program.press(&"<enter>".repeat(back));
        assert_eq!(courses(&program), whole, "{back} back");
        program.press(&"u".repeat(12));
        assert_eq!(program.job().events(), before.events());
    }
}

#[test]
fn esc_ends_it_and_it_can_be_taken_up_where_the_pieces_stand() {
    let mut program = bench(two_hips(3), &[]);
    program.press("s3<enter>1<enter><enter><enter><enter><esc>");
    assert!(said(&program).starts_with("one at a time again"));
    // As after a restart: only the facts are there.
    let mut program = bench(program.job().clone(), &[]);
    assert!(program.state.several().is_none());
    program.press("s3<enter>1").press(&"<enter>".repeat(8));
    assert_eq!(courses(&program), "m1 m2 m3 c3 c2 c1 b1 s1 b2 s2 b3 s3");
}

#[test]
fn a_spoiled_one_is_marked_again_and_lies_on_top() {
    let mut program = bench(two_hips(3), &[]);
    program.press("s3<enter>1<enter><enter><enter>");
    program.press("/1-1<enter>x0").press("<enter>");
    assert_eq!(courses(&program), "m1 m2 m3 m1");
    program.press(&"<enter>".repeat(9));
    assert_eq!(courses(&program), "m1 m2 m3 m1 c1 c3 c2 b1 s1 b2 s2 b3 s3");
}

/// A hip of five and a piece that runs from it to another one.
pub(crate) fn both_ends() -> Job {
    let mut job = two_hips(5);
    let read = |text: &str| Reading::parse(text, Unit::Inch).ok();
    let course = Course {
        to: Some(EdgeId(2)),
        ..Course::unread(CourseNumber::new(6).unwrap())
    };
    for edge in [1, 2] {
        job.edge_mut(EdgeId(edge)).unwrap().plane = Name::new("South").ok();
    }
    job.edge_mut(EdgeId(1)).unwrap().put(
        course
            .with(End::Bottom, read("40"))
            .with(End::Top, read("15")),
    );
    job
}

/// Course 6 from board to board does not go on from course 5.
#[test]
fn a_peak_course_that_does_not_go_on_from_the_one_below_says_how_one_is_put_in() {
    let mut program = Program::with(both_ends());
    program.press("<f3><enter><end><down>d");
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("never read, + here puts one in"),
        "{screen}"
    );
}

/// Each edge is tried on the roof for itself.
#[test]
fn a_piece_cut_at_both_ends_says_at_which_edge_it_is_longer() {
    let mut job = both_ends();
    let (edge, by) = (EdgeId(2), inches("1/8"));
    job.record(vec![Fact::Corrected { edge, by }], None);
    let mut program = bench(job, &[]);
    program.press("/2-6<enter>");
    let screen = program.screen(120, 40);
    assert!(screen.contains("! H2 is cut 1/8 in  "), "{screen}");
    assert!(!screen.contains("this hip is cut"), "{screen}");
}

#[test]
fn a_piece_cut_at_both_ends_is_cut_twice_before_another_is_taken() {
    let mut program = bench(both_ends(), &[]);
    program.press("s6<enter>2");
    assert!(said(&program).starts_with("6 pieces"), "{}", said(&program));
    for _ in 0..40 {
        let at = in_hand(&program);
        let (id, half) = (at.id, at.first_cut && at.stage == Stage::ToCut);
        program.press("<enter>");
        if half {
            let stage = program
                .state
                .open
                .as_ref()
                .unwrap()
                .piece(id)
                .unwrap()
                .stage;
            assert_ne!(stage, Stage::ToCut);
        }
    }
    let steps = steps(&program);
    let first = steps.iter().position(|step| step == "f H1+H2-6");
    let first = first.unwrap_or_else(|| panic!("{steps:?}"));
    assert_eq!(steps[first + 1], "c H1+H2-6");
}

#[test]
fn the_label_is_large_at_every_step_in_both_sizes_of_screen() {
    // The first row of a label's beginning, in each size.
    let large = ["█ █ ▄█", "█   █  ▄█", "██      ██      ██"];
    for (columns, rows) in [(80, 24), (120, 40)] {
        let mut program = bench(two_hips(3), &[]);
        program.press("s3<enter>1");
        let mut seen = Vec::new();
        for _ in 0..12 {
            let piece = in_hand(&program);
            if piece.id.course.get() == 1 {
                seen.push(piece.stage);
                let screen = program.screen(columns, rows);
                let is_large = large.iter().any(|large| screen.contains(large));
                assert!(is_large, "{:?}\n{screen}", seen);
                assert!(screen.contains("several: 1 of 3"), "{screen}");
            }
            program.press("<enter>");
        }
        let all = [Stage::ToMark, Stage::ToCut, Stage::ToBend, Stage::ToStack];
        assert_eq!(seen, all);
    }
}

/// The keys of a text, each by itself.
fn singly(keys: &str) -> Vec<&str> {
    let mut rest = keys;
    let mut all = Vec::new();
    while !rest.is_empty() {
        let end = if rest.starts_with('<') {
            rest.find('>').unwrap()
        } else {
            0
        };
        let (one, more) = rest.split_at(end + 1);
        all.push(one);
        rest = more;
    }
    all
}

/// Says how many pieces of several at once one key stacked.
fn check_stacked(before: &State, after: &State, pressed: &[String]) -> usize {
    let (was, now) = (before.open.as_ref().unwrap(), after.open.as_ref().unwrap());
    let pieces = now.list.pieces.iter();
    let stacked = pieces.filter(|piece| !piece.is_open());
    let mut count = 0;
    for old in stacked.filter_map(|piece| was.piece(piece.id)) {
        if !old.is_open() {
            continue;
        }
        assert!(old.fit.misfit().is_none(), "{pressed:?}");
        if let Some((open, batch)) = before.several()
            && batch.place_of(old.id).is_some()
        {
            count += 1;
            assert_eq!(batch.goes_under(open, old.id), None, "{pressed:?}");
        }
    }
    count
}

/// Whatever is pressed, nothing that is held is stacked, and while several are
/// in hand none of them is stacked before one that lies under it.
#[test]
fn no_run_of_keys_stacks_out_of_turn_or_what_is_held() {
    let keys = [
        "<enter>",
        "n",
        "m",
        "s<enter>1",
        "s4<enter>2",
        "/1-2<enter>",
        "/1-4<enter>",
        "<esc>",
        "<left>",
        "x0",
        "u",
        "y",
        "<f2>",
        "<f4>",
        "g",
    ];
    let mut batches = 0;
    for one_key in ["step", "piece"] {
        for seed in 0..60 {
            let mut random = SplitMix::at(seed);
            let mut next = |below: u64| usize::try_from(random.next() % below).unwrap();
            let mut program = bench(job_with_hip(6, Hand::Left), &[(Setting::OneKey, one_key)]);
            let mut pressed = Vec::new();
            for _ in 0..120 {
                let key = if next(2) == 0 {
                    "<enter>".to_owned()
                } else if next(12) == 0 {
                    let up = "<up>".repeat(next(6));
                    let bottom = ["30", "37 1/4", "24", "40"][next(4)];
                    format!("<esc><esc><f3><enter><home>{up}<left>{bottom}<enter><f4>")
                } else {
                    keys[next(15)].to_owned()
                };
                for one in singly(&key) {
                    let before = program.state.clone();
                    program.press(one);
                    pressed.push(one.to_owned());
                    if !["u", "y"].contains(&one) {
                        batches += check_stacked(&before, &program.state, &pressed);
                    }
                }
            }
        }
    }
    assert!(batches > 50, "{batches}");
}

#[test]
fn a_hundred_at_a_time_are_all_stacked_in_laying_order() {
    let mut program = bench(two_hips(50), &[]);
    program.press("s100<enter>1").press(&"<enter>".repeat(200));
    program.press("s100<enter>1").press(&"<enter>".repeat(200));
    let open = program.state.open.as_ref().unwrap();
    assert_eq!(open.list.left(), 0);
    let stacked: Vec<String> = steps(&program)
        .into_iter()
        .filter(|step| step.starts_with('s'))
        .collect();
    let wanted = open.list.pieces.iter();
    let wanted: Vec<String> = wanted
        .map(|piece| format!("s {}", open.labels.piece(piece.id)))
        .collect();
    assert_eq!(stacked, wanted);
}
