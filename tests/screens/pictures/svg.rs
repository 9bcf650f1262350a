//! The same pictures as SVG, judged by the numbers written into it.

use super::at_shear;
use super::snapshots::spec;
use bendmark::domain::{measure::Hand, piece::Marks};
use bendmark::picture::marking::marking;
use bendmark::sheet::svg::svg;

/// The value of `name="..."` of every element that `tag` begins and that holds
/// `also`.
fn values(text: &str, tag: &str, also: &str, name: &str) -> Vec<String> {
    let wanted = format!(" {name}=\"");
    text.split('<')
        .filter(|element| element.starts_with(tag) && element.contains(also))
        .map(|element| {
            let rest = element
                .split(&wanted)
                .nth(1)
                .expect("the attribute is there");
            rest.split('"').next().unwrap().to_owned()
        })
        .collect()
}

fn numbers(text: &str, tag: &str, also: &str, name: &str) -> Vec<f64> {
    let all = values(text, tag, also, name);
    all.iter().map(|value| value.parse().unwrap()).collect()
}

fn area(points: &str) -> f64 {
    let corners: Vec<(f64, f64)> = points
        .split_whitespace()
        .map(|point| {
            let (x, y) = point.split_once(',').unwrap();
            (x.parse().unwrap(), y.parse().unwrap())
        })
        .collect();
    let doubled: f64 = (0..corners.len())
        .map(|k| {
            let ((x, y), (u, v)) = (corners[k], corners[(k + 1) % corners.len()]);
            x * v - u * y
        })
        .sum();
    doubled.abs() / 2.0
}

#[test]
fn the_hatched_share_is_the_share_of_the_piece() {
    for (bottom, top) in [(30, 18), (17, 5), (52, 40), (5, -9)] {
        for hand in Hand::BOTH {
            let spec = spec(hand, bottom, top);
            let marks = Marks::of(&spec);
            let text = svg(&at_shear(&spec, None, Hand::Right).unwrap(), 96.0, "a");
            let full = area(&values(&text, "polygon", "url(#a)", "points")[0]);
            let hollow = area(&values(&text, "polygon", "fill=\"white\"", "points")[0]);
            let wanted = marks.kept.area().mm2() / spec.panel.outline().area().mm2();
            assert!((full / (full + hollow) - wanted).abs() < 0.001);
        }
    }
}

#[test]
fn a_right_piece_has_its_bend_line_where_the_mirror_of_a_left_one_has_it() {
    let [left, right] = Hand::BOTH.map(|hand| svg(&marking(&spec(hand, 30, 18), None), 96.0, "a"));
    let bend = "stroke-width=\"1.0\"";
    let view = values(&left, "svg", "", "viewBox")[0].clone();
    let width: f64 = view.split(' ').nth(2).unwrap().parse().unwrap();
    for end in ["x1", "x2"] {
        let (one, other) = (
            numbers(&left, "line", bend, end)[0],
            numbers(&right, "line", bend, end)[0],
        );
        assert!((one + other - width).abs() < 0.02, "{one} {other} {width}");
    }
    assert_eq!(
        numbers(&left, "line", bend, "y1"),
        numbers(&right, "line", bend, "y1")
    );
}

#[test]
fn a_panel_48_in_wide_and_96_mm_on_the_page_has_its_marks_2_mm_an_inch() {
    let text = svg(&marking(&spec(Hand::Left, 30, 18), None), 96.0, "a");
    let bend = "stroke-width=\"1.0\"";
    let x = |end| numbers(&text, "line", bend, end)[0];
    assert!((x("x1") - x("x2") - 2.0 * 12.0).abs() < 0.02);
    let whole = numbers(&text, "line", "stroke-width=\"1.2\"", "x1")[0];
    assert!((x("x1") - whole - 2.0 * 30.0).abs() < 0.02);
}
