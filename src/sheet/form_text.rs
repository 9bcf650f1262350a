//! The blank roof log as plain text.

use super::{
    form::{BOARD_ROWS, Form, FormEdge, HOW_READ, HeadOfPage, Placement, hand_words, how_to_read},
    page::Page,
    text::{NARROWEST, cautions},
};
use crate::domain::{measure::Hand, roof::EdgeKind};
use crate::picture::roof_end::end_rows;

/// From here on there is room for a note beside the readings.
const WITH_NOTE: usize = 72;

/// The form as text that is nowhere wider than `width` columns.
pub fn form_text(form: &Form<'_>, width: usize) -> String {
    let width = width.max(NARROWEST);
    let mut page = Page::new(width);
    page.put("ROOF LOG  ", form.job.name.as_str());
    page.blank();
    page.put("", &format!("read by {}", rule(width.min(60) - 8)));
    page.put("", &format!("date    {}", rule(width.min(60) - 8)));
    page.blank();
    page.put("", "How readings are taken in this job");
    for step in how_to_read(form.job) {
        page.put("  - ", &step);
    }
    page.blank();
    cautions(&mut page);
    for edge in &form.edges {
        page.blank();
        page.blank();
        edge_form(&mut page, form, edge, width);
    }
    page.into_text()
}

fn rule(columns: usize) -> String {
    "_".repeat(columns)
}

fn edge_form(page: &mut Page, whole: &Form<'_>, form: &FormEdge<'_>, width: usize) {
    page.put("", &form.heading());
    match form.edge {
        Some(edge) => {
            page.put("  ", &hand_words(edge.hand));
            if let Some(words) = &form.how_read {
                page.put("  ", words);
            }
            drawing(page, edge.kind, edge.hand);
        }
        None => {
            page.put("  name  ", &rule(width - 10));
            page.keep(
                &EdgeKind::ALL
                    .map(|kind| format!("  [ ] {}", kind.word()))
                    .join(" "),
            );
            for hand in Hand::BOTH {
                page.put("  [ ] ", &hand_words(hand));
                for kind in EdgeKind::ALL {
                    page.put("      ", kind.word());
                    drawing(page, kind, hand);
                }
            }
        }
    }
    for (word, known) in form.boxes() {
        let known = if known.is_empty() { rule(14) } else { known };
        page.put(&format!("  {word}  "), &known);
    }
    for [one, other] in HOW_READ {
        page.put("  ", &format!("[ ] {one}  [ ] {other}"));
    }
    page.blank();
    let placements = whole.down_the_page(form);
    if whole.from == HeadOfPage::Eave {
        page.put("  ", "Begin here, at the eave, and go up.");
        page.blank();
    }
    for placement in placements {
        page.keep(&line(placement, width));
        page.blank();
    }
    if whole.from == HeadOfPage::Ridge {
        page.put("  ", "Begin here, at the eave, and go up the page.");
        page.blank();
    }
    out_and_short(page, width);
    page.put("  ", "Pieces cut at both ends, from board to board:");
    page.blank();
    for _ in 0..BOARD_ROWS {
        page.put("", BOARD_ROW);
        page.blank();
    }
}

/// A row for a piece cut at both ends.
const BOARD_ROW: &str =
    "course ____ to edge ______ bottom ________ top ________ boards meet ______ up";

/// Where the lines have no room for it.
fn out_and_short(page: &mut Page, width: usize) {
    if width >= WITH_NOTE {
        return;
    }
    for _ in 0..2 {
        page.put("", "course ____ runs out ________ up");
        page.put("", "course ____ short, ________ high");
        page.blank();
    }
}

fn drawing(page: &mut Page, kind: EdgeKind, hand: Hand) {
    let indent = match hand {
        Hand::Left => 6,
        Hand::Right => 7,
    };
    for row in end_rows(kind, hand) {
        page.keep(&format!("{}{row}", " ".repeat(indent)));
    }
    page.keep("      eave: you stand here, looking up");
    page.keep(&format!(
        "      whole side and tape: {}",
        hand.word().to_uppercase()
    ));
}

/// One line to write on: `top 3 ____ bottom 4 ____  out ____  high ____`, the last two
/// of the course below the line: how far up it runs out, how high a short one is.
fn line(placement: Placement, width: usize) -> String {
    let note = width >= WITH_NOTE;
    let fields = if note { 4 } else { 2 };
    let room = (width - 20 - if note { 14 } else { 0 }) / fields;
    let field = |word: &str, course: Option<u32>, lead: usize| match course {
        Some(course) => format!("{word} {course:<3} {}", rule(room)),
        None => " ".repeat(lead + 5 + room),
    };
    let mut line = format!(
        "{} {}",
        field("top", placement.top_of, 3),
        field("bottom", placement.bottom_of, 6)
    );
    if note && placement.top_of.is_some() {
        line.push_str(&format!("  out {0}  high {0}", rule(room)));
    }
    line
}
