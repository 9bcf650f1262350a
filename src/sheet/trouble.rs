//! Why a sheet was not written.

use std::fmt;

/// Why a sheet was not written: what the writing library said.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SheetError(String);

impl SheetError {
    pub(super) fn of(error: impl fmt::Display) -> Self {
        Self(error.to_string())
    }
}

impl fmt::Display for SheetError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the sheet could not be written: {}", self.0)
    }
}

impl std::error::Error for SheetError {}
