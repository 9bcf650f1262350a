//! Left and right: every drawn cell of one is the mirror of the other's.

use super::at_shear;
use super::cells::picture;
use super::snapshots::spec;
use crate::gaps::{any_filled, cases};
use bendmark::app::place::Glyphs;
use bendmark::domain::{measure::Hand, piece::PieceSpec};
use bendmark::picture::marking::marking;
use proptest::prelude::*;

/// One phrase of a row: its words in order of the alphabet, where it begins and
/// where it ends (one past).
#[derive(Clone, PartialEq, Debug)]
struct Phrase {
    words: Vec<String>,
    start: usize,
    end: usize,
}

impl Phrase {
    fn names_a_side(&self) -> bool {
        self.words
            .iter()
            .any(|word| word == "LEFT" || word == "RIGHT")
    }

    /// As the mirror has it, with the words exchanged.
    fn mirrored(&self, columns: usize) -> Self {
        let mut words: Vec<String> = self.words.iter().map(|word| exchanged(word)).collect();
        words.sort();
        Self {
            words,
            start: columns - self.end,
            end: columns - self.start,
        }
    }
}

/// The phrases of a row: words with one blank between them.
fn phrases(row: &[char]) -> Vec<Phrase> {
    let is_word = |x: usize| {
        let letter = |x: usize| row.get(x).is_some_and(char::is_ascii_alphanumeric);
        // A `v` alone is an arrow; a slash alone is a line.
        let arrow = row[x] == 'v' && !letter(x + 1);
        let within = ",:/".contains(row[x]) && x > 0 && letter(x - 1) && row[x] != '/'
            || row[x] == '/' && x > 0 && row[x - 1] == '3' && letter(x + 1);
        letter(x) && !arrow || within
    };
    let mut found: Vec<Phrase> = Vec::new();
    for x in (0..row.len()).filter(|x| is_word(*x)) {
        match found.last_mut() {
            Some(phrase) if phrase.end == x || phrase.end + 1 == x && row[x - 1] == ' ' => {
                phrase.end = x + 1
            }
            _ => found.push(Phrase {
                words: Vec::new(),
                start: x,
                end: x + 1,
            }),
        }
    }
    for phrase in &mut found {
        let text: String = row[phrase.start..phrase.end].iter().collect();
        phrase.words = text.split([' ', ',']).map(str::to_owned).collect();
        phrase.words.sort();
    }
    found
}

/// The glyph as a mirror shows it.
fn mirrored(c: char) -> char {
    let pairs = ["/\\", "<>", "┌┐", "└┘", "[]"];
    let pair = pairs.iter().find(|pair| pair.contains(c));
    pair.map_or(c, |pair| pair.chars().find(|other| *other != c).unwrap())
}

fn exchanged(word: &str) -> String {
    match word {
        "LEFT" => "RIGHT".to_owned(),
        "RIGHT" => "LEFT".to_owned(),
        other => other.to_owned(),
    }
}

/// Whether one is the mirror of the other: all words at the mirror place (one
/// column more or less where they name a side), all other cells the mirror
/// glyph.
#[track_caller]
fn check(left: &[Vec<char>], right: &[Vec<char>]) {
    assert_eq!(left.len(), right.len());
    for (one, other) in left.iter().zip(right) {
        let shown = [one, other]
            .map(|row| row.iter().collect::<String>())
            .join("\n");
        let mut wanted: Vec<Phrase> = phrases(one).iter().map(|p| p.mirrored(one.len())).collect();
        wanted.reverse();
        let found = phrases(other);
        assert_eq!(wanted.len(), found.len(), "\n{shown}");
        let mut turned: Vec<char> = one.iter().rev().map(|c| mirrored(*c)).collect();
        let mut rest = other.clone();
        for (wanted, found) in wanted.iter().zip(&found) {
            assert_eq!(wanted.words, found.words, "\n{shown}");
            let off = usize::from(found.names_a_side());
            let near = |a: usize, b: usize| a.abs_diff(b) <= off;
            assert!(
                near(wanted.start, found.start) && near(wanted.end, found.end),
                "\n{shown}"
            );
            for x in wanted.start.min(found.start)..wanted.end.max(found.end) {
                (turned[x], rest[x]) = ('w', 'w');
            }
        }
        assert_eq!(turned, rest, "\n{shown}");
    }
}

fn twins(spec: &PieceSpec) -> [PieceSpec; 2] {
    Hand::BOTH.map(|hand| PieceSpec { hand, ..*spec })
}

proptest! {
    #![proptest_config(cases(120))]

    #[test]
    fn prop_a_right_piece_for_marking_is_drawn_as_the_mirror_of_the_left_one(
        filled in any_filled(), columns in 20_u16..100, rows in 5_u16..30,
    ) {
        for piece in &filled.pieces {
            for glyphs in [Glyphs::Blocks, Glyphs::Ascii] {
                let [left, right] = twins(piece)
                    .map(|spec| picture(&marking(&spec, None), columns, rows, glyphs));
                check(&left, &right);
            }
        }
    }

    #[test]
    fn prop_at_the_shear_with_the_blade_at_the_other_end_it_is_the_mirror_too(
        filled in any_filled(), columns in 20_u16..100, rows in 5_u16..30,
    ) {
        for piece in &filled.pieces {
            let [left, right] = twins(piece);
            for blade in Hand::BOTH {
                let drawn = at_shear(&left, None, blade).zip(at_shear(&right, None, blade.other()));
                let Some((left, right)) = drawn else { continue };
                for glyphs in [Glyphs::Blocks, Glyphs::Ascii] {
                    let [left, right] = [&left, &right].map(|one| picture(one, columns, rows, glyphs));
                    check(&left, &right);
                }
            }
        }
    }
}

#[test]
fn a_picture_that_leans_is_not_its_own_mirror() {
    let left = picture(
        &marking(&spec(Hand::Left, 30, 18), None),
        76,
        20,
        Glyphs::Blocks,
    );
    let turned: Vec<Vec<char>> = left
        .iter()
        .map(|row| row.iter().rev().copied().collect())
        .collect();
    assert_ne!(left, turned);
}
