//! Docs that follow from the code are compared with it.

use crate::sources::sources;
use crate::support::svg::svg_of;
use bendmark::app::keymap::{Scope, TABLE};
use bendmark::app::place::Glyphs;
use bendmark::domain::roof::EdgeKind;
use bendmark::domain::words::{CAUTIONS, WORDS};
use bendmark::sheet::format::Format;
use bendmark::storage::{files::RealFs, keeping::load};
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

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
        "# Keys\n\nMade from the program's table of keys. Digits and `.` start a reading in the Log at once. Undo and redo reach across a restart.\n",
    );
    for (scope, title) in Scope::ALL {
        let rows: Vec<_> = TABLE.iter().filter(|row| row.scope == scope).collect();
        if rows.is_empty() {
            continue;
        }
        write!(page, "\n## {title}\n\n| key | does |\n|---|---|\n").unwrap();
        for row in rows {
            writeln!(page, "| `{}` | {} |", row.key, row.says).unwrap();
        }
    }
    matches("docs/keys.md", &page);
}

/// Pictures of the real screens, from a sample job: `docs/pictures`.
#[test]
fn the_pictures_of_the_screens_are_made_from_their_cells() {
    let path = file("sample-jobs/alder-court-inches.ron");
    let job = load(&RealFs, &path).unwrap().job;
    let mut program = crate::support::Program::with(job);
    program.press("<f3><tab><home><right>7<enter>");
    let shot = |name: &str, size: (u16, u16), program: &mut crate::support::Program| {
        let buffer = program.buffer(size.0, size.1, Glyphs::Blocks);
        matches(&format!("docs/pictures/{name}.svg"), &svg_of(&buffer));
    };
    shot("log", (80, 24), &mut program);
    program.press("u<f4><enter>");
    shot("bench", (80, 24), &mut program);
    shot("bench-wide", (120, 40), &mut program);
    // Five pieces cut, so that something lies on the rack.
    program.press(&"<enter>".repeat(22));
    program.press("<f2>");
    shot("hips", (120, 30), &mut program);
    program.press("<f5>");
    shot("rack", (80, 24), &mut program);
    let readme = fs::read_to_string(file("README.md")).unwrap();
    for name in ["log", "bench", "hips", "rack"] {
        assert!(
            readme.contains(&format!("docs/pictures/{name}.svg")),
            "{name}"
        );
    }
}

#[test]
fn the_readme_opens_with_the_job_and_has_the_cautions() {
    let readme = fs::read_to_string(file("README.md")).unwrap();
    let first = readme.split("\n\n").nth(1).unwrap();
    assert!(first.starts_with("A crew roofs houses"), "{first}");
    assert!(readme.contains("razor-sharp") && CAUTIONS[0].contains("razor-sharp"));
    for words in [
        "not instead of the panel maker's instructions, local codes or licensed practice",
        "Tested on Linux; the Windows program is tested on Linux too, under Wine",
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

/// The names of the tests in a source file.
fn tests_of(text: &str) -> Vec<String> {
    let mut names = Vec::new();
    let mut is_test = false;
    for line in text.lines().map(str::trim) {
        is_test |= line == "#[test]";
        if let Some(name) = line.strip_prefix("fn ")
            && std::mem::take(&mut is_test)
        {
            names.push(name.split('(').next().unwrap().to_owned());
        }
    }
    names
}

/// Words of a page between backticks that could name a test or a file.
fn quoted(page: &str) -> Vec<&str> {
    page.split('`').skip(1).step_by(2).collect()
}

#[test]
fn the_page_of_outside_checks_names_each_of_them_and_nothing_else() {
    let page = fs::read_to_string(file("docs/checks.md")).unwrap();
    let named = quoted(&page);
    let mut known = Vec::new();
    for source in [sources(&file("src")), sources(&file("tests"))].concat() {
        known.extend(tests_of(&fs::read_to_string(source).unwrap()));
    }
    for name in named.iter().filter(|name| name.matches('_').count() >= 2) {
        assert!(known.iter().any(|test| test == name), "no test {name}");
    }
    for folder in ["tests/outside"] {
        for source in sources(&file(folder)) {
            for test in tests_of(&fs::read_to_string(source).unwrap()) {
                assert!(named.contains(&test.as_str()), "{test} is not on the page");
            }
        }
    }
}

/// Each invariant says what holds it, and that is there.
#[test]
fn what_holds_an_invariant_is_there() {
    let page = fs::read_to_string(file("DEVELOPERS.md")).unwrap();
    let invariants: Vec<&str> = page
        .lines()
        .filter(|line| line.starts_with("**Invariant:**"))
        .collect();
    assert!(invariants.len() >= 8, "{invariants:?}");
    for invariant in invariants {
        let (_, held) = invariant.split_once("Held by ").expect(invariant);
        let places = quoted(held);
        assert!(!places.is_empty(), "{invariant}");
        for place in places {
            let (path, test) = place.split_once("::").unwrap_or((place, ""));
            let text: String = if file(path).is_dir() {
                let all = sources(&file(path)).into_iter();
                all.map(|path| fs::read_to_string(path).unwrap()).collect()
            } else {
                fs::read_to_string(file(path)).expect(place)
            };
            let is_there = test.is_empty() || tests_of(&text).iter().any(|name| name == test);
            assert!(is_there, "{place}");
        }
    }
}

/// One table, every ratio within its bar.
#[test]
fn the_page_of_speed_has_every_ratio_within_its_bar() {
    let page = fs::read_to_string(file("docs/speed.md")).unwrap();
    assert!(page.contains("Measured on 20"));
    let rows: Vec<Vec<&str>> = page
        .lines()
        .filter(|line| line.starts_with("| ") && line.matches('|').count() == 6)
        .map(|line| line.split('|').map(str::trim).collect())
        .filter(|cells: &Vec<&str>| cells[4] != "ratio")
        .collect();
    assert!(rows.len() >= 15, "{rows:?}");
    for row in rows {
        let [ratio, bar] = [row[4], row[5]].map(|cell| cell.parse::<f64>().unwrap());
        assert!(ratio <= bar, "{row:?}");
    }
}

#[test]
fn the_guide_explains_the_words_that_the_help_explains() {
    let page = fs::read_to_string(file("docs/guide.md")).unwrap();
    for (word, meaning) in WORDS {
        let row = format!("| {word} | {meaning} |");
        assert!(page.contains(&row), "{row}");
    }
}

#[test]
fn every_kind_of_edge_is_named_where_a_user_reads_of_kinds() {
    let help = Command::new(env!("CARGO_BIN_EXE_bendmark"))
        .args(["import", "--help"])
        .output()
        .unwrap();
    let help = String::from_utf8(help.stdout).unwrap();
    assert!(help.contains(&format!("kind is {};", EdgeKind::any_of())));
    let read = |name: &str| fs::read_to_string(file(name)).unwrap();
    for kind in EdgeKind::ALL {
        let (word, title) = (kind.word(), kind.title());
        let asked = [
            ("README.md", format!("{word}s")),
            ("docs/guide.md", format!("{word}s")),
            ("docs/job-file.md", format!("`{word}`")),
            ("docs/job-file.md", format!("`{title}`")),
        ];
        for (name, words) in asked {
            assert!(read(name).contains(&words), "{name} names no {words}");
        }
    }
}

/// By its word, as `--format` takes it, in whatever case, or by its ending.
#[test]
fn every_form_of_the_sheet_is_named_where_a_user_reads_of_sheets() {
    for name in ["README.md", "docs/guide.md"] {
        let page = fs::read_to_string(file(name)).unwrap().to_lowercase();
        let words: Vec<&str> = page
            .split(|letter: char| !letter.is_alphanumeric())
            .collect();
        for format in Format::ALL {
            let named = words
                .iter()
                .any(|word| [format.word(), format.ending()].contains(word));
            assert!(named, "{name} names no {}", format.word());
        }
    }
}
