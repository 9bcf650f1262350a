//! The bench list of one edge: a line a piece, to be read from three feet.
//!
//! Pages are made here and not by the browser, so that each has its heading, its
//! number and whole rows on any printer. How high a row comes out is known well
//! enough for that: what is reckoned here is a little more than what is printed
//! (`tests/paper/print.rs` prints it on A4 and Letter).

use super::list_line::{FROM_LETTERS, row_html, table};
use super::piece::{Drawn, lie_picture};
use crate::domain::piece::{At, Mark};
use crate::sheet::layout::{Boxes, Layout};
use crate::sheet::list_row::{ListRow, nose};
use crate::sheet::log_mark::LogMark;
use crate::sheet::markup::{element, plain};
use crate::sheet::rows::{EdgeRows, Row, Rows};
use crate::sheet::words;
use std::fmt::{self, Write};

/// What is reckoned with of a page's height: Letter between margins of 12 mm, the
/// lower of the two papers, less what a browser rounds up.
pub(super) const PAGE_MM: f64 = 252.0;

/// The heading of a page, of one line each for name, hand, and job and day, and two
/// for the columns, with its foot; what is more of the first two.
const HEAD_MM: f64 = 31.0;
const NAME_MM: f64 = 6.0;
const NAME_LETTERS: usize = 58;
const HAND_MM: f64 = 4.8;
const HAND_LETTERS: usize = 100;

/// A line of a piece, and each further line of small words in it.
const ROW_MM: f64 = 8.5;
const WORDS_MM: f64 = 3.8;

/// Words over a figure that is measured up an end, and their box.
const SIDE_MM: f64 = 3.5;

/// The same where a box for every step leaves those words two lines.
const SIDE_OF_STEPS_MM: f64 = 7.3;

/// A line of notes across the page, and how many letters go on it.
pub(super) const NOTE_MM: f64 = 4.0;
const NOTE_LETTERS: usize = 110;

/// The pictures of how the panel lies, in their row.
const LIES_MM: f64 = 43.0;

/// What the foot of each page says.
const FOOT: &str =
    "What drops: let it fall on a stand, hands and feet clear. + / -: a hair over / under.";

/// What is counted through the whole file.
#[derive(Default)]
pub(super) struct Count {
    pub(super) pages: usize,
    pub(super) pictures: usize,
    /// How the panels of an edge lie, where its page had no room: its label and the
    /// pictures.
    pub(super) lies: Vec<(String, Drawn)>,
}

/// A page that fills downward.
#[derive(Default)]
struct Filling {
    /// What is to be known before the first piece.
    notes: String,
    rows: String,
    lines: String,
    used_mm: f64,
    part: usize,
}

/// What goes onto it.
enum Item {
    Note(String),
    Row(String),
    Line(String),
}

/// The pages of one edge as they are written.
struct EdgePages<'a, 'o> {
    edge: &'a EdgeRows<'a>,
    sheet: &'a Rows<'a>,
    layout: &'a Layout,
    head: String,
    head_mm: f64,
    mark: LogMark,
    filling: Filling,
    count: &'o mut Count,
    out: &'o mut dyn Write,
}

/// The pages of `edge`.
pub(super) fn list_pages(
    edge: &EdgeRows<'_>,
    sheet: &Rows<'_>,
    layout: &Layout,
    count: &mut Count,
    out: &mut dyn Write,
) -> fmt::Result {
    let division = sheet.job.settings.division;
    let (head, head_mm) = head(edge, sheet);
    let mut pages = EdgePages {
        mark: LogMark::of(edge, sheet),
        head_mm,
        edge,
        sheet,
        layout,
        head,
        filling: Filling::default(),
        count,
        out,
    };
    let file = words::file(sheet).map(|words| ("", words));
    for (sign, words) in file.into_iter().chain(words::edge_notes(edge, sheet)) {
        pages.line(&format!("{sign}{words}"), Item::Note)?;
    }
    let mut lies: Vec<(&'static str, String, f64)> = Vec::new();
    for row in sheet.rows_of(edge) {
        let line = ListRow::of(&row, edge, sheet);
        let high = high(&line, layout.boxes);
        pages.put(Item::Row(row_html(&line, sheet, layout)), high)?;
        let Some((_, lie)) = row.cuts().next().filter(|_| !is_odd(&row)) else {
            continue;
        };
        if lies.iter().all(|(nose_at, ..)| *nose_at != nose(lie)) {
            lies.extend(pages.lie_of(&row, nose(lie)));
        }
    }
    if !lies.is_empty() {
        let high = lies.iter().map(|(_, _, high)| *high).collect();
        let html: String = lies.into_iter().map(|(_, figure, _)| figure).collect();
        if pages.has_room(LIES_MM) {
            pages.put(Item::Line(element("div", "lies", &html)), LIES_MM)?;
        } else {
            // A page for them alone is a page to lose.
            let short = sheet.labels.edge(edge.edge.id);
            let html = element("div", "pictures", &html);
            pages.count.lies.push((short, Drawn { html, high }));
        }
    }
    for empty in edge.left_out.iter().chain(&edge.empty) {
        let why = empty.why.words(division);
        let words = format!("No piece for {}: {why}", empty.place());
        pages.line(&words, Item::Line)?;
    }
    pages.finish(false)
}

/// Whether a piece has pictures of its own: it does not lie like the others of its
/// edge, or more is to be done to it.
pub(super) fn is_odd(row: &Row) -> bool {
    let spec = &row.piece.spec;
    let ends = |line: Option<_>, usual| line.is_some_and(|ends: [_; 2]| ends.map(at) != usual);
    let usual = [At::Nose, At::Back];
    let on_a_side = ends(row.bend, usual) || ends(row.cut, usual);
    spec.near.is_some() || spec.across.is_some() || on_a_side || row.piece.id.number > 1
}

const fn at(mark: Mark) -> At {
    mark.at
}

impl EdgePages<'_, '_> {
    /// A line of words across the page.
    fn line(&mut self, words: &str, place: fn(String) -> Item) -> fmt::Result {
        let rows = words.chars().count() / NOTE_LETTERS + 1;
        let high = NOTE_MM * to_f64(rows);
        self.put(place(plain("p", "note", words) + "\n"), high)
    }

    fn put(&mut self, item: Item, high_mm: f64) -> fmt::Result {
        if !self.has_room(high_mm) {
            self.finish(true)?;
        }
        self.filling.used_mm += high_mm;
        match item {
            Item::Row(row) => self.filling.rows.push_str(&row),
            Item::Note(note) => self.filling.notes.push_str(&note),
            Item::Line(line) => self.filling.lines.push_str(&line),
        }
        Ok(())
    }

    /// Whether the page takes so much more; one that is not begun takes anything.
    fn has_room(&self, high_mm: f64) -> bool {
        let used_mm = self.filling.used_mm;
        used_mm <= 0.0 || self.head_mm + used_mm + high_mm <= PAGE_MM
    }

    fn lie_of(&mut self, row: &Row, nose: &'static str) -> Option<(&'static str, String, f64)> {
        let blade = self.sheet.job.settings.blade;
        let words = format!("{nose}, here {}", row.label);
        let (figure, high) = lie_picture(row, blade, &words, &mut self.count.pictures)?;
        Some((nose, figure, high))
    }

    /// Ends the page; `goes_on` where the edge has more.
    fn finish(&mut self, goes_on: bool) -> fmt::Result {
        self.count.pages += 1;
        let part = self.filling.part + 1;
        let short = self.sheet.labels.edge(self.edge.edge.id);
        let Filling {
            notes, rows, lines, ..
        } = std::mem::take(&mut self.filling);
        self.filling.part = part;
        let foot = match (goes_on, part) {
            (true, _) => format!("{short} goes on: part {} is the next page", part + 1),
            (false, 1) => format!("all of {short}"),
            (false, _) => format!("end of {short}, {part} parts"),
        };
        let run = run(self.sheet, self.layout, self.count.pages);
        let mark = format!("; log mark {}", self.mark);
        let run = plain("span", "", &run) + &plain("b", "", &mark);
        let head = self.head.clone() + &element("p", "run", &run) + &notes;
        let table = match rows.is_empty() {
            true => head,
            false => table(&head, &rows, self.layout.boxes, self.sheet),
        };
        let foot = plain("p", "foot", &format!("{foot}. {FOOT}"));
        let page = format!("{table}\n{lines}{foot}\n");
        self.out
            .write_str(&(element("section", "page list", &page) + "\n"))
    }
}

/// A count to reckon with.
pub(super) fn to_f64(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

/// How high a piece's rows come out.
fn high(row: &ListRow, boxes: Boxes) -> f64 {
    let from = row.from.chars().count() + row.lot.as_ref().map_or(0, |lot| lot.chars().count() + 2);
    let keep = row.keep.as_ref().map_or(0, |keep| keep.chars().count());
    let words = from.div_ceil(FROM_LETTERS) + keep.div_ceil(FROM_LETTERS);
    let on_sides = row.lines.iter().filter(|line| {
        let ends = line.bend.iter().chain(&line.cut).flatten();
        ends.into_iter().any(|figure| figure.side.is_some())
    });
    let side_mm = match boxes {
        Boxes::Done => SIDE_MM,
        Boxes::EveryStep => SIDE_OF_STEPS_MM,
    };
    let lines = row.lines.len().max(1);
    // Each of two lines says which it is.
    let names = row.lines.iter().filter(|line| line.name.is_some()).count();
    let more = words.saturating_sub(2 * lines) + names;
    let notes: usize = row.notes.iter().map(|note| note.chars().count() + 3).sum();
    let notes = notes.div_ceil(NOTE_LETTERS);
    ROW_MM * to_f64(lines)
        + WORDS_MM * to_f64(more)
        + side_mm * to_f64(on_sides.count())
        + NOTE_MM * to_f64(notes)
}

/// What stands at the head of each page of `edge`, and how high all of it comes out.
fn head(edge: &EdgeRows<'_>, sheet: &Rows<'_>) -> (String, f64) {
    let (of, short) = (edge.edge, sheet.labels.edge(edge.edge.id));
    let name = format!("{} {short}: {}", of.kind.word().to_uppercase(), of.name);
    let hand = of.hand.word().to_uppercase();
    let hand = format!("{hand} hand: tape from the {hand}");
    let bend = words::edge_bend(edge, sheet);
    let more = |words: usize, on_line: usize| to_f64((words / on_line).min(4));
    let more_mm = NAME_MM * more(name.chars().count(), NAME_LETTERS)
        + HAND_MM
            * more(
                hand.chars().count() + bend.chars().count() + 2,
                HAND_LETTERS,
            );
    let hand = plain("b", "", &hand) + ", " + &plain("span", "", &bend);
    (
        plain("h2", "", &name) + &element("p", "hand", &hand),
        HEAD_MM + more_mm,
    )
}

/// What is said at the head of every page.
pub(super) fn run(sheet: &Rows<'_>, layout: &Layout, page: usize) -> String {
    // The first page is not counted among these.
    let page = format!("page {}", page + 1);
    let job = sheet.job.name.to_string();
    let parts = [Some(page), Some(job), words::printed(layout)];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}
