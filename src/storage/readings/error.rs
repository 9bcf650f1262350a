//! Why readings were not imported.

use super::header::{HEADER, optional};
use std::fmt;

/// Why nothing was imported.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum ImportError {
    NoHeader,
    UnknownColumn {
        /// Its name, cleaned for showing.
        column: String,
    },
    RepeatedColumn {
        column: &'static str,
    },
    MissingColumns {
        columns: Vec<&'static str>,
    },
    /// Rows that cannot be taken.
    Rows {
        /// Each with its line.
        bad: Vec<BadRow>,
        more: usize,
    },
    /// Not CSV; nothing is known that brings it about.
    Csv(String),
}

/// A row that cannot be taken.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BadRow {
    /// The line it begins in, from 1.
    pub line: u64,
    /// All that is wrong with it, quoting it.
    pub what: String,
}

impl fmt::Display for BadRow {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: {}", self.line, self.what)
    }
}

impl fmt::Display for ImportError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoHeader => write!(
                f,
                "the file is empty, expected a header line such as {}",
                HEADER
            ),
            Self::UnknownColumn { column } => write!(
                f,
                "line 1: unknown column \"{column}\", expected {}, and {} where there are any",
                HEADER,
                optional()
            ),
            Self::RepeatedColumn { column } => write!(
                f,
                "line 1: column \"{column}\" is there twice, expected each once"
            ),
            Self::MissingColumns { columns } => write!(
                f,
                "line 1: no column {}, expected {}",
                columns.join(", "),
                HEADER
            ),
            Self::Rows { bad, more } => {
                let count = bad.len() + more;
                let rows = if count == 1 { "row" } else { "rows" };
                write!(f, "{count} bad {rows}, nothing was imported")?;
                for row in bad {
                    write!(f, "\n{row}")?;
                }
                if *more > 0 {
                    write!(f, "\nand {more} more")?;
                }
                Ok(())
            }
            Self::Csv(why) => write!(f, "not read as CSV: {why}"),
        }
    }
}

impl std::error::Error for ImportError {}
