//! The arrows between layers, read from the source: which layer names which.
//!
//! Every path that starts with `crate::`, `super::` or a library's name counts,
//! in `use` lines and inline; comments and texts do not. Code under
//! `#[cfg(test)]` may name what it likes.

use crate::sources::sources;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// Which layers each layer may name, beside itself.
const ARROWS: &[(&str, &[&str])] = &[
    ("domain", &[]),
    ("picture", &["domain"]),
    ("sheet", &["picture", "domain"]),
    ("app", &["domain"]),
    ("ui", &["app", "picture", "domain"]),
    ("storage", &["domain"]),
    ("shell", &["ui", "app", "storage", "sheet", "domain"]),
];

/// Parts of the standard library and crates that belong to some layers only.
const KEPT_TO: &[(&str, &[&str])] = &[
    ("std::fs", &["storage"]),
    ("std::io", &["storage", "shell"]),
    ("std::env", &["shell"]),
    ("std::time", &["shell"]),
    ("std::thread", &["shell"]),
    ("std::process", &["shell"]),
    ("std::net", &[]),
    ("ratatui", &["ui", "shell"]),
    ("crossterm", &["shell"]),
    ("signal_hook", &["shell"]),
    ("rustix", &["shell"]),
    ("windows_sys", &["storage", "shell"]),
    ("directories", &["shell"]),
    ("clap", &["shell"]),
    ("anyhow", &["shell"]),
    ("ron", &["storage"]),
    ("crc32fast", &["storage"]),
];

/// One breach: where, and which path it names.
type Breach = (String, String);

/// What `text` of a file in `layer` names that it should not.
fn breaches(place: &str, layer: &str, text: &str) -> BTreeSet<Breach> {
    let code = code_only(text);
    let mut found = BTreeSet::new();
    let allowed = ARROWS.iter().find(|(name, _)| *name == layer).unwrap().1;
    for named in crate_paths(&code) {
        let is_layer = ARROWS.iter().any(|(name, _)| *name == named);
        if is_layer && named != layer && !allowed.contains(&named.as_str()) {
            found.insert((place.to_owned(), format!("crate::{named}")));
        }
    }
    for (path, layers) in KEPT_TO {
        if !layers.contains(&layer) && names(&code, path) {
            found.insert((place.to_owned(), (*path).to_owned()));
        }
    }
    found
}

/// The first segment behind every `crate::` and `bendmark::`, also inside
/// braces; and behind enough `super::` to leave a layer, which nobody writes.
fn crate_paths(code: &str) -> Vec<String> {
    let mut paths = Vec::new();
    for root in ["crate::", "bendmark::"] {
        for (at, _) in code.match_indices(root) {
            let rest = &code[at + root.len()..];
            match rest.strip_prefix('{') {
                Some(inner) => {
                    let group = inner.split('}').next().unwrap_or("");
                    paths.extend(group.split(',').map(first_segment));
                }
                None => paths.push(first_segment(rest)),
            }
        }
    }
    paths
}

fn first_segment(path: &str) -> String {
    path.trim()
        .chars()
        .take_while(|c| c.is_alphanumeric() || *c == '_')
        .collect()
}

/// Whether `code` names `path`, also as a part of `use std::{fs, ..}`.
fn names(code: &str, path: &str) -> bool {
    let starts = |at: usize| {
        let before = code[..at].chars().next_back();
        !before.is_some_and(|c| c.is_alphanumeric() || c == '_' || c == ':')
    };
    let ends = |at: usize| {
        let after = code[at..].chars().next();
        !after.is_some_and(|c| c.is_alphanumeric() || c == '_')
    };
    let outright = code.match_indices(path).any(|(at, found)| {
        let leading = path.contains("::") || code[at + found.len()..].starts_with("::");
        starts(at) && ends(at + found.len()) && leading
    });
    let grouped = path.split_once("::").is_some_and(|(root, module)| {
        let opening = format!("{root}::{{");
        code.match_indices(&opening).any(|(at, found)| {
            let group = code[at + found.len()..].split(';').next().unwrap_or("");
            group
                .split([',', '{', '}'])
                .any(|part| first_segment(part) == module)
        })
    });
    outright || grouped
}

/// `text` without comments, texts and what is compiled for tests only.
fn code_only(text: &str) -> String {
    let text = text.split("#[cfg(test)]").next().unwrap_or("");
    text.lines()
        .map(|line| {
            let mut code = String::new();
            let mut in_text = false;
            let mut chars = line.chars().peekable();
            while let Some(c) = chars.next() {
                match (c, in_text) {
                    ('\\', true) => {
                        chars.next();
                    }
                    ('"', _) => in_text = !in_text,
                    ('/', false) if chars.peek() == Some(&'/') => break,
                    (c, false) => code.push(c),
                    _ => {}
                }
            }
            code
        })
        .collect::<Vec<_>>()
        .join("\n")
}

#[test]
fn no_layer_names_what_it_should_not() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = BTreeSet::new();
    for (layer, _) in ARROWS {
        let folder = src.join(layer);
        for file in sources(&folder) {
            let text = fs::read_to_string(&file).unwrap();
            let place = file.strip_prefix(&src).unwrap().display().to_string();
            found.extend(breaches(&place, layer, &text));
        }
    }
    assert_eq!(found, BTreeSet::new());
}

#[test]
fn every_folder_of_the_source_is_a_layer() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for entry in fs::read_dir(src).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            assert!(ARROWS.iter().any(|(layer, _)| *layer == name), "{name}");
        }
    }
}

#[track_caller]
fn planted(layer: &str, text: &str, expected: &[&str]) {
    let found: Vec<_> = breaches("planted.rs", layer, text)
        .into_iter()
        .map(|(_, path)| path)
        .collect();
    assert_eq!(found, expected, "{text}");
}

#[test]
fn a_planted_breach_is_caught() {
    planted("domain", "use crate::app::state::State;", &["crate::app"]);
    planted(
        "app",
        "fn f() { crate::storage::load::load(); }",
        &["crate::storage"],
    );
    planted(
        "app",
        "use crate::{domain::job::Job, ui::pen::Pen};",
        &["crate::ui"],
    );
    planted("domain", "use std::{fmt, fs::File};", &["std::fs"]);
    planted("ui", "let now = std::time::Instant::now();", &["std::time"]);
    planted(
        "app",
        "let x = ratatui::buffer::Buffer::empty(a);",
        &["ratatui"],
    );
    planted("ui", "use crossterm::event::KeyCode;", &["crossterm"]);
}

#[test]
fn words_and_allowed_paths_are_no_breach() {
    planted("domain", "//! Not in crate::app, nor std::fs.", &[]);
    planted("domain", "let words = \"crate::app and std::fs\";", &[]);
    planted("ui", "use crate::app::state::State;", &[]);
    planted("domain", "use std::fmt;", &[]);
    planted("domain", "let my_std::fs = 1;", &[]);
    planted("domain", "#[cfg(test)]\nmod tests { use std::fs; }", &[]);
}
