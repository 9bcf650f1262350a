//! The rows of a file, one after the other, each with its line.
//!
//! A row too large to be one of readings, such as a line of commas alone or all
//! that stands behind a quote never closed, is passed over before it is taken
//! apart: parted into cells it would take many times the file's memory.

use super::error::ImportError;
use csv::{ByteRecord, Position, Reader, ReaderBuilder};

/// The most cells a row may have.
pub(super) const MOST_CELLS: usize = 1_000;

/// The most bytes a row may have.
const MOST_BYTES: usize = 65_536;

/// What comes next.
pub(super) enum Next {
    /// A row, now in the record; it begins in that line.
    Row(u64),
    /// A row that was passed over, with its line and why.
    TooLarge(u64, String),
    End,
}

/// The rows still to come.
pub(super) struct Records<'c> {
    csv: &'c [u8],
    delimiter: u8,
    large: std::vec::IntoIter<TooLarge>,
    /// Up to the next one that is too large, or to the end.
    reader: Reader<&'c [u8]>,
    ahead: Option<TooLarge>,
    /// Where the reader began.
    start: usize,
    /// How many lines are before that.
    lines: u64,
}

/// A row that is passed over.
struct TooLarge {
    from: usize,
    to: usize,
    what: String,
}

impl<'c> Records<'c> {
    /// The rows of `csv`, before which the file has `lines` lines more.
    pub(super) fn of(csv: &'c [u8], delimiter: u8, lines: u64) -> Self {
        let mut large = too_large(csv, delimiter).into_iter();
        let ahead = large.next();
        let end = ahead.as_ref().map_or(csv.len(), |large| large.from);
        Self {
            csv,
            delimiter,
            large,
            reader: reader(part(csv, 0, end), delimiter),
            ahead,
            start: 0,
            lines,
        }
    }

    /// The next row, put into `record`.
    pub(super) fn next(&mut self, record: &mut ByteRecord) -> Result<Next, ImportError> {
        let read = self.reader.read_byte_record(record);
        if read.map_err(|_| ImportError::NotRows)? {
            let rows = part(self.csv, self.start, self.csv.len());
            let line = record.position().map_or(0, |place| line_of(rows, place));
            return Ok(Next::Row(self.lines + line));
        }
        let Some(TooLarge { from, to, what }) = self.ahead.take() else {
            return Ok(Next::End);
        };
        let line = self.lines + lines_in(part(self.csv, self.start, from)) + 1;
        self.lines += lines_in(part(self.csv, self.start, to));
        self.start = to;
        self.ahead = self.large.next();
        let end = self
            .ahead
            .as_ref()
            .map_or(self.csv.len(), |large| large.from);
        self.reader = reader(part(self.csv, to, end), self.delimiter);
        Ok(Next::TooLarge(line, what))
    }
}

fn part(csv: &[u8], from: usize, to: usize) -> &[u8] {
    csv.get(from..to).unwrap_or_default()
}

fn reader(csv: &[u8], delimiter: u8) -> Reader<&[u8]> {
    ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .from_reader(csv)
}

fn lines_in(csv: &[u8]) -> u64 {
    let lines = csv.iter().filter(|byte| **byte == b'\n').count();
    u64::try_from(lines).unwrap_or(u64::MAX)
}

/// The line a record begins in. The reader's own count stands before any blank
/// lines in front of it.
fn line_of(csv: &[u8], place: &Position) -> u64 {
    let start = usize::try_from(place.byte()).unwrap_or(usize::MAX);
    let blank = csv.get(start..).unwrap_or_default().iter();
    let blank = blank
        .take_while(|byte| matches!(byte, b'\r' | b'\n'))
        .filter(|byte| **byte == b'\n')
        .count();
    place.line() + u64::try_from(blank).unwrap_or(0)
}

/// The rows of `csv` that are too large.
fn too_large(csv: &[u8], delimiter: u8) -> Vec<TooLarge> {
    // As good as every file: no line is long, and no quote joins any.
    let short = |line: &[u8]| line.len() <= MOST_CELLS;
    if !csv.contains(&b'"') && csv.split(|byte| *byte == b'\n').all(short) {
        return Vec::new();
    }
    let mut found = Vec::new();
    spans(csv, delimiter, |span| found.extend(span.too_large()));
    found
}

/// Where a row stands, and what is in it.
struct Span {
    from: usize,
    to: usize,
    cells: usize,
    /// Whether it ends within a quote: it is the last.
    quoted: bool,
}

/// The rows of `csv`, blank ones too, parted as the reader parts them: a cell that
/// begins with a quote goes on to the next one that is not doubled.
fn spans(csv: &[u8], delimiter: u8, mut found: impl FnMut(Span)) {
    let (mut from, mut cells, mut quoted, mut begins) = (0, 1, false, true);
    let mut rest = csv.iter().enumerate().peekable();
    while let Some((to, byte)) = rest.next() {
        if quoted {
            let ends = *byte == b'"' && rest.next_if(|(_, next)| **next == b'"').is_none();
            quoted = !ends;
        } else if matches!(byte, b'\r' | b'\n') {
            found(Span {
                from,
                to,
                cells,
                quoted,
            });
            (from, cells, begins) = (to + 1, 1, true);
        } else if *byte == delimiter {
            (cells, begins) = (cells + 1, true);
        } else {
            quoted = begins && *byte == b'"';
            begins = false;
        }
    }
    found(Span {
        from,
        to: csv.len(),
        cells,
        quoted,
    });
}

impl Span {
    fn too_large(self) -> Option<TooLarge> {
        let Self {
            from,
            to,
            cells,
            quoted,
        } = self;
        let bytes = to - from;
        let what = if cells > MOST_CELLS {
            format!("{cells} cells, expected at most {MOST_CELLS}")
        } else if bytes > MOST_BYTES {
            let quote = if quoted {
                ": a quote may not be closed"
            } else {
                ""
            };
            format!("a row of {bytes} bytes, expected at most {MOST_BYTES}{quote}")
        } else {
            return None;
        };
        Some(TooLarge { from, to, what })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Rows are parted twice, and a row seen by one and not by the other would
        /// be lost, or told of a wrong line.
        #[test]
        fn prop_rows_are_parted_as_the_reader_parts_them(text in "[x,\"\r\n;]{0,40}") {
            let mut ours = Vec::new();
            spans(text.as_bytes(), b',', |span| {
                if span.to > span.from {
                    ours.push(span.cells);
                }
            });
            let read = reader(text.as_bytes(), b',').into_byte_records();
            let theirs: Vec<usize> = read.map(|record| record.unwrap().len()).collect();
            prop_assert_eq!(ours, theirs);
        }
    }
}
