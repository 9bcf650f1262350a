//! The cut sheet as CSV, for a spreadsheet.
//!
//! RFC 4180 quoting by the csv crate. A text that a spreadsheet would take for
//! a formula gets a leading `'`; numbers stay numbers. Positions are exact, in
//! millimetres. Where a name has letters beyond ASCII, the text begins with a
//! byte order mark: spreadsheets take it for another encoding without.

use super::rows::{EdgeRows, Row, Rows};
use crate::domain::{
    measure::Length,
    piece::{Ends, LineAt, LineMarks, Mark},
    tape::{Division, Unit, exact, print},
};
use crate::sheet::SheetError;
use std::fmt::Write;

/// What a column has for a piece, given its edge's name.
type Field = fn(&str, &Row) -> String;

/// So many of the columns are there where no piece is cut at both ends.
const AT_ONE_END: usize = 18;

/// The columns in order, each with its name.
const COLUMNS: [(&str, Field); 28] = [
    ("edge", |edge, _| edge.to_owned()),
    ("kind", |_, row| {
        let (kind, _) = row.piece.spec.kind_and_other(row.piece.id.edge);
        kind.word().to_owned()
    }),
    ("hand", |_, row| row.piece.spec.hand.word().to_owned()),
    ("course", |_, row| row.piece.id.course.to_string()),
    ("piece", |_, row| row.piece.id.number.to_string()),
    ("bend_1_at", |_, row| at(row.bend, 0)),
    ("bend_1_mm", |_, row| mm(row.bend, 0)),
    ("bend_2_at", |_, row| at(row.bend, 1)),
    ("bend_2_mm", |_, row| mm(row.bend, 1)),
    ("cut_1_at", |_, row| at(row.cut, 0)),
    ("cut_1_mm", |_, row| mm(row.cut, 0)),
    ("cut_2_at", |_, row| at(row.cut, 1)),
    ("cut_2_mm", |_, row| mm(row.cut, 1)),
    ("on_table", |_, row| row.on_table().to_owned()),
    ("nose", |_, row| row.nose().to_owned()),
    ("panel", |_, row| said(row.piece.stock.panel())),
    ("stock", |_, row| row.piece.stock.word().to_owned()),
    ("stage", |_, row| row.stage().to_owned()),
    // Of a piece cut at both ends; the columns above have its far end.
    ("label", |_, row| row.label.clone()),
    ("near_bend_1_at", |_, row| {
        at(near(row, |near| near.bend), 0)
    }),
    ("near_bend_1_mm", |_, row| {
        mm(near(row, |near| near.bend), 0)
    }),
    ("near_bend_2_at", |_, row| {
        at(near(row, |near| near.bend), 1)
    }),
    ("near_bend_2_mm", |_, row| {
        mm(near(row, |near| near.bend), 1)
    }),
    ("near_cut_1_at", |_, row| at(near(row, |near| near.cut), 0)),
    ("near_cut_1_mm", |_, row| mm(near(row, |near| near.cut), 0)),
    ("near_cut_2_at", |_, row| at(near(row, |near| near.cut), 1)),
    ("near_cut_2_mm", |_, row| mm(near(row, |near| near.cut), 1)),
    ("tip_mm", |_, row| {
        let tip = row.piece.spec.tip();
        tip.map_or(String::new(), |tip| exact(tip, Unit::Millimetre))
    }),
];

/// What a column of [`MORE`] has for a piece.
type MoreField = fn(&Row, &Rows<'_>) -> String;

/// Columns that came later and stand behind all others: what a spreadsheet reads in
/// the job's own units, the near line of a piece cut at both ends (3 and 4), and
/// what is known of stock and bend.
const MORE: [(&str, MoreField); 21] = [
    ("unit", |_, sheet| {
        sheet.job.settings.unit().word().to_owned()
    }),
    ("bend_1", |row, sheet| own(row.bend, 0, sheet)),
    ("bend_2", |row, sheet| own(row.bend, 1, sheet)),
    ("cut_1", |row, sheet| own(row.cut, 0, sheet)),
    ("cut_2", |row, sheet| own(row.cut, 1, sheet)),
    ("bend_3_at", |row, _| at(near(row, |near| near.bend), 0)),
    ("bend_3", |row, sheet| {
        own(near(row, |near| near.bend), 0, sheet)
    }),
    ("bend_3_mm", |row, _| mm(near(row, |near| near.bend), 0)),
    ("bend_4_at", |row, _| at(near(row, |near| near.bend), 1)),
    ("bend_4", |row, sheet| {
        own(near(row, |near| near.bend), 1, sheet)
    }),
    ("bend_4_mm", |row, _| mm(near(row, |near| near.bend), 1)),
    ("cut_3_at", |row, _| at(near(row, |near| near.cut), 0)),
    ("cut_3", |row, sheet| {
        own(near(row, |near| near.cut), 0, sheet)
    }),
    ("cut_3_mm", |row, _| mm(near(row, |near| near.cut), 0)),
    ("cut_4_at", |row, _| at(near(row, |near| near.cut), 1)),
    ("cut_4", |row, sheet| {
        own(near(row, |near| near.cut), 1, sheet)
    }),
    ("cut_4_mm", |row, _| mm(near(row, |near| near.cut), 1)),
    ("lot", |row, _| {
        row.lot
            .as_ref()
            .map_or_else(String::new, |lot| harmless(lot.as_str()))
    }),
    ("bend_deg", |row, sheet| {
        said(
            sheet
                .bend_deg(row, LineAt::Far)
                .map(|deg| format!("{deg:.1}")),
        )
    }),
    ("leg", |row, sheet| {
        in_cell(row.leg, sheet.job.settings.division)
    }),
    ("leg_mm", |row, _| format!("{:.1}", row.leg.mm())),
];

/// The first or second end of a line as the job's tape shows it.
fn own(ends: Option<Ends>, end: usize, sheet: &Rows<'_>) -> String {
    let division = sheet.job.settings.division;
    said(nth(ends, end).map(|mark| in_cell(mark.position, division)))
}

/// `18 3/4`, `0 5/8`: a spreadsheet makes a date of a bare fraction. To the nearest
/// division, without the sign of what is over: the column in mm is exact.
fn in_cell(length: Length, division: Division) -> String {
    let text = print(length, division);
    let text = text.trim_end_matches(['+', '-']);
    match text.contains('/') && !text.contains(' ') {
        true => format!("0 {text}"),
        false => text.to_owned(),
    }
}

/// The marks of the near end, where there is one.
fn near(row: &Row, of: impl Fn(&LineMarks) -> Option<Ends>) -> Option<Ends> {
    row.near.as_deref().and_then(of)
}

/// The columns' names, in order.
pub fn columns(sheet: &Rows<'_>) -> Vec<&'static str> {
    let fit = has_misfit(sheet).then_some("fit");
    let file = sheet.file.iter().map(|_| "file");
    let columns = COLUMNS.iter().take(first_columns(sheet));
    let columns = columns.map(|(name, _)| *name).chain(fit).chain(file);
    columns.chain(MORE.map(|(name, _)| name)).collect()
}

/// How many of the columns that stand first there are: those of pieces cut at both
/// ends only where there are any.
fn first_columns(sheet: &Rows<'_>) -> usize {
    let has_both = sheet.pieces().any(|piece| piece.spec.near.is_some());
    if has_both { COLUMNS.len() } else { AT_ONE_END }
}

fn has_misfit(sheet: &Rows<'_>) -> bool {
    sheet.misfits().next().is_some()
}

/// A cut sheet as CSV, the columns' names first.
///
/// # Errors
/// [`SheetError`] where the CSV library refuses; no job is known that does.
pub fn csv(sheet: &Rows<'_>) -> Result<String, SheetError> {
    let mut text = String::new();
    write_csv(sheet, &mut text)?;
    Ok(text)
}

/// The same, some rows at a time.
pub(super) fn write_csv(sheet: &Rows<'_>, out: &mut dyn Write) -> Result<(), SheetError> {
    if !is_ascii(sheet) {
        out.write_char('\u{FEFF}').map_err(SheetError::of)?;
    }
    let count = first_columns(sheet);
    // Behind the first ones, so that those stand where they do; in each row, for rows
    // are sorted and parted. An ordinary job and file have no such columns.
    let odd = sheet.file.as_ref().map(|odd| harmless(odd));
    let odd = || odd.clone().into_iter();
    let division = sheet.job.settings.division;
    let has_misfit = has_misfit(sheet);
    let fits = |row: Option<&Row>| {
        let misfit = row.and_then(|row| row.piece.fit.misfit());
        let words = misfit.map_or_else(String::new, |misfit| misfit.words(division));
        has_misfit.then_some(words).into_iter()
    };
    let mut lines = Lines::new(out);
    lines.put(columns(sheet).into_iter().map(str::to_owned))?;
    for edge in &sheet.edges {
        let name = harmless(edge.edge.name.as_str());
        for row in sheet.rows_of(edge) {
            let columns = COLUMNS.iter().take(count);
            let fields = columns.map(|(_, of)| of(&name, &row));
            let more = MORE.iter().map(|(_, of)| of(&row, sheet));
            lines.put(fields.chain(fits(Some(&row))).chain(odd()).chain(more))?;
        }
        for hole in edge.holes(division) {
            let fields = not_read(edge, &name, hole, count);
            let more = MORE.map(|_| String::new());
            let fields = fields.into_iter().chain(fits(None)).chain(odd());
            lines.put(fields.chain(more))?;
        }
    }
    lines.finish()
}

/// The fields of a course that owes a piece, with why there is none.
fn not_read(
    edge: &EdgeRows<'_>,
    name: &str,
    (course, why): (u32, String),
    count: usize,
) -> Vec<String> {
    let (kind, hand) = (edge.edge.kind.word(), edge.edge.hand.word());
    let mut fields = vec![String::new(); count];
    let said = [
        name.to_owned(),
        kind.to_owned(),
        hand.to_owned(),
        course.to_string(),
    ];
    let said = said.into_iter().zip(&mut fields);
    said.for_each(|(said, field)| *field = said);
    if let Some(stage) = fields.get_mut(AT_ONE_END - 1) {
        *stage = why;
    }
    fields
}

/// Whether no letter beyond ASCII is going to be written: all texts but those of
/// people and files are the program's own.
fn is_ascii(sheet: &Rows<'_>) -> bool {
    let division = sheet.job.settings.division;
    let written = |edge: &&EdgeRows<'_>| edge.count() > 0 || edge.holes(division).next().is_some();
    let mut edges = sheet.edges.iter().filter(written).peekable();
    let file = sheet.file.as_ref().filter(|_| edges.peek().is_some());
    let lots = edges.clone().flat_map(|edge| edge.edge.lots()).flatten();
    let mut lots = lots.chain(sheet.lots_of_marked());
    lots.all(|lot| lot.as_str().is_ascii())
        && edges.all(|edge| edge.edge.name.as_str().is_ascii())
        && file.is_none_or(|file| file.is_ascii())
}

/// Lines on their way out, a few of them at a time.
struct Lines<'o> {
    writer: ::csv::Writer<Vec<u8>>,
    count: usize,
    out: &'o mut dyn Write,
}

impl<'o> Lines<'o> {
    /// So many lines wait at most.
    const MOST: usize = 256;

    fn new(out: &'o mut dyn Write) -> Self {
        Self {
            writer: ::csv::Writer::from_writer(Vec::new()),
            count: 0,
            out,
        }
    }

    fn put(&mut self, fields: impl Iterator<Item = String>) -> Result<(), SheetError> {
        self.writer.write_record(fields).map_err(SheetError::of)?;
        self.count += 1;
        if self.count.is_multiple_of(Self::MOST) {
            let full = ::csv::Writer::from_writer(Vec::new());
            let full = std::mem::replace(&mut self.writer, full);
            pass_on(full, self.out)?;
        }
        Ok(())
    }

    fn finish(self) -> Result<(), SheetError> {
        pass_on(self.writer, self.out)
    }
}

fn pass_on(writer: ::csv::Writer<Vec<u8>>, out: &mut dyn Write) -> Result<(), SheetError> {
    let bytes = writer.into_inner().map_err(SheetError::of)?;
    let text = String::from_utf8(bytes).map_err(SheetError::of)?;
    out.write_str(&text).map_err(SheetError::of)
}

/// Where the first or second end of a line meets the panel's outline.
fn at(ends: Option<Ends>, end: usize) -> String {
    said(nth(ends, end).map(|mark| mark.at.word()))
}

fn mm(ends: Option<Ends>, end: usize) -> String {
    said(nth(ends, end).map(|mark| exact(mark.position, Unit::Millimetre)))
}

fn said(value: Option<impl ToString>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}

fn nth(ends: Option<Ends>, end: usize) -> Option<Mark> {
    ends?.get(end).copied()
}

/// `text` with a `'` before it where a spreadsheet would compute it (OWASP,
/// "CSV injection"), the wide forms of the same signs among them.
pub fn harmless(text: &str) -> String {
    const BEGINS_FORMULA: [char; 10] = [
        '=', '+', '-', '@', '\t', '\r', '\u{FF1D}', '\u{FF0B}', '\u{FF0D}', '\u{FF20}',
    ];
    // A spreadsheet whose lists are parted by semicolons parts the text there.
    let begins = |part: &str| {
        part.trim_start_matches([' ', '"'])
            .starts_with(BEGINS_FORMULA)
    };
    let part = |part: &str| {
        let mark = if begins(part) { "'" } else { "" };
        format!("{mark}{part}")
    };
    text.split(';').map(part).collect::<Vec<_>>().join(";")
}
