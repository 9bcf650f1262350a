//! Words on rows: the one rule for where a text is broken, on screen and sheet.
//!
//! A row ends at a blank, never inside a length or before its unit: `1 1/2 in`
//! on two rows is two figures. Widths are terminal columns, a wide character
//! counts as two.

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// `lead` and behind it `text`, in rows of at most `width` columns; every row
/// but the first begins with `hang` blanks. Without any words there is `lead`.
/// A word that alone is wider than a row, such as a path, is broken between two
/// letters; a length stands whole on a row of its own, for a reader that clips it.
pub fn rows(lead: &str, text: &str, hang: usize, width: usize) -> Vec<String> {
    let mut rows = Vec::new();
    let (mut row, mut used, mut fresh) = (lead.to_owned(), lead.width(), true);
    let mut turn = |row: &mut String| {
        rows.push(std::mem::replace(row, " ".repeat(hang)));
        hang
    };
    for word in unbroken(text) {
        let wide = word.width();
        if !fresh && used + 1 + wide > width {
            used = turn(&mut row);
            fresh = true;
        }
        if !fresh {
            row.push(' ');
            used += 1;
        }
        fresh = false;
        if used + wide <= width || word.contains(' ') {
            row.push_str(&word);
            used += wide;
            continue;
        }
        for letter in word.graphemes(true) {
            if used + letter.width() > width {
                used = turn(&mut row);
            }
            row.push_str(letter);
            used += letter.width();
        }
    }
    rows.push(row);
    rows
}

/// The words of `text`, those of a length as one: `13 5/8 in`, `40 mm`,
/// `2 x 48 in`.
fn unbroken(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    let mut last = Kind::Word;
    for word in text.split_ascii_whitespace() {
        let kind = Kind::of(word);
        match words.last_mut() {
            Some(before) if last.goes_on_with(kind) => {
                before.push(' ');
                before.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
        last = kind;
    }
    words
}

/// What a word can be in a length.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// `13`, which a fraction, a unit or an `x` may follow.
    Number,
    /// `5/8` or `2.5`, which only a unit or an `x` may follow.
    Fraction,
    /// `in` or `mm`.
    Unit,
    /// Between a count and a length, or two lengths.
    Times,
    /// Anything else, and what ends with a comma.
    Word,
}

impl Kind {
    fn of(word: &str) -> Self {
        let opened = word.trim_start_matches(['"', '(', '-', '+', '~']);
        let bare = opened.trim_end_matches(['+', '-']);
        let digits = |part: &str| !part.is_empty() && part.chars().all(|c| c.is_ascii_digit());
        let over = |part: &str| part.split_once('/').is_some_and(|(top, _)| digits(top));
        let decimal = |(whole, rest): (&str, &str)| digits(whole) && digits(rest);
        if digits(bare) {
            Self::Number
        } else if over(bare) || bare.split_once('.').is_some_and(decimal) {
            Self::Fraction
        } else if bare == "x" {
            Self::Times
        } else if matches!(
            bare.trim_end_matches(|c: char| !c.is_alphanumeric()),
            "in" | "mm"
        ) {
            Self::Unit
        } else {
            Self::Word
        }
    }

    const fn goes_on_with(self, next: Self) -> bool {
        matches!(
            (self, next),
            (Self::Number, Self::Fraction | Self::Unit | Self::Times)
                | (Self::Fraction, Self::Unit | Self::Times)
                | (Self::Times, Self::Number | Self::Fraction)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, width: usize, expected: &[&str]) {
        assert_eq!(rows("", text, 0, width), expected);
    }

    #[test]
    fn a_length_is_never_parted() {
        check("turn-up 1 1/2 in", 10, &["turn-up", "1 1/2 in"]);
        check("high 40 mm, flat", 7, &["high", "40 mm,", "flat"]);
        check("two (13 5/8- in) of", 9, &["two", "(13 5/8- in)", "of"]);
        check("cut 2 x 48 in off", 6, &["cut", "2 x 48 in", "off"]);
        check("off 0.5 mm", 8, &["off", "0.5 mm"]);
    }

    #[test]
    fn what_is_no_length_is_broken_at_any_blank() {
        check("course 3, 4 pieces", 9, &["course 3,", "4 pieces"]);
        check("laid in 12 rows", 7, &["laid in", "12 rows"]);
    }

    #[test]
    fn a_word_that_is_too_long_is_broken_and_nothing_of_it_is_lost() {
        check("a abcdef b", 4, &["a", "abcd", "ef b"]);
        let broken = rows("", "a abcdef b", 1, 4);
        assert_eq!(broken, ["a", " abc", " def", " b"]);
    }
}
