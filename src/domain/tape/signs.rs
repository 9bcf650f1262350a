//! Signs that word processors and spreadsheets put in the place of the plain
//! ones on a keyboard: a fraction as one letter, a blank that does not break,
//! curled or slanted feet and inches.

use std::borrow::Cow;

/// `text` in plain signs. A fraction of one letter behind a digit gets the
/// blank that parts the two: `13½` is `13 1/2`.
pub fn plain(text: &str) -> Cow<'_, str> {
    if text.is_ascii() {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 4);
    for letter in text.chars() {
        match fraction(letter) {
            Some(fraction) => {
                if out.ends_with(|before: char| before.is_ascii_digit()) {
                    out.push(' ');
                }
                out.push_str(fraction);
            }
            None => out.push(sign(letter)),
        }
    }
    Cow::Owned(out)
}

/// Those that no tape shows are read too, to be refused by what they say.
const fn fraction(letter: char) -> Option<&'static str> {
    Some(match letter {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        _ => return None,
    })
}

const fn sign(letter: char) -> char {
    match letter {
        // No-break, figure, thin and narrow no-break space.
        '\u{A0}' | '\u{2007}' | '\u{2009}' | '\u{202F}' => ' ',
        // Fraction slash and division slash.
        '\u{2044}' | '\u{2215}' => '/',
        // Prime and the curled apostrophes: feet. Two of each: inches.
        '\u{2032}' | '\u{2018}' | '\u{2019}' => '\'',
        '\u{2033}' | '\u{201C}' | '\u{201D}' => '"',
        other => other,
    }
}
