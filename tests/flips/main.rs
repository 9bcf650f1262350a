//! Whether a test finds every place where left and right are exchanged.
//!
//! The long run changes one such place at a time in a copy of the project,
//! builds it, runs the tests until one fails and prints its name:
//! `cargo test --test flips -- --ignored --nocapture`. `BENDMARK_FLIPS` keeps
//! it to the files whose path contains that text.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a failing test may panic, and each flip is printed"
)]

#[path = "../support/sources.rs"]
mod files;
mod find;
mod project;

use find::flips;
use project::{Outcome, Project, sources};

/// Flips that change nothing anyone could see: the file, the line as it was and
/// is, and why.
const NO_DIFFERENCE: [(&str, &str, &str, &str); 1] = [(
    "src/storage/readings/detail.rs",
    "Edge::new(EdgeId(0), Name::or(\"\", \"\"), EdgeKind::Hip, Hand::Left)",
    "Edge::new(EdgeId(0), Name::or(\"\", \"\"), EdgeKind::Hip, Hand::Right)",
    "it stands for what nobody has said yet; its hand is never read",
)];

#[test]
#[ignore = "builds the program and runs its tests once for each flip"]
fn every_flip_of_a_hand_is_found_by_a_test() {
    let only = std::env::var("BENDMARK_FLIPS").unwrap_or_default();
    let project = Project::copied();
    let mut counts = [0; 3];
    let mut unseen = Vec::new();
    for (path, text) in sources() {
        if !path.contains(&only) {
            continue;
        }
        for flip in flips(&text) {
            let place = format!("{path}:{}: {} -> {}", flip.line, flip.was, flip.now);
            let (count, outcome) = match project.tested(&path, &flip.text, &text) {
                Outcome::Found(test) => (0, format!("found by {test}")),
                Outcome::DoesNotBuild => (1, "does not build".to_owned()),
                Outcome::Unseen => match reason(&path, &flip) {
                    Some(why) => (2, format!("no difference: {why}")),
                    None => {
                        unseen.push(place.clone());
                        (2, "NOT FOUND".to_owned())
                    }
                },
            };
            counts[count] += 1;
            println!("{place}\n    {outcome}");
        }
    }
    let [found, no_build, rest] = counts;
    println!("{found} found, {no_build} do not build, {rest} went through all tests");
    assert!(unseen.is_empty(), "not found:\n{}", unseen.join("\n"));
}

fn reason(path: &str, flip: &find::Flip) -> Option<&'static str> {
    let known = NO_DIFFERENCE
        .iter()
        .find(|(file, was, now, _)| *file == path && *was == flip.was && *now == flip.now);
    known.map(|(.., why)| *why)
}

/// A reason is kept only as long as its line is.
#[test]
fn every_flip_said_to_make_no_difference_is_there() {
    let sources = sources();
    for (file, was, now, _) in NO_DIFFERENCE {
        let text = &sources.iter().find(|(path, _)| path == file).expect(file).1;
        let is_there = flips(text)
            .iter()
            .any(|flip| flip.was == was && flip.now == now);
        assert!(is_there, "{file}: {was} -> {now}");
    }
}

#[test]
fn the_source_has_flips_in_every_room() {
    let sources = sources();
    for room in ["domain", "picture", "ui", "sheet", "app", "storage"] {
        let count: usize = sources
            .iter()
            .filter(|(path, _)| path.starts_with(&format!("src/{room}/")))
            .map(|(_, text)| flips(text).len())
            .sum();
        assert!(count >= 3, "{room} has {count}");
    }
}

#[test]
fn arms_are_exchanged_together_and_words_alone() {
    let text = "\
match spec.hand {
    Hand::Left => at,
    Hand::Right => {
        Hand::Left
    }
}
// Hand::Left
let side = side.other();
#[cfg(test)]
Hand::Left
";
    let now: Vec<_> = flips(text)
        .into_iter()
        .map(|flip| (flip.line, flip.now, flip.text.matches("Hand::Left").count()))
        .collect();
    let expected = [
        (1, "match spec.hand.other() {", 4),
        (2, "Hand::Right => at,", 4),
        (4, "Hand::Right", 3),
        (8, "let side = side;", 4),
    ];
    let expected = expected.map(|(line, now, count)| (line, now.to_owned(), count));
    assert_eq!(now, expected);
}
