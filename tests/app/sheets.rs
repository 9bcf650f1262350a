//! Readings taken from a spreadsheet's file while the bench works.

use crate::support::{Program, inches, job_with_hip};
use bendmark::app::{
    effect::Effect,
    place::Place,
    state::{BenchView, Dialog, Notice, Prompt, Question},
};
use bendmark::domain::{
    bench::Stage,
    cutting::{Job, two_readings},
    log::{CourseNumber, End},
    measure::Hand,
};
use bendmark::shell::jobs::taking;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const HEAD: &str = "edge,kind,hand,course,bottom,top\n";
const AS_LOGGED: &str = "Hip 1,hip,left,1,36 3/4,24 1/4\nHip 1,hip,left,2,24 1/4,11 3/4\n";

/// The program with a hip of two courses, and a folder for the sheet.
struct Desk {
    program: Program,
    folder: TempDir,
}

impl Desk {
    fn new() -> Self {
        Self {
            program: Program::with(job_with_hip(2, Hand::Left)),
            folder: tempfile::tempdir().unwrap(),
        }
    }

    fn sheet(&self, rows: &str) -> String {
        let path = self.folder.path().join("roof.csv");
        std::fs::write(&path, format!("{HEAD}{rows}")).unwrap();
        path.to_string_lossy().into_owned()
    }

    /// Does what the shell does with the orders that are left.
    fn carry_out(&mut self) {
        for effect in std::mem::take(&mut self.program.effects) {
            if let Effect::TakeReadings {
                path,
                job,
                same_figures,
            } = effect
            {
                self.program.take(taking::take(path, &job, same_figures));
            }
        }
    }

    /// Takes the sheet by the Log's key: its path is typed the first time, and
    /// offered afterwards.
    fn take(&mut self, rows: &str) {
        let path = self.sheet(rows);
        self.program.press("<f3>g");
        if self.offered() != path {
            let old = self.offered().chars().count();
            self.program.press(&"<backspace>".repeat(old)).press(&path);
        }
        self.program.press("<enter>");
        self.carry_out();
    }

    fn offered(&self) -> String {
        match &self.program.state.dialog {
            Some(Dialog::Prompt {
                what: Prompt::Readings,
                text,
                ..
            }) => text.clone(),
            other => panic!("{other:?}"),
        }
    }

    fn said(&self) -> String {
        match &self.program.state.notice {
            Some(Notice::Said(text) | Notice::Trouble(text)) => text.clone(),
            None => String::new(),
        }
    }

    fn top(&self, course: u32) -> i64 {
        let edge = &self.program.job().edges()[0];
        let number = CourseNumber::new(course).unwrap();
        edge.reading(number, End::Top).unwrap().nm()
    }

    fn stage(&self, course: u32) -> Stage {
        let open = self.program.state.open.as_ref().unwrap();
        let mut pieces = open.list.pieces.iter();
        let piece = pieces.find(|piece| piece.id.course.get() == course);
        piece.unwrap().stage
    }
}

fn two(job: &Job) -> usize {
    two_readings(job).len()
}

#[test]
fn a_key_in_the_log_takes_a_file_and_offers_the_same_one_again() {
    let mut desk = Desk::new();
    desk.program.press("<f3>g");
    // Nobody knows yet where one is.
    assert_eq!(desk.offered(), "");
    desk.program.press("<esc>");
    desk.take(AS_LOGGED);
    assert_eq!(desk.said(), "readings from \"roof.csv\": nothing new");
    let path = desk.sheet("");
    desk.program.press("g");
    assert_eq!(desk.offered(), path);
    desk.program.press("<esc>");
    desk.take(&format!("{AS_LOGGED}Hip 1,hip,left,3,36 3/4,24 1/4\n"));
    assert_eq!(desk.said(), "readings from \"roof.csv\": courses added: 1");
    // Also among the readings, not only among the hips.
    desk.program.press("<tab>g");
    assert_eq!(desk.offered(), path);
}

/// The paths that were typed, in what is to be done outside.
fn ordered<'a>(effects: &'a [Effect]) -> Vec<&'a Path> {
    let path = |effect: &'a Effect| match effect {
        Effect::TakeReadings { path, .. }
        | Effect::WriteSheet { path, .. }
        | Effect::SaveElsewhere(path, _)
        | Effect::OpenJob(path)
        | Effect::ReadRack(path) => Some(path.as_path()),
        _ => None,
    };
    effects.iter().filter_map(path).collect()
}

/// In a shell `~/` is the home folder; a name alone lies beside the job.
#[test]
fn every_path_that_is_typed_may_begin_in_the_home_folder() {
    let typed = |keys: &str, path: &str, home: Option<&str>| {
        let mut program = Program::with(job_with_hip(1, Hand::Left));
        program.state.home = home.map(PathBuf::from);
        program.press(keys).press(path).press("<enter>");
        let paths = ordered(&program.effects).into_iter().map(Path::to_owned);
        paths.collect::<Vec<PathBuf>>()
    };
    for keys in ["<f3>g", "<f3>p", "<f3>f", "<f6>o", "<f5>o"] {
        let home = Some("/home/ann");
        let expected = [PathBuf::from("/home/ann/roofs/x.csv")];
        assert_eq!(typed(keys, "~/roofs/x.csv", home), expected, "{keys}");
        let expected = [PathBuf::from("/media/x.csv")];
        assert_eq!(typed(keys, "/media/x.csv", home), expected, "{keys}");
    }
    let beside = [PathBuf::from("/jobs/~x.csv")];
    assert_eq!(typed("<f3>g", "~x.csv", Some("/home/ann")), beside);
    // Where the system names no home it is a folder like any other.
    let beside = [PathBuf::from("/jobs/~/x.csv")];
    assert_eq!(typed("<f3>g", "~/x.csv", None), beside);
}

#[test]
fn a_path_longer_than_its_box_shows_that_its_front_is_missing() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    let path = format!("/{}/roof.csv", "folder".repeat(12));
    program.press("<f3>g").press(&path);
    for (columns, rows) in [(80, 24), (60, 18)] {
        let screen = program.screen(columns, rows);
        assert!(
            screen.contains("│ ..") && screen.contains("/roof.csv"),
            "{screen}"
        );
    }
    // What fits stands whole.
    program.press("<ctrl-u>/short/roof.csv");
    let screen = program.screen(80, 24);
    assert!(screen.contains("│ /short/roof.csv"), "{screen}");
}

#[test]
fn an_import_is_one_change_and_the_bench_goes_on_where_it_was() {
    let mut desk = Desk::new();
    desk.program.press("<f4><enter><enter>");
    let at = |bench: &BenchView| (bench.piece, bench.page, bench.batch.clone());
    let (before, in_hand) = (desk.program.job().clone(), at(&desk.program.state.bench));
    desk.take("Hip 1,hip,left,1,36 3/4,24\nHip 1,hip,left,3,36 3/4,24 1/4\nNew,rake,right,1,9,9\n");
    let after = desk.program.job().clone();
    assert_eq!(after.edges().len(), 2);
    assert_eq!(after.events(), before.events());
    desk.program.press("<f4>");
    assert_eq!(at(&desk.program.state.bench), in_hand);
    desk.program.press("u");
    assert_eq!(*desk.program.job(), before);
    desk.program.press("y");
    assert_eq!(*desk.program.job(), after);
}

#[test]
fn two_readings_are_said_at_their_course_and_a_key_chooses_one() {
    let mut desk = Desk::new();
    desk.take("Hip 1,hip,left,2,24 1/4,11\n");
    assert_eq!(
        desk.said(),
        "readings from \"roof.csv\": two readings (m goes to each): 1"
    );
    let screen = desk.program.screen(80, 24);
    assert!(
        screen.contains("two readings of course 2 top: the log has"),
        "{screen}"
    );
    assert!(screen.contains("11 3/4"), "{screen}");
    assert!(screen.contains("11 in: m chooses"), "{screen}");
    assert!(screen.contains("m two readings"), "{screen}");

    desk.program.press("m<enter>");
    assert_eq!(desk.said(), "1 if the log's stands, 2 if the sheet's does");
    desk.program.press("2");
    assert_eq!(desk.top(2), inches("11").nm());
    assert_eq!(two(desk.program.job()), 0);
    desk.program.press("u");
    assert_eq!(
        (desk.top(2), two(desk.program.job())),
        (inches("11 3/4").nm(), 1)
    );
    desk.program.press("m1");
    assert_eq!(
        (desk.top(2), two(desk.program.job())),
        (inches("11 3/4").nm(), 0)
    );
    desk.program.press("m");
    assert_eq!(desk.said(), "no reading of this job is two readings");
}

#[test]
fn a_marked_piece_of_two_readings_is_held_until_one_is_chosen() {
    let mut desk = Desk::new();
    // Course 1 is cut first; it is marked, and the sheet changes it then.
    desk.program.press("<f4><enter><enter>");
    assert_eq!(desk.stage(1), Stage::ToCut);
    desk.take("Hip 1,hip,left,1,36 3/4,23\n");
    desk.program.press("<f4><enter>");
    assert_eq!(desk.stage(1), Stage::ToCut);
    let words = "HELD, two readings of course 1 top: the log has 24 1/4 in, the sheet 23 in";
    assert_eq!(desk.said(), format!("{words}: m in the Log (F3) chooses"));
    let screen = desk.program.screen(80, 24);
    assert!(screen.contains(words), "{screen}");
    // Of the other course nothing is held.
    desk.program.press("<right><enter><enter><enter><enter>");
    assert_eq!(
        (desk.stage(1), desk.stage(2)),
        (Stage::ToCut, Stage::Stacked)
    );
    // By the sheet's figure its marks are 1 1/4 in too far out: that is asked about.
    desk.program.press("<f3>m").press("2<f4><enter>");
    assert_eq!(desk.stage(1), Stage::ToCut);
    desk.program.press("m");
    assert_eq!(desk.stage(1), Stage::ToMark);
}

#[test]
fn a_course_of_two_readings_is_offered_after_all_others_and_not_marked() {
    let mut desk = Desk::new();
    desk.take("Hip 1,hip,left,1,36 3/4,23\n");
    desk.program.press("<f4><enter>");
    let in_hand = desk.program.state.piece_in_hand().unwrap();
    assert_eq!(in_hand.id.course.get(), 2);
    desk.program.press("<enter><enter><enter><enter>");
    assert_eq!(
        (desk.stage(1), desk.stage(2)),
        (Stage::ToMark, Stage::Stacked)
    );
    desk.program.press("<enter>");
    assert_eq!(desk.stage(1), Stage::ToMark);
    assert!(desk.said().starts_with("HELD, "), "{}", desk.said());
}

#[test]
fn a_course_of_two_readings_is_passed_over_by_several_at_once_and_said() {
    let mut desk = Desk::new();
    desk.take("Hip 1,hip,left,1,36 3/4,23\n");
    desk.program.press("<f4><enter><home>s<enter>1");
    let said = desk.said();
    assert!(said.ends_with("held, passed over: H1-1 L"), "{said}");
    desk.program.press(&"<enter>".repeat(4));
    assert_eq!(desk.stage(1), Stage::ToMark);
}

#[test]
fn how_many_marked_pieces_no_longer_fit_is_said() {
    let mut desk = Desk::new();
    desk.take(AS_LOGGED);
    desk.program.press("<f4><enter><enter>");
    desk.take("Hip 1,hip,left,1,36 3/4,22\n");
    assert_eq!(
        desk.said(),
        "readings from \"roof.csv\": courses changed: 1; marked that no longer fit: 1"
    );
}

#[test]
fn what_cannot_be_taken_is_quoted_and_another_path_may_be_typed() {
    let mut desk = Desk::new();
    let before = desk.program.job().clone();
    desk.take("Hip 1,hip,left,1,36 3/7,24\n");
    assert!(
        desk.said()
            .starts_with("\"roof.csv\": 1 bad row, nothing was imported; line 2: ")
    );
    assert!(Path::new(&desk.offered()).ends_with("roof.csv"));
    desk.program.press("x<enter>");
    desk.carry_out();
    assert!(desk.said().contains("roof.csvx"), "{}", desk.said());
    assert_eq!(*desk.program.job(), before);
    assert_eq!(desk.program.state.place, Place::Log);
}

#[test]
fn an_edge_with_anothers_figures_is_asked_about_and_taken_only_by_yes() {
    let rows: String = (1..5)
        .flat_map(|course| ["A", "B"].map(|edge| (course, edge)))
        .map(|(course, edge)| format!("{edge},hip,left,{course},{},{}\n", 60 - course, 59 - course))
        .collect();
    let mut desk = Desk::new();
    desk.take(&rows);
    let asked = Some(Dialog::Question(Question::SameFigures {
        path: desk.folder.path().join("roof.csv"),
        what: "\"B\": same figures as \"A\": another name?".to_owned(),
    }));
    assert_eq!(desk.program.state.dialog, asked);
    desk.program.press("<esc>");
    assert_eq!(desk.program.job().edges().len(), 1);
    desk.program.press("g");
    desk.program.press("<esc>");
    desk.take(&rows);
    desk.program.press("y");
    desk.carry_out();
    assert_eq!(desk.program.job().edges().len(), 3);
}

#[test]
fn a_job_that_may_only_be_looked_at_takes_no_file() {
    let mut desk = Desk::new();
    desk.program.state.open.as_mut().unwrap().read_only = Some("reading only".to_owned());
    desk.program.press("<f3>g");
    assert_eq!(desk.program.state.dialog, None);
    assert_eq!(desk.said(), "reading only");
}
