//! Why readings were not imported.

use std::fmt;

/// The columns that must be there.
pub(super) const HEADER: &str = "edge,kind,hand,course,bottom,top";

/// Why nothing was imported.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum ImportError {
    NoHeader,
    /// UTF-16 by the look of it, without the mark that says so.
    NoMark,
    /// UTF-16 that ends in the middle of a letter, or holds what is none.
    CutUtf16,
    /// A first line `sep=` with a sign that parts no columns.
    Parted {
        /// What stands there, cleaned for showing.
        found: String,
    },
    /// The header, with its line and what is wrong with it.
    Header {
        line: u64,
        what: String,
    },
    /// Rows that cannot be taken.
    Rows {
        /// Each with its line.
        bad: Vec<BadRow>,
        more: usize,
    },
    /// More than any job holds.
    TooMuch {
        /// The line in which it is too much.
        line: u64,
        /// What there is too much of: `courses`.
        what: &'static str,
        most: usize,
    },
    /// Not CSV; nothing is known that brings it about.
    NotRows,
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
                "the file is empty, expected a header line such as {HEADER}"
            ),
            Self::NoMark => f.write_str(
                "the text is UTF-16 without a mark that says so, expected the file saved as UTF-8",
            ),
            Self::CutUtf16 => f.write_str(
                "the text is UTF-16 and damaged or cut off, expected the file whole, or saved as UTF-8",
            ),
            Self::Parted { found } => write!(
                f,
                "line 1: \"sep={found}\" parts no columns, expected sep=, with a comma, a semicolon or a tab"
            ),
            Self::Header { line, what } => write!(f, "line {line}: {what}"),
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
            Self::TooMuch { line, what, most } => write!(
                f,
                "line {line}: more than {most} {what}, expected at most as many: split the job in two; nothing was imported"
            ),
            Self::NotRows => f.write_str("the rows were not told apart, expected CSV"),
        }
    }
}

impl std::error::Error for ImportError {}
