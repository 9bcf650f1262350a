//! A job on the real disk, the real program on it, and what goes wrong there.

use crate::terminal::{Home, Terminal};
use bendmark::domain::{
    bench::{Progress, Stage},
    cutting::{CutList, Job},
    measure::Name,
    settings::Setting,
};
use bendmark::storage::files::RealFs;
use bendmark::storage::job_file::encode;
use bendmark::storage::keeping::{create, load};
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A home, a folder for jobs in it, and a job of forty pieces.
pub(crate) struct Bench {
    pub(crate) home: Home,
    pub(crate) job: PathBuf,
}

impl Bench {
    pub(crate) fn new() -> Self {
        let home = Home::new();
        let folder = home.path().join("site");
        std::fs::create_dir(&folder).unwrap();
        let job = folder.join("roof.ron");
        make(&job, 40);
        Self { home, job }
    }

    pub(crate) fn folder(&self) -> &Path {
        self.job.parent().unwrap()
    }

    /// The program at the bench, the first piece in hand.
    pub(crate) fn open(&self) -> Terminal {
        let path = self.job.to_str().unwrap();
        at_the_bench(Terminal::open(self.home.path(), &[path], (100, 30)))
    }

    pub(crate) fn open_in_shell(&self, script: &str) -> Terminal {
        let script = script.replace("JOB", self.job.to_str().unwrap());
        Terminal::open_in_shell(self.home.path(), &script, (100, 30))
    }

    pub(crate) fn command(&self, args: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_bendmark"))
            .env("HOME", self.home.path())
            .current_dir(self.folder())
            .args(args)
            .output()
            .unwrap()
    }

    /// How many pieces the file knows as stacked.
    pub(crate) fn stacked(&self) -> usize {
        stacked(&read(&self.job))
    }

    /// What was said, without this run's folder.
    pub(crate) fn without_folder(&self, text: &str) -> String {
        let folder = self.folder().display().to_string();
        let home = self.home.path().display().to_string();
        text.replace(&folder, "SITE").replace(&home, "HOME")
    }
}

pub(crate) fn at_the_bench(mut terminal: Terminal) -> Terminal {
    terminal.wait_for("pieces left");
    terminal.press("<f4>");
    terminal.wait_for("before you cut");
    terminal.press("<enter>");
    terminal.wait_for(" of 40, ");
    terminal
}

/// Writes a job with one hip of `courses` courses, a key press a piece.
pub(crate) fn make(path: &Path, courses: u32) {
    let mut job = crate::support::job_with_hip(courses, bendmark::domain::measure::Hand::Left);
    job.name = Name::or("Mill Lane", "?");
    job.settings = Setting::OneKey.set(&job.settings, "piece").unwrap();
    create(&RealFs, path, &encode(&job).unwrap()).unwrap();
}

pub(crate) fn read(path: &Path) -> Job {
    load(&RealFs, path).unwrap().job
}

pub(crate) fn stacked(job: &Job) -> usize {
    let list = CutList::of(job, &Progress::of(job.events()));
    let pieces = list.pieces.iter();
    pieces.filter(|piece| piece.stage == Stage::Stacked).count()
}

/// Sends a signal to a process.
pub(crate) fn signal(name: &str, process: u32) {
    let done = Command::new("kill")
        .args([format!("-{name}"), process.to_string()])
        .status()
        .unwrap();
    assert!(done.success());
}

/// The program that a shell in a terminal has started.
pub(crate) fn program_of(shell: u32) -> u32 {
    let children = format!("/proc/{shell}/task/{shell}/children");
    let children = std::fs::read_to_string(children).unwrap();
    children.split_whitespace().next().unwrap().parse().unwrap()
}
