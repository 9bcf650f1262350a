//! The first start of all, also one that is killed, and preferences that are
//! broken.

use crate::terminal::{Home, Terminal};
use bendmark::storage::{files::RealFs, keeping::load};
use std::path::PathBuf;
use std::process::Command;
use std::time::Duration;

fn names(home: &Home, folder: &str) -> Vec<String> {
    let Ok(names) = std::fs::read_dir(home.path().join(folder)) else {
        return Vec::new();
    };
    let names = names.map(|name| name.unwrap().file_name().into_string().unwrap());
    let mut names: Vec<_> = names.collect();
    names.sort();
    names
}

const JOBS: &str = ".local/share/bendmark/jobs";
const CONFIG: &str = ".config/bendmark";

fn jobs(home: &Home) -> Vec<String> {
    let all = names(home, JOBS).into_iter();
    all.filter(|name| name.ends_with(".ron")).collect()
}

fn kill(mut terminal: Terminal) {
    let process = terminal.process().to_string();
    let done = Command::new("kill").args(["-KILL", &process]).status();
    assert!(done.unwrap().success());
    terminal.child.wait().unwrap();
}

/// Killed after its job was made and before that was noted: what is on the disk
/// then is the job without the preferences.
#[test]
fn a_first_start_killed_before_it_noted_its_job_makes_no_second_one() {
    let home = Home::new();
    let terminal = Terminal::open(home.path(), &[], (80, 24));
    terminal.wait_saved();
    kill(terminal);
    let first = jobs(&home);
    assert_eq!(first.len(), 1, "{first:?}");
    let _ = std::fs::remove_dir_all(home.path().join(CONFIG));
    let again = Terminal::open(home.path(), &[], (80, 24));
    again.wait_saved();
    assert_eq!(again.quit(), 0);
    assert_eq!(jobs(&home), first);
}

#[test]
fn a_first_start_killed_at_any_moment_leaves_one_whole_sample_after_the_next() {
    for moment in 0..16 {
        let home = Home::new();
        let terminal = Terminal::open(home.path(), &[], (80, 24));
        std::thread::sleep(Duration::from_millis(moment * 3));
        kill(terminal);
        for job in jobs(&home) {
            let path: PathBuf = home.path().join(JOBS).join(&job);
            assert!(load(&RealFs, &path).is_ok(), "half of {job}");
        }
        let next = Terminal::open(home.path(), &[], (80, 24));
        next.wait_saved();
        assert_eq!(next.quit(), 0);
        let jobs = jobs(&home);
        assert_eq!(jobs.len(), 1, "after {moment}: {jobs:?}");
    }
}

#[test]
fn broken_preferences_are_kept_under_another_name_and_said_once() {
    let home = Home::new();
    let terminal = Terminal::open(home.path(), &[], (80, 24));
    terminal.wait_saved();
    assert_eq!(terminal.quit(), 0);
    let file = home.path().join(CONFIG).join("preferences.ron");
    let whole = std::fs::read_to_string(&file).unwrap();
    let broken = &whole[..whole.len() / 2];
    std::fs::write(&file, broken).unwrap();

    let terminal = Terminal::open(home.path(), &[], (120, 40));
    terminal.wait_for("No job is open");
    terminal.wait_for("is broken and kept as");
    assert_eq!(terminal.quit(), 0);
    let kept = home.path().join(CONFIG).join("preferences.ron.damaged-1");
    assert_eq!(std::fs::read_to_string(kept).unwrap(), broken);

    // The next start says nothing of it, makes no second sample, and what is
    // changed there is kept.
    let mut terminal = Terminal::open(home.path(), &[], (120, 40));
    terminal.wait_for("No job is open");
    assert!(
        !terminal.contents().contains("preferences"),
        "{}",
        terminal.contents()
    );
    terminal.press("t");
    assert_eq!(terminal.quit(), 0);
    let written = std::fs::read_to_string(&file).unwrap();
    assert!(written.contains("theme: dark"), "{written}");
    assert_eq!(jobs(&home).len(), 1);
    assert_eq!(
        names(&home, CONFIG),
        ["preferences.ron", "preferences.ron.damaged-1"]
    );
}
