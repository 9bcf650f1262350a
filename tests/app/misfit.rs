//! A reading is changed after its piece was marked: the cutter is told everywhere,
//! and nothing that no longer fits goes up unanswered.

use crate::first_day::{in_box, said};
use crate::split_mix::SplitMix;
use crate::support::{Program, job_with_hip, put};
use bendmark::domain::bench::{Progress, Stage};
use bendmark::domain::cutting::{CutList, Fit, Job};
use bendmark::domain::measure::Hand;
use bendmark::domain::piece::PieceId;
use bendmark::domain::settings::Setting;
use std::collections::HashSet;

/// A hip of so many courses, at the bench, the cautions read.
fn bench(courses: u32, one_key: &str) -> Program {
    let mut job = job_with_hip(courses, Hand::Left);
    job.settings = Setting::OneKey.set(&job.settings, one_key).unwrap();
    let mut program = Program::with(job);
    program.press("<f4><enter>");
    program
}

/// Types another bottom reading of a course.
fn reread(program: &mut Program, course: usize, bottom: &str) {
    program.press("<f3><enter><home>");
    program.press(&"<down>".repeat(0));
    let at = program.state.log.course.get() as usize;
    let (key, count) = if at > course {
        ("<down>", at - course)
    } else {
        ("<up>", course - at)
    };
    program.press(&key.repeat(count));
    program.press("<left>").press(bottom).press("<enter>");
}

fn list(program: &Program) -> &CutList {
    &program.state.open.as_ref().unwrap().list
}

fn misfits(program: &Program) -> HashSet<PieceId> {
    list(program).misfits().map(|(piece, _)| piece.id).collect()
}

fn stacked(program: &Program) -> HashSet<PieceId> {
    let pieces = list(program).pieces.iter();
    let stacked = pieces.filter(|piece| piece.stage == Stage::Stacked);
    stacked.map(|piece| piece.id).collect()
}

#[test]
fn a_marked_piece_that_no_longer_fits_is_not_cut_until_it_is_answered() {
    let mut program = bench(4, "step");
    program.press("<enter>");
    reread(&mut program, 1, "37 3/4");
    assert_eq!(misfits(&program).len(), 1, "{}", program.screen(80, 24));
    program.press("<f4>");
    let piece = program.state.bench.piece.unwrap();
    assert!(program.screen(80, 24).contains("1 NO LONGER FITS: n"));
    program.press("<enter>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("no longer fits the log"), "{screen}");
    assert!(screen.contains("cross the marks out"), "{screen}");
    // Enter is no answer.
    program.press("<enter><enter>");
    assert_eq!(list(&program).piece(piece).unwrap().stage, Stage::ToCut);
    program.press("m");
    let again = list(&program).piece(piece).unwrap();
    assert_eq!(again.stage, Stage::ToMark);
    assert_eq!(list(&program).no_longer_fit(), 0);
    // The same panel, marked anew.
    program.press("<enter>");
    let open = program.state.open.as_ref().unwrap();
    assert_eq!(open.progress.panels().len(), 1);
    program.press("u").press("u");
    assert_eq!(misfits(&program).len(), 1, "undone, it is asked again");
}

#[test]
fn a_stacked_piece_is_named_with_its_place_and_made_again() {
    let mut program = bench(6, "piece");
    program.press("<enter><enter><enter>");
    assert_eq!(stacked(&program).len(), 3);
    let first = list(&program).pieces[0].id;
    let course = first.course.get() as usize;
    reread(&mut program, course, "30");
    program.press("<f2>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("1 NO LONGER FITS: n"), "{screen}");
    program.press("n");
    let screen = program.screen(80, 24);
    assert!(screen.contains("third from the"), "{screen}");
    program.press("m<enter>");
    assert_eq!(stacked(&program).len(), 2);
    assert_eq!(list(&program).piece(first).unwrap().stage, Stage::ToMark);
    assert_eq!(program.state.bench.piece, Some(first));
}

#[test]
fn what_is_left_as_it_is_is_asked_again_only_where_the_log_changes_once_more() {
    let mut program = bench(4, "step");
    program.press("<enter>");
    reread(&mut program, 1, "38");
    program.press("<f4>n");
    program.press("s");
    assert!(misfits(&program).is_empty());
    program.press("<enter>");
    let piece = program.state.bench.piece.unwrap();
    assert_eq!(list(&program).piece(piece).unwrap().stage, Stage::ToBend);
    reread(&mut program, 1, "39");
    assert_eq!(misfits(&program).len(), 1);
}

#[test]
fn the_log_says_what_is_marked_cut_bent_and_stacked() {
    let mut program = bench(4, "step");
    program.press("<enter><enter>");
    program.press("<f3><enter>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("1 piece, cut"), "{screen}");
}

/// Of a job with the same log in which nothing was marked but what is cut.
fn panels_of_the_plan(job: &Job) -> usize {
    let progress = Progress::of(job.events());
    let list = CutList::of(job, &progress);
    list.plan.new_panels() + progress.panels().len()
}

/// Whatever came of the first mark, marking again takes no panel more than a job
/// in which the piece was never marked.
#[test]
fn mark_again_opens_no_panel_where_the_old_stock_serves() {
    for courses in 2..8 {
        for change in ["37 1/4", "36", "30", "38", "44"] {
            let mut never = job_with_hip(courses, Hand::Left);
            let edge = never.edges()[0].id;
            let mut program = bench(courses, "step");
            program.press("<enter>");
            let first = list(&program).pieces[0].id;
            let course = first.course.get();
            let top = if course % 2 == 1 { "24 1/4" } else { "11 3/4" };
            put(&mut never, edge, course, change, top);
            reread(&mut program, course as usize, change);
            if misfits(&program).is_empty() {
                continue;
            }
            program.press("<f4>nm");
            assert_eq!(
                panels_of_the_plan(program.job()),
                panels_of_the_plan(&never),
                "{courses} courses, {change}"
            );
        }
    }
}

/// Fifty keys at a time, readings retyped among them.
#[test]
fn no_run_of_keys_stacks_a_piece_that_no_longer_fits_and_is_not_answered() {
    let keys = [
        "<enter>", "<enter>", "<enter>", "<enter>", "n", "m", "s", "<esc>", "<left>", "<right>",
        "x", "u", "y", "<f2>", "<f4>", "g",
    ];
    for one_key in ["step", "piece"] {
        for seed in 0..cases(60) {
            let mut random = SplitMix::at(seed);
            let mut next = |below: u64| usize::try_from(random.next() % below).unwrap();
            let mut program = bench(6, one_key);
            let mut pressed = Vec::new();
            for _ in 0..50 {
                let before = (misfits(&program), stacked(&program));
                if next(8) == 0 {
                    let course = next(6) + 1;
                    let bottom = ["30", "36", "37 1/4", "24", "40"][next(5)];
                    program.press("<esc><esc>");
                    reread(&mut program, course, bottom);
                    program.press("<f4>");
                    pressed.push(format!("{course}: {bottom}"));
                    continue;
                }
                let key = keys[next(16)];
                pressed.push(key.to_owned());
                program.press(key);
                let undone = ["u", "y"].contains(&key);
                for piece in stacked(&program).difference(&before.1) {
                    assert!(
                        undone || !before.0.contains(piece),
                        "{one_key}, seed {seed}: {pressed:?}"
                    );
                }
            }
        }
    }
}

pub(crate) fn cases(usual: u64) -> u64 {
    let cases = std::env::var("BENDMARK_CASES").ok();
    cases.and_then(|cases| cases.parse().ok()).unwrap_or(usual)
}

/// The note stands on what the correction reached.
#[test]
fn a_correction_is_noted_on_the_pieces_it_reached_alone() {
    let mut program = bench(4, "step");
    program.press("<enter>");
    program.press("c-1/8<enter>");
    let screen = program.screen(80, 24);
    assert!(!screen.contains("this hip is cut"), "{screen}");
    program.press("<right>");
    let screen = program.screen(160, 50);
    assert!(
        screen.contains("this hip is cut 1/8 in shorter"),
        "{screen}"
    );
}

/// How much longer each piece of the list is at the bend line than its reading.
fn corrections(program: &Program) -> Vec<i64> {
    let open = program.state.open.as_ref().unwrap();
    let pieces = open.list.pieces.iter();
    let of = |id: PieceId| open.progress.correction(id.edge, id.course);
    pieces.map(|piece| of(piece.id).nm() / 3_175_000).collect()
}

#[test]
fn whether_a_correction_holds_for_what_is_read_again_is_asked_once_an_edge() {
    let mut program = bench(4, "step");
    program.press("c").press("-1/8<enter>");
    assert_eq!(corrections(&program), [-1; 4]);
    reread(&mut program, 2, "28");
    // Not before the second reading: its digits are no answer.
    assert_eq!(program.state.dialog, None);
    program.press("15 1/2<enter>");
    let screen = program.screen(80, 24);
    let asked = in_box(&screen);
    let words = "Is course 2 cut 1/8 in shorter also from its new reading? y: yes, 1/8 in shorter again. n: no, as read.";
    assert!(asked.contains(words), "{asked}");
    assert!(screen.contains("n no, as read"), "{screen}");
    program.press("10<enter>");
    assert!(program.state.dialog.is_some(), "answered by letters alone");
    assert!(screen.contains("are cut 1/8 in shorter"), "{screen}");
    program.press("n");
    let words = "Hip 1: course 2 is cut as it is read now, not 1/8 in shorter";
    assert_eq!(said(&program), words);
    assert_eq!(corrections(&program), [-1, 0, -1, -1]);
    // The same edge is not asked about again, and the answer reaches what is read
    // again, not what is read for the first time.
    reread(&mut program, 3, "20");
    program.press("<f2>");
    assert_eq!(program.state.dialog, None);
    assert_eq!(corrections(&program), [-1, 0, 0, -1]);
    // What is said after that holds for all.
    program.press("<f4>c").press("-1/8<enter>");
    assert_eq!(corrections(&program), [-2, -1, -1, -2]);
    program.press("uu");
    assert_eq!(corrections(&program), [-1, 0, -1, -1]);
}

#[test]
fn a_correction_holds_for_what_is_read_again_unless_somebody_says_otherwise() {
    let mut program = bench(4, "step");
    program.press("c").press("-1/8<enter>");
    reread(&mut program, 2, "28");
    program.press("<f2><esc>");
    reread(&mut program, 2, "28 1/8");
    program.press("<f2>y");
    let words = "Hip 1: course 2 is cut 1/8 in shorter again, from its new reading";
    assert_eq!(said(&program), words);
    reread(&mut program, 3, "20");
    program.press("<f2>");
    assert_eq!(program.state.dialog, None);
    assert_eq!(corrections(&program), [-1; 4]);
}

/// A piece marked with a correction, and one marked before it, against a course
/// that is read again without: what is on the steel counts, once.
#[test]
fn marks_are_held_against_what_is_read_again_with_what_they_have_in_them() {
    let mut program = bench(4, "piece");
    program.press("<enter>");
    program.press("c").press("-1/4<enter>").press("<enter>");
    let before = list(&program).pieces[..2].to_vec();
    for (course, piece) in (1..).zip(before) {
        let job = program.state.job().unwrap();
        let read = job.edges()[0].courses()[course - 1].bottom.unwrap();
        let eighths = read.length().nm() / 3_175_000 + 8;
        reread(
            &mut program,
            course,
            &format!("{} {}/8", eighths / 8, eighths % 8),
        );
        program.press("<f2>");
        if program.state.dialog.is_some() {
            program.press("n");
        }
        let again = list(&program);
        let again = again.pieces.iter().find(|other| other.id == piece.id);
        let Fit::Not(misfit) = &again.unwrap().fit else {
            panic!("{:?}", again.unwrap().fit);
        };
        // An inch wider than read; the second has a quarter less in it besides.
        let nose = misfit.off.unwrap().nose.nm() / 6_350_000;
        assert_eq!(nose, if course == 1 { -4 } else { -5 });
    }
}
