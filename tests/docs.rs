//! Docs that follow from the code are compared with it.
//!
//! `BENDMARK_WRITE_DOCS=1 cargo test --test docs` writes them anew.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a failing test may panic"
)]

use bendmark::app::keymap::{Scope, TABLE};
use bendmark::domain::caution::CAUTIONS;
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

#[track_caller]
fn matches(name: &str, expected: &str) {
    if std::env::var_os("BENDMARK_WRITE_DOCS").is_some() {
        fs::write(file(name), expected).unwrap();
    }
    let written = fs::read_to_string(file(name)).unwrap_or_default();
    assert_eq!(written, expected, "{name} is stale");
}

#[test]
fn the_page_of_keys_is_made_from_the_table_of_keys() {
    let mut page = String::from(
        "# Keys\n\nMade from the program's table of keys. Digits and `.` start a reading in the Log at once.\n",
    );
    for scope in Scope::ALL {
        let rows: Vec<_> = TABLE.iter().filter(|row| row.scope == scope).collect();
        if rows.is_empty() {
            continue;
        }
        write!(
            page,
            "\n## {}\n\n| key | does |\n|---|---|\n",
            scope.title()
        )
        .unwrap();
        for row in rows {
            writeln!(page, "| `{}` | {} |", row.key, row.says).unwrap();
        }
    }
    matches("docs/keys.md", &page);
}

#[test]
fn the_readme_opens_with_the_job_and_has_the_cautions() {
    let readme = fs::read_to_string(file("README.md")).unwrap();
    let first = readme.split("\n\n").nth(1).unwrap();
    assert!(first.starts_with("A crew roofs houses"), "{first}");
    assert!(readme.contains("razor-sharp") && CAUTIONS[0].contains("razor-sharp"));
    for words in [
        "not instead of the panel maker's instructions, local codes or licensed practice",
        "Tested on Linux only",
        "cargo run --release",
        "cargo test",
    ] {
        assert!(readme.contains(words), "{words}");
    }
}

#[test]
fn developers_are_told_the_commands_that_ci_runs() {
    let ci = fs::read_to_string(file(".ci/run")).unwrap();
    let developers = fs::read_to_string(file("DEVELOPERS.md")).unwrap();
    for line in ci.lines().filter(|line| line.contains("cargo ")) {
        assert!(developers.contains(line), "{line}");
    }
}
