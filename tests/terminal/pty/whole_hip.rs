//! A whole hip at the Bench: with one key a piece, and while the window is
//! resized all the time.

use super::made;
use crate::terminal::{Home, Terminal};
use std::process::Command;

/// A job of one ten-course hip.
fn ten_courses(home: &Home, settings: &[&str]) -> Terminal {
    let mut csv = "edge,kind,hand,course,bottom,top\n".to_owned();
    for course in 1..=10 {
        csv.push_str(&format!("North,hip,right,{course},30,17 1/2\n"));
    }
    let terminal = made(home, settings, &csv);
    terminal.wait_for("10 of 10 pieces left");
    terminal
}

#[test]
fn a_whole_hip_is_cut_with_one_key() {
    let home = Home::new();
    let mut terminal = ten_courses(&home, &["--one-key", "piece"]);
    terminal.press("<f4><enter>");
    // The first press reads the cautions away; ten more do ten pieces.
    for left in (0..10).rev() {
        terminal.press("<enter>");
        terminal.wait_for(&format!("{left} left"));
    }
    terminal.wait_saved_with("every piece is stacked");
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn a_whole_hip_is_cut_while_the_window_changes_all_the_time() {
    let home = Home::new();
    let mut terminal = ten_courses(&home, &[]);
    terminal.press("<f4><enter>");
    let sizes = [
        (120, 40),
        (80, 24),
        (60, 18),
        (160, 50),
        (40, 10),
        (100, 30),
    ];
    let mut sizes = sizes.into_iter().cycle();
    for left in (0..10).rev() {
        let mut heard = 0;
        while heard < 4 {
            let (columns, rows) = sizes.next().unwrap();
            terminal.resize(columns, rows);
            // Where its work cannot be shown the key does nothing.
            let is_small = columns < 60;
            terminal.wait_for(if is_small { "needs 60x18" } else { "F6 Job" });
            terminal.press("<enter>");
            if is_small {
                continue;
            }
            // All is at rest before the next size: a key that comes with one may be
            // read with the next key, and the frame of a save is not that of a key.
            let after = if left > 0 { ">mark" } else { "every piece" };
            terminal.wait_saved_with([">cut", ">bend", ">label", after][heard]);
            heard += 1;
        }
        terminal.resize(80, 24);
        terminal.wait_for(&format!("{left} left"));
    }
    terminal.wait_saved_with("every piece is stacked");
    assert_eq!(terminal.quit(), 0);
}

/// A window that changed its size and back again while the program was busy has
/// lost cells, though its size is what it was.
#[test]
fn a_window_back_at_its_size_is_drawn_whole() {
    let home = Home::new();
    let mut terminal = ten_courses(&home, &[]);
    terminal.press("<f3><f2>");
    terminal.wait_for("Enter to the bench");
    // A blank that was written and one that was not are alike.
    let shown = |screen: &str| -> Vec<String> {
        screen
            .lines()
            .map(|line| line.trim_end().to_owned())
            .collect()
    };
    let before = shown(&terminal.contents());
    let signal = |name: &str| {
        let id = terminal.process().to_string();
        let sent = Command::new("kill").args([name, &id]).status().unwrap();
        assert!(sent.success());
    };
    signal("-STOP");
    terminal.resize(40, 10);
    terminal.resize(80, 24);
    assert_ne!(shown(&terminal.contents()), before);
    signal("-CONT");
    terminal.wait_until("the screen as it was", |screen| shown(screen) == before);
    assert_eq!(terminal.quit(), 0);
}

/// Nothing ticks: while nobody presses a key, no thread of the program runs.
#[cfg(target_os = "linux")]
#[test]
fn an_idle_program_does_nothing_at_all() {
    let home = Home::new();
    let terminal = ten_courses(&home, &[]);
    terminal.wait_saved_with("10 of 10 pieces left");
    let id = terminal.child.process_id().unwrap();
    let settled = settled(id);
    // The measurement itself is a wait: there is nothing to wait for.
    std::thread::sleep(std::time::Duration::from_secs(idle_seconds()));
    assert_eq!(work_done(id), settled);
    assert_eq!(terminal.quit(), 0);
}

/// Ten seconds where asked for, two else.
fn idle_seconds() -> u64 {
    let asked = std::env::var("BENDMARK_IDLE").ok();
    asked.and_then(|text| text.parse().ok()).unwrap_or(2)
}

/// CPU ticks and context switches of every thread, from /proc.
fn work_done(id: u32) -> Vec<(String, String)> {
    let mut threads = Vec::new();
    for thread in std::fs::read_dir(format!("/proc/{id}/task")).unwrap() {
        let path = thread.unwrap().path();
        let stat = std::fs::read_to_string(path.join("stat")).unwrap();
        let after_name = stat.rsplit_once(") ").unwrap().1;
        let ticks: Vec<_> = after_name.split(' ').skip(11).take(2).collect();
        let status = std::fs::read_to_string(path.join("status")).unwrap();
        let switches: Vec<_> = status
            .lines()
            .filter(|line| line.contains("ctxt_switches"))
            .collect();
        threads.push((ticks.join(" "), switches.join(" ")));
    }
    threads.sort();
    threads
}

/// What was done once starting up has come to rest.
fn settled(id: u32) -> Vec<(String, String)> {
    let mut before = work_done(id);
    loop {
        std::thread::sleep(std::time::Duration::from_millis(200));
        let now = work_done(id);
        if now == before {
            return now;
        }
        before = now;
    }
}
