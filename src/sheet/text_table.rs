//! The bench list as lines of text: a line a piece where the page is wide enough for
//! its four figures side by side, else one for bend and one for cut.
//!
//! ```text
//!            BEND nose    back         CUT nose     back         nose   drops done
//! H2-12 R    31 15/16+    22 1/2       UP 1 15/16+  24 1/2       to you PIECE  [ ]
//!   UP other end: cut 1 15/16+
//!
//!                 nose         back
//! H2-12 R    bend 31 15/16+    22 1/2
//!            cut  UP 1 15/16+  24 1/2
//!   UP other end: cut 1 15/16+
//! [ ] tape RIGHT; from panel 2
//! ```

use super::{
    list_row::{Figure, ListLine, ListRow, drops, nose},
    page::Page,
};
use crate::domain::bench::Stage;
use std::collections::BTreeMap;
use unicode_width::UnicodeWidthStr;

/// From so many columns on a piece has its four figures in one line.
const WIDE: usize = 80;

/// Columns of a label, and of a figure with `UP` before it, a sign and a blank behind it.
const LABEL: usize = 11;
const FIGURE: usize = 13;

/// What stands over the figures.
pub(super) fn heading(page: &mut Page) {
    let figure = |word: &str| padded(word, FIGURE);
    let label = padded("", LABEL);
    if page.width() >= WIDE {
        let heads = ["BEND nose", "back", "CUT nose", "back"].map(figure);
        page.keep(&format!("{label}{}nose   drops done", heads.concat()));
    } else {
        let heads = ["nose", "back"].map(figure);
        page.keep(&format!("{label}     {}", heads.concat()));
    }
}

/// A piece with what is said of it.
pub(super) fn piece(page: &mut Page, row: &ListRow) {
    let is_wide = page.width() >= WIDE;
    let is_done = match row.stage {
        Stage::Stacked => "[x]",
        _ => "[ ]",
    };
    let mut sides = Sides::new();
    for (at, line) in row.lines.iter().enumerate() {
        let label = if at == 0 { row.label.as_str() } else { "" };
        if label.width() >= LABEL {
            page.put("", label);
        }
        let label = if label.width() < LABEL { label } else { "" };
        let done = if at == 0 { is_done } else { "" };
        if let Some(name) = &line.name {
            page.put("  ", name);
        }
        match is_wide {
            true => wide(page, label, line, done, &mut sides),
            false => narrow(page, label, line, &mut sides),
        }
    }
    for (side, figures) in sides {
        page.put("  ", &format!("{side}: {}", figures.join(", ")));
    }
    let tape = format!("tape {}", row.tape.word().to_uppercase());
    let keep = row
        .keep
        .as_deref()
        .map(|keep| format!("its offcut: {keep}"));
    let next = row.next().map(|next| format!("now {next}"));
    let parts = [
        Some(tape),
        Some(format!("from {}", row.from)),
        row.lot.clone(),
        keep,
        next,
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    let lead = match is_wide {
        true => "  ".to_owned(),
        false => format!("{is_done} "),
    };
    page.put(&lead, &parts.join("; "));
    for note in &row.notes {
        page.put("  ", note);
    }
}

/// Up which end what is measured: `UP other end`, and its figures.
type Sides = BTreeMap<&'static str, Vec<String>>;

/// Both lines of figures side by side.
fn wide(page: &mut Page, label: &str, line: &ListLine, done: &str, sides: &mut Sides) {
    let bend = pair(line.bend.as_ref(), "bend", sides);
    let cut = pair(line.cut.as_ref(), "cut", sides);
    let lie = line.lie.map_or(String::new(), |lie| {
        let nose = nose(lie).trim_start_matches("nose ");
        format!(
            "{}{}",
            padded(nose, 7),
            padded(drops(lie).trim_end_matches(" drops"), 7)
        )
    });
    page.keep(&format!(
        "{}{bend}{cut}{}{done}",
        padded(label, LABEL),
        format_args!("{lie:<14}")
    ));
}

/// Bend over cut.
fn narrow(page: &mut Page, label: &str, line: &ListLine, sides: &mut Sides) {
    let bend = pair(line.bend.as_ref(), "bend", sides);
    let cut = pair(line.cut.as_ref(), "cut", sides);
    page.keep(&format!("{}bend {bend}", padded(label, LABEL)));
    page.keep(&format!("{}cut  {cut}", padded("", LABEL)));
    if let Some(lie) = line.lie {
        page.put("  ", &format!("{}, {}", nose(lie), drops(lie)));
    }
}

/// The two ends of a line; one on a side of the panel has `UP` before it, and which end
/// that is stands below.
fn pair(ends: Option<&[Figure; 2]>, line: &str, sides: &mut Sides) -> String {
    let Some(ends) = ends else {
        return padded(&format!("no {line}"), 2 * FIGURE);
    };
    let mut say = |end: &Figure| {
        let Some(side) = end.side else {
            return padded(&end.text, FIGURE);
        };
        let figures = sides.entry(side).or_default();
        figures.push(format!("{line} {}", end.text));
        let up = side.split(' ').next().unwrap_or_default();
        padded(&format!("{up} {}", end.text), FIGURE)
    };
    let [nose, back] = ends;
    [say(nose), say(back)].concat()
}

/// `text` with blanks up to `columns`; one at least behind it.
fn padded(text: &str, columns: usize) -> String {
    let blanks = columns
        .saturating_sub(text.width())
        .max(usize::from(columns > 0));
    format!("{text}{}", " ".repeat(blanks))
}
