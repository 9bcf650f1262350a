//! Every system call of a save by the real program fails once, with one error
//! after another: never a false "added", the true reason, and a whole job in the
//! file. Skipped where strace is not installed; tests/store does the same by the
//! operations of the program's own disk.

use super::bench::{Bench, read as read_job};
use super::disks::done;
use bendmark::storage::job_file::{Seal, decode};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const HEAD: &str = "edge,kind,hand,course,bottom,top\n";

/// The errors, and what is said of each; the second one of a path that is
/// closed to this user.
const ERRORS: [(&str, &[&str]); 3] = [
    ("ENOSPC", &["the disk is full", "no space left"]),
    ("EIO", &["input/output error"]),
    (
        "EACCES",
        &[
            "permission denied",
            "write-protected",
            "may not be opened",
            "may not be read",
        ],
    ),
];

/// Those that are no part of a save.
const OTHERS: [&str; 10] = [
    "close",
    "mmap",
    "munmap",
    "mprotect",
    "brk",
    "getrandom",
    "sigaltstack",
    "rt_sigaction",
    "getcwd",
    "exit_group",
];

/// `import` under strace with these options.
fn import(bench: &Bench, options: &[&str]) -> Output {
    Command::new("strace")
        .args([
            "-f",
            "-o",
            bench.home.path().join("trace").to_str().unwrap(),
        ])
        .args(options)
        .arg(env!("CARGO_BIN_EXE_bendmark"))
        .args(["import", "roof.ron", "more.csv"])
        .current_dir(bench.folder())
        .env("HOME", bench.home.path())
        .output()
        .unwrap()
}

/// From the lock on: each call by its name, and which one of that name it is.
fn calls(trace: &Path) -> Vec<(String, usize)> {
    let text = std::fs::read_to_string(trace).unwrap();
    let (mut counts, mut calls) = (BTreeMap::new(), Vec::new());
    let mut is_locking = false;
    for line in text.lines() {
        let Some((name, rest)) = line
            .split_whitespace()
            .nth(1)
            .and_then(|w| w.split_once('('))
        else {
            continue;
        };
        is_locking |= line.contains("roof.ron.lock");
        let count = counts.entry(name.to_owned()).or_insert(0);
        *count += 1;
        // What is said in the end is no part of a save.
        let is_word = name == "write" && rest.starts_with("1,");
        if is_locking && !is_word && !OTHERS.contains(&name) {
            calls.push((name.to_owned(), *count));
        }
    }
    calls
}

/// A job whose folder is put back before each import.
struct Site {
    bench: Bench,
    /// What is in the job and in its `.bak`.
    before: [Vec<u8>; 2],
}

impl Site {
    fn new() -> Self {
        let bench = Bench::new();
        std::fs::write(bench.folder().join("more.csv"), csv(1)).unwrap();
        let done = bench.command(&["import", "roof.ron", "more.csv"]);
        assert!(done.status.success());
        let before = kept(&bench).map(|path| std::fs::read(path).unwrap());
        let site = Self { bench, before };
        site.put_back();
        site
    }

    fn put_back(&self) {
        let folder = self.bench.folder();
        let _ = std::fs::remove_dir_all(folder);
        std::fs::create_dir(folder).unwrap();
        std::fs::write(folder.join("more.csv"), csv(2)).unwrap();
        for (path, bytes) in kept(&self.bench).iter().zip(&self.before) {
            std::fs::write(path, bytes).unwrap();
        }
    }

    /// Imports with one call failing; whether it went on all the same.
    fn import_with(&self, (name, count): &(String, usize), error: &str, words: &[&str]) -> bool {
        self.put_back();
        let inject = format!("inject={name}:error={error}:when={count}");
        let output = import(&self.bench, &["-e", &inject]);
        let said = String::from_utf8_lossy(&output.stderr).to_lowercase();
        let is_told = String::from_utf8_lossy(&output.stdout).contains("courses added: 1");
        let what = format!("{name} {count} {error}: {said}");
        let code = output.status.code();
        assert!(matches!(code, Some(0 | 1)), "{code:?} {what}");
        assert_eq!(is_told, code == Some(0), "{what}");
        // One of the two is whole, whatever happened; mostly the file.
        let kept = kept(&self.bench);
        let read = kept.iter().filter_map(|path| std::fs::read(path).ok());
        let mut whole = read.filter(|bytes| decode(bytes).is_ok_and(|d| d.seal == Seal::Whole));
        assert!(whole.next().is_some(), "{what}");
        if is_told {
            let job = read_job(&self.bench.job);
            assert_eq!(job.edges().last().unwrap().courses().len(), 2, "{what}");
        } else {
            assert!(words.iter().any(|words| said.contains(words)), "{what}");
        }
        is_told
    }
}

fn csv(courses: u32) -> String {
    let row = |course| format!("East,hip,right,{course},20,8 1/4\n");
    (1..=courses).fold(HEAD.to_owned(), |text, course| text + &row(course))
}

fn kept(bench: &Bench) -> [PathBuf; 2] {
    ["roof.ron", "roof.ron.bak"].map(|name| bench.folder().join(name))
}

#[test]
fn whichever_system_call_of_a_save_fails_the_true_reason_is_told() {
    if !done("strace", &["-o", "/dev/null", "true"]) {
        println!("skipped: strace is not installed, or may not trace");
        return;
    }
    let site = Site::new();
    assert!(import(&site.bench, &[]).status.success());
    let calls = calls(&site.bench.home.path().join("trace"));
    let (mut failed, mut went_on) = (0, 0);
    for (error, words) in ERRORS {
        for call in &calls {
            match site.import_with(call, error, words) {
                true => went_on += 1,
                false => failed += 1,
            }
        }
    }
    println!(
        "{} calls: {failed} failures told, {went_on} that did no harm",
        calls.len()
    );
    assert!(failed > 50, "{failed}");
}
