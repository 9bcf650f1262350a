//! Every command, file and key of the README and the docs, run and compared.
//!
//! Read from the page in its order, in one folder per page:
//! - a block `console` holds commands behind `$` and what they print; each is
//!   run by a shell with the program on its path;
//! - a block `csv NAME` is the file of that name;
//! - a table headed `press` and `and see` is pressed, key by key, on the screen
//!   of the job named in the block `screen JOB` before it, and each row's words
//!   are looked for on the screen; the job is saved where the table ends;
//! - any other `bendmark ...` has to be one the program takes.

use crate::support::Program;
use bendmark::shell::cli::request;
use bendmark::storage::job_file::{decode, encode};
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

/// A page and the folder its commands are run in.
struct Run {
    folder: TempDir,
    /// The job at the screen.
    screen: Option<(PathBuf, Program)>,
    commands: usize,
    keys: usize,
}

fn page(name: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).unwrap()
}

/// Runs `name` from top to bottom.
fn follow(name: &str) -> Run {
    let mut run = Run {
        folder: tempfile::tempdir().unwrap(),
        screen: None,
        commands: 0,
        keys: 0,
    };
    let text = page(name);
    let mut lines = text.lines().peekable();
    while let Some(line) = lines.next() {
        if let Some(info) = line.strip_prefix("```") {
            let block: Vec<&str> = lines.by_ref().take_while(|line| *line != "```").collect();
            run.block(info, &block);
        } else if line.starts_with("| press |") {
            assert_eq!(lines.next(), Some("|---|---|"));
            while let Some(row) = lines.next_if(|line| line.starts_with('|')) {
                run.row(row);
            }
            run.save();
        } else {
            for code in line.split('`').skip(1).step_by(2) {
                taken(code);
            }
        }
    }
    run
}

impl Run {
    fn block(&mut self, info: &str, block: &[&str]) {
        match info.split_once(' ').unwrap_or((info, "")) {
            ("console", "") => self.console(block),
            ("csv", name) if !name.is_empty() => {
                fs::write(self.folder.path().join(name), block.join("\n") + "\n").unwrap();
            }
            ("screen", job) => {
                taken(block[0]);
                let path = self.folder.path().join(job);
                let job = decode(&fs::read(&path).unwrap()).unwrap().job;
                self.screen = Some((path, Program::with(job)));
            }
            _ => block.iter().for_each(|line| taken(line)),
        }
    }

    fn console(&mut self, block: &[&str]) {
        let mut at = 0;
        while at < block.len() {
            let command = block[at].strip_prefix("$ ").expect("a command");
            let rest = &block[at + 1..];
            let count = rest
                .iter()
                .take_while(|line| !line.starts_with("$ "))
                .count();
            let expected: String = rest[..count]
                .iter()
                .map(|line| format!("{line}\n"))
                .collect();
            assert_eq!(self.shell(command), expected, "$ {command}");
            at += count + 1;
            self.commands += 1;
        }
    }

    /// What `command` prints, messages too.
    fn shell(&self, command: &str) -> String {
        let program = Path::new(env!("CARGO_BIN_EXE_bendmark"));
        let path = format!("{}:/usr/bin:/bin", program.parent().unwrap().display());
        let output = Command::new("sh")
            .args(["-c", &format!("exec 2>&1; {command}")])
            .current_dir(self.folder.path())
            .env_clear()
            .env("PATH", path)
            .env("HOME", self.folder.path())
            .output()
            .unwrap();
        String::from_utf8(output.stdout).unwrap()
    }

    fn row(&mut self, row: &str) {
        let cells: Vec<&str> = row.trim_matches('|').split(" | ").map(str::trim).collect();
        let (_, program) = self.screen.as_mut().expect("a screen before the table");
        for key in cells[0].split('`').skip(1).step_by(2) {
            program.press(&spelled(key));
            self.keys += 1;
        }
        let screen = program.screen(80, 24);
        for words in cells[1].split('`').skip(1).step_by(2) {
            assert!(screen.contains(words), "{row}\n{screen}");
        }
    }

    fn save(&mut self) {
        let (path, program) = self.screen.take().unwrap();
        fs::write(path, encode(program.job()).unwrap()).unwrap();
    }
}

/// A key as the page writes it, as the test spells it: `F4` is `<f4>`, what is
/// typed stands as it is.
fn spelled(key: &str) -> String {
    let named = ["Enter", "Esc", "Tab", "Backspace", "Del"].contains(&key);
    let function = key.len() == 2 && key.starts_with('F');
    if named || function {
        format!("<{}>", key.to_lowercase())
    } else {
        key.to_owned()
    }
}

/// A command line that the program takes; files need not be there.
#[track_caller]
fn taken(line: &str) {
    let Some(rest) = line.trim().strip_prefix("bendmark ") else {
        return;
    };
    let words = rest.split("  ").next().unwrap().split_whitespace();
    let words: Vec<OsString> = words
        .take_while(|word| ![">", "|", "&&"].contains(word))
        .map(OsString::from)
        .collect();
    let args = std::iter::once(OsString::from("bendmark")).chain(words);
    if let Err(error) = request(args) {
        // A command may be named without what it asks for.
        let named = error.kind() == clap::error::ErrorKind::MissingRequiredArgument;
        assert!(named || !error.use_stderr(), "{line}: {error}");
    }
}

#[test]
fn the_guide_goes_from_the_blank_log_to_the_last_stack() {
    let run = follow("docs/guide.md");
    assert!(
        run.commands >= 8 && run.keys >= 20,
        "{} {}",
        run.commands,
        run.keys
    );
}

#[test]
fn the_readmes_commands_print_what_it_says() {
    assert!(follow("README.md").commands >= 4);
}

#[test]
fn the_other_pages_name_only_commands_there_are() {
    for name in [
        "DEVELOPERS.md",
        "docs/doubts.md",
        "docs/job-file.md",
        "docs/offcuts.md",
        "docs/formulas.md",
        "docs/CHANGELOG.md",
        "docs/keys.md",
        "docs/safety-of-your-data.md",
    ] {
        follow(name);
    }
}
