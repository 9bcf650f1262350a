//! The program is killed again and again while pieces are being stacked. What
//! the screen called saved is there after each.

use super::bench::{make, read, signal, stacked};
use crate::terminal::{Home, Terminal};
use std::path::Path;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

const PIECES: usize = 120;

/// A generator for moments (Lehmer's, with the multiplier of Park and Miller,
/// from memory).
struct Random(u64);

impl Random {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        self.0 % most
    }
}

fn kills() -> usize {
    let asked = |name| std::env::var(name).ok().and_then(|text| text.parse().ok());
    asked("BENDMARK_KILLS")
        .or_else(|| asked("BENDMARK_CASES").map(|cases: usize| cases.min(1_000)))
        .unwrap_or(25)
}

#[test]
fn what_the_screen_called_saved_is_there_after_every_kill() {
    let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap();
    let seed = u64::from(now.subsec_nanos()) | 1;
    println!("seed {seed}");
    let mut random = Random(seed);
    let home = Home::new();
    let mut jobs = 0;
    let (mut before, mut pressed, mut unsaved) = (PIECES, 0, 0);
    for kill in 0..kills() {
        if before + 45 > PIECES {
            jobs += 1;
            before = 0;
            make(&job(&home, jobs), u32::try_from(PIECES).unwrap());
        }
        let path = job(&home, jobs);
        let run = run(&home, &path, before, &mut random);
        let there = stacked(&read(&path));
        assert!(
            run.said_saved <= there && there <= before + run.presses,
            "kill {kill}: saved {} of {}, found {there}",
            run.said_saved,
            before + run.presses
        );
        unsaved += usize::from(there > run.said_saved);
        pressed += run.presses;
        before = there;
    }
    println!(
        "{} kills, {pressed} keys, {unsaved} of them past the last word",
        kills()
    );
}

fn job(home: &Home, count: usize) -> std::path::PathBuf {
    home.path().join(format!("roof {count}.ron"))
}

struct Run {
    /// How many pieces were stacked on the last frame that said "saved".
    said_saved: usize,
    presses: usize,
}

fn run(home: &Home, path: &Path, before: usize, random: &mut Random) -> Run {
    let mut terminal = Terminal::open(home.path(), &[path.to_str().unwrap()], (80, 24));
    terminal.wait_for(&format!("{} of {PIECES} pieces left", PIECES - before));
    terminal.press("<f4><enter>");
    terminal.wait_for(&format!("{} left", PIECES - before));
    let process = terminal.process();
    let (after, presses) = (random.below(60_000), 1 + random.below(40));
    let killer = std::thread::spawn(move || {
        std::thread::sleep(Duration::from_micros(after));
        signal("KILL", process);
    });
    for _ in 0..presses {
        terminal.send(b"\r");
        std::thread::sleep(Duration::from_micros(random.below(4_000)));
    }
    killer.join().unwrap();
    terminal.child.wait().unwrap();
    let frame = terminal.last_saved_frame();
    let left: usize = frame
        .split(" left")
        .next()
        .and_then(|text| text.rsplit([' ', ',']).next())
        .and_then(|count| count.parse().ok())
        .unwrap_or_else(|| panic!("no count on the last frame:\n{frame}"));
    Run {
        said_saved: PIECES - left,
        presses: usize::try_from(presses).unwrap(),
    }
}
