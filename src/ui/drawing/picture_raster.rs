//! Draws a [`Picture`] into an area of cells, to scale.
//!
//! Needs about 34 by 8 cells to be read, fills up to the area's width and takes
//! only the rows it needs. What lies on the table is filled with blocks, half a
//! cell fine; what drops off is hollow within the outline. The bend line is
//! drawn in the same blocks, the outline in thin lines, the whole end in a
//! double one. In plain ASCII the blocks become `#`, `"` and `_`, lines
//! `-|/\`, the whole end a bracket that opens toward the panel.
//!
//! ```text
//!   marking:   |-----------2-4             shear:    ##########--------+
//!              [----------##\-----+                  ###########       |
//!              [           ##     |                  ############<stop |
//!              [------------##\---+                  #############-----+
//!              |-------------1-3                     nose        ^ enter
//! ```

use super::{
    canvas::{Canvas, Glyph},
    picture_grid::Raster,
    picture_scale::{Scale, Spot, cell},
};
use crate::app::place::Glyphs;
use crate::domain::measure::{Point, Polygon};
use crate::picture::shape::{Fill, LineRole, Picture, Shape};
use crate::ui::{pen::Pen, theme::Role};

/// Draws `picture` from the top of the pen's area on, in the middle of its
/// columns; says how many rows it took, none where the area is too small.
pub fn draw(pen: &mut Pen<'_>, picture: &Picture) -> u16 {
    let Some(scale) = Scale::fit(picture, pen.width(), pen.height()) else {
        return 0;
    };
    let frame = picture.frame;
    let (columns, rows) = (pen.width(), scale.all_rows());
    let mut raster = Raster {
        canvas: Canvas::new(columns, rows, frame.x_runs_to, frame.nose_at),
        scale,
        glyphs: pen.theme().glyphs(),
    };
    let full = full_corners(&picture.shapes);
    for shape in &picture.shapes {
        raster.shade(shape);
    }
    for shape in &picture.shapes {
        raster.thin_line(shape, &full);
    }
    raster.far_corners(&picture.shapes);
    for shape in &picture.shapes {
        raster.fill_or_bend(shape);
    }
    for shape in &picture.shapes {
        raster.name(shape);
    }
    for shape in &picture.shapes {
        raster.beside(shape);
    }
    raster.canvas.show(pen);
    rows
}

impl Raster {
    /// What lies underneath: thin lines.
    fn thin_line(&mut self, shape: &Shape, full: &[Point]) {
        let Shape::Line { from, to, role } = shape else {
            return;
        };
        let shown_by_fill = full.contains(from) && full.contains(to);
        let (from, to) = (self.scale.spot(*from), self.scale.spot(*to));
        let straight = match role {
            LineRole::WholeEnd => Some(Glyph::Whole),
            LineRole::Outline if same(from.row, to.row) => Some(Glyph::Level),
            LineRole::Outline if same(from.column, to.column) => Some(Glyph::Upright),
            LineRole::Outline if shown_by_fill => return,
            LineRole::Outline | LineRole::CutEnd | LineRole::Across => None,
            // The parts' fill shows the cut line; the bend line comes on top.
            LineRole::Cut | LineRole::Bend => return,
        };
        let glyph = straight.unwrap_or_else(|| slant(from, to));
        let bold = match role {
            LineRole::CutEnd => Role::Strong,
            _ => Role::Line,
        };
        for (column, row) in self.cells(from, to, 1) {
            self.put(column, row, glyph, bold);
        }
    }

    /// The corners away from the whole end, where the stock has them.
    fn far_corners(&mut self, shapes: &[Shape]) {
        let column = self.scale.left + self.scale.columns - 1;
        let back = (self.scale.top, Glyph::CornerAtBack);
        let nose = (self.scale.top + self.scale.rows - 1, Glyph::CornerAtNose);
        for (row, corner) in [back, nose] {
            let meets = |glyph: Glyph| {
                let line = |shape: &&Shape| self.touches(shape, column, row, glyph);
                shapes.iter().any(|shape| line(&shape))
            };
            if meets(Glyph::Level) && meets(Glyph::Upright) {
                self.canvas.put(column, row, corner, Role::Line);
            }
        }
    }

    /// Whether that line of the outline is of that kind and ends in that cell.
    fn touches(&self, shape: &Shape, column: u16, row: u16, glyph: Glyph) -> bool {
        let Shape::Line { from, to, role } = shape else {
            return false;
        };
        let (start, end) = (self.scale.spot(*from), self.scale.spot(*to));
        let kind = match glyph {
            Glyph::Level => same(start.row, end.row),
            _ => same(start.column, end.column),
        };
        let here =
            |point: &Point| self.scale.column(point.x) == column && self.scale.row(point.y) == row;
        *role == LineRole::Outline && kind && (here(from) || here(to))
    }

    /// What lies on top: the part on the table, the bend line.
    fn fill_or_bend(&mut self, shape: &Shape) {
        match shape {
            Shape::Area { outline, fill, .. } if *fill == Fill::Full => self.fill(outline),
            Shape::Line { from, to, role } if *role == LineRole::Bend => {
                let (from, to) = (self.scale.spot(*from), self.scale.spot(*to));
                self.bend(from, to);
            }
            _ => {}
        }
    }

    /// What lies under every line: a part in a weaker fill.
    fn shade(&mut self, shape: &Shape) {
        let Shape::Area { outline, fill, .. } = shape else {
            return;
        };
        if *fill != Fill::Shaded {
            return;
        }
        let corners = self.corners(outline);
        for row in 0..self.scale.rows {
            for column in self.inside(&corners, row) {
                self.put(column, row, Glyph::Shade, Role::Text);
            }
        }
    }

    /// The word of a part, near the middle, with a blank at either side; none where
    /// no row of it has so much room beside the lines.
    fn name(&mut self, shape: &Shape) {
        let Shape::Area {
            outline,
            fill,
            name,
        } = shape
        else {
            return;
        };
        let corners = self.corners(outline);
        let (role, filled) = match fill {
            Fill::Full => (Role::Selected, Some(Glyph::Full)),
            Fill::Shaded => (Role::Strong, Some(Glyph::Shade)),
            Fill::Hollow => (Role::Strong, None),
        };
        let text = format!(" {name} ");
        let long = text.chars().count();
        let middle = self.scale.rows / 2;
        // The outline's own rows are not free.
        let inner = 1..self.scale.rows.saturating_sub(1);
        let rooms = inner.map(|row| (row, self.free(&corners, row, filled)));
        let rooms = rooms.filter(|(_, columns)| columns.len() >= long + 2);
        let Some((row, columns)) = rooms.min_by_key(|(row, _)| row.abs_diff(middle)) else {
            return;
        };
        if let Some(first) = columns.first() {
            let before = u16::try_from((columns.len() - long) / 2).unwrap_or(0);
            let (left, top) = (self.scale.left, self.scale.top);
            self.canvas
                .words(left + first + before, top + row, role, &text);
        }
    }

    /// The longest run of columns of a row inside the corners that show nothing but
    /// the part's own filling.
    fn free(&self, corners: &[Spot], row: u16, filled: Option<Glyph>) -> Vec<u16> {
        let (left, top) = (self.scale.left, self.scale.top);
        let inside = self.inside(corners, row);
        let is_free = |column: u16| self.canvas.at(left + column, top + row) == filled;
        let (mut best, mut run) = (Vec::new(), Vec::<u16>::new());
        for column in inside {
            if !is_free(column) || run.last().is_some_and(|last| last + 1 != column) {
                run.clear();
            }
            if is_free(column) {
                run.push(column);
            }
            if run.len() > best.len() {
                best.clone_from(&run);
            }
        }
        best
    }

    /// The columns of a row whose middle lies inside the corners.
    fn inside(&self, corners: &[Spot], row: u16) -> Vec<u16> {
        let columns = 0..self.scale.columns;
        let inside = |column: &u16| {
            let middle = Spot {
                column: f64::from(*column) + 0.5,
                row: f64::from(row) + 0.5,
            };
            is_inside(middle, corners)
        };
        columns.filter(inside).collect()
    }

    fn corners(&self, outline: &Polygon) -> Vec<Spot> {
        let corners = outline.corners().iter();
        corners.map(|corner| self.scale.spot(*corner)).collect()
    }

    fn fill(&mut self, outline: &Polygon) {
        let corners = self.corners(outline);
        for column in 0..self.scale.columns {
            for half in 0..2 * self.scale.rows {
                let middle = Spot {
                    column: f64::from(column) + 0.5,
                    row: f64::from(half) / 2.0 + 0.25,
                };
                if is_inside(middle, &corners) {
                    let (left, top) = (self.scale.left, self.scale.top);
                    self.canvas.dot(left + column, 2 * top + half, Role::Text);
                }
            }
        }
    }

    fn bend(&mut self, from: Spot, to: Spot) {
        match self.glyphs {
            Glyphs::Blocks => {
                for (column, half) in self.cells(from, to, 2) {
                    let (left, top) = (self.scale.left, self.scale.top);
                    self.canvas.dot(left + column, 2 * top + half, Role::Mark);
                }
            }
            Glyphs::Ascii => {
                for (column, row) in self.cells(from, to, 1) {
                    self.put(column, row, Glyph::Full, Role::Mark);
                }
            }
        }
    }

    fn put(&mut self, column: u16, row: u16, glyph: Glyph, role: Role) {
        let (left, top) = (self.scale.left, self.scale.top);
        self.canvas.put(left + column, top + row, glyph, role);
    }

    /// The cells of the box, its rows cut into `parts`, through which a line
    /// passes: one in every row of a steep line, one in every column of a flat
    /// one.
    fn cells(&self, from: Spot, to: Spot, parts: u16) -> Vec<(u16, u16)> {
        let fine = |spot: Spot| (spot.column, spot.row * f64::from(parts));
        let (columns, rows) = (self.scale.columns, self.scale.rows * parts);
        let (from, to) = (fine(from), fine(to));
        let across = (to.0 - from.0).abs();
        let down = (to.1 - from.1).abs();
        if down >= across {
            let steps = steps((from.1, from.0), (to.1, to.0), rows, columns);
            steps
                .into_iter()
                .map(|(row, column)| (column, row))
                .collect()
        } else {
            steps(from, to, columns, rows)
        }
    }
}

/// The corners of what is drawn full.
fn full_corners(shapes: &[Shape]) -> Vec<Point> {
    let full = |shape: &Shape| match shape {
        Shape::Area { outline, fill, .. } if *fill == Fill::Full => outline.corners().to_vec(),
        _ => Vec::new(),
    };
    shapes.iter().flat_map(full).collect()
}

/// The cells of a line, one in each of `count` along it, of `others` across.
fn steps(from: (f64, f64), to: (f64, f64), count: u16, others: u16) -> Vec<(u16, u16)> {
    let (low, high) = if from.0 <= to.0 {
        (from, to)
    } else {
        (to, from)
    };
    let run = high.0 - low.0;
    let across = |along: f64| {
        let share = if run > 0.0 {
            (along - low.0) / run
        } else {
            0.0
        };
        low.1 + (high.1 - low.1) * share
    };
    // A line that ends on the border between two cells does not reach the
    // second; one without any length is still one cell.
    let first = cell(low.0, count);
    let last = cell((high.0 - NEARLY).max(low.0), count).max(first);
    (first..=last)
        .map(|at| {
            let middle = (f64::from(at) + 0.5).clamp(low.0, high.0);
            (at, cell(across(middle), others))
        })
        .collect()
}

/// Less than any cell can show: what rounding may add to a place.
const NEARLY: f64 = 1e-9;

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < NEARLY
}

/// The stroke that looks most like the line: an upright or level one up to 11
/// degrees from plumb or level as seen, a cell being twice as high as wide.
fn slant(from: Spot, to: Spot) -> Glyph {
    let (right, down) = (to.column - from.column, to.row - from.row);
    if right.abs() <= 0.4 * down.abs() {
        Glyph::UprightStroke
    } else if down.abs() <= 0.1 * right.abs() {
        Glyph::Stroke
    } else if (right > 0.0) == (down > 0.0) {
        Glyph::Falling
    } else {
        Glyph::Rising
    }
}

/// Whether a spot is inside the corners, by the count of sides to its right.
fn is_inside(spot: Spot, corners: &[Spot]) -> bool {
    let next = corners.iter().cycle().skip(1);
    let crossings = corners.iter().zip(next).filter(|(from, to)| {
        let spans = (from.row > spot.row) != (to.row > spot.row);
        let share = (spot.row - from.row) / (to.row - from.row);
        spans && spot.column < from.column + (to.column - from.column) * share
    });
    crossings.count() % 2 == 1
}
