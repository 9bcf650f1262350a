//! The blank roof log as one HTML file, to print: a page per edge, with boxes
//! to write in.

use super::{
    form::{BOARD_ROWS, Form, FormEdge, HOW_READ, Placement, hand_words, how_to_read},
    markup::{document, element, list, plain},
};
use crate::domain::{measure::Hand, roof::EdgeKind, words::CAUTIONS};
use crate::picture::roof_end::edge_out_mm;
use std::fmt::Write;

/// The form as HTML.
pub fn form_html(form: &Form<'_>) -> String {
    let mut body = first_page(form);
    for edge in &form.edges {
        body.push_str(&edge_page(form, edge));
    }
    document(&format!("Roof log: {}", form.job.name), STYLE, &body)
}

const STYLE: &str = "\
.who { margin: 3mm 0; }
.line { display: inline-block; border-bottom: 0.3mm solid black; width: 60mm; height: 6mm; }
.ends { display: flex; flex-wrap: wrap; gap: 0 10mm; }
figure { margin: 1mm 0; break-inside: avoid; }
.kinds { display: flex; flex-wrap: wrap; gap: 0 6mm; }
.fields { display: flex; flex-wrap: wrap; gap: 1mm 6mm; margin: 1mm 0; }
.field { white-space: nowrap; }
.field .line { width: auto; min-width: 20mm; height: auto; min-height: 5.5mm; }
.tick { display: inline-block; width: 4mm; height: 4mm; border: 0.3mm solid black; margin-right: 1.5mm; vertical-align: middle; }
.log { width: 100%; margin-top: 1mm; table-layout: fixed; }
.log th, .log td { border: 0.25mm solid black; padding: 0 1.5mm; height: 7.2mm; vertical-align: middle; }
.log thead th { height: auto; font-size: 9pt; line-height: 1.1; }
.log .no { white-space: nowrap; font-size: 9.5pt; }
.log .course { font-size: 9pt; padding-right: 1.5mm; }
.log .number { font-size: 14.5pt; line-height: 1; }
.log .off { border: 0; }
";

fn first_page(form: &Form<'_>) -> String {
    let line = element("span", "line", "");
    let page = plain("h1", "", &format!("Roof log: {}", form.job.name))
        + &element("p", "who", &format!("read by {line} date {line}"))
        + &plain("h3", "", "How readings are taken in this job")
        + &list("", how_to_read(form.job))
        + &plain("h3", "", "To which side of it the panels lie is its hand")
        + &ends()
        + &plain("h3", "", "Take care")
        + &list("", CAUTIONS.map(str::to_owned));
    element("section", "", &format!("\n{page}\n")) + "\n"
}

fn ends() -> String {
    let both = [Hand::Left, Hand::Right].map(|hand| end(EdgeKind::Hip, hand));
    element("div", "ends", &both.concat())
}

fn end(kind: EdgeKind, hand: Hand) -> String {
    let caption = plain("figcaption", "", &hand_words(hand));
    element(
        "figure",
        "",
        &(caption + &drawing(kind, hand, Drawn::WithWords)),
    )
}

fn edge_page(whole: &Form<'_>, form: &FormEdge<'_>) -> String {
    let line = element("span", "line", "");
    let mut page = plain("h2", "", &form.heading());
    if let Some(words) = &form.how_read {
        page.push_str(&plain("p", "", words));
    }
    match form.edge {
        Some(edge) => page.push_str(&end(edge.kind, edge.hand)),
        None => {
            page.push_str(&element("p", "", &format!("name {line}")));
            page.push_str(&element("div", "kinds", &every_end()));
        }
    }
    page.push_str(&boxes(form));
    page.push_str(&log(whole, form));
    page.push_str(&boards());
    element("section", "page", &format!("\n{page}\n")) + "\n"
}

/// Every kind of edge at either end, small, to tick one.
fn every_end() -> String {
    let hands = [Hand::Right, Hand::Left];
    let ends = hands.into_iter().flat_map(|hand| {
        EdgeKind::ALL.map(|kind| {
            let (end, hand_word) = (hand.other().word(), hand.word().to_uppercase());
            let tick = element("i", "tick", "");
            let words = plain("b", "", kind.word());
            let words = format!("{tick}{words}, {end} end: {hand_word} hand");
            let caption = element("figcaption", "", &words);
            element(
                "figure",
                "",
                &(caption + &drawing(kind, hand, Drawn::Small)),
            )
        })
    });
    ends.collect()
}

/// What is written once an edge.
fn boxes(form: &FormEdge<'_>) -> String {
    let fields = form.boxes().map(|(word, known)| {
        let word = plain("b", "", word);
        element(
            "span",
            "field",
            &(word + " " + &plain("span", "line", &known)),
        )
    });
    let ticks = HOW_READ.as_flattened().iter();
    let ticks = ticks.map(|word| {
        let tick = element("i", "tick", "");
        element("span", "field", &(tick + &plain("span", "", word)))
    });
    element(
        "p",
        "fields",
        &fields.into_iter().chain(ticks).collect::<String>(),
    )
}

/// Rows for pieces cut at both ends.
fn boards() -> String {
    let heads = [
        "course",
        "to edge",
        "bottom",
        "top, or boards meet so far up",
    ];
    let head = heads.map(|word| plain("th", "", word)).concat();
    let row = element("tr", "", &element("td", "", "").repeat(heads.len()));
    let rows = element("tbody", "", &row.repeat(BOARD_ROWS));
    let head = element("thead", "", &element("tr", "", &head));
    plain(
        "h3",
        "",
        "Pieces cut at both ends: read from board to board, hard",
    ) + &element("table", "log", &(head + &rows))
}

fn log(whole: &Form<'_>, form: &FormEdge<'_>) -> String {
    let head: String = [
        "tape lies",
        "top of the course below",
        "bottom of the course above",
        "course below runs out so far up",
        "short course below: its height",
    ]
    .map(|word| plain("th", "", word))
    .concat();
    let head = element("thead", "", &element("tr", "", &head));
    let rows: String = whole.down_the_page(form).into_iter().map(row).collect();
    element("table", "log", &(head + &element("tbody", "", &rows)))
}

fn row(placement: Placement) -> String {
    let field = |word: &str, course: Option<u32>| match course {
        Some(course) => element(
            "td",
            "",
            &(plain("span", "course", word) + &plain("b", "number", &course.to_string())),
        ),
        None => element("td", "off", ""),
    };
    let blank = match placement.top_of {
        Some(_) => element("td", "", ""),
        None => element("td", "off", ""),
    };
    let cells = plain("td", "no", &placement.place())
        + &field("top", placement.top_of)
        + &field("bottom", placement.bottom_of)
        + &blank.repeat(2);
    element("tr", "", &cells) + "\n"
}

/// How large a drawing is.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Drawn {
    WithWords,
    /// Its words stand over it.
    Small,
}

/// The roof seen from the eave, looking up: three courses of full panels, and
/// the piece that fills the gap to the edge. Drawn for the edge at the
/// right end; at the left end `x` runs the other way.
pub(super) fn drawing(kind: EdgeKind, hand: Hand, drawn: Drawn) -> String {
    let x = |at: f64| match hand {
        Hand::Left => at,
        Hand::Right => 70.0 - at,
    };
    let size = match drawn {
        Drawn::WithWords => "width=\"70mm\" height=\"34mm\" viewBox=\"0 0 70 34\"",
        Drawn::Small => "width=\"37mm\" height=\"16mm\" viewBox=\"0 0 70 30\"",
    };
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" {size} font-family=\"sans-serif\" font-size=\"3.4\">"
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
    if drawn == Drawn::Small {
        return out + "</svg>";
    }
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
