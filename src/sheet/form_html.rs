//! The blank roof log as one HTML file, to print: a page per edge, with boxes
//! to write in.

use super::{
    form::{Form, FormEdge, Placement, hand_words, how_to_read},
    markup::{document, element, list, plain},
};
use crate::domain::{measure::Hand, roof::EdgeKind, words::CAUTIONS};
use crate::picture::roof_end::edge_out_mm;
use std::fmt::Write;

/// The form as HTML.
pub fn form_html(form: &Form<'_>) -> String {
    let mut body = first_page(form);
    for edge in &form.edges {
        body.push_str(&edge_page(edge));
    }
    document(&format!("Roof log: {}", form.job.name), STYLE, &body)
}

const STYLE: &str = "\
.who { margin: 3mm 0; }
.line { display: inline-block; border-bottom: 0.3mm solid black; width: 60mm; height: 6mm; }
.ends { display: flex; flex-wrap: wrap; gap: 0 10mm; }
figure { margin: 1mm 0; break-inside: avoid; }
.log { width: 100%; margin-top: 2mm; }
.log th, .log td { border: 0.25mm solid black; padding: 0.8mm 1.5mm; height: 9mm; vertical-align: middle; }
.log thead th { height: auto; font-size: 9.5pt; }
.log .no { width: 25mm; white-space: nowrap; font-size: 9.5pt; }
.log .course { font-size: 9pt; padding-right: 2mm; }
.log .off { border: 0; }
";

fn first_page(form: &Form<'_>) -> String {
    let line = element("span", "line", "");
    let page = plain("h1", "", &format!("Roof log: {}", form.job.name))
        + &element("p", "who", &format!("read by {line} date {line}"))
        + &plain("h3", "", "How readings are taken in this job")
        + &list("", how_to_read(form.job))
        + &plain("h3", "", "Which end of its courses takes which hand")
        + &ends()
        + &plain("h3", "", "Take care")
        + &list("", CAUTIONS.map(str::to_owned));
    element("section", "", &format!("\n{page}\n")) + "\n"
}

fn ends() -> String {
    let both = [Hand::Right, Hand::Left].map(|hand| end(EdgeKind::Hip, hand));
    element("div", "ends", &both.concat())
}

fn end(kind: EdgeKind, hand: Hand) -> String {
    let caption = plain("figcaption", "", &hand_words(hand));
    element("figure", "", &(caption + &drawing(kind, hand)))
}

fn edge_page(form: &FormEdge<'_>) -> String {
    let line = element("span", "line", "");
    let mut page = plain("h2", "", &form.heading());
    if let Some(words) = &form.how_read {
        page.push_str(&plain("p", "", words));
    }
    match form.edge {
        Some(edge) => page.push_str(&end(edge.kind, edge.hand)),
        None => {
            page.push_str(&element("p", "", &format!("name {line}")));
            let kinds = EdgeKind::ALL.map(EdgeKind::word).join(" / ");
            page.push_str(&plain("p", "", &format!("kind, ring one: {kinds}")));
            page.push_str(&plain("p", "", "hand, ring one:"));
            page.push_str(&ends());
        }
    }
    page.push_str(&element("p", "", &format!("slope {line} in 12")));
    page.push_str(&log(form));
    element("section", "page", &format!("\n{page}\n")) + "\n"
}

fn log(form: &FormEdge<'_>) -> String {
    let head: String = [
        "tape lies",
        "top of the course below",
        "bottom of the course above",
        "runs out, or boards meet, so far up; short course: its height; to which other edge",
    ]
    .map(|word| plain("th", "", word))
    .concat();
    let head = element("thead", "", &element("tr", "", &head));
    let rows: String = form.placements().map(row).collect();
    element("table", "log", &(head + &element("tbody", "", &rows)))
}

fn row(placement: Placement) -> String {
    let field = |word: &str, course: Option<u32>| match course {
        Some(course) => element(
            "td",
            "",
            &plain("span", "course", &format!("{word} {course}")),
        ),
        None => element("td", "off", ""),
    };
    let cells = plain("td", "no", &placement.place())
        + &field("top", placement.top_of)
        + &field("bottom", placement.bottom_of)
        + &element("td", "", "");
    element("tr", "", &cells) + "\n"
}

/// The roof seen from the eave, looking up: three courses of full panels, and
/// the piece that fills the gap to the edge. Drawn for the edge at the
/// right end; at the left end `x` runs the other way.
fn drawing(kind: EdgeKind, hand: Hand) -> String {
    let x = |at: f64| match hand {
        Hand::Left => at,
        Hand::Right => 70.0 - at,
    };
    let mut out = String::from(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"70mm\" height=\"34mm\" \
         viewBox=\"0 0 70 34\" font-family=\"sans-serif\" font-size=\"3.4\">",
    );
    // Writing to a String cannot fail.
    let mut line = |x1: f64, y1: f64, x2: f64, y2: f64, width: f64| {
        let _ = write!(
            out,
            "<line x1=\"{:.1}\" y1=\"{y1:.1}\" x2=\"{:.1}\" y2=\"{y2:.1}\" stroke=\"black\" stroke-width=\"{width}\"/>",
            x(x1),
            x(x2)
        );
    };
    let ends = edge_out_mm(kind);
    let heights = [28.0, 20.0, 12.0, 4.0];
    for ((end, y), width) in ends.into_iter().zip(heights).zip([0.8, 0.3, 0.3, 0.3]) {
        line(4.0, y, end, y, width);
    }
    for joint in [4.0, 16.0, 28.0] {
        line(joint, 4.0, joint, 28.0, 0.3);
    }
    // The edge itself, and the whole side of the pieces beside it.
    let [at_eave, .., at_ridge] = ends;
    line(at_eave, 28.0, at_ridge, 4.0, 0.8);
    line(36.0, 4.0, 36.0, 28.0, 1.2);
    let words = |at: f64, y: f64, text: &str| {
        let anchor = if hand == Hand::Left { "start" } else { "end" };
        format!(
            "<text x=\"{:.1}\" y=\"{y}\" text-anchor=\"{anchor}\">{text}</text>",
            x(at)
        )
    };
    // Where the edge leaves them room.
    let (edge_at, piece_at) = match kind {
        EdgeKind::Hip | EdgeKind::Rake => (12.0, 25.5),
        EdgeKind::Valley => (22.0, 9.5),
    };
    let edge = words(54.0, edge_at, "the edge");
    let piece = words(38.0, piece_at, "piece");
    let eave = words(4.0, 32.5, "eave: you stand here, looking up");
    out + &edge + &piece + &eave + "</svg>"
}
