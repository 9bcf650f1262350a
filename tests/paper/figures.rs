//! The pictures on the page, measured: where their lines stand, against the
//! figures of the JSON sheet.

use crate::bench::{SAMPLES, sample};
use crate::readers::strict;
use bendmark::domain::cutting::Job;
use bendmark::sheet::html::{PANEL_MM, html};
use bendmark::sheet::json::json;
use bendmark::sheet::layout::{Layout, Pages};
use bendmark::sheet::rows::Rows;
use roxmltree::Node;
use serde_json::Value;

/// The full pages, every piece with its pictures.
fn pictures() -> Layout {
    Layout {
        pages: Pages::Pictures,
        ..Layout::default()
    }
}

/// The page gives places to a hundredth of a millimetre; on a panel twenty
/// times as large that is a fifth, and two of them meet in a difference.
const WITHIN_MM: f64 = 0.45;

/// Both ends of a line on the page.
type Line = [(f64, f64); 2];

fn number(node: Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).unwrap().parse().unwrap()
}

fn lines(svg: Node<'_, '_>, width: &str, dashes: Option<&str>) -> Vec<Line> {
    svg.descendants()
        .filter(|node| node.has_tag_name((SVG, "line")))
        .filter(|node| node.attribute("stroke-width") == Some(width))
        .filter(|node| node.attribute("stroke-dasharray") == dashes)
        .map(|node| {
            [
                (number(node, "x1"), number(node, "y1")),
                (number(node, "x2"), number(node, "y2")),
            ]
        })
        .collect()
}

const SVG: &str = "http://www.w3.org/2000/svg";

/// Where a mark of the JSON stands on the panel: from the whole edge, and up
/// from the nose, in millimetres.
fn spot(piece: &Value, line: &str, end: usize, job: &Job) -> (f64, f64) {
    let mark = &piece[line][end];
    let mm = mark["mm"].as_f64().unwrap();
    let width = job.settings.panel_width.mm();
    // A short course's panel is cut across first, with what the ridge needs.
    let course = piece["height_mm"].as_f64().unwrap();
    let height = if (course - job.settings.exposure.mm()).abs() < 0.1 {
        job.settings.panel_height().mm()
    } else {
        course + job.settings.ridge_turn_up.mm()
    };
    match mark["at"].as_str().unwrap() {
        "nose" => (mm, 0.0),
        "back" => (mm, height),
        "far side" => (width, mm),
        "hand side" => (0.0, mm),
        other => panic!("{other}"),
    }
}

/// How the panel lies on the page: the whole edge's foot, and to which side
/// and which way up it goes from there, in millimetres of the roof per one on
/// the page.
struct Frame {
    foot: (f64, f64),
    right: f64,
    up: f64,
}

impl Frame {
    fn on_panel(&self, (x, y): (f64, f64)) -> (f64, f64) {
        ((x - self.foot.0) * self.right, (y - self.foot.1) * self.up)
    }
}

fn frame(svg: Node<'_, '_>, job: &Job, hand: &str, nose_toward: bool) -> Frame {
    let far_is_right = (hand == "left") == nose_toward;
    let whole = lines(svg, "1.2", None);
    let whole = whole.iter().find(|[a, b]| a.0 == b.0);
    // The second cut of a piece cut at both ends may have no whole edge left: the
    // panel stands in the middle of its picture.
    let outline = lines(svg, "0.3", None);
    let x = whole.map_or_else(
        || {
            let view: Vec<f64> = svg
                .attribute("viewBox")
                .unwrap()
                .split(' ')
                .map(|number| number.parse().unwrap())
                .collect();
            let aside = (view[2] - PANEL_MM) / 2.0;
            if far_is_right {
                aside
            } else {
                aside + PANEL_MM
            }
        },
        |[foot, _]| foot.0,
    );
    let ends = || {
        whole
            .map_or(&outline[..], std::slice::from_ref)
            .iter()
            .flatten()
    };
    let low = ends().map(|end| end.1).fold(f64::MIN, f64::max);
    let high = ends().map(|end| end.1).fold(f64::MAX, f64::min);
    let scale = job.settings.panel_width.mm() / PANEL_MM;
    Frame {
        foot: (x, if nose_toward { low } else { high }),
        right: if far_is_right { scale } else { -scale },
        up: if nose_toward { -scale } else { scale },
    }
}

#[test]
fn the_lines_of_every_picture_agree_with_the_json() {
    let (mut bends, mut cuts) = (0, 0);
    for name in SAMPLES {
        let job = sample(name);
        let page = html(&Rows::of(&job), &pictures());
        let document = strict(&page);
        let sheet: Value = serde_json::from_str(&json(&Rows::of(&job))).unwrap();
        let pieces = sheet["pieces"].as_array().unwrap();
        let blocks: Vec<_> = document
            .descendants()
            .filter(|node| node.attribute("class") == Some("piece"))
            .collect();
        assert_eq!(blocks.len(), pieces.len());
        for (block, piece) in blocks.iter().zip(pieces) {
            let pictures: Vec<_> = block
                .descendants()
                .filter(|node| node.has_tag_name((SVG, "svg")))
                .collect();
            let marked = |line| marked(piece, line, &job);
            let mut ends = marked("bend");
            if let Some(picture) = pictures.first() {
                let frame = frame(*picture, &job, hand(piece), true);
                for line in lines(*picture, "1.0", None) {
                    take(&mut ends, &[line.map(|end| frame.on_panel(end))]);
                    bends += 1;
                }
                assert!(ends.is_empty(), "{piece}");
            }
            let mut ends = marked("cut");
            for (nth, picture) in pictures.iter().enumerate().skip(1) {
                let toward = says(*picture, "nose, toward you");
                assert!(nth > 1 || toward == (piece["nose"] == "toward"), "{piece}");
                for line in lines(*picture, "0.5", Some("2 1")) {
                    take(&mut ends, &as_cut(line, *picture, piece, toward, &job));
                    cuts += 1;
                }
            }
            assert!(ends.is_empty(), "{piece}");
            let cuts = marked("cut").len();
            let expected = usize::from(cuts + marked("bend").len() > 0) + cuts;
            assert_eq!(pictures.len(), expected, "{piece}");
        }
    }
    assert!(bends > 100 && cuts > 100, "{bends} {cuts}");
}

fn hand(piece: &Value) -> &str {
    piece["hand"].as_str().unwrap()
}

/// The lines of the JSON, both ends of each on the panel.
fn marked(piece: &Value, line: &str, job: &Job) -> Vec<Line> {
    let marks = piece[line].as_array().unwrap();
    (0..marks.len())
        .step_by(2)
        .filter(|first| marks[*first].is_object())
        .map(|first| [first, first + 1].map(|end| spot(piece, line, end, job)))
        .collect()
}

fn says(svg: Node<'_, '_>, words: &str) -> bool {
    svg.descendants().any(|node| node.text() == Some(words))
}

/// Where a cut line of a picture at the shear lies on the panel, from the nose
/// up. A piece cut at both ends is seen from its far side for the near cut.
fn as_cut(line: Line, svg: Node<'_, '_>, piece: &Value, toward: bool, job: &Job) -> Vec<Line> {
    let [entry, exit] = line;
    let [nose, back] = if toward { [entry, exit] } else { [exit, entry] };
    let other = if hand(piece) == "left" {
        "right"
    } else {
        "left"
    };
    let seen_from = |hand| {
        let frame = frame(svg, job, hand, toward);
        [nose, back].map(|end| frame.on_panel(end))
    };
    let mut lines = vec![seen_from(hand(piece))];
    if piece.get("to").is_some() {
        let width = job.settings.panel_width.mm();
        lines.push(seen_from(other).map(|(x, y)| (width - x, y)));
    }
    lines
}

/// Takes from `ends` the line that one of `drawn` is.
#[track_caller]
fn take(ends: &mut Vec<Line>, drawn: &[Line]) {
    let is = |one: &Line, other: &Line| {
        one.iter()
            .zip(other)
            .all(|(one, other)| (one.0 - other.0).hypot(one.1 - other.1) < WITHIN_MM)
    };
    let at = ends
        .iter()
        .position(|end| drawn.iter().any(|drawn| is(drawn, end)));
    let at = at.unwrap_or_else(|| panic!("{drawn:?} against {ends:?}"));
    ends.remove(at);
}

/// A letter of the pictures' words is at most so wide on average, in
/// millimetres on the page; measured on a print.
const LETTER_MM: f64 = 1.95;

#[test]
fn no_word_of_a_picture_reaches_beyond_what_is_kept_beside_the_panel() {
    let mut words = 0;
    for name in SAMPLES {
        let page = html(&Rows::of(&sample(name)), &pictures());
        let document = strict(&page);
        let figures = document
            .descendants()
            .filter(|node| node.has_tag_name((XHTML, "figure")));
        for figure in figures {
            let millimetres = |style: &str, name: &str| -> f64 {
                let value = style.strip_prefix(name).unwrap();
                value.strip_suffix("mm").unwrap().parse().unwrap()
            };
            let wide = millimetres(figure.attribute("style").unwrap(), "width:");
            let svg = figure
                .children()
                .find(|node| node.has_tag_name((SVG, "svg")))
                .unwrap();
            let aside = millimetres(svg.attribute("style").unwrap(), "margin-left:");
            for text in svg
                .descendants()
                .filter(|node| node.has_tag_name((SVG, "text")))
            {
                let content = text.text().unwrap();
                let long = f64::from(u16::try_from(content.chars().count()).unwrap()) * LETTER_MM;
                let x = number(text, "x") + aside;
                let (from, to) = match text.attribute("text-anchor").unwrap() {
                    "start" => (x, x + long),
                    "end" => (x - long, x),
                    _ => (x - long / 2.0, x + long / 2.0),
                };
                assert!(
                    from >= 0.0 && to <= wide,
                    "{name}: {content} {from} {to} of {wide}"
                );
                words += 1;
            }
        }
    }
    assert!(words > 1_000, "{words}");
}

const XHTML: &str = "http://www.w3.org/1999/xhtml";
