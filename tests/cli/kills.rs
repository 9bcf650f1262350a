//! The program is killed again and again while it saves, and two programs are
//! put on one job; without a terminal, so on every system.

use super::Bench;
use bendmark::storage::files::{Lock, RealFs};
use bendmark::storage::keeping::{Barred, Held, OpenFile, load::load};
use std::process::Stdio;
use std::time::{Duration, Instant};

/// A generator for moments (Lehmer's, with the multiplier of Park and Miller,
/// from memory).
struct Random(u64);

impl Random {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        self.0 % most
    }
}

fn kills() -> u32 {
    let asked = std::env::var("BENDMARK_KILLS").ok();
    asked.and_then(|text| text.parse().ok()).unwrap_or(10)
}

/// The readings of the first `count` courses, an edge each.
fn readings(count: u32) -> String {
    let row = |number| format!("Edge {number},hip,left,1,20,8 1/4\n");
    let rows: String = (1..=count).map(row).collect();
    format!("edge,kind,hand,course,bottom,top\n{rows}")
}

/// How many edges the job has.
fn there(bench: &Bench) -> u32 {
    let loaded = load(&RealFs, &bench.0.path().join("roof.ron")).unwrap();
    u32::try_from(loaded.job.edges().len()).unwrap()
}

#[test]
fn an_import_killed_at_any_moment_loses_nothing_that_was_saved() {
    let seed = u64::from(std::process::id()) | 1;
    println!("seed {seed}");
    let mut random = Random(seed);
    let mut bench = Bench::new();
    let (mut saved, mut longest) = (0, Duration::from_millis(1));
    let (mut before, mut after) = (0, 0);
    for kill in 0..kills() {
        if kill % 40 == 0 {
            bench = Bench::new();
            bench.done(&["new", "roof.ron"]);
            saved = 0;
            // One that nobody kills says how long it takes.
            bench.write("readings.csv", &readings(1));
            let start = Instant::now();
            bench.done(&["import", "roof.ron", "readings.csv"]);
            longest = longest.max(start.elapsed());
            saved = saved.max(1);
        }
        let next = saved + 1;
        bench.write("readings.csv", &readings(next));
        let mut program = bench
            .command(&["import", "roof.ron", "readings.csv"])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let most = u64::try_from(longest.as_micros()).unwrap() * 5 / 4;
        std::thread::sleep(Duration::from_micros(random.below(most)));
        let is_done = program.try_wait().unwrap().is_some();
        let _ = program.kill();
        program.wait().unwrap();
        let there = there(&bench);
        assert!(
            there == next || there == saved && !is_done,
            "kill {kill}: {saved} saved before, {next} asked for, {there} there"
        );
        *(if there == next {
            &mut after
        } else {
            &mut before
        }) += 1;
        saved = there;
    }
    println!(
        "{} kills, {before} before the save and {after} after it",
        kills()
    );
}

#[test]
fn of_two_programs_on_one_job_the_second_may_only_read_and_says_so() {
    let bench = Bench::with_readings();
    bench.write("more.csv", super::MORE);
    // This is the other program.
    let job = bench.0.path().join("roof.ron");
    let lock = Lock::take(&job).unwrap();
    let text = bench.read("roof.ron");
    let said = bench.refused(1, &["import", "roof.ron", "more.csv"]);
    assert!(said.contains("is in use by another bendmark"), "{said}");
    // The full screen says by it that it only reads.
    let Held::No(watch) = OpenFile::take(&job, None).unwrap().held else {
        panic!("taken twice");
    };
    assert_eq!(watch.why, Barred::InUse);
    bench.done(&["sheet", "roof.ron"]);
    assert_eq!(bench.read("roof.ron"), text);
    drop(lock);
    bench.done(&["import", "roof.ron", "more.csv"]);
    assert!(!bench.has("roof.ron.lock"));
}
