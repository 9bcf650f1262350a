//! How the panel lies at the shear, read from the drawn screen alone and set
//! against the JSON sheet of the same job.

use crate::support::{Program, drawn_in, drops, text_of};
use bendmark::app::place::Glyphs;
use bendmark::domain::measure::Hand;
use bendmark::domain::piece::Part;
use bendmark::ui::widgets::digits::DotSize;
use serde_json::Value;

/// A picture this wide has to show the right share of cells within 3 points.
const LEAST_COLUMNS: usize = 34;

/// What the screen says of the lie of the piece in hand.
#[derive(PartialEq, Debug)]
struct Shown {
    on_table: &'static str,
    nose: &'static str,
    blade: Hand,
    /// The side of the screen at which cells are filled.
    filled_at: Hand,
    /// How many of the panel's cells are filled, and how many columns it has.
    share: f64,
    columns: usize,
}

/// Sets the picture for the cutter against the sheet, for the piece in hand.
pub(crate) fn check(program: &mut Program, size: (u16, u16), place: &str) {
    let json = bendmark::sheet::json::json(&bendmark::sheet::rows::Rows::of(
        program.state.open.as_ref().unwrap().job(),
    ));
    let sheet: Value = serde_json::from_str(&json).unwrap();
    let id = program.state.piece_in_hand().unwrap().id;
    let piece = sheet["pieces"]
        .as_array()
        .unwrap()
        .iter()
        .find(|piece| piece["course"] == id.course.get() && piece["piece"] == id.number)
        .unwrap();
    let screen = unnamed(&text_of(&program.buffer(size.0, size.1, Glyphs::Blocks)));
    let place = format!("{place}\n{screen}");
    if piece["cut"].as_array().unwrap().is_empty() {
        assert!(!screen.contains("away from you"), "{place}");
        return;
    }
    let shown = shown(&screen, &place);
    assert_eq!(piece["on_table"], shown.on_table, "{place}");
    assert_eq!(piece["nose"], shown.nose, "{place}");
    // By the trade's own rule, from the sheet's words: the kept part lies on the
    // hand's side as long as the nose points toward you.
    let hand = side(piece["hand"].as_str().unwrap());
    let kept = piece["on_table"] == "kept";
    let turned = piece["nose"] == "away";
    let lies_at = if kept == turned { hand.other() } else { hand };
    assert_eq!(shown.blade, lies_at.other(), "{place}");
    // What is filled is the piece, on the table or not.
    let piece_at = if turned { hand.other() } else { hand };
    assert_eq!(shown.filled_at, piece_at, "{place}");
    // An offcut does not fill the box it is drawn in.
    if shown.columns >= LEAST_COLUMNS && piece["stock"] == "new" {
        let area = |key: &str| piece[key].as_f64().unwrap();
        let [kept_mm2, left_mm2] = [area("kept_mm2"), area("offcut_mm2")];
        let wanted = kept_mm2 / (kept_mm2 + left_mm2);
        assert!((shown.share - wanted).abs() <= 0.03, "{wanted}: {place}");
    }
}

/// The word in the piece taken out again, so that only its filling is left.
fn unnamed(screen: &str) -> String {
    let name = " PIECE ";
    let rows = screen.lines().map(|row| match row.contains("stays") {
        true => row.to_owned(),
        false => row.replace(name, &"█".repeat(name.len())),
    });
    rows.collect::<Vec<_>>().join("\n")
}

/// Whether the screen says, drawn at either size, that this drops.
fn says_drops(screen: &str, part: Part) -> bool {
    let sizes = [DotSize::Half, DotSize::Narrow];
    sizes
        .into_iter()
        .any(|size| screen.contains(&drawn_in(drops(part), size)))
}

fn side(word: &str) -> Hand {
    Hand::BOTH
        .into_iter()
        .find(|hand| hand.word() == word)
        .unwrap()
}

/// Reads the picture.
fn shown(screen: &str, place: &str) -> Shown {
    let all: Vec<Vec<char>> = screen.lines().map(|line| line.chars().collect()).collect();
    let rows: Vec<&[char]> = all.iter().map(Vec::as_slice).collect();
    let row_of = |words: &str| rows.iter().position(|row| find(row, words).is_some());
    let top = row_of(", away from you").expect(place);
    let bottom = row_of(", toward you").expect(place);
    let nose = match (row_of("back, away from you"), row_of("nose, away from you")) {
        (Some(_), None) => "toward",
        (None, Some(_)) => "away",
        other => panic!("{other:?}: {place}"),
    };
    let near = ["nose, toward you", "back, toward you"][usize::from(nose == "away")];
    assert_eq!(row_of(near), Some(bottom), "{place}");
    let on_table = match [Part::Kept, Part::Offcut].map(|part| says_drops(screen, part)) {
        [true, false] => "kept",
        [false, true] => "offcut",
        other => panic!("{other:?}: {place}"),
    };
    let table = row_of("TABLE").expect(place);
    let blade = Hand::BOTH
        .into_iter()
        .find(|hand| row_of(&format!("BLADE {}", hand.word().to_uppercase())) == Some(table))
        .expect(place);
    let column_of = |words: &str| find(rows[table], words).expect(place);
    let blade_is_right = column_of("BLADE") > column_of("TABLE");
    assert_eq!(blade == Hand::Right, blade_is_right, "{place}");

    let panel = Panel::of(&rows[top + 1..bottom]);
    let [at_left, at_right] = panel.halves();
    assert!(at_left != at_right, "{place}");
    Shown {
        on_table,
        nose,
        blade,
        filled_at: if at_left > at_right {
            Hand::Left
        } else {
            Hand::Right
        },
        share: panel.filled(panel.left..panel.right) / panel.cells(),
        columns: panel.right - panel.left,
    }
}

/// The rows and columns in which the panel itself is drawn.
struct Panel<'a> {
    rows: &'a [&'a [char]],
    left: usize,
    right: usize,
}

impl<'a> Panel<'a> {
    fn of(rows: &'a [&'a [char]]) -> Self {
        let drawn = |x: usize| rows.iter().any(|row| row.get(x).is_some_and(is_panel));
        let width = rows.iter().map(|row| row.len()).max().unwrap_or_default();
        let columns: Vec<usize> = (0..width).filter(|x| drawn(*x)).collect();
        Self {
            rows,
            left: columns[0],
            right: columns[columns.len() - 1] + 1,
        }
    }

    fn filled(&self, columns: std::ops::Range<usize>) -> f64 {
        let cells = self
            .rows
            .iter()
            .flat_map(|row| columns.clone().map(|x| row.get(x)));
        cells.map(|cell| cell.map_or(0.0, |c| how_full(*c))).sum()
    }

    fn halves(&self) -> [f64; 2] {
        let half = (self.right - self.left) / 2;
        [
            self.filled(self.left..self.left + half),
            self.filled(self.right - half..self.right),
        ]
    }

    fn cells(&self) -> f64 {
        ((self.right - self.left) * self.rows.len()) as f64
    }
}

fn find(row: &[char], words: &str) -> Option<usize> {
    let words: Vec<char> = words.chars().collect();
    row.windows(words.len()).position(|found| found == words)
}

fn is_panel(c: &char) -> bool {
    "█▀▄─│┐┘┌└║".contains(*c)
}

fn how_full(c: char) -> f64 {
    match c {
        '█' => 1.0,
        '▀' | '▄' => 0.5,
        _ => 0.0,
    }
}
