//! Signals, panics, terminals that go away, kills.

use super::bench::{Bench, at_the_bench, program_of, signal};
use bendmark::storage::files::RealFs;
use bendmark::storage::job_file::Seal;
use bendmark::storage::keeping::{LoadError, load};
use std::path::PathBuf;
use std::process::Command;
use std::time::{Duration, Instant};

/// Runs the program within a shell that tells its exit code and the terminal's
/// state afterwards; `end` ends it.
fn ended_by(bench: &Bench, before: &str, end: impl Fn(u32), keys: &str) -> String {
    let script = format!("{before} \"$BENDMARK\" JOB; echo \"exit $?\"; stty -a");
    let mut terminal = at_the_bench(bench.open_in_shell(&script));
    terminal.press("<enter>");
    terminal.wait_for("39 left");
    // Not waiting for "saved".
    terminal.send(b"\r");
    terminal.wait_for("38 left");
    end(program_of(terminal.process()));
    if !keys.is_empty() {
        terminal.send(keys.as_bytes());
    }
    terminal.child.wait().unwrap();
    let words = terminal.last_words();
    println!("{}", bench.without_folder(&words));
    words
}

#[track_caller]
fn is_restored(words: &str, exit: i32) {
    assert!(words.contains(&format!("exit {exit}\n")), "{words}");
    // The terminal reads lines and echoes again.
    assert!(words.contains(" icanon "), "{words}");
    assert!(words.contains(" echo "), "{words}");
}

#[test]
fn hang_up_terminate_and_interrupt_save_restore_and_tell_by_the_exit_code() {
    for (name, exit) in [("HUP", 129), ("TERM", 143), ("INT", 130)] {
        let bench = Bench::new();
        let words = ended_by(&bench, "", |process| signal(name, process), "");
        is_restored(&words, exit);
        assert_eq!(bench.stacked(), 2, "{name}");
    }
}

/// The files left in the folder for crashes.
fn crash_files(bench: &Bench) -> Vec<PathBuf> {
    let folder = bench.home.path().join(".local/state/bendmark");
    let files = std::fs::read_dir(folder).unwrap();
    files.map(|file| file.unwrap().path()).collect()
}

const F12: &str = "\x1b[24~";

#[test]
fn a_panic_on_any_thread_saves_restores_and_leaves_a_crash_file_without_the_job() {
    for place in ["loop", "input"] {
        let bench = Bench::new();
        let before = format!("BENDMARK_FAULT={place}");
        let words = ended_by(&bench, &before, |_| {}, F12);
        is_restored(&words, 101);
        assert!(words.contains("the job is saved"), "{words}");
        assert_eq!(bench.stacked(), 2, "{place}");
        let files = crash_files(&bench);
        assert_eq!(files.len(), 1);
        let text = std::fs::read_to_string(&files[0]).unwrap();
        assert!(text.contains("place: src/shell/outside/fault.rs"), "{text}");
        for of_the_job in ["Mill", "roof", "Hip 1", "ordered"] {
            assert!(!text.contains(of_the_job), "{of_the_job} in {text}");
        }
    }
}

#[test]
fn a_panic_while_saving_shows_as_not_saved_and_the_program_goes_on() {
    let bench = Bench::new();
    let script = "BENDMARK_FAULT=saver exec \"$BENDMARK\" JOB";
    let mut terminal = at_the_bench(bench.open_in_shell(script));
    terminal.press("<enter>");
    terminal.wait_for("a fault of the program");
    terminal.press("<enter>");
    terminal.wait_for("38 left");
    assert_eq!(crash_files(&bench).len().min(1), 1);
    signal("TERM", terminal.process());
    assert_eq!(terminal.child.wait().unwrap().exit_code(), 143);
    let words = bench.without_folder(&terminal.last_words());
    println!("{words}");
    // What could not be saved is in the folder for such.
    assert!(words.contains("the job as it was last is in"), "{words}");
    let rescued = bench.home.path().join(".local/share/bendmark/rescued");
    let file = std::fs::read_dir(rescued).unwrap().next().unwrap().unwrap();
    let job = super::bench::read(&file.path());
    assert_eq!(super::bench::stacked(&job), 2);
}

fn is_running(process: u32) -> bool {
    let status = std::fs::read_to_string(format!("/proc/{process}/status"));
    status.is_ok_and(|status| !status.contains("State:\tZ"))
}

/// The processor time a process has taken, in ticks.
fn ticks(process: u32) -> u64 {
    let stat = std::fs::read_to_string(format!("/proc/{process}/stat")).unwrap_or_default();
    let (_, fields) = stat.rsplit_once(") ").unwrap_or_default();
    let fields: Vec<&str> = fields.split(' ').collect();
    let at = |at: usize| fields.get(at).and_then(|field| field.parse().ok());
    at(11).unwrap_or(0) + at(12).unwrap_or(0)
}

#[test]
fn a_terminal_that_goes_without_a_signal_ends_the_program_and_spins_nowhere() {
    let bench = Bench::new();
    // In a session of its own it is sent no hang-up.
    let script = "exec 3<&0; setsid \"$BENDMARK\" JOB <&3 & echo; wait";
    let mut terminal = at_the_bench(bench.open_in_shell(script));
    terminal.press("<enter><enter>");
    terminal.wait_for("38 left");
    let process = program_of(terminal.process());
    let spent = ticks(process);
    terminal.close();
    let start = Instant::now();
    while is_running(process) {
        assert!(start.elapsed() < Duration::from_secs(5), "still running");
        assert!(ticks(process) - spent < 100, "it spins");
        std::thread::sleep(Duration::from_millis(5));
    }
    assert_eq!(bench.stacked(), 2);
}

#[test]
fn idle_it_takes_no_processor_time() {
    let bench = Bench::new();
    let terminal = bench.open();
    // What the start has left to do is not meant.
    std::thread::sleep(Duration::from_millis(200));
    let before = ticks(terminal.process());
    std::thread::sleep(Duration::from_millis(400));
    assert!(ticks(terminal.process()) - before <= 1);
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn a_closed_terminal_saves_and_ends() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    terminal.press("<enter>");
    terminal.send(b"\r");
    terminal.wait_for("38 left");
    let process = terminal.process();
    terminal.close();
    let start = Instant::now();
    while is_running(process) {
        assert!(start.elapsed() < Duration::from_secs(5), "still running");
        std::thread::sleep(Duration::from_millis(5));
    }
    assert_eq!(bench.stacked(), 2);
}

#[test]
fn killed_at_the_first_save_the_job_is_there_whole_or_not_at_all() {
    let bench = Bench::new();
    let (mut there, mut missing) = (0, 0);
    for count in 0_u64..60 {
        let path = bench.folder().join(format!("new {count}.ron"));
        let mut program = Command::new(env!("CARGO_BIN_EXE_bendmark"))
            .env("HOME", bench.home.path())
            .arg("new")
            .arg(&path)
            .stdout(std::process::Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(Duration::from_micros(count * 60));
        program.kill().unwrap();
        program.wait().unwrap();
        match load(&RealFs, &path) {
            Ok(loaded) => {
                assert_eq!(loaded.seal, Seal::Whole);
                there += 1;
            }
            Err(LoadError::Missing { .. }) => missing += 1,
            Err(error) => panic!("{error}"),
        }
        // Whatever is left there keeps nobody from making it.
        if !path.exists() {
            let made = bench.command(&["new", path.to_str().unwrap()]);
            assert!(made.status.success(), "{made:?}");
        }
    }
    println!("killed at the first save: {there} whole, {missing} not there");
}

#[test]
fn ctrl_z_undoes_and_does_not_suspend() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    terminal.press("<enter>");
    terminal.wait_for("39 left");
    terminal.press("<ctrl-z>");
    terminal.wait_for("taken back");
    terminal.wait_for("40 left");
    assert_eq!(terminal.quit(), 0);
}
