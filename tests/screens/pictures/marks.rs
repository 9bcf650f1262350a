//! The picture for marking, read back from its cells.

use super::cells::{Box, find, picture};
use super::snapshots::spec;
use crate::gaps::{any_filled, cases};
use bendmark::app::place::Glyphs;
use bendmark::domain::measure::Hand;
use bendmark::domain::piece::{At, Ends, Mark, Marks, PieceSpec};
use bendmark::picture::marking::marking;
use proptest::prelude::*;

/// A place on the panel in cells, from the upper left corner of the page: the
/// test's own way there, by the hand alone.
fn place(spec: &PieceSpec, panel: Box, x_mm: f64, y_mm: f64) -> (f64, f64) {
    let across = x_mm / spec.panel.width.mm() * panel.columns() as f64;
    let up = y_mm / spec.panel.height.mm() * panel.rows() as f64;
    let x = match spec.hand {
        Hand::Left => panel.left as f64 + across,
        Hand::Right => (panel.right + 1) as f64 - across,
    };
    (x, (panel.bottom + 1) as f64 - up)
}

fn place_of(spec: &PieceSpec, panel: Box, mark: Mark) -> (f64, f64) {
    let point = mark.point(spec.panel.width, spec.panel.height);
    place(spec, panel, point.x.mm(), point.y.mm())
}

/// Whether a cell of the bend line stands at most one cell away, in the row or
/// column of the place.
fn is_drawn_near(cells: &[Vec<char>], panel: Box, x: i64, y: i64) -> bool {
    let block = |x: i64, y: i64| {
        let inside = (panel.left as i64..=panel.right as i64).contains(&x)
            && (panel.top as i64..=panel.bottom as i64).contains(&y);
        inside && "█▀▄".contains(cells[y as usize][x as usize])
    };
    (-1..=1).any(|off| block(x + off, y) || block(x, y + off))
}

/// Every row (of a steep line) or column (of a flat one) that the bend line
/// spans, looked at in the middle of that row or column.
fn misses(spec: &PieceSpec, cells: &[Vec<char>], panel: Box) -> Vec<(i64, i64)> {
    let Some([low, high]) = Marks::of(spec).bend else {
        return Vec::new();
    };
    let (x0, y0) = place_of(spec, panel, low);
    let (x1, y1) = place_of(spec, panel, high);
    let mut missed = Vec::new();
    let mut look = |x: f64, y: f64| {
        let x = (x.floor() as i64).clamp(panel.left as i64, panel.right as i64);
        let y = (y.floor() as i64).clamp(panel.top as i64, panel.bottom as i64);
        if !is_drawn_near(cells, panel, x, y) {
            missed.push((x, y));
        }
    };
    for row in y1.floor() as i64..y0.ceil() as i64 {
        let y = (row as f64 + 0.5).clamp(y1, y0);
        look(x0 + (x1 - x0) * (y - y0) / (y1 - y0), y);
    }
    if (x1 - x0).abs() > 1.0 {
        for column in x0.min(x1).floor() as i64..x0.max(x1).ceil() as i64 {
            let x = (column as f64 + 0.5).clamp(x0.min(x1), x0.max(x1));
            look(x, y0 + (y1 - y0) * (x - x0) / (x1 - x0));
        }
    }
    missed
}

proptest! {
    #![proptest_config(cases(250))]

    #[test]
    fn prop_the_bend_line_is_drawn_where_it_runs(
        filled in any_filled(), columns in 34_u16..100, rows in 8_u16..30,
    ) {
        for piece in &filled.pieces {
            let cells = picture(&marking(piece, None), columns, rows, Glyphs::Blocks);
            if cells.is_empty() {
                continue;
            }
            let panel = Box::of(&cells);
            let missed = misses(piece, &cells, panel);
            prop_assert!(missed.is_empty(), "{missed:?} of {piece:?}\n{}", super::cells::text(&cells));
        }
    }

    /// However little room there is, 3 never stands on the wrong side of 1.
    #[test]
    fn prop_numbers_stand_in_the_order_of_their_marks(
        filled in any_filled(), columns in 30_u16..100, rows in 6_u16..30,
    ) {
        for piece in &filled.pieces {
            let cells = picture(&marking(piece, None), columns, rows, Glyphs::Blocks);
            if cells.is_empty() {
                continue;
            }
            let marks = Marks::of(piece);
            let ends = |ends: Option<Ends>| ends.map_or([None; 2], |ends| ends.map(Some));
            let all: Vec<(&str, Mark)> = ["1", "2", "3", "4"]
                .into_iter()
                .zip(ends(marks.bend).into_iter().chain(ends(marks.cut)))
                .filter_map(|(number, mark)| Some((number, mark?)))
                .collect();
            for (number, mark) in &all {
                for (other, beyond) in &all {
                    if mark.at != beyond.at || mark.position >= beyond.position {
                        continue;
                    }
                    let shown = super::cells::text(&cells);
                    let (Some(one), Some(two)) = (find(&cells, number), find(&cells, other)) else {
                        // Where rows are short, a lane is left off with all it has.
                        prop_assert_eq!(find(&cells, number), find(&cells, other), "{}", shown);
                        continue;
                    };
                    let in_order = match (mark.at, piece.hand) {
                        (At::Nose | At::Back, Hand::Left) => one.0 + 1 < two.0,
                        (At::Nose | At::Back, Hand::Right) => two.0 + 1 < one.0,
                        _ => two.1 < one.1,
                    };
                    prop_assert!(in_order, "{number}, {other} of {piece:?}\n{shown}");
                }
            }
        }
    }

    #[test]
    fn prop_no_block_is_drawn_away_from_the_bend_line(filled in any_filled()) {
        for piece in &filled.pieces {
            let cells = picture(&marking(piece, None), 80, 24, Glyphs::Blocks);
            if cells.is_empty() {
                continue;
            }
            let panel = Box::of(&cells);
            for y in panel.top..=panel.bottom {
                for x in panel.left..=panel.right {
                    if "█▀▄".contains(cells[y][x]) {
                        prop_assert!(is_near_bend(piece, panel, x, y), "{x},{y} of {piece:?}");
                    }
                }
            }
        }
    }
}

/// Whether the bend line passes through the cell or one beside it: whether the
/// corners of that block of nine lie on both sides of it.
fn is_near_bend(spec: &PieceSpec, panel: Box, x: usize, y: usize) -> bool {
    let at = |y_mm: f64| {
        let b = spec.bend.at_nose.mm();
        b + (spec.bend.at_rise.mm() - b) * y_mm / spec.bend.rise.mm()
    };
    let corners = [(-1.0, -1.0), (2.0, -1.0), (-1.0, 2.0), (2.0, 2.0)];
    let sides = corners.map(|(dx, dy)| {
        let (x, y) = (x as f64 + dx, y as f64 + dy);
        let from_left = (x - panel.left as f64) / panel.columns() as f64;
        let share = if spec.hand == Hand::Left {
            from_left
        } else {
            1.0 - from_left
        };
        let up = ((panel.bottom + 1) as f64 - y) / panel.rows() as f64;
        share * spec.panel.width.mm() > at(up * spec.panel.height.mm())
    });
    sides.contains(&true) && sides.contains(&false)
}

#[test]
fn the_numbers_stand_at_their_marks_and_the_tape_begins_at_the_whole_edge() {
    for (bottom, top) in [(30, 18), (10, 24), (20, 20), (40, 31)] {
        for hand in Hand::BOTH {
            let spec = spec(hand, bottom, top);
            let cells = picture(&marking(&spec, None), 76, 20, Glyphs::Blocks);
            let panel = Box::of(&cells);
            let marks = Marks::of(&spec);
            let all = marks.bend.into_iter().chain(marks.cut).flatten();
            for (number, mark) in ["1", "2", "3", "4"].into_iter().zip(all) {
                let (x, row) = find(&cells, number).unwrap();
                let beside = if mark.at == At::Nose {
                    panel.bottom + 1
                } else {
                    panel.top - 1
                };
                assert_eq!(row, beside, "{number}");
                let (wanted, _) = place_of(&spec, panel, mark);
                assert!(
                    (x as f64 + 0.5 - wanted).abs() <= 1.5,
                    "{number} at {x}, wanted {wanted}"
                );
                let whole = if hand == Hand::Left {
                    panel.left
                } else {
                    panel.right
                };
                assert_eq!(cells[row][whole], '|');
                assert_eq!(cells[(panel.top + panel.bottom) / 2][whole], '║');
            }
        }
    }
}

#[test]
fn a_mark_on_a_side_is_numbered_at_that_side_with_the_tape_from_the_nose() {
    let spec = spec(Hand::Left, 52, 40);
    let cells = picture(&marking(&spec, None), 76, 20, Glyphs::Blocks);
    let panel = Box::of(&cells);
    let marks = Marks::of(&spec);
    for (number, ends) in [("1", marks.bend), ("3", marks.cut)] {
        let (x, y) = find(&cells, number).unwrap();
        assert_eq!(x, panel.right + 1);
        let (_, wanted) = place_of(&spec, panel, ends.unwrap()[0]);
        assert!((y as f64 + 0.5 - wanted).abs() <= 1.0);
        assert!((y + 1..=panel.bottom).all(|y| "|13".contains(cells[y][x])));
    }
}

#[test]
fn the_hand_is_told_by_word_on_its_own_side() {
    for hand in Hand::BOTH {
        let spec = spec(hand, 30, 18);
        let cells = picture(&marking(&spec, None), 76, 20, Glyphs::Blocks);
        let (left, _) = find(&cells, "LEFT ").unwrap();
        let (right, _) = find(&cells, " RIGHT").unwrap();
        assert!(left < 2 && right > 60, "{left} {right}");
        let words = format!("tape from the {}", hand.word().to_uppercase());
        assert!(find(&cells, &words).is_some());
    }
}
