//! Pieces of a wide gap that are held for a second trip.

use crate::support::{Program, inches, put};
use bendmark::domain::cutting::{CutPiece, Job};
use bendmark::domain::measure::{Hand, Length, Name};
use bendmark::domain::roof::EdgeKind;
use bendmark::domain::settings::{Setting, Settings};
use bendmark::sheet::{csv::csv, html::html, json::json, layout::Layout, rows::Rows, text::text};

/// Hip A has a piece, a wide course of two and one of three; hip B has a piece.
fn program(second_trip: &str) -> Program {
    let settings = Settings::default();
    let settings = Setting::SecondTrip.set(&settings, second_trip).unwrap();
    let mut job = Job::new(Name::or("Mill Lane", "?"), settings);
    let a = job.add_edge(Name::or("A", "?"), EdgeKind::Hip, Hand::Left);
    put(&mut job, a, 1, "120", "108");
    put(&mut job, a, 2, "70", "58");
    put(&mut job, a, 3, "30", "18");
    let b = job.add_edge(Name::or("B", "?"), EdgeKind::Hip, Hand::Right);
    put(&mut job, b, 1, "30", "18");
    Program::with(job)
}

/// The label without its hand.
fn short(label: &str) -> String {
    label.split(' ').next().unwrap().to_owned()
}

fn order(program: &Program) -> Vec<String> {
    let open = program.state.open.as_ref().unwrap();
    let pieces = open.list.pieces.iter();
    pieces
        .map(|piece| short(&open.labels.piece(piece.id)))
        .collect()
}

fn piece<'a>(program: &'a Program, label: &str) -> &'a CutPiece {
    let open = program.state.open.as_ref().unwrap();
    let mut pieces = open.list.pieces.iter();
    let piece = pieces.find(|piece| short(&open.labels.piece(piece.id)) == label);
    piece.unwrap_or_else(|| panic!("no {label}"))
}

/// Its finished widths at bottom and top.
fn widths(program: &Program, label: &str) -> [Length; 2] {
    let bend = piece(program, label).spec.bend;
    [bend.at_nose, bend.at_rise]
}

/// Every piece before the second trip is stacked.
fn first_trip_done(program: &mut Program, pieces: usize) {
    program.press("<f4><enter>");
    for _ in 0..pieces {
        while !piece_in_hand(program).waits() {
            let before = piece_in_hand(program).id;
            program.press("<enter>");
            if piece_in_hand(program).id != before {
                break;
            }
        }
    }
}

fn piece_in_hand(program: &Program) -> &CutPiece {
    program.state.piece_in_hand().unwrap()
}

#[test]
fn without_the_setting_the_pieces_of_a_wide_gap_are_cut_on_the_cover_in_their_turn() {
    let mut program = program("no");
    assert_eq!(
        order(&program),
        ["H1-1.3", "H1-1.2", "H1-1", "H1-2.2", "H1-2", "H1-3", "H2-1"]
    );
    // 48 in wide panels cover 46.
    assert_eq!(widths(&program, "H1-2.2"), [inches("24"), inches("12")]);
    let rows = Rows::of(program.job());
    assert!(!text(&rows, 200).contains("second trip"));
    let screen = program.press("<f4><enter>").screen(80, 24);
    assert!(!screen.contains("HELD"), "{screen}");
}

#[test]
fn with_the_setting_they_come_last_and_a_full_panel_does_not_wait() {
    let program = program("yes");
    assert_eq!(
        order(&program),
        ["H1-1.2", "H1-1", "H1-2", "H1-3", "H2-1", "H1-1.3", "H1-2.2"]
    );
    assert!(piece(&program, "H1-1.3").waits() && piece(&program, "H1-2.2").waits());
    assert!(!piece(&program, "H1-1.2").waits());
}

#[test]
fn what_waits_is_said_on_the_bench_in_the_log_and_on_the_sheet_in_every_form() {
    let mut program = program("yes");
    let words = "held for the second trip: lay the pieces before it";
    let rows = Rows::of(program.job());
    for sheet in [text(&rows, 200), html(&rows, &Layout::default())] {
        assert!(sheet.contains(words), "{sheet}");
    }
    for sheet in [csv(&rows).unwrap(), json(&rows)] {
        let count = sheet.matches("waits for the second trip").count();
        assert_eq!(count, 2, "{sheet}");
    }
    let screen = program.press("<f3><enter>").screen(120, 40);
    assert!(screen.contains("waits for the second trip"), "{screen}");
    first_trip_done(&mut program, 5);
    let screen = program.screen(160, 50);
    assert!(screen.contains("HELD for the second trip"), "{screen}");
    assert!(screen.contains("Enter takes the gap"), "{screen}");
}

#[test]
fn a_held_piece_is_cut_to_the_gap_that_was_read_over_the_laid_ones() {
    let mut program = program("yes");
    first_trip_done(&mut program, 5);
    assert!(piece_in_hand(&program).waits());
    // By the cover it would be 28 and 16.
    program.press("<enter>28 1/8<enter>16 1/8<enter>");
    assert_eq!(
        widths(&program, "H1-1.3"),
        [inches("28 1/8"), inches("16 1/8")]
    );
    let rows = Rows::of(program.job());
    let sheet = text(&rows, 200);
    assert!(sheet.contains("second trip: cut to the gap as read over the laid pieces"));
    assert!(!sheet.contains("DOUBTFUL"), "{sheet}");
    // Still last, and cut like any other.
    assert_eq!(order(&program)[5], "H1-1.3");
    program.press("<enter><enter><enter><enter>");
    assert!(!piece(&program, "H1-1.3").is_open());
    assert!(piece(&program, "H1-1.3").fit.misfit().is_none());
    assert_eq!(
        widths(&program, "H1-1.3"),
        [inches("28 1/8"), inches("16 1/8")]
    );
    let screen = program.screen(80, 24);
    assert!(screen.contains("H1-2.2"), "{screen}");
}

#[test]
fn a_gap_that_is_off_the_cover_is_doubted_with_both_figures() {
    let mut program = program("yes");
    first_trip_done(&mut program, 5);
    program.press("<enter>28<enter>16 3/8<enter>");
    assert!(
        !text(&Rows::of(program.job()), 200).contains("DOUBTFUL"),
        "the tolerance is 3/8"
    );
    program.press("m");
    program.press("27 1/2<enter>15 1/8<enter>");
    let words = "the gap over the laid pieces is read 15 1/8 in at the top, by the cover 16 in";
    let screen = program.screen(120, 40);
    assert!(screen.contains(words), "{screen}");
    let rows = Rows::of(program.job());
    for sheet in [text(&rows, 200), html(&rows, &Layout::default())] {
        assert!(sheet.contains(words), "{sheet}");
    }
}

#[test]
fn an_edge_that_runs_out_over_the_laid_pieces_is_read_so_far_up() {
    let mut job = Job::new(Name::or("Mill Lane", "?"), Settings::default());
    let a = job.add_edge(Name::or("A", "?"), EdgeKind::Hip, Hand::Left);
    put(&mut job, a, 1, "53", "39");
    let mut program = Program::with(job);
    program.press("<f4><enter>m");
    assert!(piece(&program, "H1-1.2").waits());
    program.press("<left><enter><enter><enter><enter>");
    program.press("<enter>7 1/8<enter>*7<enter>");
    assert_eq!(
        widths(&program, "H1-1.2"),
        [inches("7 1/8"), -inches("7 1/8")]
    );
    // Emptied, it waits again.
    program.press("m<ctrl-u><enter>");
    let screen = program.screen(80, 24);
    assert!(piece(&program, "H1-1.2").waits(), "{screen}");
}

#[test]
fn a_key_holds_one_piece_and_takes_that_back() {
    let mut program = program("no");
    program.press("<f4><enter><pgdn>");
    program.press("/H1-2.2<enter>m");
    assert!(piece(&program, "H1-2.2").waits() && !piece(&program, "H1-1.3").waits());
    assert_eq!(order(&program).last().unwrap(), "H1-2.2");
    program.press("m");
    assert!(!piece(&program, "H1-2.2").waits());
    program.press("mu");
    assert!(!piece(&program, "H1-2.2").waits());
    // With the setting it takes one out.
    let mut program = self::program("yes");
    program.press("<f4><enter>/H1-2.2<enter>m");
    assert!(!piece(&program, "H1-2.2").waits() && piece(&program, "H1-1.3").waits());
    assert_eq!(widths(&program, "H1-2.2"), [inches("24"), inches("12")]);
    // The first of a course never waits.
    program.press("/H1-2<enter>m");
    let screen = program.screen(120, 40);
    assert!(screen.contains("only a piece beyond the first"), "{screen}");
}

#[test]
fn nothing_is_typed_before_the_pieces_before_it_are_done() {
    let mut program = program("yes");
    program.press("<f4><enter>/H1-2.2<enter><enter>");
    let screen = program.screen(120, 40);
    assert!(
        screen.contains("H1-2 L is to be cut and laid first"),
        "{screen}"
    );
    assert!(piece(&program, "H1-2.2").waits());
    assert!(program.job().events().is_empty());
}

#[test]
fn what_is_marked_on_the_cover_stays_when_the_setting_comes_later() {
    let mut program = program("no");
    program.press("<f4><enter>/H1-2.2<enter><enter>");
    let before = widths(&program, "H1-2.2");
    program.press("m");
    let job = program.job();
    let settings = Setting::SecondTrip.set(&job.settings, "yes").unwrap();
    let mut job = job.clone();
    job.settings = settings;
    let program = Program::with(job);
    let marked = piece(&program, "H1-2.2");
    assert!(!marked.waits() && marked.fit.misfit().is_none());
    assert_eq!(widths(&program, "H1-2.2"), before);
    assert_eq!(order(&program).last().unwrap(), "H1-1.3");
}

#[test]
fn bad_input_is_quoted_and_loses_nothing() {
    let mut program = program("yes");
    first_trip_done(&mut program, 5);
    for (typed, said) in [
        ("x; 3", "x"),
        ("*3; *4", "runs out once"),
        ("28; *99", "how far up the course"),
        ("1; 2; 3", "expected bottom; top"),
    ] {
        program.press("<enter>");
        program.press(&format!("{typed}<enter>"));
        let screen = program.screen(120, 40);
        assert!(screen.contains(said), "{typed}: {screen}");
        assert!(screen.contains(typed), "{typed}: {screen}");
        program.press("<esc>");
        assert!(piece_in_hand(&program).waits(), "{typed}");
    }
}
