//! The program driven by keys, without a terminal: log, bench, undo, saving.
//!
//! Over 400 lines: one claim a test, all on the same bench.

use crate::support::{Program, inches, job_with_hip};
use bendmark::app::{
    effect::Effect,
    key::Code,
    message::{Message, Opened},
    place::Place,
    state::{Dialog, Notice, OnDisk, Question, Spot},
};
use bendmark::domain::{
    bench::{Progress, Stage},
    cutting::{CutList, CutPiece, Job},
    log::{CourseNumber, EdgeId, End},
    measure::{Hand, Name},
    settings::Settings,
};
use proptest::prelude::*;

fn empty_job() -> Job {
    Job::new(Name::or("Mill Lane", "?"), Settings::default())
}

fn reading(program: &Program, edge: u32, course: u32, end: End) -> Option<i64> {
    let edge = program.job().edge(EdgeId(edge))?;
    let course = edge.course(CourseNumber::new(course)?)?;
    course.reading(end).map(|reading| reading.length().nm())
}

fn stages(program: &Program) -> Vec<Stage> {
    let open = program.state.open.as_ref().unwrap();
    open.list.pieces.iter().map(|piece| piece.stage).collect()
}

#[test]
fn a_hip_is_made_and_read_with_the_number_pad_alone() {
    let mut program = Program::with(empty_job());
    program.press("<f3><enter><enter>4");
    program.press("36-3/4<enter>24.1/4<enter>24+1/4<enter>11.75<enter>");
    assert_eq!(program.job().edges()[0].name.as_str(), "Hip 1");
    assert_eq!(program.job().edges()[0].hand, Hand::Left);
    assert_eq!(
        reading(&program, 1, 1, End::Bottom),
        Some(inches("36 3/4").nm())
    );
    assert_eq!(
        reading(&program, 1, 1, End::Top),
        Some(inches("24 1/4").nm())
    );
    assert_eq!(
        reading(&program, 1, 2, End::Bottom),
        Some(inches("24 1/4").nm())
    );
    assert_eq!(
        reading(&program, 1, 2, End::Top),
        Some(inches("11 3/4").nm())
    );
}

#[test]
fn a_valley_may_start_at_course_3() {
    let mut program = Program::with(empty_job());
    program.press("<f3><enter>36<up><up>12<enter>24<enter>24<enter>");
    assert_eq!(reading(&program, 1, 1, End::Bottom), None);
    let first = [End::Bottom, End::Top].map(|end| reading(&program, 1, 3, end));
    assert_eq!(first, ["12", "24"].map(|read| Some(inches(read).nm())));
    // Once something is read, what lies beyond the next course is out of reach.
    program.press("<end><up><up>");
    assert_eq!(program.state.log.course.get(), 5);
}

#[test]
fn a_bad_reading_stays_in_the_field_and_is_quoted() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("<f3><tab>13 5/7<enter>");
    assert_eq!(program.state.field.as_ref().unwrap().text, "13 5/7");
    match &program.state.notice {
        Some(Notice::Trouble(text)) => assert!(text.contains("\"13 5/7\""), "{text}"),
        other => panic!("{other:?}"),
    }
}

#[test]
fn panels_to_the_right_are_right_hand_pieces() {
    let mut program = Program::with(empty_job());
    program.press("<f3>a<enter>6");
    assert_eq!(program.job().edges()[0].hand, Hand::Right);
}

#[test]
fn deleting_asks_by_another_key_and_undo_brings_it_back() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f3><del>");
    assert_eq!(
        program.state.dialog,
        Some(Dialog::Question(Question::DeleteEdge(EdgeId(1))))
    );
    program.press("<del><enter>");
    assert_eq!(program.job().edges().len(), 1);
    program.press("y");
    assert_eq!(program.job().edges().len(), 0);
    assert_eq!(program.job().changes(), 1);
    program.press("u");
    assert_eq!(program.job().edges().len(), 1);
    // What was taken back is a change too.
    assert_eq!(program.job().changes(), 2);
}

#[test]
fn one_key_a_step_walks_a_piece_to_stacked_and_goes_on() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f4><enter>");
    program.press("<enter>");
    assert_eq!(stages(&program), [Stage::ToCut, Stage::ToMark]);
    program.press("<enter><enter><enter>");
    assert_eq!(stages(&program), [Stage::Stacked, Stage::ToMark]);
    assert_eq!(program.state.bench.piece.unwrap().course.get(), 2);
}

#[test]
fn one_key_a_piece_does_all_steps_and_one_undo_takes_them_back() {
    let mut job = job_with_hip(2, Hand::Left);
    let one_key = bendmark::domain::settings::Setting::OneKey;
    job.settings = one_key.set(&job.settings, "piece").unwrap();
    let mut program = Program::with(job);
    program.press("<f4><enter><enter>");
    assert_eq!(stages(&program), [Stage::Stacked, Stage::ToMark]);
    program.press("u");
    assert_eq!(stages(&program), [Stage::ToMark, Stage::ToMark]);
    assert!(program.job().events().is_empty());
}

#[test]
fn a_held_key_counts_once() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f4><enter>");
    program.state.hold_ms = bendmark::app::state::HOLD_MS;
    // Its first repeat, then one after another, some of them late.
    for at in [
        10_000, 10_660, 10_690, 10_720, 11_000, 11_399, 11_429, 11_828,
    ] {
        program.press_at(Code::Enter, at);
    }
    assert_eq!(program.job().events().len(), 1);
    program.press_at(Code::Enter, 12_528);
    assert_eq!(program.job().events().len(), 2);
}

/// Pressed twice a second, every second press counts; before, none did.
#[test]
fn who_presses_again_and_again_gets_on() {
    let mut program = Program::with(job_with_hip(4, Hand::Left));
    program.press("<f4><enter>");
    program.state.hold_ms = bendmark::app::state::HOLD_MS;
    for press in 0..8 {
        program.press_at(Code::Enter, 10_000 + 500 * press);
    }
    assert_eq!(program.job().events().len(), 4);
}

/// A press at the very end of the time counts as one of its own.
#[test]
fn a_key_is_held_for_less_than_the_time_and_no_longer() {
    let hold = bendmark::app::state::HOLD_MS;
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f4><enter>");
    program.state.hold_ms = hold;
    program.press_at(Code::Enter, 10_000);
    program.press_at(Code::Enter, 10_000 + hold);
    assert_eq!(program.job().events().len(), 2);
}

/// An answer about an older state of the job is known by its number.
#[test]
fn every_change_has_a_number_above_the_one_before() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f4><enter><enter><enter>u");
    let changes: Vec<u64> = program
        .effects
        .iter()
        .filter_map(|effect| match effect {
            Effect::SaveJob(save) => Some(save.change),
            _ => None,
        })
        .collect();
    assert_eq!(changes.len(), 3);
    assert!(
        changes.is_sorted_by(|before, after| before < after),
        "{changes:?}"
    );
}

#[test]
fn the_key_that_reads_the_cautions_away_does_not_mark_a_piece_while_held() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.state.hold_ms = bendmark::app::state::HOLD_MS;
    program.press("<f4>");
    assert_eq!(program.state.dialog, Some(Dialog::Cautions));
    program.press_at(Code::Enter, 10_000);
    program.press_at(Code::Enter, 10_300);
    assert_eq!(program.state.dialog, None);
    assert!(program.job().events().is_empty());
}

#[test]
fn what_is_marked_keeps_its_figures_when_a_reading_changes() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f4><enter><enter>");
    program.press("<f3><tab><home><left>20<enter>");
    let open = program.state.open.as_ref().unwrap();
    let marked = &open.list.pieces[0];
    assert_eq!(
        reading(&program, 1, 1, End::Bottom),
        Some(inches("20").nm())
    );
    assert_eq!(marked.spec.bend.at_nose, inches("36 3/4"));
}

#[test]
fn undo_names_the_change_and_shows_its_place() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f4><enter><enter><f6>u");
    assert_eq!(program.state.place, Place::Bench);
    let said = Notice::Said("taken back: H1-1 L marked".to_owned());
    assert_eq!(program.state.notice, Some(said));
    program.press("y");
    assert_eq!(stages(&program)[0], Stage::ToCut);
}

fn said(program: &Program) -> &str {
    match &program.state.notice {
        Some(Notice::Said(text) | Notice::Trouble(text)) => text,
        None => "",
    }
}

#[test]
fn undo_takes_the_last_change_back_on_paper_or_at_the_bench() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f3><tab><home><left>20<enter>");
    program.press("<f4><enter><enter><f3>u");
    assert_eq!(said(&program), "taken back: H1-1 L marked");
    let bottom = |program: &Program| reading(program, 1, 1, End::Bottom);
    assert_eq!(bottom(&program), Some(inches("20").nm()));
    program.press("u");
    assert_eq!(bottom(&program), Some(inches("36 3/4").nm()));
    program.press("yy");
    assert_eq!(bottom(&program), Some(inches("20").nm()));
    assert_eq!(stages(&program)[0], Stage::ToCut);
}

#[test]
fn a_change_at_the_bench_is_named_as_it_was_made() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f4><enter>c-1/8<enter>u");
    assert_eq!(said(&program), "taken back: Hip 1: 1/8 in shorter");
}

#[test]
fn after_a_step_at_the_bench_nothing_taken_back_before_is_done_again() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f4><enter>c-1/8<enter>u<f4><enter>y");
    assert_eq!(said(&program), "nothing left to do again");
    assert_eq!(stages(&program)[0], Stage::ToCut);
}

#[test]
fn a_held_key_throws_one_offcut_away() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("<f5>a6<enter>40;40<enter>a6<enter>40;40<enter>");
    let rack = |program: &Program| program.state.open.as_ref().unwrap().rack().len();
    assert_eq!(rack(&program), 2);
    program.state.hold_ms = bendmark::app::state::HOLD_MS;
    for at in [100_000, 100_500, 100_530, 101_200] {
        program.press_at(Code::Char('d'), at);
    }
    assert_eq!(rack(&program), 1);
    program.press_at(Code::Char('d'), 102_000);
    assert_eq!(rack(&program), 0);
}

#[test]
fn the_place_that_a_piece_is_found_from_leads_to_the_bench() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f2>/1-3<enter>");
    assert_eq!(program.state.place, Place::Bench);
    assert_eq!(program.state.bench.piece.unwrap().course.get(), 3);
    // It is the first time at the bench.
    assert_eq!(program.state.dialog, Some(Dialog::Cautions));
}

#[test]
fn orders_are_handed_on_once_and_in_their_order() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("t");
    assert!(matches!(program.effects[..], [Effect::SavePreferences(_)]));
    program.press("<f6>w<enter>");
    assert_eq!(program.effects.len(), 1);
    let opened = Opened {
        path: "/jobs/odd.ron".into(),
        job: program.job().clone(),
        odd: Some("it was cut off".to_owned()),
        later: None,
        read_only: None,
    };
    program.take(Message::Opened(Box::new(opened)));
    program.effects.clear();
    program.press("<esc>");
    let before = Effect::OpenJob("/jobs/test.ron".into());
    assert_eq!(program.effects, [Effect::LetGo, before]);
}

#[test]
fn facts_of_an_earlier_session_can_be_taken_back() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f4><enter><enter><enter>");
    let mut later = Program::with(program.job().clone());
    later.press("u");
    assert_eq!(stages(&later)[0], Stage::ToCut);
    later.press("uu");
    assert_eq!(stages(&later)[0], Stage::ToMark);
}

#[test]
fn every_change_is_ordered_to_be_saved() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("<f3><tab>12<enter>");
    let saves = program
        .effects
        .iter()
        .filter(|effect| matches!(effect, Effect::SaveJob { .. }));
    assert_eq!(saves.count(), 1);
    assert_eq!(program.state.open.as_ref().unwrap().saved, OnDisk::Yes);
}

#[test]
fn quitting_with_all_saved_asks_nothing() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("q");
    assert_eq!(program.effects, [Effect::Quit]);
}

#[test]
fn ctrl_c_quits_even_in_a_field() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("<f3><tab>12<ctrl-c>");
    assert_eq!(program.effects, [Effect::Quit]);
}

#[test]
fn quitting_unsaved_asks_and_another_key_leaves() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.saves_fail = Some("no space left".to_owned());
    program.press("<f3><tab>12<enter>q");
    assert_eq!(
        program.state.dialog,
        Some(Dialog::Question(Question::QuitUnsaved))
    );
    program.press("q<enter>");
    assert!(!program.effects.contains(&Effect::Quit));
    program.press("y");
    assert!(program.effects.contains(&Effect::Quit));
}

#[test]
fn a_top_of_zero_asks_whether_the_line_runs_out_lower() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("<f3><tab>12<enter>0<enter>");
    assert!(matches!(
        program.state.dialog,
        Some(Dialog::Question(Question::RunsOut { .. }))
    ));
    program.press("o7<enter>");
    let edge = program.job().edge(EdgeId(1)).unwrap();
    let course = edge.course(CourseNumber::new(2).unwrap()).unwrap();
    assert_eq!(course.top, None);
    assert_eq!(course.runs_out.unwrap().length(), inches("7"));
}

#[test]
fn a_number_pad_key_without_numlock_is_said() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("<f3><tab>1<home>");
    assert!(matches!(&program.state.notice, Some(Notice::Trouble(t)) if t.contains("NumLock")));
    assert_eq!(program.state.field.as_ref().unwrap().text, "1");
}

#[test]
fn a_correction_reaches_only_what_is_not_marked_yet() {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f4><enter><enter>c-1/8<enter>");
    let open = program.state.open.as_ref().unwrap();
    assert_eq!(open.list.pieces[0].spec.bend.at_nose, inches("36 3/4"));
    assert_eq!(open.list.pieces[1].spec.bend.at_nose, inches("24 1/8"));
    program.press("u");
    let open = program.state.open.as_ref().unwrap();
    assert_eq!(open.list.pieces[1].spec.bend.at_nose, inches("24 1/4"));
}

/// Keys a person may press anywhere, weighted toward those that change things.
// Over 60 lines: a line a key.
pub(crate) fn any_key() -> impl Strategy<Value = &'static str> {
    proptest::sample::select(vec![
        "<enter>",
        "<enter>",
        "<enter>",
        "<esc>",
        "<tab>",
        "<left>",
        "<right>",
        "<up>",
        "<down>",
        "<home>",
        "<end>",
        "<pgup>",
        "<pgdn>",
        "<backspace>",
        "<del>",
        "<f1>",
        "<f2>",
        "<f3>",
        "<f4>",
        "<f5>",
        "<f6>",
        " ",
        "a",
        "n",
        "e",
        "<",
        "d",
        "y",
        "o",
        "s",
        "v",
        "c",
        "u",
        "-",
        "+",
        "*",
        "/",
        ".",
        "0",
        "1",
        "2",
        "5",
        "9",
        "4",
        "7",
        "8",
        "3",
        "6",
        "x",
        "h",
        "w",
        "t",
        "z",
        "<ctrl-z>",
        "<ctrl-y>",
        "in",
        "mm",
        "12 1/2<enter>",
        "48<enter>",
        "300<enter>",
    ])
}

proptest! {
    #![proptest_config(ProptestConfig { cases: cases(48), ..ProptestConfig::default() })]

    #[test]
    fn prop_undoing_everything_gives_the_job_back_and_redoing_gives_the_changes_back(
        keys in proptest::collection::vec(any_key(), 0..120)
    ) {
        let before = job_with_hip(3, Hand::Right);
        let mut program = Program::with(before.clone());
        for key in keys {
            let was = program.job().clone();
            program.press(key);
            if *program.job() != was {
                prop_assert!(program.job().changes() > was.changes());
            }
            let open = program.state.open.as_ref();
            prop_assert!(open.is_some());
            // It goes on from key to key, and comes to the same from the start.
            let progress = open.map(|open| Progress::of(open.job().events()));
            prop_assert_eq!(open.map(|open| &open.progress), progress.as_ref());
            // So does the list, but for a piece taken out of its turn.
            let open = open.unwrap();
            let in_turn = |piece: &CutPiece| !open.is_out_of_turn(piece.id);
            if open.list.pieces.iter().all(in_turn) {
                prop_assert_eq!(&open.list, &CutList::of(open.job(), &open.progress));
            }
        }
        let after = program.job().clone();
        let open = program.state.open.as_mut().unwrap();
        let mut count = 0;
        while open.undo().is_some() {
            count += 1;
        }
        prop_assert_eq!(open.job(), &before);
        for _ in 0..count {
            prop_assert!(open.redo().is_some());
        }
        // Redo of what was itself undone by keys is not counted above.
        while open.job() != &after && open.undo().is_some() {}
        prop_assert_eq!(open.job(), &after);
    }

    #[test]
    fn prop_no_keys_lead_to_a_panic_on_any_screen(
        keys in proptest::collection::vec(any_key(), 0..120),
        columns in 1_u16..130, rows in 1_u16..45,
    ) {
        let mut program = Program::with(job_with_hip(3, Hand::Right));
        for key in keys {
            program.press(key);
            program.screen(columns, rows);
        }
    }
}

pub(crate) fn cases(usual: u32) -> u32 {
    std::env::var("BENDMARK_CASES")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(usual)
}

mod offcuts {
    use super::*;
    use bendmark::domain::{cutting::PieceStock, piece::PieceId, roof::EdgeKind, stock::Rest};

    /// A left-hand hip of three narrow pieces and a right-hand one of three:
    /// each left-hand piece leaves room for a right-hand one.
    fn two_hips() -> Job {
        let mut job = empty_job();
        for hand in Hand::BOTH {
            let edge = job.add_edge(Name::or(hand.word(), "?"), EdgeKind::Hip, hand);
            for course in 1..=3 {
                crate::support::put(&mut job, edge, course, "20", "7 1/2");
            }
        }
        job
    }

    fn stock(program: &Program, label: &str) -> PieceStock {
        let open = program.state.open.as_ref().unwrap();
        let piece = |p: &&bendmark::domain::cutting::CutPiece| open.labels.piece(p.id) == label;
        open.list.pieces.iter().find(piece).unwrap().stock
    }

    fn new_panels(program: &Program) -> usize {
        program
            .state
            .open
            .as_ref()
            .unwrap()
            .panels_to_carry()
            .whole_job
    }

    #[test]
    fn each_left_hand_piece_shares_its_panel_with_a_right_hand_one() {
        let program = Program::with(two_hips());
        assert_eq!(new_panels(&program), 3);
        assert_eq!(stock(&program, "H1-1 L"), PieceStock::New { panel: 1 });
        assert!(matches!(
            stock(&program, "H2-1 R"),
            PieceStock::LeftBy { .. }
        ));
    }

    #[test]
    fn an_offcut_is_numbered_when_it_is_cut_and_used_where_it_was_promised() {
        let mut program = Program::with(two_hips());
        program.press("<f4><enter><enter><enter>");
        let open = program.state.open.as_ref().unwrap();
        let rack = open.rack();
        assert_eq!(rack.len(), 1);
        assert_eq!(rack[0].0.number.0, 1);
        let promised = rack[0].1.unwrap();
        let used = open.piece(promised).unwrap();
        assert!(matches!(used.stock, PieceStock::Rack { number, .. } if number.0 == 1));
        let first = open.list.pieces[0].rest;
        assert!(matches!(
            first,
            Rest::KeptFor {
                number: Some(_),
                ..
            }
        ));
    }

    #[test]
    fn a_spoiled_piece_is_made_again_and_undo_brings_the_old_plan_back() {
        let mut program = Program::with(two_hips());
        program.press("<f4><enter><enter><enter>");
        let before = program.job().clone();
        let planned = program.state.open.as_ref().unwrap().list.clone();
        program.press("x<enter>");
        assert_eq!(stages(&program)[0], Stage::ToMark);
        let open = program.state.open.as_ref().unwrap();
        assert_eq!(open.progress.spoiled(), 1);
        // Its offcut is still there for the piece of the other hand.
        assert!(
            open.rack()
                .iter()
                .any(|(offcut, _)| offcut.offcut.whole == Hand::Right)
        );
        program.press("u");
        assert_eq!(program.job(), &before);
        assert_eq!(program.state.open.as_ref().unwrap().list, planned);
    }

    #[test]
    fn the_own_part_of_a_spoiled_piece_serves_a_smaller_one_of_its_hand() {
        let mut job = empty_job();
        let edge = job.add_edge(Name::or("A", "?"), EdgeKind::Hip, Hand::Left);
        crate::support::put(&mut job, edge, 1, "30", "17 1/2");
        crate::support::put(&mut job, edge, 2, "18", "5 1/2");
        let mut program = Program::with(job);
        program.press("<f4><enter><enter><enter>x<enter>");
        let open = program.state.open.as_ref().unwrap();
        assert!(matches!(stock(&program, "H1-2 L"), PieceStock::Rack { .. }));
        assert_eq!(open.panels_to_carry().whole_job, 2);
    }

    #[test]
    fn an_offcut_that_is_gone_is_planned_around() {
        let mut program = Program::with(two_hips());
        program.press("<f4><enter>");
        // All three left-hand pieces, then the first right-hand one is in hand.
        program.press("<enter><enter><enter><enter>".repeat(3).as_str());
        assert!(matches!(stock(&program, "H2-1 R"), PieceStock::Rack { .. }));
        program.press("g");
        let open = program.state.open.as_ref().unwrap();
        assert_eq!(open.progress.rack().len(), 2);
        assert_eq!(open.panels_to_carry().whole_job, 4);
    }

    #[test]
    fn an_offcut_found_on_site_saves_a_panel() {
        let mut program = Program::with(two_hips());
        program.press("<f5>a<enter>40; 40<enter>");
        let open = program.state.open.as_ref().unwrap();
        let rack = open.rack();
        assert_eq!(rack.len(), 1);
        assert_eq!(rack[0].0.offcut.whole, Hand::Left);
        // Three panels for three pairs stay three: the found one stands in for
        // a left-hand piece, whose right-hand partner then opens a panel.
        assert_eq!(new_panels(&program), 3);
        program.press("d");
        assert!(program.state.open.as_ref().unwrap().rack().is_empty());
    }

    #[test]
    fn a_piece_taken_out_of_its_turn_opens_a_panel_of_its_own() {
        let mut program = Program::with(two_hips());
        program.press("<f4><enter><end>");
        let last = program.state.bench.piece.unwrap();
        let open = program.state.open.as_ref().unwrap();
        assert!(matches!(
            open.piece(last).unwrap().stock,
            PieceStock::New { .. }
        ));
        assert_eq!(open.panels_to_carry().whole_job, 3);
        program.press("<enter><enter>");
        let open = program.state.open.as_ref().unwrap();
        assert_eq!(open.rack().len(), 1);
        assert_eq!(open.rack()[0].0.offcut.whole, Hand::Left);
    }

    #[test]
    fn an_offcut_to_come_makes_the_piece_wait() {
        let mut program = Program::with(two_hips());
        program.press("<f4><enter><enter>");
        let open = program.state.open.as_ref().unwrap();
        let Rest::KeptFor { piece, .. } = open.list.pieces[0].rest else {
            panic!("{:?}", open.list.pieces[0].rest);
        };
        bendmark::app::go::to(&mut program.state, Spot::Piece(piece));
        program.press("<enter>");
        let said = format!("{:?}", program.state.notice);
        assert!(said.contains("cut that one first"), "{said}");
        let _: PieceId = piece;
    }
}

#[test]
fn nothing_is_done_while_the_window_is_too_small_to_show_it_but_saving_and_leaving() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f3><tab>");
    let before = program.job().clone();
    let screen = program.screen(59, 18);
    assert!(screen.contains("needs 60x18, q quits, k saves"), "{screen}");
    let view = program.state.log.clone();
    program.press("12 1/2<enter><del>dyxu<down><tab><f4>w+-");
    assert_eq!(*program.job(), before);
    assert_eq!(program.state.log, view);
    assert!(program.state.dialog.is_none() && program.state.field.is_none());
    program.screen(80, 24);
    program.press("<down><del>");
    assert_ne!(*program.job(), before);
}

#[test]
fn a_key_that_the_cautions_swallow_is_said() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f4>x");
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("that key did nothing: Enter goes on from the cautions"),
        "{screen}"
    );
    assert!(screen.contains("before you cut"), "{screen}");
    program.press("<enter>");
    assert!(program.state.dialog.is_none() && program.state.bench.cautions_read);
}

#[test]
fn an_amount_typed_at_longer_shorter_is_an_amount_and_its_sense_is_asked() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f4><enter>c1/8<enter>");
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("made 1/8 in LONGER") || screen.contains("1/8 in, and how did"),
        "{screen}"
    );
    let corrected = |program: &Program| {
        let open = program.state.open.as_ref().unwrap();
        open.progress.corrections(program.job().edges()[0].id)
    };
    assert_eq!(corrected(&program).nm(), 0);
    program.press("<enter>");
    assert_eq!(corrected(&program).nm(), 0);
    program.press("-");
    assert_eq!(corrected(&program), -inches("1/8"));
    program.press("c25<enter>");
    assert!(
        program
            .screen(80, 24)
            .contains("expected a small correction")
    );
    program.press("<esc>c+1/4<enter>");
    assert_eq!(corrected(&program), inches("1/8"));
}

#[test]
fn no_complaint_stands_in_a_field_before_a_key_was_pressed() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    for keys in [
        "<f3><tab>o",
        "<esc>c",
        "<esc><f6><down><down><enter>",
        "<esc><f4><enter>c-",
    ] {
        let screen = program.press(keys).screen(80, 24);
        assert!(program.state.field.is_some(), "{keys}");
        assert!(!screen.contains("is not a length"), "{keys}\n{screen}");
        assert!(!screen.contains("expected"), "{keys}\n{screen}");
    }
}
