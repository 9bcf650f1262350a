//! Undo and redo after the program was left and started again, whatever kind of
//! change it was.

use super::{job_with_ten_courses, json};
use crate::terminal::{Home, Terminal};
use std::process::Command;

/// Starts the program anew, presses `key`, waits for `words` and leaves.
fn in_a_session(home: &Home, key: &str, words: &str) {
    let mut terminal = Terminal::open(home.path(), &[], (80, 24));
    terminal.wait_saved();
    terminal.press(key);
    terminal.wait_saved_with(words);
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn what_was_logged_deleted_set_and_imported_is_undone_and_redone_after_a_restart() {
    let home = Home::new();
    let terminal = job_with_ten_courses(&home);
    assert_eq!(terminal.quit(), 0);
    let job = home.job("Mill Lane");
    let logged = json(&home, &job);

    in_a_session(&home, "u", "taken back: Hip 1 course 10 top");
    let one_less = json(&home, &job);
    assert_ne!(one_less, logged);
    in_a_session(&home, "y", "done again: Hip 1 course 10 top");
    assert_eq!(json(&home, &job), logged);

    in_a_session(&home, "<f3><del>y", "Hip 1 deleted");
    let deleted = json(&home, &job);
    in_a_session(&home, "u", "taken back: Hip 1 deleted");
    assert_eq!(json(&home, &job), logged);
    in_a_session(&home, "y", "done again: Hip 1 deleted");
    assert_eq!(json(&home, &job), deleted);
    in_a_session(&home, "uu", "taken back: Hip 1 course 10 top");
    assert_eq!(json(&home, &job), one_less);

    let csv = home.path().join("more.csv");
    std::fs::write(
        &csv,
        "edge,kind,hand,course,bottom,top\nNorth,hip,right,1,30,20\n",
    )
    .unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_bendmark"))
        .env("HOME", home.path())
        .arg("import")
        .args([&job, &csv])
        .output()
        .unwrap();
    assert!(output.status.success(), "{output:?}");
    let imported = json(&home, &job);
    // A change after an undo: what was taken back is gone.
    in_a_session(&home, "y", "nothing left to do again");
    in_a_session(&home, "u", "taken back: readings from \"more.csv\"");
    assert_eq!(json(&home, &job), one_less);
    in_a_session(&home, "y", "done again: readings from \"more.csv\"");
    assert_eq!(json(&home, &job), imported);
}

#[test]
fn a_file_edited_by_hand_opens_and_says_that_undo_begins_there() {
    let home = Home::new();
    let terminal = job_with_ten_courses(&home);
    assert_eq!(terminal.quit(), 0);
    let job = home.job("Mill Lane");
    let text = std::fs::read_to_string(&job).unwrap();
    assert!(text.contains("    undo: [\n"));
    std::fs::write(&job, text.replace("Mill Lane", "Mill Road")).unwrap();
    let mut terminal = Terminal::open(home.path(), &[], (80, 24));
    terminal.wait_for("edited by");
    terminal.wait_for("undo begins here: what was changed before no longer fits this file");
    terminal.press("yu");
    terminal.wait_for("nothing left to take back");
    assert_eq!(terminal.quit(), 0);
}
