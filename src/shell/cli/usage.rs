//! Wrong usage in plain words: the library's own are for programmers, and quote
//! what was typed as it is, line ends and all.

use crate::domain::measure::shown;
use clap::Error;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use std::error::Error as _;

/// What is said of `error`: what is wrong, then how the command is used.
pub(super) fn said(error: &Error) -> String {
    let text = error.render().to_string();
    let Some(words) = words(error) else {
        let text = text.strip_prefix("error: ").unwrap_or(&text).trim_end();
        let lines: Vec<String> = text.lines().map(shown).collect();
        return lines.join("\n");
    };
    let ends = ["\n\nUsage:", "\n\nFor more information"];
    let end = ends.into_iter().find_map(|end| text.rfind(end));
    let rest = end.and_then(|end| text.get(end..)).unwrap_or_default();
    words + rest.trim_end()
}

/// `None` of what the program itself has said, and of what cannot come about.
fn words(error: &Error) -> Option<String> {
    let at = |kind| context(error, kind);
    let wrong = || at(ContextKind::InvalidArg);
    Some(match error.kind() {
        ErrorKind::UnknownArgument => {
            let instead = match at(ContextKind::SuggestedArg) {
                Some(known) => format!(", expected {known} perhaps"),
                None => ", expected what --help lists".to_owned(),
            };
            format!("\"{}\" is not known here{instead}", wrong()?)
        }
        ErrorKind::InvalidValue => {
            let choices = at(ContextKind::ValidValue).filter(|choices| !choices.is_empty());
            let expected = choices.map(|choices| format!("one of {choices}"));
            let expected = expected.unwrap_or_else(|| "something".to_owned());
            match at(ContextKind::InvalidValue).filter(|value| !value.is_empty()) {
                Some(value) => format!("{}: \"{value}\", expected {expected}", wrong()?),
                None => format!("{}: nothing is given, expected {expected}", wrong()?),
            }
        }
        ErrorKind::ValueValidation => {
            let value = at(ContextKind::InvalidValue)?;
            format!("{}: \"{value}\", expected {}", wrong()?, number(error))
        }
        ErrorKind::MissingRequiredArgument => format!("{} is missing, expected it", wrong()?),
        ErrorKind::ArgumentConflict => match at(ContextKind::PriorArg) {
            Some(other) if wrong()? != other => {
                format!("{} and {other} together, expected one of them", wrong()?)
            }
            _ => format!("{} is given twice, expected once", wrong()?),
        },
        ErrorKind::TooManyValues => {
            let value = at(ContextKind::InvalidValue)?;
            format!("{}: \"{value}\", expected nothing behind it", wrong()?)
        }
        ErrorKind::InvalidUtf8 => {
            "what was typed holds bytes that are no text, expected UTF-8".to_owned()
        }
        _ => return None,
    })
}

/// The whole number that was expected, with its range where it is out of it.
fn number(error: &Error) -> String {
    let why = error.source().map(ToString::to_string).unwrap_or_default();
    match why.split_once(" is not in ") {
        Some((_, range)) => format!("a whole number {}", range.replace("..=", " to ")),
        None => "a whole number".to_owned(),
    }
}

fn context(error: &Error, kind: ContextKind) -> Option<String> {
    match error.get(kind)? {
        ContextValue::String(text) => Some(shown(text)),
        ContextValue::Strings(texts) => Some(shown(&texts.join(", "))),
        _ => None,
    }
}
