//! A copy of the project in which one file at a time is changed and tested.

use crate::files::sources as files_below;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// What is not part of the source.
const LEFT_OUT: [&str; 2] = ["target", ".git"];

/// The tests in the order in which they are tried, those that most often find
/// something first and all of them last. Each is built on its own: whatever
/// stands after the one that fails need not be.
const TRIED: [&[&str]; 6] = [
    &["--lib"],
    &["--test", "screens"],
    &["--test", "domain"],
    &["--test", "paper"],
    &["--test", "app", "--test", "store", "--test", "offcuts"],
    &["--tests"],
];

/// What became of a change.
pub(crate) enum Outcome {
    /// The first test that failed.
    Found(String),
    DoesNotBuild,
    Unseen,
}

pub(crate) struct Project {
    tree: PathBuf,
    target: PathBuf,
}

impl Project {
    /// The project as it stands, copied; what was built there earlier is used.
    pub(crate) fn copied() -> Self {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("flips");
        let tree = folder.join("tree");
        if tree.exists() {
            fs::remove_dir_all(&tree).unwrap();
        }
        copy(Path::new(env!("CARGO_MANIFEST_DIR")), &tree);
        let target = folder.join("target");
        Self { tree, target }
    }

    /// Tests the project with `text` in the file at `path`, which is `before`
    /// again after it.
    pub(crate) fn tested(&self, path: &str, text: &str, before: &str) -> Outcome {
        let path = self.tree.join(path);
        fs::write(&path, text).unwrap();
        let outcome = self.outcome();
        fs::write(&path, before).unwrap();
        outcome
    }

    fn outcome(&self) -> Outcome {
        if !self.cargo(&["check", "--quiet", "--bins"]).status.success() {
            return Outcome::DoesNotBuild;
        }
        for tests in TRIED {
            let output = self.cargo(&[&["test", "--quiet"], tests].concat());
            if output.status.success() {
                continue;
            }
            // A busy machine can fail a test in a terminal: it has to fail again.
            let name = first_failed(&output);
            let exact = ["--", "--exact", &name];
            let again = self.cargo(&[&["test", "--quiet"], tests, &exact].concat());
            if !again.status.success() {
                return Outcome::Found(name);
            }
        }
        Outcome::Unseen
    }

    fn cargo(&self, args: &[&str]) -> Output {
        Command::new(env!("CARGO"))
            .args(args)
            .args(["--offline", "--locked"])
            .current_dir(&self.tree)
            .env("CARGO_TARGET_DIR", &self.target)
            .env("INSTA_UPDATE", "no")
            .output()
            .unwrap()
    }
}

/// The name below the last "failures:", or what was said instead.
fn first_failed(output: &Output) -> String {
    let said = String::from_utf8_lossy(&output.stdout);
    let below = said.rsplit_once("failures:\n").map(|(_, below)| below);
    let name = below.and_then(|below| below.lines().find(|line| !line.is_empty()));
    let errors = String::from_utf8_lossy(&output.stderr);
    match name {
        Some(name) => name.trim().to_owned(),
        None => errors.lines().last().unwrap_or_default().to_owned(),
    }
}

/// Every file below `src`, its path from the project's folder on, and its text.
pub(crate) fn sources() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let source = |path: PathBuf| {
        let text = fs::read_to_string(&path).unwrap();
        let path = path.strip_prefix(root).unwrap();
        (path.to_str().unwrap().replace('\\', "/"), text)
    };
    files_below(&root.join("src"))
        .into_iter()
        .map(source)
        .collect()
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let name = entry.file_name();
        if LEFT_OUT.iter().any(|left_out| name == *left_out) {
            continue;
        }
        let (path, to) = (entry.path(), to.join(name));
        if path.is_dir() {
            copy(&path, &to);
        } else {
            fs::copy(&path, &to).unwrap();
        }
    }
}
