//! The blank roof log as plain text.

use super::{
    form::{Form, FormEdge, Placement, hand_words, how_to_read},
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
        edge_form(&mut page, edge, width);
    }
    page.into_text()
}

fn rule(columns: usize) -> String {
    "_".repeat(columns)
}

fn edge_form(page: &mut Page, form: &FormEdge<'_>, width: usize) {
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
                drawing(page, EdgeKind::Hip, hand);
            }
        }
    }
    page.put("  slope  ", "______ in 12");
    page.blank();
    page.put("  ", "Begin here, at the eave, and go up.");
    page.blank();
    for placement in form.placements() {
        page.keep(&line(placement, width));
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

/// One line to write on: `top 3 ______  bottom 4 ______  note ______`.
fn line(placement: Placement, width: usize) -> String {
    let note = width >= WITH_NOTE;
    let fields = if note { 3 } else { 2 };
    let room = (width - 20 - if note { 8 } else { 0 }) / fields;
    let field = |word: &str, course: Option<u32>, lead: usize| match course {
        Some(course) => format!("{word} {course:<3} {}", rule(room)),
        None => " ".repeat(lead + 5 + room),
    };
    let mut line = format!(
        "{} {}",
        field("top", placement.top_of, 3),
        field("bottom", placement.bottom_of, 6)
    );
    if note {
        line.push_str(&format!("  note {}", rule(room)));
    }
    line
}
