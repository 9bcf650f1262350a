//! Names of jobs, edges and colour lots, cleaned once on the way in.
//!
//! A name never holds control, bidirectional or zero-width characters, never
//! more than four code points in one grapheme, and never more than
//! [`Name::LONGEST`] graphemes; so nothing further on has to think of it. It
//! does not know about file names: that is the storage layer's matter.

use std::fmt;
use unicode_segmentation::UnicodeSegmentation;

/// A cleaned, non-empty name.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Name(String);

/// Why a text is no name.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct EmptyName;

impl fmt::Display for EmptyName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a name needs at least one letter or digit that shows")
    }
}

impl std::error::Error for EmptyName {}

impl Name {
    /// The most graphemes a name keeps; the rest is cut off.
    pub const LONGEST: usize = 60;

    /// The name that `text` holds once cleaned.
    ///
    /// # Errors
    /// [`EmptyName`] where nothing that shows is left.
    pub fn new(text: &str) -> Result<Self, EmptyName> {
        let cleaned = cleaned(text);
        if cleaned.is_empty() {
            Err(EmptyName)
        } else {
            Ok(Self(cleaned))
        }
    }

    /// The name that `text` holds, or the one `fallback` holds, or `?`.
    pub fn or(text: &str, fallback: &str) -> Self {
        Self::new(text)
            .or_else(|_| Self::new(fallback))
            .unwrap_or_else(|_| Self("?".to_owned()))
    }

    /// Whether `text` is longer than a name is kept, so that another text may be
    /// cut to the same one.
    pub fn would_cut(text: &str) -> bool {
        let shown: String = text.chars().filter(|c| !is_hidden(*c)).collect();
        shown.trim().graphemes(true).nth(Self::LONGEST).is_some()
    }

    /// The text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

impl fmt::Debug for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&self.0, f)
    }
}

/// `text` without what must not reach a terminal, trimmed, and cut to length.
///
/// Also used on text that is only shown, such as a quoted bad input.
pub fn cleaned(text: &str) -> String {
    let mut cleaned = cleaned_once(text);
    // What is cut off can bring neighbours together into a longer grapheme;
    // cleaning what is clean must change nothing, or a name would not survive
    // its file.
    while !cleaned.is_ascii() {
        let again = cleaned_once(&cleaned);
        if again == cleaned {
            break;
        }
        cleaned = again;
    }
    cleaned
}

/// `text` with a sign of its own for each character that must not reach a
/// terminal, so that nothing of it is left out: for what is the name of a file.
pub fn shown(text: &str) -> String {
    let sign = |letter| match is_hidden(letter) {
        true => char::REPLACEMENT_CHARACTER,
        false => letter,
    };
    text.chars().map(sign).collect()
}

fn cleaned_once(text: &str) -> String {
    let shown: String = text
        .chars()
        .map(|c| if c == '\t' || c == '\n' { ' ' } else { c })
        .filter(|c| !is_hidden(*c))
        .collect();
    let mut kept = String::new();
    for grapheme in shown.trim().graphemes(true).take(Name::LONGEST) {
        kept.extend(grapheme.chars().take(4));
    }
    kept.trim_end().to_owned()
}

/// Control, bidirectional and zero-width characters, and other code points
/// that change how neighbours are drawn without being seen.
pub fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{00AD}' | '\u{034F}' | '\u{061C}' | '\u{115F}' | '\u{1160}' | '\u{17B4}' | '\u{17B5}'
            | '\u{180B}'..='\u{180F}' | '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}'
            | '\u{2060}'..='\u{206F}' | '\u{3164}' | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}'
            | '\u{FFA0}' | '\u{FFF0}'..='\u{FFFB}' | '\u{E0000}'..='\u{E0FFF}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(input: &str, expected: &str) {
        assert_eq!(cleaned(input), expected);
    }

    #[test]
    fn hidden_characters_are_taken_out() {
        check("  North\u{202E} hip\u{200B} ", "North hip");
        check("a\u{1b}[31mb", "a[31mb");
        check("one\ttwo\nthree", "one two three");
        check("\u{FEFF}\u{200D}", "");
    }

    #[test]
    fn what_must_not_reach_a_terminal_is_a_sign_where_nothing_is_left_out() {
        assert_eq!(
            shown("a\n\u{1b}[2Jb \u{202E}c/d"),
            "a\u{FFFD}\u{FFFD}[2Jb \u{FFFD}c/d"
        );
    }

    #[test]
    fn a_stack_of_accents_is_cut_to_four_code_points() {
        check(
            "a\u{301}\u{301}\u{301}\u{301}\u{301}b",
            "a\u{301}\u{301}\u{301}b",
        );
    }

    #[test]
    fn cleaning_what_is_clean_changes_nothing() {
        // Five signs that each join what follows, then a letter.
        let once = cleaned("\u{600}\u{600}\u{600}\u{600}\u{600}b");
        assert_eq!(cleaned(&once), once);
    }

    #[test]
    fn a_long_name_is_cut() {
        assert_eq!(cleaned(&"x".repeat(500)).len(), Name::LONGEST);
    }

    #[test]
    fn a_name_that_shows_nothing_is_refused() {
        assert_eq!(Name::new(" \u{200B} "), Err(EmptyName));
    }
}
