//! One piece: its label, its marks, how it lies, and its two pictures.

use crate::domain::{
    cutting::{CutNow, Labels},
    measure::Hand,
    piece::{Ends, LineAt},
    tape::Division,
};
use crate::picture::{
    marking::marking,
    shape::{Picture, Shape},
    shear::shear,
};
use crate::sheet::layout::Pages;
use crate::sheet::markup::{element, plain};
use crate::sheet::rows::{Row, Rows};
use crate::sheet::svg::{height_mm, svg};
use crate::sheet::words;

/// How wide a panel is drawn, in millimetres on the page: both pictures of a
/// piece stand side by side on A4 between margins of 12 mm.
pub const PANEL_MM: f64 = 63.0;

/// The same on the bench list, two ways to lie side by side.
const LIST_PANEL_MM: f64 = 55.0;

/// What a picture has beside the panel, in millimetres on the page, and how
/// much of that is kept where only a mark may stand there.
const BESIDE_MM: f64 = 27.0;
const NARROW_MM: f64 = 10.0;

/// The block of `row`; `pictures` counts those of the whole file, since each
/// needs a name of its own in it.
pub(super) fn piece(row: &Row, sheet: &Rows<'_>, pictures: &mut usize) -> String {
    let division = sheet.job.settings.division;
    let mut block = element("div", "head", &head(row)) + "\n";
    for note in &row.notes {
        let words = format!("! {}", note.words(row.piece.spec.kind, division));
        block.push_str(&plain("p", "note", &words));
    }
    block.push_str(&marks(row, &sheet.labels, division));
    block.push_str(&plain("p", "", &facts(row, sheet, division)));
    block.push_str(&drawn(row, sheet, Pages::Pictures, pictures).html);
    element("article", "piece", &format!("\n{block}\n")) + "\n"
}

fn head(row: &Row) -> String {
    let piece = &row.piece;
    let tape = format!("tape from the {}", piece.spec.hand.word().to_uppercase());
    plain("span", "label", &row.label)
        + &plain("span", "", &words::course(piece.id))
        + &plain("span", "note", &tape)
        + &plain("span", "", &words::stock(piece))
        + &plain("span", "", piece.stage.word())
}

/// A table a line: where there are two, each stands under its name, in the order of work.
fn marks(row: &Row, labels: &Labels, division: Division) -> String {
    let spec = &row.piece.spec;
    let mut out = String::new();
    let mut lines: Vec<_> = (1..).step_by(4).zip(row.lines()).collect();
    lines.sort_by_key(|(_, line)| words::turn(row, line.at));
    for (first, marked) in lines {
        let kind = match spec.near {
            Some(near) if marked.at == LineAt::Near => near.kind,
            _ => spec.kind,
        };
        let bend = format!("bend {}", kind.bend().word());
        let lines = [
            (bend.as_str(), "bend", marked.bend, first),
            ("cut", "", marked.cut, first + 2),
        ];
        let rows: String = lines
            .into_iter()
            .filter_map(|(word, class, ends, first)| {
                Some(line(word, class, ends?, first, division))
            })
            .collect();
        if rows.is_empty() {
            continue;
        }
        if let Some(name) = words::line_in_turn(row, marked.at, labels) {
            out.push_str(&plain("p", "note", &name));
        }
        out.push_str(&element(
            "table",
            "marks",
            &format!("<tbody>{rows}</tbody>"),
        ));
        out.push('\n');
    }
    out
}

/// The numbers before the marks are those in the picture.
fn line(word: &str, class: &str, ends: Ends, first: u32, division: Division) -> String {
    let cells: String = (first..)
        .zip(ends)
        .map(|(number, mark)| {
            let number = plain("span", "number", &number.to_string());
            let figure = plain("span", "", &words::mark(mark, division));
            element("td", "", &format!("{number} {figure}"))
        })
        .collect();
    element("tr", class, &(plain("th", "", word) + &cells))
}

fn facts(row: &Row, sheet: &Rows<'_>, division: Division) -> String {
    let mut facts = Vec::new();
    if row.piece.stock.offcut().is_some() {
        facts.push(format!("from {}", sheet.labels.stock(&row.piece.stock)));
    }
    for (about, words) in words::facts(row, &sheet.labels, division) {
        facts.push(match about {
            "rest" => format!("offcut: {words}"),
            _ => words,
        });
    }
    facts.join("; ")
}

/// The pictures of a piece.
#[derive(Default)]
pub(super) struct Drawn {
    pub(super) html: String,
    /// How high each is drawn, without its words, in millimetres.
    pub(super) high: Vec<f64>,
}

impl Drawn {
    fn put(&mut self, words: &str, picture: &Picture, sides: [f64; 2], pictures: &mut usize) {
        let figure = figure(words, picture, (PANEL_MM, sides), pictures);
        self.html.push_str(&figure);
        self.high.push(height_mm(picture, PANEL_MM));
    }
}

/// A full panel needs no picture. The bench list's figures have no numbers, so neither
/// have the marks in its pictures.
pub(super) fn drawn(row: &Row, sheet: &Rows<'_>, pages: Pages, pictures: &mut usize) -> Drawn {
    let (spec, blade) = (&row.piece.spec, sheet.job.settings.blade);
    let offcut = row.piece.stock.offcut();
    let is_marked = row
        .lines()
        .any(|line| line.bend.is_some() || line.cut.is_some());
    if !is_marked && spec.across.is_none() {
        return Drawn::default();
    }
    let narrow = [NARROW_MM, NARROW_MM];
    let mut marked = marking(spec, offcut);
    if pages == Pages::List {
        let is_numbers = |shape: &Shape| matches!(shape, Shape::Numbers { .. });
        marked.shapes.retain(|shape| !is_numbers(shape));
    }
    let mut drawn = Drawn::default();
    drawn.put("for marking", &marked, narrow, pictures);
    for made in [false, true] {
        let cut = CutNow::of(spec, offcut, made).filter(|_| !made || row.cuts().count() > 1);
        let Some(cut) = cut else { continue };
        let line = words::line_in_turn(row, cut.line, &sheet.labels);
        let words = line.map_or("at the shear".to_owned(), |line| {
            format!("at the shear, {line}")
        });
        if let Some(picture) = shear(&cut, blade) {
            drawn.put(&words, &picture, lying(blade), pictures);
        }
    }
    drawn.html = element("div", "pictures", &drawn.html);
    drawn
}

/// The panel of `row` at the shear as the bench list draws it, with how high it is;
/// none where nothing is cut.
pub(super) fn lie_picture(
    row: &Row,
    blade: Hand,
    words: &str,
    pictures: &mut usize,
) -> Option<(String, f64)> {
    let cut = CutNow::of(&row.piece.spec, row.piece.stock.offcut(), false)?;
    let picture = shear(&cut, blade)?;
    let size = (LIST_PANEL_MM, lying(blade));
    let high = height_mm(&picture, LIST_PANEL_MM);
    Some((figure(words, &picture, size, pictures), high))
}

/// What is kept beside a panel at the shear: the words of the blade stand there.
const fn lying(blade: Hand) -> [f64; 2] {
    match blade {
        Hand::Right => [NARROW_MM, BESIDE_MM],
        Hand::Left => [BESIDE_MM, NARROW_MM],
    }
}

/// A picture with its words: how wide the panel is drawn, and what is kept left and
/// right of it.
fn figure(
    words: &str,
    picture: &Picture,
    (panel_mm, [left, right]): (f64, [f64; 2]),
    pictures: &mut usize,
) -> String {
    *pictures += 1;
    let width = left + panel_mm + right;
    let drawn = svg(picture, panel_mm, &format!("k{pictures}"));
    let caption = plain("figcaption", "", words);
    let aside = left - BESIDE_MM;
    let drawn = drawn.replacen(
        "<svg ",
        &format!("<svg style=\"margin-left:{aside:.0}mm\" "),
        1,
    );
    format!("<figure style=\"width:{width:.0}mm\">{caption}{drawn}</figure>\n")
}
