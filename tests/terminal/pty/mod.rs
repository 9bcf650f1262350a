//! The real program in a terminal of its own, as the cutter uses it.

mod first_start;
mod changes;
mod first_user;
mod pasting;
mod several;
mod undo;
mod second_trip;
mod whole_hip;

use crate::terminal::{Home, Terminal};
use std::path::Path;
use std::process::Command;

/// Ten courses of a hip that narrows by 12 1/2 in each, typed by the number
/// pad alone: digits, `.`, `/`, `+`, `-` and Enter.
const TEN_COURSES: &str = "\
    40-3/4<enter>28.1/4<enter>28+1/4<enter>15.75<enter>\
    38<enter>25.5<enter>26<enter>13.5<enter>\
    40-3/4<enter>28.1/4<enter>28+1/4<enter>15-3/4<enter>\
    38<enter>25-1/2<enter>26<enter>13.5<enter>\
    40.75<enter>28.25<enter>28.25<enter>15.75<enter>";

fn json(home: &Home, job: &Path) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_bendmark"))
        .env("HOME", home.path())
        .args(["sheet", "--format", "json"])
        .arg(job)
        .output()
        .unwrap();
    assert!(output.status.success(), "{output:?}");
    String::from_utf8(output.stdout).unwrap()
}

/// A first run, a job made on the screen, and a ten-course hip in it.
fn job_with_ten_courses(home: &Home) -> Terminal {
    let mut terminal = Terminal::open(home.path(), &[], (80, 24));
    terminal.wait_for("saved");
    terminal.press("<f6>n");
    terminal.wait_for("what is the new job called?");
    terminal.press("Mill Lane<enter>");
    terminal.wait_for("No hip yet");
    terminal.press("<enter><enter>4<enter>");
    terminal.wait_for("LEFT-hand pieces");
    terminal.press(TEN_COURSES);
    terminal.wait_saved_with("course 11");
    terminal
}

#[test]
fn a_hip_is_logged_cut_and_found_again_after_quitting() {
    let home = Home::new();
    let mut terminal = job_with_ten_courses(&home);
    let job = home.job("Mill Lane");
    terminal.press("<f4>");
    terminal.wait_for("before you cut");
    terminal.press("<enter>");
    for left in (0..10).rev() {
        terminal.press("<enter><enter><enter><enter>");
        terminal.wait_for(&format!("{left} left"));
    }
    terminal.wait_saved_with("every piece is stacked");
    let before = json(&home, &job);
    assert_eq!(before.matches("\"stacked\"").count(), 10);
    assert_eq!(terminal.quit(), 0);
    let reopened = Terminal::open(home.path(), &[], (80, 24));
    reopened.wait_for("all 10 pieces are stacked");
    assert_eq!(json(&home, &job), before);
    assert_eq!(reopened.quit(), 0);
}

/// Whoever has jobs is not given the sample again and again.
#[test]
fn preferences_that_are_not_understood_make_no_sample() {
    let home = Home::new();
    let terminal = Terminal::open(home.path(), &[], (80, 24));
    terminal.wait_saved();
    assert_eq!(terminal.quit(), 0);
    let config = home.path().join(".config/bendmark/preferences.ron");
    std::fs::write(&config, "(version: 9)").unwrap();
    for _ in 0..2 {
        let terminal = Terminal::open(home.path(), &[], (80, 24));
        terminal.wait_for("No job is open");
        terminal.wait_for("was not read");
        assert_eq!(terminal.quit(), 0);
    }
    let jobs = std::fs::read_dir(home.path().join(".local/share/bendmark/jobs")).unwrap();
    let jobs: Vec<_> = jobs.map(|job| job.unwrap().file_name()).collect();
    let count = jobs
        .iter()
        .filter(|name| name.to_str().unwrap().ends_with(".ron"))
        .count();
    assert_eq!(count, 1, "{jobs:?}");
}

/// Sun or dark, blocks or ASCII: one key each, kept for the next start.
#[test]
fn how_the_screen_is_drawn_is_one_key_each_and_kept() {
    let home = Home::new();
    let mut terminal = Terminal::open(home.path(), &[], (120, 40));
    terminal.wait_saved();
    terminal.press("<f2>");
    assert!(!terminal.contents().is_ascii());
    assert_eq!(terminal.colours(), ["black", "white"]);
    terminal.press("tz<f3><f2>");
    assert!(terminal.contents().is_ascii(), "{}", terminal.contents());
    assert_eq!(terminal.colours(), ["white", "black"]);
    assert_eq!(terminal.quit(), 0);
    let mut reopened = Terminal::open(home.path(), &[], (120, 40));
    reopened.wait_saved();
    for place in ["<f2>", "<f3>", "<f4>", "<enter>", "<f5>", "<f6>", "h"] {
        reopened.press(place);
        assert!(reopened.contents().is_ascii(), "{}", reopened.contents());
        assert_eq!(reopened.colours(), ["white", "black"]);
    }
    reopened.press("<esc>tz<f2>");
    assert!(!reopened.contents().is_ascii());
    assert_eq!(reopened.colours(), ["black", "white"]);
    assert_eq!(reopened.quit(), 0);
}

#[test]
fn undo_and_redo_work_in_the_middle_and_across_the_quit() {
    let home = Home::new();
    let mut terminal = job_with_ten_courses(&home);
    let job = home.job("Mill Lane");
    let unmarked = json(&home, &job);
    terminal.press("<f4><enter>");
    terminal.press("<enter><enter>");
    terminal.wait_for(">bend up");
    terminal.press("uu");
    terminal.wait_saved_with("taken back: H1-1 L marked");
    assert_eq!(json(&home, &job), unmarked);
    terminal.press("yy");
    terminal.wait_for("done again: H1-1 L cut");
    terminal.press("<enter><enter>");
    terminal.wait_for("9 left");
    terminal.press("<enter><enter>");
    terminal.wait_saved_with(">bend up");
    let two_further = json(&home, &job);
    assert_eq!(terminal.quit(), 0);

    let mut later = Terminal::open(home.path(), &[], (80, 24));
    later.wait_for("9 of 10 pieces left");
    assert_eq!(json(&home, &job), two_further);
    later.press("u");
    later.wait_saved_with("taken back: H1-2 L cut");
    assert_ne!(json(&home, &job), two_further);
    later.press("<ctrl-y>");
    later.wait_saved_with("done again: H1-2 L cut");
    assert_eq!(json(&home, &job), two_further);
    // The cautions come first in a new session.
    later.press("<enter><enter><enter><enter>");
    for left in (0..8).rev() {
        later.press("<enter><enter><enter><enter>");
        later.wait_for(&format!("{left} left"));
    }
    later.wait_saved_with("every piece is stacked");
    let before = json(&home, &job);
    assert_eq!(before.matches("\"stacked\"").count(), 10);
    assert_eq!(later.quit(), 0);
    let last = Terminal::open(home.path(), &[], (80, 24));
    last.wait_for("all 10 pieces are stacked");
    assert_eq!(json(&home, &job), before);
    last.quit();
}

#[test]
fn a_missing_last_job_is_said_and_another_can_be_made() {
    let home = Home::new();
    let terminal = job_with_ten_courses(&home);
    assert_eq!(terminal.quit(), 0);
    // With its .bak and the copy of the day.
    std::fs::remove_dir_all(home.path().join(".local/share/bendmark/jobs")).unwrap();
    let terminal = Terminal::open(home.path(), &[], (80, 24));
    terminal.wait_for("No job is open");
    terminal.wait_for("Mill Lane.ron");
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn a_job_that_is_not_there_is_said_and_the_exit_code_is_one() {
    let home = Home::new();
    let mut terminal = Terminal::open(home.path(), &["nowhere.ron"], (80, 24));
    let status = terminal.child.wait().unwrap();
    assert_eq!(status.exit_code(), 1);
    terminal.wait_for("\"nowhere.ron\": there is no such file");
}

#[test]
fn resizing_draws_again_and_too_small_says_the_size_needed() {
    let home = Home::new();
    let mut terminal = Terminal::open(home.path(), &[], (80, 24));
    terminal.wait_for("pieces left");
    terminal.resize(40, 10);
    terminal.wait_for("bendmark needs 60x18");
    terminal.resize(120, 40);
    terminal.wait_for("pieces left");
    terminal.press("<f3>");
    terminal.wait_for("course");
    assert_eq!(terminal.quit(), 0);
}

/// A job made on the command line with these settings and readings, and opened.
fn made(home: &Home, settings: &[&str], csv: &str) -> Terminal {
    std::fs::write(home.path().join("readings.csv"), csv).unwrap();
    let new = [&["new", "roof.ron"], settings].concat();
    for args in [new, vec!["import", "roof.ron", "readings.csv"]] {
        let output = Command::new(env!("CARGO_BIN_EXE_bendmark"))
            .env("HOME", home.path())
            .current_dir(home.path())
            .args(args)
            .output()
            .unwrap();
        assert!(output.status.success(), "{output:?}");
    }
    Terminal::open(home.path(), &["roof.ron"], (80, 24))
}

/// A job of two hips, one of each hand.
fn job_of_two_hands(home: &Home) -> Terminal {
    let mut csv = "edge,kind,hand,course,bottom,top\n".to_owned();
    for hand in ["left", "right"] {
        for course in 1..=3 {
            csv.push_str(&format!("{hand} end,hip,{hand},{course},20,7 1/2\n"));
        }
    }
    let terminal = made(home, &[], &csv);
    terminal.wait_for("6 of 6 pieces left");
    terminal
}

#[test]
fn a_piece_spoiled_in_mid_hip_is_planned_anew_and_undo_brings_the_old_plan_back() {
    let home = Home::new();
    let mut terminal = job_of_two_hands(&home);
    terminal.wait_for("3 of 3 panels to open");
    terminal.press("<f4><enter>");
    terminal.press("<enter><enter><enter><enter>");
    terminal.press("<enter><enter>");
    terminal.wait_for("H1-2 L cut, offcut: write 2 on it");
    terminal.press("x");
    terminal.wait_for("what of it is usable?");
    terminal.press("<enter>");
    terminal.wait_for("H1-2 L spoiled, to be made again");
    terminal.wait_for("new panel 3");
    terminal.press("<f5>");
    terminal.wait_for("2 offcuts on the rack");
    terminal.wait_for("spoiled so far: 1");
    terminal.press("<f2>");
    terminal.wait_for("2 of 4 panels to open");
    terminal.press("u");
    terminal.wait_for("taken back: H1-2 L spoiled");
    terminal.wait_for(">bend up");
    terminal.press("<f5>");
    terminal.wait_for("spoiled so far: 0");
    terminal.press("<f2>");
    terminal.wait_for("1 of 3 panels to open");
    assert_eq!(terminal.quit(), 0);
}

/// A hip laid in a straight bond that narrows by 12 1/2 in a course, with an
/// inch burned at the top of course 5 and digits exchanged at that of course 9.
const TWO_SLIPS: &str = "\
    40<enter>27.5<enter>27.5<enter>15<enter>15<enter>2.5<enter>\
    48.5<enter>36<enter>36<enter>24.5<enter>23.5<enter>11<enter>\
    57<enter>44.5<enter>44.5<enter>32<enter>32<enter>91.5<enter>";

#[test]
fn two_slips_stand_doubted_before_the_hip_is_finished() {
    let home = Home::new();
    let mut terminal = Terminal::open(home.path(), &[], (80, 24));
    terminal.wait_for("saved");
    terminal.press("<f6>nMill Lane<enter>");
    terminal.wait_for("No hip yet");
    terminal.press("<enter><enter>4<enter>");
    terminal.press(TWO_SLIPS);
    terminal.wait_for("DOUBTFUL: course 9 top likely 19 1/2 in (digits exchanged)");
    terminal.wait_until("two rows marked", |screen| {
        screen.matches("?    ").count() == 2
    });
    // The hip goes on: nothing typed is refused.
    terminal.press("19.5<enter>7<enter>");
    terminal.press("<down><down><down><down><down><down>");
    terminal.wait_for("? course 5 top likely 23 1/2 in (an inch too much)");
    terminal.press("f");
    // Back to where readings are typed, so that nothing is overwritten.
    terminal.wait_for("Type the bottom of course 11");
    terminal.press("<down><down><down><down><down><down>");
    terminal.wait_for("top was written 24 1/2");
    terminal.wait_until("one row marked", |screen| {
        screen.matches("?    ").count() == 1
    });
    terminal.press("<up><up><up><up>x");
    terminal.wait_for("course 9 top measured again, it stands");
    terminal.wait_until("no row marked", |screen| {
        screen.matches("?    ").count() == 0
    });
    terminal.press("u");
    terminal.wait_for("taken back: Hip 1: course 9 top measured again, it stands");
    terminal.press("u");
    terminal.wait_for("taken back: Hip 1: course 5 top as suggested");
    terminal.wait_until("both marked again", |screen| {
        screen.matches("?    ").count() == 2
    });
    assert_eq!(terminal.quit(), 0);
    let job = home.job("Mill Lane");
    let check = Command::new(env!("CARGO_BIN_EXE_bendmark"))
        .arg("check")
        .arg(&job)
        .output()
        .unwrap();
    assert_eq!(check.status.code(), Some(1));
    let said = String::from_utf8(check.stdout).unwrap();
    assert_eq!(said.lines().count(), 2, "{said}");
}
