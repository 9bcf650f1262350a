//! The pictures on the page, measured: where their lines stand, against the
//! figures of the JSON sheet.

use crate::bench::{SAMPLES, sample};
use crate::readers::strict;
use bendmark::domain::cutting::Job;
use bendmark::sheet::html::{PANEL_MM, html};
use bendmark::sheet::json::json;
use bendmark::sheet::rows::Rows;
use roxmltree::Node;
use serde_json::Value;

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
    let whole = lines(svg, "1.2", None);
    let upright = whole
        .iter()
        .find(|[a, b]| a.0 == b.0)
        .expect("a whole edge");
    let (low, high) = (
        upright[0].1.max(upright[1].1),
        upright[0].1.min(upright[1].1),
    );
    let scale = job.settings.panel_width.mm() / PANEL_MM;
    let far_is_right = (hand == "left") == nose_toward;
    Frame {
        foot: (upright[0].0, if nose_toward { low } else { high }),
        right: if far_is_right { scale } else { -scale },
        up: if nose_toward { -scale } else { scale },
    }
}

#[track_caller]
fn near(found: (f64, f64), expected: (f64, f64)) {
    let off = (found.0 - expected.0).hypot(found.1 - expected.1);
    assert!(off < WITHIN_MM, "{found:?} against {expected:?}");
}

#[test]
fn the_lines_of_every_picture_agree_with_the_json() {
    let (mut bends, mut cuts) = (0, 0);
    for name in SAMPLES {
        let job = sample(name);
        let page = html(&Rows::of(&job));
        let document = strict(&page);
        let sheet: Value = serde_json::from_str(&json(&Rows::of(&job))).unwrap();
        let pieces = sheet["pieces"].as_array().unwrap();
        let blocks: Vec<_> = document
            .descendants()
            .filter(|node| node.attribute("class") == Some("piece"))
            .collect();
        assert_eq!(blocks.len(), pieces.len());
        for (block, piece) in blocks.iter().zip(pieces) {
            let hand = piece["hand"].as_str().unwrap();
            let pictures: Vec<_> = block
                .descendants()
                .filter(|node| node.has_tag_name((SVG, "svg")))
                .collect();
            if let Some(picture) = pictures.first() {
                let frame = frame(*picture, &job, hand, true);
                for [from, to] in lines(*picture, "1.0", None) {
                    near(frame.on_panel(from), spot(piece, "bend", 0, &job));
                    near(frame.on_panel(to), spot(piece, "bend", 1, &job));
                    bends += 1;
                }
            }
            if let Some(picture) = pictures.get(1) {
                let toward = piece["nose"] == "toward";
                let frame = frame(*picture, &job, hand, toward);
                for [entry, exit] in lines(*picture, "0.5", Some("2 1")) {
                    let (nose, back) = if toward { (entry, exit) } else { (exit, entry) };
                    near(frame.on_panel(nose), spot(piece, "cut", 0, &job));
                    near(frame.on_panel(back), spot(piece, "cut", 1, &job));
                    cuts += 1;
                }
            }
            let expected = usize::from(piece["bend"][0].is_object())
                .max(2 * usize::from(piece["cut"][0].is_object()));
            assert_eq!(pictures.len(), expected, "{piece}");
        }
    }
    assert!(bends > 100 && cuts > 100, "{bends} {cuts}");
}

/// A letter of the pictures' words is at most so wide on average, in
/// millimetres on the page; measured on a print.
const LETTER_MM: f64 = 1.95;

#[test]
fn no_word_of_a_picture_reaches_beyond_what_is_kept_beside_the_panel() {
    let mut words = 0;
    for name in SAMPLES {
        let page = html(&Rows::of(&sample(name)));
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
