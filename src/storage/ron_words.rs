//! What is wrong with a text in the job file's format, in words for whoever edits
//! such a file by hand: the format's own are for programmers.

use crate::domain::measure::cleaned;
use ron::Error;

/// What was refused, and what was expected where that can be said.
pub(super) fn ron_words(code: &Error) -> String {
    match code {
        Error::NoSuchStructField {
            expected, found, ..
        } => format!(
            "unknown field \"{}\", expected {}",
            cleaned(found),
            expected.join(", ")
        ),
        Error::DuplicateStructField { field, .. } => {
            format!("field \"{field}\" is there twice, expected once")
        }
        Error::MissingStructField { field, .. } => format!("no field \"{field}\""),
        Error::NoSuchEnumVariant {
            expected, found, ..
        } => format!(
            "\"{}\" is not one of the choices, expected {}",
            cleaned(found),
            expected.join(" or ")
        ),
        Error::InvalidValueForType { expected, found } => {
            format!("found {}, expected {}", there(found), wanted(expected))
        }
        Error::ExpectedDifferentStructName { expected, found } => {
            format!("found \"{}\", expected {expected} or \"(\"", cleaned(found))
        }
        Error::UnexpectedChar(sign) => {
            format!("\"{}\" does not belong here", cleaned(&sign.to_string()))
        }
        Error::InvalidIdentifier(name) | Error::SuggestRawIdentifier(name) => {
            format!("found \"{}\", expected a name", cleaned(name))
        }
        Error::ExpectedDifferentLength { found, .. } => {
            format!("another count of values than {found} was expected")
        }
        Error::Message(said) => said.clone(),
        other => fixed(other).to_owned(),
    }
}

/// Those that quote nothing.
const fn fixed(code: &Error) -> &'static str {
    match code {
        Error::Eof => "the text ends too early",
        Error::ExpectedArray => "expected \"[\"",
        Error::ExpectedArrayEnd => "expected \"]\"",
        Error::ExpectedBoolean => "expected true or false",
        Error::ExpectedComma => "expected a comma",
        Error::ExpectedFloat | Error::FloatUnderscore => "expected a number",
        Error::ExpectedInteger
        | Error::InvalidIntegerDigit { .. }
        | Error::UnderscoreAtBeginning => "expected a whole number",
        Error::IntegerOutOfBounds => "the number is too large or too small",
        Error::ExpectedOption => "expected Some(...) or None",
        Error::ExpectedMap => "expected \"{\"",
        Error::ExpectedMapColon => "expected \":\"",
        Error::ExpectedMapEnd => "expected \"}\"",
        Error::ExpectedStructLike
        | Error::ExpectedNamedStructLike(_)
        | Error::ExpectedStructName(_)
        | Error::ExpectedUnit => "expected \"(\"",
        Error::ExpectedOptionEnd | Error::ExpectedStructLikeEnd => "expected \")\"",
        Error::ExpectedString
        | Error::ExpectedChar
        | Error::ExpectedByteLiteral
        | Error::ExpectedByteString => "expected a text in quotes",
        Error::ExpectedStringEnd => "a quote is not closed",
        Error::ExpectedIdentifier => "expected a name",
        Error::InvalidEscape(_) => "a \"\\\" in a text with nothing behind it that means anything",
        Error::Utf8Error(_) => "not UTF-8 text",
        Error::UnclosedBlockComment | Error::UnclosedLineComment => "a remark is not closed",
        Error::TrailingCharacters => "more text behind the end",
        Error::ExceededRecursionLimit => "more brackets within brackets than any such file has",
        _ => "it is not written as such a file is",
    }
}

/// What a figure or text was to be.
fn wanted(expected: &str) -> &'static str {
    let first = expected.trim_start_matches("a ").trim_start_matches("an ");
    let is = |words: &[&str]| words.iter().any(|word| first.starts_with(word));
    if is(&[
        "u8", "u16", "u32", "u64", "usize", "i8", "i16", "i32", "i64", "isize", "integer",
    ]) {
        "a whole number in its range"
    } else if is(&["f32", "f64", "float"]) {
        "a number"
    } else if is(&["bool"]) {
        "true or false"
    } else if is(&["str", "borrowed str", "char"]) {
        "a text in quotes"
    } else if is(&["sequence", "tuple", "array", "newtype"]) {
        "values in brackets"
    } else if is(&["struct", "map"]) {
        "fields in brackets"
    } else {
        "another value"
    }
}

/// What is there, as it is written.
fn there(found: &str) -> String {
    for mark in ['`', '"'] {
        if let Some((_, rest)) = found.split_once(mark)
            && let Some((value, _)) = rest.rsplit_once(mark)
        {
            return format!("\"{}\"", cleaned(value));
        }
    }
    "something else".to_owned()
}
