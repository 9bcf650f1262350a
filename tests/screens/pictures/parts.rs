//! The picture at the shear, read back from its cells.

use super::at_shear;
use super::cells::{Box, filled, find, picture, text};
use crate::gaps::{any_filled, cases};
use bendmark::app::place::Glyphs;
use bendmark::domain::measure::{Hand, Length, Point, Polygon};
use bendmark::domain::piece::{Lie, Marks, Nose, Panel, PieceSpec};
use bendmark::domain::stock::Offcut;
use bendmark::picture::shape::outline_of;
use proptest::prelude::*;
use proptest::sample::select;

/// A picture this wide has to be right within 3 points.
const LEAST_COLUMNS: usize = 34;

/// What is cut, from what: the lie and the piece by the domain.
struct Case {
    lie: Lie,
    piece: Polygon,
    cells: Vec<Vec<char>>,
    plain: Vec<Vec<char>>,
    panel: Box,
}

/// The words in the two parts taken out again, so that only their filling is left.
fn unnamed(cells: Vec<Vec<char>>, full: char) -> Vec<Vec<char>> {
    let named = [(" PIECE ", full), (" OFFCUT ", ' ')];
    let without = |row: Vec<char>| {
        let row: String = row.into_iter().collect();
        // The lanes name them, too, with what becomes of them.
        let is_lane = row.contains("stays") || row.contains("drops");
        let row = named
            .into_iter()
            .fold(row, |row, (name, filling)| match is_lane {
                true => row,
                false => row.replace(name, &filling.to_string().repeat(name.len())),
            });
        row.chars().collect()
    };
    cells.into_iter().map(without).collect()
}

impl Case {
    fn of(spec: &PieceSpec, offcut: Option<&Offcut>, blade: Hand) -> Option<Self> {
        // A short course's piece may come from a higher one, cut across first.
        let outline = offcut.map_or(spec.panel.outline(), Offcut::outline);
        let stock = outline.below(spec.panel.height);
        let (kept, left) = stock.cut_by(&spec.cut());
        let drawing = at_shear(spec, offcut, blade);
        if kept.is_empty() || left.is_empty() || Marks::of(spec).cut.is_none() {
            assert!(drawing.is_none());
            return None;
        }
        let lie = Lie::of(kept.area(), left.area(), spec.hand, blade);
        let drawing = drawing.unwrap();
        let cells = unnamed(picture(&drawing, 80, 40, Glyphs::Blocks), '█');
        let plain = unnamed(picture(&drawing, 80, 40, Glyphs::Ascii), '#');
        if cells.is_empty() {
            return None;
        }
        // An offcut's outline does not reach all sides of the panel's box; with
        // the whole panel's outline drawn as well, something does.
        let mut boxed = drawing;
        boxed.shapes.extend(outline_of(&spec.panel.outline()));
        let panel = Box::of(&picture(&boxed, 80, 40, Glyphs::Blocks));
        Some(Self {
            lie,
            piece: kept,
            cells,
            plain,
            panel,
        })
    }

    fn share(&self, spec: &PieceSpec, cells: &[Vec<char>]) -> (f64, f64) {
        let Box {
            left,
            right,
            top,
            bottom,
        } = self.panel;
        let drawn: f64 = (top..=bottom)
            .flat_map(|y| (left..=right).map(move |x| (x, y)))
            .map(|(x, y)| filled(cells[y][x]))
            .sum();
        let cells = self.panel.columns() * self.panel.rows();
        let wanted = self.piece.area().mm2() / spec.panel.outline().area().mm2();
        (drawn / cells as f64, wanted)
    }

    /// The place on the panel that a cell's middle shows: the test's own way
    /// there, by the hand and the lie alone.
    fn point(&self, spec: &PieceSpec, x: usize, y: usize) -> Point {
        let from_left = (x as f64 + 0.5 - self.panel.left as f64) / self.panel.columns() as f64;
        let from_top = (y as f64 + 0.5 - self.panel.top as f64) / self.panel.rows() as f64;
        // Face up, nose toward you, a left-hand piece has its whole edge at the
        // left; turned end for end, left and right change places.
        let whole_at_left = (spec.hand == Hand::Left) == (self.lie.nose == Nose::Toward);
        let across = if whole_at_left {
            from_left
        } else {
            1.0 - from_left
        };
        let up = if self.lie.nose == Nose::Toward {
            1.0 - from_top
        } else {
            from_top
        };
        Point {
            x: Length::rounded_from_mm(across * spec.panel.width.mm()),
            y: Length::rounded_from_mm(up * spec.panel.height.mm()),
        }
    }
}

/// Whether a point lies inside a polygon walked round with its inside to the
/// left; exact.
fn is_inside(polygon: &Polygon, point: Point) -> bool {
    let corners = polygon.corners();
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).all(|(p, q)| {
        let run = |from: Length, to: Length| i128::from((to - from).nm());
        run(p.x, q.x) * run(p.y, point.y) - run(p.y, q.y) * run(p.x, point.x) >= 0
    })
}

/// An offcut of the piece's own hand, somewhat wider than the piece needs; if
/// that is cut across, `higher` than it needs.
fn offcut_for(spec: &PieceSpec, spare: f64, turn: f64, higher: i64) -> Offcut {
    let cut = spec.cut();
    let width = spec.panel.width.mm();
    let more = |at: Length, turn: f64| at + Length::rounded_from_mm(width * (spare + turn));
    let higher = spec.across.map(|up| up + Length::from_mm(higher));
    let panel = Panel {
        height: higher.unwrap_or(spec.panel.height),
        ..spec.panel
    };
    let back = cut.x(panel.height);
    Offcut::found(spec.hand, panel, more(cut.at_nose, turn), more(back, -turn))
}

fn check(spec: &PieceSpec, offcut: Option<&Offcut>, blade: Hand) -> Result<(), TestCaseError> {
    let Some(case) = Case::of(spec, offcut, blade) else {
        return Ok(());
    };
    let shown = text(&case.cells);
    if case.panel.columns() >= LEAST_COLUMNS {
        for cells in [&case.cells, &case.plain] {
            let (drawn, wanted) = case.share(spec, cells);
            prop_assert!(
                (drawn - wanted).abs() <= 0.03,
                "{drawn} for {wanted} of {spec:?}\n{shown}"
            );
        }
    }
    let words = format!("BLADE {}", blade.word().to_uppercase());
    prop_assert!(find(&case.cells, &words).is_some(), "{shown}");
    let (near, far) = match case.lie.nose {
        Nose::Toward => ("nose, toward you", "back, away from you"),
        Nose::Away => ("back, toward you", "nose, away from you"),
    };
    let row = |words: &str| find(&case.cells, words).map(|(_, y)| y);
    prop_assert_eq!(row(near), Some(case.panel.bottom + 1), "{}", shown);
    prop_assert_eq!(row(far), Some(case.panel.top - 1), "{}", shown);
    every_cell_shows_its_part(spec, &case)
}

/// Where a cell and all around it show places on the piece it is filled, where
/// none does it is not.
fn every_cell_shows_its_part(spec: &PieceSpec, case: &Case) -> Result<(), TestCaseError> {
    let Box {
        left,
        right,
        top,
        bottom,
    } = case.panel;
    for y in top..=bottom {
        for x in left..=right {
            let rows = y.saturating_sub(1).max(top)..=(y + 1).min(bottom);
            let columns = x.saturating_sub(1).max(left)..=(x + 1).min(right);
            let around: Vec<bool> = rows
                .flat_map(|y| columns.clone().map(move |x| (x, y)))
                .map(|(x, y)| is_inside(&case.piece, case.point(spec, x, y)))
                .collect();
            if around.iter().all(|inside| *inside == around[0]) {
                let wanted = if around[0] { 1.0 } else { 0.0 };
                let off = (filled(case.cells[y][x]) - wanted).abs();
                prop_assert!(off <= 0.5, "{x},{y} of {spec:?}\n{}", text(&case.cells));
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(120))]

    #[test]
    fn prop_what_is_filled_is_the_piece(
        drawn in any_filled(), blade in select(Hand::BOTH.to_vec()),
    ) {
        for piece in &drawn.pieces {
            check(piece, None, blade)?;
        }
    }

    #[test]
    fn prop_what_is_filled_of_an_offcut_is_the_piece(
        drawn in any_filled(), blade in select(Hand::BOTH.to_vec()),
        spare in 0.05_f64..0.6, turn in -0.2_f64..0.2, higher in 0_i64..300,
    ) {
        for piece in &drawn.pieces {
            let offcut = offcut_for(piece, spare, turn, higher);
            if offcut.serves(piece, Length::ZERO) {
                check(piece, Some(&offcut), blade)?;
            }
        }
    }
}
