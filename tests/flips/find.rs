//! Finds the places in a source file that tell left from right, and writes the
//! file again with one of them the other way round.
//!
//! It reads lines, not syntax: whatever it makes that does not build is left
//! out later, by the compiler.

/// Words that are each other's opposite.
const OPPOSITES: [[&str; 2]; 2] = [
    ["Hand::Left", "Hand::Right"],
    ["Toward::Hand", "Toward::Far"],
];

/// The same within the file that says what a hand is.
const OPPOSITES_OF_SELF: [&str; 2] = ["Self::Left", "Self::Right"];

/// Fields and methods that are a hand.
const READ: [&str; 5] = [".hand", ".whole", ".blade", ".x_runs_to", ".x_runs_to()"];

const OTHER: &str = ".other()";

/// Bottom and top, which are not left and right.
const ENDS: &str = "end.other()";

/// One place the other way round.
#[derive(PartialEq, Eq, Debug)]
pub(crate) struct Flip {
    /// Counted from 1.
    pub(crate) line: usize,
    /// That line as it was and as it is.
    pub(crate) was: String,
    pub(crate) now: String,
    /// The whole file.
    pub(crate) text: String,
}

/// Every flip of a file: each match with its arms exchanged, each hand that is
/// named or read as the other one.
pub(crate) fn flips(text: &str) -> Vec<Flip> {
    let lines: Vec<&str> = text.lines().collect();
    let mut opposites = OPPOSITES.to_vec();
    if text.contains("pub enum Hand {") {
        opposites.push(OPPOSITES_OF_SELF);
    }
    let code = lines
        .iter()
        .position(|line| *line == "#[cfg(test)]")
        .unwrap_or(lines.len());
    let mut found = Vec::new();
    let mut in_a_match = 0;
    for at in 0..code {
        let line = lines[at];
        if line.trim_start().starts_with("//") || line.trim_start().starts_with("use ") {
            continue;
        }
        let (pattern, _) = arm(line);
        for pair in &opposites {
            if at >= in_a_match && pair.iter().any(|word| pattern.contains(word)) {
                in_a_match = end_of_match(&lines, at);
                let arms = (at..in_a_match).map(|at| (at, with_pattern_exchanged(lines[at], pair)));
                found.push(flip(&lines, arms.collect()));
            }
            for now in with_a_word_exchanged(line, pair, pattern.len()) {
                found.push(flip(&lines, vec![(at, now)]));
            }
        }
        for now in with_a_read_exchanged(line) {
            found.push(flip(&lines, vec![(at, now)]));
        }
    }
    found
}

fn flip(lines: &[&str], changed: Vec<(usize, String)>) -> Flip {
    let mut text: Vec<&str> = lines.to_vec();
    for (at, line) in &changed {
        text[*at] = line;
    }
    let (at, now) = &changed[0];
    Flip {
        line: at + 1,
        was: lines[*at].trim().to_owned(),
        now: now.trim().to_owned(),
        text: text.join("\n") + "\n",
    }
}

/// An arm's pattern and what it comes to; the pattern is empty elsewhere.
fn arm(line: &str) -> (&str, &str) {
    line.split_once("=>").unwrap_or(("", line))
}

/// The first line after `at` that stands further left: the match's last brace.
fn end_of_match(lines: &[&str], at: usize) -> usize {
    let indent = |line: &str| line.len() - line.trim_start().len();
    let here = indent(lines[at]);
    let after = lines.iter().skip(at).position(|line| {
        let empty = line.trim().is_empty();
        !empty && indent(line) < here
    });
    after.map_or(lines.len(), |after| at + after)
}

fn with_pattern_exchanged(line: &str, [one, other]: &[&str; 2]) -> String {
    let (pattern, rest) = arm(line);
    if pattern.is_empty() {
        return line.to_owned();
    }
    let pattern = pattern
        .replace(one, "\0")
        .replace(other, one)
        .replace('\0', other);
    format!("{pattern}=>{rest}")
}

/// Each of the words from byte `from` on, exchanged alone.
fn with_a_word_exchanged(line: &str, [one, other]: &[&str; 2], from: usize) -> Vec<String> {
    let exchanged = |word: &str, by: &str| {
        places(line, word)
            .filter(|at| *at >= from)
            .map(|at| line[..at].to_owned() + by + &line[at + word.len()..])
            .collect::<Vec<_>>()
    };
    let mut all = exchanged(one, other);
    all.extend(exchanged(other, one));
    all
}

/// Each hand that is read, with `other` put behind it, or taken away.
fn with_a_read_exchanged(line: &str) -> Vec<String> {
    let is_end = |at: &usize| line[..at + OTHER.len()].ends_with(ENDS);
    let mut all: Vec<String> = places(line, OTHER)
        .filter(|at| !is_end(at))
        .map(|at| line[..at].to_owned() + &line[at + OTHER.len()..])
        .collect();
    for word in READ {
        for at in places(line, word) {
            let (before, after) = line.split_at(at + word.len());
            let set = after.starts_with(" = ");
            let called = after.starts_with('(');
            if !(set || called || after.starts_with(OTHER)) {
                all.push(before.to_owned() + OTHER + after);
            }
        }
    }
    all
}

/// Where a word stands that does not go on.
fn places<'a>(line: &'a str, word: &'a str) -> impl Iterator<Item = usize> + 'a {
    line.match_indices(word).map(|(at, _)| at).filter(|at| {
        let next = line[at + word.len()..].chars().next();
        !next.is_some_and(|c| c.is_alphanumeric() || c == '_')
    })
}
