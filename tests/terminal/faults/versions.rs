//! Work that is found again: the best copy, later work elsewhere, versions.

use super::bench::{Bench, at_the_bench, read, stacked};
use crate::terminal::Terminal;
use bendmark::storage::job_file::encode;
use bendmark::storage::keeping::{backup_path, copies_folder};
use std::path::Path;
use std::time::{Duration, SystemTime};

/// As a stick, a server or a wrong clock leaves it.
fn set_to_the_year_2000(path: &Path) {
    let file = std::fs::File::options().write(true).open(path).unwrap();
    let then = SystemTime::UNIX_EPOCH + Duration::from_secs(946_684_800);
    file.set_modified(then).unwrap();
}

fn open(bench: &Bench) -> Terminal {
    bench.open_in_shell("exec \"$BENDMARK\" JOB")
}

/// Waits for words that a box may have broken over rows.
#[track_caller]
fn wait_for_words(terminal: &Terminal, words: &str) {
    terminal.wait_until(words, |screen| {
        let boxed = screen
            .lines()
            .filter_map(|line| line.split('\u{2502}').nth(1));
        let text: Vec<&str> = boxed.flat_map(str::split_whitespace).collect();
        text.join(" ").contains(words)
    });
}

/// Stacks so many pieces, as saved, and quits.
fn stack(bench: &Bench, count: usize) {
    let mut terminal = bench.open();
    for stacked in 1..=count {
        terminal.press("<enter>");
        terminal.wait_for(&format!("{} left", 40 - stacked));
        terminal.wait_saved();
    }
    assert_eq!(terminal.quit(), 0);
}

/// Found by an attack: the times of job and `.bak` set to 2000, the file cut in
/// half; a copy of the day with none of the steps was offered, and two keys later
/// all steps were gone.
#[test]
fn of_a_file_cut_in_half_the_copy_with_most_steps_is_offered_and_no_key_loses_it() {
    let bench = Bench::new();
    stack(&bench, 12);
    let most = stacked(&read(&backup_path(&bench.job)));
    assert_eq!(most, 11);
    let bytes = std::fs::read(&bench.job).unwrap();
    std::fs::write(&bench.job, &bytes[..bytes.len() / 2]).unwrap();
    for file in [&bench.job, &backup_path(&bench.job)] {
        set_to_the_year_2000(file);
    }
    let mut terminal = open(&bench);
    wait_for_words(&terminal, "11 of them stacked");
    terminal.wait_for("NOT WHOLE");
    terminal.press("y");
    terminal.wait_saved();
    let mut terminal = at_the_bench(terminal);
    terminal.press("<enter><enter>");
    terminal.wait_for("27 left");
    terminal.wait_saved();
    assert_eq!(terminal.quit(), 0);
    assert_eq!(bench.stacked(), 13);
}

#[test]
fn a_version_is_gone_back_to_and_what_was_there_is_kept() {
    let bench = Bench::new();
    stack(&bench, 3);
    assert!(copies_folder(&bench.job).exists());
    let mut terminal = open(&bench);
    terminal.wait_for("37 of 40 pieces left");
    terminal.press("<f6>v");
    terminal.wait_for("go back to which?");
    terminal.wait_for("2 of 40 stacked, 2 steps, 80 readings");
    println!("{}", bench.without_folder(&terminal.contents()));
    // The last of the list: as it was opened first, without a step.
    terminal.press("<end><down><down><down>");
    terminal.wait_for("0 steps at the bench, here 3");
    terminal.press("<enter>");
    terminal.wait_for("go back to this version?");
    terminal.press("y");
    terminal.wait_for("gone back");
    terminal.wait_saved();
    assert_eq!(bench.stacked(), 0);
    // A line of its own: nothing of the other is undone in it.
    terminal.press("u");
    terminal.wait_for("nothing left to take back");
    terminal.press("v");
    terminal.wait_for("3 of 40 stacked, 3 steps, 80 readings");
    terminal.press("<enter>y");
    terminal.wait_until("the steps back in the file", |_| bench.stacked() == 3);
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn later_work_that_was_set_aside_is_told_at_the_start_and_can_be_had() {
    let bench = Bench::new();
    let before = read(&bench.job);
    stack(&bench, 5);
    let aside = bench.folder().join("roof.ron.on-screen-1");
    std::fs::rename(&bench.job, &aside).unwrap();
    std::fs::write(&bench.job, encode(&before).unwrap()).unwrap();
    std::fs::remove_file(backup_path(&bench.job)).unwrap();
    let mut terminal = open(&bench);
    terminal.wait_for("later work of this job");
    terminal.wait_for("5 steps more");
    terminal.press("v");
    terminal.wait_for("5 of 40 stacked, 5 steps, 80 readings");
    terminal.press("<enter>");
    terminal.wait_for("gone back");
    terminal.wait_saved();
    assert_eq!(bench.stacked(), 5);
    assert_eq!(terminal.quit(), 0);
    assert_eq!(stacked(&read(&aside)), 5, "what lay there still does");
}

#[test]
fn a_file_that_is_gone_is_written_anew_at_the_next_key() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    terminal.press("<enter>");
    terminal.wait_for("39 left");
    terminal.wait_saved();
    std::fs::remove_file(&bench.job).unwrap();
    // A key that changes nothing.
    terminal.press("<right>");
    terminal.wait_for("was gone from the disk");
    terminal.wait_saved();
    assert_eq!(bench.stacked(), 1);
    assert_eq!(terminal.quit(), 0);
}

/// A digit of a reading, changed in the file beside a whole `.bak`.
#[test]
fn a_digit_changed_in_the_file_is_asked_about_with_both_figures() {
    let bench = Bench::new();
    stack(&bench, 2);
    let text = std::fs::read_to_string(&bench.job).unwrap();
    let at = text.find("course: 2, bottom: ").unwrap() + "course: 2, bottom: ".len();
    let mut edited = text.clone();
    let other = if &text[at..=at] == "5" { "4" } else { "5" };
    edited.replace_range(at..=at, other);
    std::fs::write(&bench.job, &edited).unwrap();
    let mut terminal = open(&bench);
    terminal.wait_for("NOT WHOLE");
    wait_for_words(&terminal, "course 2 bottom");
    wait_for_words(&terminal, "in, here ");
    println!("{}", bench.without_folder(&terminal.contents()));
    terminal.press("<esc>");
    terminal.wait_for("no job");
    assert_eq!(terminal.quit(), 0);
    assert_eq!(std::fs::read_to_string(&bench.job).unwrap(), edited);
    // Both figures, and the file's stays until it is answered.
    let check = bench.command(&["check", "roof.ron"]);
    assert_eq!(check.status.code(), Some(1));
    let said = String::from_utf8(check.stderr).unwrap();
    assert!(
        said.contains("course 2 bottom") && said.contains(", here "),
        "{said}"
    );
}
