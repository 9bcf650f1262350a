//! The version, read before anything else is.
//!
//! Reading stops behind it, so that a file of 100 MB is not read twice.

use super::error::DecodeError;
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, Visitor};
use std::cell::Cell;
use std::fmt;

/// The version that `text` names in its first field.
///
/// # Errors
/// [`DecodeError::NoVersion`] where the first field is another one or its value
/// no whole number; [`DecodeError::Syntax`] where it does not begin like RON.
pub(super) fn version(text: &str) -> Result<u32, DecodeError> {
    let found = Cell::new(Found::Nothing);
    let stopped = ron::Options::default().from_str_seed(text, Head(&found));
    match (found.get(), stopped) {
        (Found::Version(version), _) => Ok(version),
        (Found::Nothing, Err(error)) => Err(DecodeError::of_ron(text, &error)),
        (Found::OtherField, _) | (Found::Nothing, Ok(())) => Err(DecodeError::NoVersion),
    }
}

#[derive(Clone, Copy)]
enum Found {
    Nothing,
    OtherField,
    Version(u32),
}

struct Head<'a>(&'a Cell<Found>);

impl<'de> DeserializeSeed<'de> for Head<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_struct("Job", &["version"], self)
    }
}

impl<'de> Visitor<'de> for Head<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a job")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        self.0.set(Found::OtherField);
        if let Some("version") = map.next_key::<&str>()? {
            self.0.set(Found::Version(map.next_value()?));
        }
        Err(A::Error::custom("read no further"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: Result<u32, &str>) {
        assert_eq!(
            version(text).map_err(|error| error.to_string()),
            expected.map_err(str::to_owned)
        );
    }

    #[test]
    fn the_version_is_read_and_nothing_behind_it() {
        check("(version: 7, what: ever", Ok(7));
        check("// a note, with a comma\n( version : 1 ,", Ok(1));
        check("Job(version: 2)", Ok(2));
    }

    #[test]
    fn a_file_without_a_version_first_is_named_so() {
        let expected =
            Err("not a job file: its first field is not \"version\" with a whole number");
        check("(name: \"x\", version: 1)", expected);
        check("(version: \"one\")", expected);
        check("(version: 99999999999999)", expected);
        check("()", expected);
    }

    #[test]
    fn what_is_no_ron_at_all_is_refused_with_its_place() {
        check("", Err("line 1, column 1: expected \"(\""));
        check(
            "hello",
            Err("line 1, column 6: found \"hello\", expected Job or \"(\""),
        );
    }
}
