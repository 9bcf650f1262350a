//! What the screen asks and says where work is not on the disk, where another
//! program has the job, and where another has changed its file.

use crate::support::{Program, job_with_hip};
use bendmark::app::effect::{Effect, OtherFile, ToSave};
use bendmark::app::message::{Message, Opened};
use bendmark::app::state::{Dialog, Notice, OnDisk, Prompt, Question};
use bendmark::domain::{cutting::Job, measure::Hand};
use proptest::prelude::*;
use std::path::PathBuf;

fn at_the_bench() -> Program {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f4><enter>");
    program.effects.clear();
    program
}

fn reading_only() -> Program {
    let mut program = Program::without_job();
    program.take(Message::Opened(Box::new(Opened {
        path: PathBuf::from("/jobs/test.ron"),
        job: job_with_hip(3, Hand::Left),
        odd: None,
        later: None,
        read_only: Some("reading only: why".to_owned()),
    })));
    program
}

fn is_refused(program: &Program) -> bool {
    program.state.notice == Some(Notice::Trouble("reading only: why".to_owned()))
}

#[test]
fn a_job_open_elsewhere_is_shown_and_every_change_refused() {
    let mut program = reading_only();
    assert!(is_refused(&program), "it is said at once");
    let before = program.job().clone();
    let changes = [
        "<f4><enter><enter>",
        "u",
        "y",
        "<f3><enter>5",
        "<f3><tab>d y",
        "<f3>aa<enter><enter>Hip 9<enter>",
        "<f6><enter>",
        "<f5>a<enter>30;18<enter>",
        "k",
    ];
    for keys in changes {
        program.state.notice = None;
        program.press(keys);
        assert_eq!(*program.job(), before, "{keys}");
        program.press("<esc><esc>");
    }
    let saves = |effect: &Effect| matches!(effect, Effect::SaveJob { .. });
    assert!(!program.effects.iter().any(saves));
    assert!(program.screen(80, 24).contains("READ ONLY"));
}

#[test]
fn a_bench_key_on_a_job_open_elsewhere_is_refused_in_words() {
    let mut program = reading_only();
    program.press("<f4><enter><enter>");
    assert!(is_refused(&program));
    program.press("<f3>");
    assert!(!is_refused(&program));
    program.press("u");
    assert!(is_refused(&program));
}

#[test]
fn a_failed_save_says_what_to_do_first_and_why_in_full() {
    let mut program = at_the_bench();
    program.saves_fail = Some("the disk is full, make room or save under another path".to_owned());
    program.press("<enter>");
    for (columns, rows) in [(80, 24), (60, 18)] {
        let screen = program.screen(columns, rows);
        let words = screen.split_whitespace().collect::<Vec<_>>().join(" ");
        let banner = "NOT SAVED (k tries again, f saves elsewhere): the disk is full, make room or save under another path";
        assert!(words.contains(banner), "{screen}");
    }
}

#[test]
fn the_next_change_and_a_key_try_again() {
    let mut program = at_the_bench();
    program.saves_fail = Some("why".to_owned());
    program.press("<enter>");
    program.saves_fail = None;
    program.press("<enter>");
    assert_eq!(program.state.open.as_ref().unwrap().saved, OnDisk::Yes);
    program.saves_fail = Some("why".to_owned());
    program.press("<enter>");
    program.saves_fail = None;
    program.press("k");
    assert_eq!(program.state.open.as_ref().unwrap().saved, OnDisk::Yes);
}

#[test]
fn another_path_is_offered_and_the_job_is_there_from_then_on() {
    let mut program = at_the_bench();
    program.saves_fail = Some("why".to_owned());
    program.press("<enter>q");
    assert_eq!(
        program.state.dialog,
        Some(Dialog::Question(Question::QuitUnsaved))
    );
    program.press("f");
    let text = "/jobs/test.ron".to_owned();
    assert_eq!(
        program.state.dialog,
        Some(Dialog::prompt(Prompt::SaveElsewhere, text))
    );
    // What is offered is selected: Backspace keeps it, but for its end.
    program.press("<backspace>n2<enter>");
    let Some(Effect::SaveElsewhere(path, ToSave { change, .. })) = program.effects.last().cloned()
    else {
        panic!("{:?}", program.effects);
    };
    assert_eq!(path, PathBuf::from("/jobs/test.ron2"));
    let why = "something of that name is there already, choose another".to_owned();
    program.take(Message::NotSavedElsewhere(
        "/jobs/test.ron2".to_owned(),
        why,
    ));
    assert!(matches!(
        program.state.dialog,
        Some(Dialog::Prompt {
            what: Prompt::SaveElsewhere,
            ..
        })
    ));
    program.press("3<enter>");
    program.take(Message::SavedElsewhere(
        PathBuf::from("/jobs/test.ron23"),
        change,
    ));
    let open = program.state.open.as_ref().unwrap();
    assert_eq!(open.saved, OnDisk::Yes);
    assert_eq!(open.path, PathBuf::from("/jobs/test.ron23"));
    assert_eq!(program.state.preferences.recent[0], open.path);
}

#[test]
fn a_file_changed_by_another_program_is_asked_about() {
    let mut program = at_the_bench();
    program.take(Message::ChangedOutside);
    insta::assert_snapshot!(program.screen(80, 24));
    // The key that works on does not answer.
    program.press("<enter>");
    assert_eq!(
        program.state.dialog,
        Some(Dialog::Question(Question::ChangedOutside))
    );
    program.press("o");
    assert!(matches!(
        program.effects.last(),
        Some(Effect::OpenOther { .. })
    ));
    program.take(Message::ChangedOutside);
    program.press("y");
    assert!(matches!(
        program.effects.last(),
        Some(Effect::SaveJob(ToSave {
            other: OtherFile::GoesAside,
            ..
        }))
    ));
}

#[test]
fn leaving_while_another_program_has_changed_the_file_asks_first() {
    let mut program = at_the_bench();
    program.saves_fail = Some("why".to_owned());
    program.press("<enter>");
    program.state.leaving = true;
    program.take(Message::ChangedOutside);
    assert!(!program.state.leaving);
}

/// What opening a job with a damaged file leads to once that is declined.
fn declined(program: &mut Program, path: &str) -> Vec<Effect> {
    program.take(Message::Opened(Box::new(Opened {
        path: PathBuf::from(path),
        job: job_with_hip(1, Hand::Left),
        odd: Some("it is damaged".to_owned()),
        later: None,
        read_only: None,
    })));
    program.effects.clear();
    program.press("<enter><esc>");
    assert!(program.state.open.is_none());
    program.effects.clone()
}

#[test]
fn a_damaged_file_that_is_left_alone_leads_back_to_the_job_before() {
    let mut program = at_the_bench();
    let back = Effect::OpenJob(PathBuf::from("/jobs/test.ron"));
    assert_eq!(
        declined(&mut program, "/jobs/damaged.ron"),
        [Effect::LetGo, back]
    );
    let mut program = Program::without_job();
    assert_eq!(declined(&mut program, "/jobs/damaged.ron"), [Effect::LetGo]);
    // The very job that was open: there is nothing else to go back to.
    let mut program = at_the_bench();
    assert_eq!(declined(&mut program, "/jobs/test.ron"), [Effect::LetGo]);
}

#[test]
fn a_job_saved_elsewhere_on_the_way_out_is_the_one_remembered() {
    let mut program = at_the_bench();
    program.state.leaving = true;
    let change = program.state.open.as_ref().unwrap().change();
    program.take(Message::SavedElsewhere(
        PathBuf::from("/stick/test.ron"),
        change,
    ));
    let remembered = |effect: &Effect| {
        matches!(effect, Effect::SavePreferences(known)
            if known.recent.first().is_some_and(|path| path.ends_with("stick/test.ron")))
    };
    let at = program.effects.iter().position(remembered);
    let quit = program
        .effects
        .iter()
        .position(|effect| *effect == Effect::Quit);
    assert!(at < quit && at.is_some(), "{:?}", program.effects);
}

/// A job without an edge.
fn empty_job() -> Job {
    let mut job = job_with_hip(1, Hand::Left);
    let edges: Vec<_> = job.edges().iter().map(|edge| edge.id).collect();
    for edge in edges {
        job.remove_edge(edge);
    }
    job
}

#[test]
fn a_job_that_is_only_looked_at_is_shown_as_it_stands_in_its_file_now() {
    let mut program = reading_only();
    program.press("<f4><enter>");
    assert!(program.screen(80, 24).contains("piece 1 of 3"));
    program.take(Message::Reread(Box::new(job_with_hip(2, Hand::Left))));
    assert!(program.screen(80, 24).contains("piece 1 of 2"));
    program.take(Message::Freed(true));
    let screen = program.screen(80, 24);
    assert!(screen.contains("the other window is closed, k opens this job for work"));
    program.press("k");
    let order = Effect::OpenJob(PathBuf::from("/jobs/test.ron"));
    assert_eq!(program.effects.last(), Some(&order));
    // Not where a job is worked on.
    let mut program = at_the_bench();
    let before = program.job().clone();
    program.take(Message::Reread(Box::new(empty_job())));
    program.take(Message::Freed(true));
    assert_eq!(*program.job(), before);
    assert_eq!(program.state.notice, None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn prop_no_newer_state_of_a_job_that_is_looked_at_leads_to_a_panic(
        keys in proptest::collection::vec((crate::keys::any_key(), 0..8_u8), 0..60),
        columns in 1_u16..130, rows in 1_u16..45,
    ) {
        let mut program = reading_only();
        for (key, newer) in keys {
            let newer = match newer {
                0 => Some(empty_job()),
                1 => Some(job_with_hip(1, Hand::Right)),
                2 => Some(job_with_hip(9, Hand::Left)),
                _ => None,
            };
            if let Some(newer) = newer {
                program.take(Message::Reread(Box::new(newer)));
            }
            program.press(key);
            program.screen(columns, rows);
        }
    }
}
