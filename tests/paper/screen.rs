//! The sheet written from within the screen: one key, where, and what came of
//! it.

use crate::bench::{SAMPLES, sample};
use crate::support::Program;
use bendmark::app::{effect::Effect, message::Message};
use bendmark::domain::cutting::Job;
use bendmark::sheet::{
    csv::csv,
    html::html,
    json::json,
    layout::Layout,
    rows::Rows,
    text::{WIDTH, text},
};
use bendmark::shell::jobs::sheets::write_as_of;
use std::path::{Path, PathBuf};

fn order(program: &Program) -> Option<PathBuf> {
    program
        .effects
        .iter()
        .rev()
        .find_map(|effect| match effect {
            Effect::WriteSheet { path, .. } => Some(path.clone()),
            _ => None,
        })
}

#[test]
fn one_key_writes_the_sheet_beside_the_job_and_says_where() {
    let mut program = Program::with(sample(SAMPLES[0]));
    program.press("<f2>p");
    assert!(program.screen(80, 24).contains("/jobs/test.html"));
    program.press("<enter>");
    let path = order(&program).expect("an order to write it");
    assert_eq!(path, Path::new("/jobs/test.html"));
    program.take(Message::SheetWritten(path));
    assert!(
        program
            .screen(80, 24)
            .contains("sheet written: /jobs/test.html")
    );
}

#[test]
fn the_sheet_is_of_this_hip_or_of_all() {
    let job = sample(SAMPLES[0]);
    let [first, second] = [0, 1].map(|at| job.edges()[at].id);
    for (keys, name, expected) in [
        ("<f2>p<tab>", "/jobs/test-H1.html", Some(first)),
        ("<f2><down>p<tab>", "/jobs/test-H2.html", Some(second)),
        ("<f3>p<tab>", "/jobs/test-H1.html", Some(first)),
        ("<f2>p", "/jobs/test.html", None),
        ("<f2>p<tab><tab>", "/jobs/test.html", None),
        // Nothing that is typed is lost, before or behind it.
        ("<f2>pmine.csv<tab>", "mine.csv", Some(first)),
        ("<f2>p<tab>2.txt", "2.txt", Some(first)),
        // No edge is selected there.
        ("<f5>p<tab>", "/jobs/test.html", None),
    ] {
        let mut program = Program::with(job.clone());
        program.press(keys);
        // As Unix writes it, wherever this runs.
        let screen = program.screen(80, 24).replace('\\', "/");
        assert!(screen.contains(name), "{keys}: {screen}");
        program.press("<enter>");
        let last = program
            .effects
            .iter()
            .rev()
            .find_map(|effect| match effect {
                Effect::WriteSheet { edge, .. } => Some(*edge),
                _ => None,
            });
        assert_eq!(last, Some(expected), "{keys}");
        // What was asked for is asked for again where it could not be written.
        let path = order(&program).unwrap();
        let why = "the disk is full".to_owned();
        let edge = expected;
        program.take(Message::SheetNotWritten { path, edge, why });
        program.press("<enter>");
        let orders = program.effects.iter().filter(
            |effect| matches!(effect, Effect::WriteSheet { edge, .. } if *edge == expected),
        );
        assert_eq!(orders.count(), 2, "{keys}");
    }
    let mut program = Program::with(job);
    program.press("<f2>p");
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("Of ALL edges. Tab: of H1, North slope, north-east"),
        "{screen}"
    );
}

#[test]
fn a_name_without_a_folder_is_beside_the_job_and_a_taken_one_is_asked_again() {
    let mut program = Program::with(sample(SAMPLES[0]));
    program.press("<f2>p");
    for _ in 0.."/jobs/test.html".len() {
        program.press("<backspace>");
    }
    program.press("mine.csv<enter>");
    let path = order(&program).unwrap();
    assert_eq!(path, Path::new("/jobs/mine.csv"));
    program.take(Message::SheetNotWritten {
        path,
        edge: None,
        why: "it is already there".to_owned(),
    });
    let screen = program.screen(80, 24);
    let taken = Path::new("/jobs").join("mine.csv").display().to_string();
    assert!(screen.contains("it is already there") && screen.contains(&taken));
}

#[test]
fn the_end_of_the_name_says_the_form_and_a_taken_name_gets_the_next_number() {
    let folder = tempfile::tempdir().unwrap();
    let job = sample(SAMPLES[1]);
    for (name, expected) in [
        ("a.html", html(&Rows::of(&job), &Layout::default())),
        ("a.CSV", csv(&Rows::of(&job)).unwrap()),
        ("a.json", json(&Rows::of(&job))),
        ("a.txt", text(&Rows::of(&job), WIDTH)),
        ("a", text(&Rows::of(&job), WIDTH)),
    ] {
        let path = folder.path().join(name);
        assert_eq!(
            write_as_of(None, &path, &job, None),
            Message::SheetWritten(path.clone())
        );
        assert_eq!(std::fs::read_to_string(&path).unwrap(), expected);
        // The job has changed, and is printed again.
        let changed = Job::new(job.name.clone(), job.settings);
        let before = std::fs::read(&path).unwrap();
        for number in [2, 3] {
            let next = match name.split_once('.') {
                Some((stem, end)) => format!("{stem}-{number}.{end}"),
                None => format!("{name}-{number}"),
            };
            let next = folder.path().join(next);
            assert_eq!(
                write_as_of(None, &path, &changed, None),
                Message::SheetWritten(next.clone())
            );
            assert_ne!(std::fs::read(next).unwrap(), before);
        }
        assert_eq!(std::fs::read(&path).unwrap(), before);
    }
    // A folder is no sheet of before.
    std::fs::create_dir(folder.path().join("sheets")).unwrap();
    let Message::SheetNotWritten { why, .. } =
        write_as_of(None, &folder.path().join("sheets"), &job, None)
    else {
        panic!("a folder got a number");
    };
    assert!(why.contains("is already there"), "{why}");
    for name in ["a.htm", "a.jsn"] {
        let Message::SheetNotWritten { why, .. } =
            write_as_of(None, &folder.path().join(name), &job, None)
        else {
            panic!("{name} was written");
        };
        let words = format!("\"{name}\": expected a name that ends in .txt, .csv, .json or .html");
        assert_eq!(why, words);
        assert!(!folder.path().join(name).exists());
    }
}
