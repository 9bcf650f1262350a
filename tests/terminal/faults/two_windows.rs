//! Two programs on one job.

use super::bench::{Bench, at_the_bench, read, stacked};
use bendmark::storage::{job_file::encode, keeping::backup_path};

const ROWS: &str = "edge,kind,hand,course,bottom,top\nEast,hip,right,1,20,8 1/4\n";

#[test]
fn a_second_window_opens_for_reading_only_and_refuses_changes() {
    let bench = Bench::new();
    let mut first = bench.open();
    first.press("<enter>");
    first.wait_saved();
    let second = bench.open_in_shell("exec \"$BENDMARK\" JOB");
    second.wait_for("READ ONLY");
    second.wait_for("reading only: another bendmark has this job open");
    let screen = second.contents();
    println!("{}", screen.lines().rev().nth(1).unwrap().trim());
    let mut second = at_the_bench(second);
    for key in ["<enter>", "u", "x"] {
        second.press("<left><right>");
        second.press(key);
        if key != "x" {
            second.wait_for("reading only: another");
        }
        second.press("<esc>");
    }
    // A reading is refused as it is begun, a setting as well.
    second.press("<f3><enter>5");
    second.wait_for("reading only: another");
    second.press("<f6><enter>");
    second.wait_for("reading only: another");
    assert_eq!(bench.stacked(), 1);
    // The first one goes on, and the second can have it afterwards.
    first.press("<enter>");
    first.wait_for("38 left");
    first.wait_saved();
    assert_eq!(first.quit(), 0);
    second.press("<f6>o");
    second.wait_for("open which job?");
    second.press("<enter>");
    second.wait_for("38 of 40 pieces left");
    let mut second = at_the_bench(second);
    second.press("<enter>");
    second.wait_for("37 left");
    second.wait_saved();
    assert_eq!(second.quit(), 0);
    assert_eq!(bench.stacked(), 3);
}

#[test]
fn a_window_that_only_reads_shows_the_newest_state_and_takes_over_by_a_key() {
    let bench = Bench::new();
    let mut first = bench.open();
    let mut second = at_the_bench(bench.open_in_shell("exec \"$BENDMARK\" JOB"));
    first.press("<enter>");
    first.wait_for("39 left");
    first.wait_saved();
    // Any key shows what the first one has done.
    second.press("<right>");
    second.wait_for("39 left");
    second.press("k");
    second.wait_for("once that is closed, k opens it for work");
    assert_eq!(first.quit(), 0);
    // It is said once, and never taken by itself.
    second.press("<left>");
    second.wait_for("the other window is closed, k opens this job for work");
    println!("{}", second.contents());
    second.press("<right><enter>");
    second.wait_for("the other window is closed");
    assert_eq!(bench.stacked(), 1);
    second.press("k");
    second.wait_for("open for work");
    second.wait_saved();
    // Still at the bench.
    second.press("<enter>");
    second.wait_for("38 left");
    second.wait_saved();
    assert_eq!(bench.stacked(), 2);
    assert_eq!(second.quit(), 0);
}

#[test]
fn import_says_that_an_open_job_is_in_use() {
    let bench = Bench::new();
    std::fs::write(bench.folder().join("more.csv"), ROWS).unwrap();
    let terminal = bench.open();
    let said = bench.command(&["import", "roof.ron", "more.csv"]);
    assert_eq!(said.status.code(), Some(1));
    insta::assert_snapshot!(String::from_utf8(said.stderr).unwrap(), @r#"bendmark: "roof.ron" is in use by another bendmark; nothing was changed: close it there, then try again"#);
    // Reading goes on.
    assert!(bench.command(&["sheet", "roof.ron"]).status.success());
    assert_eq!(terminal.quit(), 0);
    let said = bench.command(&["import", "roof.ron", "more.csv"]);
    assert!(said.status.success(), "{said:?}");
}

/// Another program, which knows of no lock, writes the file.
fn written_by_another(bench: &Bench) {
    let mut job = read(&bench.job);
    job.name = bendmark::domain::measure::Name::or("Other", "?");
    std::fs::write(&bench.job, encode(&job).unwrap()).unwrap();
}

#[test]
fn a_file_changed_by_another_program_is_noticed_at_a_key_and_kept() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    terminal.press("<enter>");
    terminal.wait_for("39 left");
    terminal.wait_saved();
    written_by_another(&bench);
    terminal.press("<enter>");
    terminal.wait_for("decides later");
    println!("{}", bench.without_folder(&terminal.contents()));
    // Decided later: the next save finds it again.
    // Esc and Enter in one read would be Alt+Enter.
    terminal.press("<esc>");
    terminal.wait_until("the question gone", |screen| {
        !screen.contains("decides later")
    });
    terminal.press("<enter>");
    terminal.wait_for("NOT SAVED");
    assert_eq!(read(&bench.job).name.as_str(), "Other");
    terminal.wait_for("decides later");
    terminal.press("y");
    terminal.wait_saved();
    assert_eq!(bench.stacked(), 2);
    let theirs = bench.folder().join("roof.ron.other-1");
    assert_eq!(read(&theirs).name.as_str(), "Other");
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn the_other_programs_file_can_be_opened_instead() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    written_by_another(&bench);
    terminal.press("<enter>");
    terminal.wait_for("decides later");
    terminal.press("o");
    terminal.wait_for("Other");
    terminal.wait_for("kept in");
    let ours = bench.folder().join("roof.ron.on-screen-1");
    assert_ne!(read(&ours).name.as_str(), "Other");
    let mut terminal = at_the_bench(terminal);
    terminal.press("<enter>");
    terminal.wait_for("39 left");
    terminal.wait_saved();
    assert_eq!(read(&bench.job).name.as_str(), "Other");
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn a_file_written_again_as_it_was_is_no_matter() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    let bytes = std::fs::read(&bench.job).unwrap();
    std::fs::write(&bench.job, bytes).unwrap();
    terminal.press("<enter>");
    terminal.wait_for("39 left");
    terminal.wait_saved();
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn a_damaged_file_is_opened_from_its_copy_once_that_is_agreed_to() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    for left in ["39 left", "38 left"] {
        terminal.press("<enter>");
        terminal.wait_for(left);
        terminal.wait_saved();
    }
    assert_eq!(terminal.quit(), 0);
    let text = std::fs::read_to_string(&bench.job).unwrap();
    std::fs::write(&bench.job, &text[..text.len() / 2]).unwrap();
    let said = bench.command(&["sheet", "roof.ron", "--format", "csv"]);
    let words = String::from_utf8(said.stderr).unwrap();
    println!("{words}");
    assert!(
        words.contains("its best copy is \"roof.ron.bak\""),
        "{words}"
    );
    assert!(words.contains("40 pieces, 1 of them stacked"), "{words}");
    let mut terminal = bench.open_in_shell("exec \"$BENDMARK\" JOB");
    terminal.wait_for("pieces, 1 of them stacked");
    println!("{}", terminal.contents());
    terminal.press("y");
    terminal.wait_saved();
    assert_eq!(terminal.quit(), 0);
    assert_eq!(stacked(&read(&bench.job)), 1);
    let aside = std::fs::read_to_string(bench.folder().join("roof.ron.damaged-1")).unwrap();
    assert_eq!(aside, text[..text.len() / 2]);
    // Without the .bak as well, the copy of the day is offered.
    std::fs::write(&bench.job, "(version: 1,").unwrap();
    std::fs::remove_file(backup_path(&bench.job)).unwrap();
    let said = bench.command(&["sheet", "roof.ron", "--format", "csv"]);
    let words = String::from_utf8(said.stderr).unwrap();
    println!("{words}");
    assert!(words.contains("40 pieces, 0 of them stacked"), "{words}");
}
