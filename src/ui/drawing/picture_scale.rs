//! Where a picture's millimetres fall among the cells of an area.
//!
//! A cell counts as twice as high as wide. The panel takes as many columns as
//! fit and the rows that go with them, at least three; lanes beside it take one
//! row each at nose and back, and as many columns as their words at the sides.
//! Where rows are short, outer lanes are left off first, so that the panel
//! keeps its shape.

use crate::domain::measure::{Length, Point};
use crate::domain::piece::At;
use crate::picture::shape::{Lane, Picture, Shape};

/// Fewer columns than this show nothing of a panel.
const LEAST_COLUMNS: u16 = 8;

/// Fewer rows than this have no room for both outlines and what lies between.
const LEAST_ROWS: u16 = 3;

/// The panel's box among the cells, column 0 on the whole end's side and row 0
/// on the back's.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    /// The box's first column and row.
    pub(super) left: u16,
    pub(super) top: u16,
    /// How many columns and rows the box has.
    pub(super) columns: u16,
    pub(super) rows: u16,
    /// How many rows stand below the box.
    pub(super) below: u16,
    width: f64,
    height: f64,
}

/// A place in cells and fractions of them.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spot {
    pub(super) column: f64,
    pub(super) row: f64,
}

impl Scale {
    /// How `picture` falls on an area of that size; `None` where the area is
    /// too small for anything.
    pub(super) fn fit(picture: &Picture, columns: u16, rows: u16) -> Option<Self> {
        let panel = picture.frame.panel;
        let (width, height) = (panel.width.mm(), panel.height.mm());
        let sides = [At::HandSide, At::FarSide].map(|side| columns_beside(picture, side));
        let [hand, far] = sides;
        let most = columns.checked_sub(hand + far)?;
        let shape = height / width / 2.0;
        let wanted = nearest(f64::from(most) * shape).max(LEAST_ROWS);
        let [mut back, mut nose] = [At::Back, At::Nose].map(|side| picture.lanes(side));
        while back.max(nose) > 2 && rows < back + nose + wanted
            || back.max(nose) > 0 && rows < back + nose + LEAST_ROWS
        {
            let longer = if back > nose { &mut back } else { &mut nose };
            *longer -= 1;
        }
        let high = wanted.min(rows.checked_sub(back + nose)?);
        let wide = if high < wanted {
            nearest(f64::from(high) / shape).min(most)
        } else {
            most
        };
        (wide >= LEAST_COLUMNS && high >= LEAST_ROWS).then(|| Self {
            left: hand + (most - wide) / 2,
            top: back,
            columns: wide,
            rows: high,
            below: nose,
            width,
            height,
        })
    }

    /// Rows in all, lanes included.
    pub(super) const fn all_rows(&self) -> u16 {
        self.top + self.rows + self.below
    }

    /// Where `point` falls inside the box.
    pub(super) fn spot(&self, point: Point) -> Spot {
        Spot {
            column: point.x.mm() / self.width * f64::from(self.columns),
            row: (1.0 - point.y.mm() / self.height) * f64::from(self.rows),
        }
    }

    /// The column in which `x` falls.
    pub(super) fn column(&self, x: Length) -> u16 {
        let y = Length::ZERO;
        self.left + cell(self.spot(Point { x, y }).column, self.columns)
    }

    /// The row in which `y` falls.
    pub(super) fn row(&self, y: Length) -> u16 {
        let x = Length::ZERO;
        self.top + cell(self.spot(Point { x, y }).row, self.rows)
    }

    /// The row or the column of a lane; `None` where it was left off.
    pub(super) fn lane(&self, lane: Lane) -> Option<u16> {
        match lane.side {
            At::Back => self.top.checked_sub(lane.number + 1),
            At::Nose => (lane.number < self.below).then(|| self.top + self.rows + lane.number),
            At::HandSide => self.left.checked_sub(lane.number + 1),
            At::FarSide => Some(self.left + self.columns + lane.number),
        }
    }
}

/// The cell in which `at` falls, of `count`.
pub(super) fn cell(at: f64, count: u16) -> u16 {
    floor(at).min(count.saturating_sub(1))
}

/// Down to a whole number; not a number and all below zero give zero.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "float to integer casts saturate, which is what is wanted"
)]
pub(super) fn floor(at: f64) -> u16 {
    at.floor() as u16
}

fn nearest(at: f64) -> u16 {
    floor(at + 0.5)
}

/// How many columns the lanes on that side take, a blank one included.
fn columns_beside(picture: &Picture, side: At) -> u16 {
    let used = |shape: &Shape| match shape {
        Shape::Bar { lane, .. } if lane.side == side => 1,
        Shape::Arrow { mark } if mark.at == side => 1,
        Shape::Numbers { side: at, .. } if *at == side => 1,
        Shape::Word { lane, room, .. } if lane.side == side => *room,
        Shape::Pointer { at, short, .. } if side == At::FarSide && is_tight(picture, at.x) => {
            1 + count(short)
        }
        _ => 0,
    };
    let most = picture.shapes.iter().map(used).max().unwrap_or(0);
    if most == 0 { 0 } else { most.saturating_add(1) }
}

/// Whether less than a fifth of the panel lies between `x` and its far side: too
/// little for a pointer with its words.
fn is_tight(picture: &Picture, x: Length) -> bool {
    let width = picture.frame.panel.width;
    (width - x).times(5) < width
}

/// How many columns ASCII words take.
pub(super) fn count(text: &str) -> u16 {
    u16::try_from(text.chars().count()).unwrap_or(u16::MAX)
}
