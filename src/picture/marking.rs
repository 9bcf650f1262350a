//! The panel as it lies for marking.
//!
//! Seen face up, the nose toward you, so at the bottom of the page; the whole
//! end on the side of the piece's hand. The tape is drawn from there; the bend
//! line is solid; the cut line shows only as a stroke at each of its ends, as
//! it is marked on the panel, so that nobody bends on it. Marks 1 and 2 are the
//! bend line's nose end and back end, 3 and 4 the cut line's; of a piece cut at
//! both ends these are the near line's, and 5 to 8 the far one's.
//!
//! ```text
//!            |---------2--4                     tape along the back
//!         || ----------\--|-----------+
//!   whole ||            \             |         a left-hand piece; of a
//!   end   ||             \            |         right-hand one this is the
//!         || -------------\--|--------+         mirror, with the words
//!            |------------1--3                  exchanged
//!          LEFT    nose, toward you   RIGHT
//! ```
//!
//! A mark on a side of the panel is measured up from the nose; the tape then
//! stands along that side. Cut from an offcut, the outline is what is left of
//! the stock. It says nothing of figures: they stand beside the picture.

use super::shape::{
    BarRole, Fill, Frame, Grows, Lane, LineRole, PageEnd, Picture, Shape, Toward, outline_of,
    part_way, stock_outline, word,
};
use crate::domain::measure::{Hand, Length, Point, Polygon};
use crate::domain::piece::{At, Ends, Mark, Marks, Panel, PieceSpec};
use crate::domain::stock::Offcut;

/// The picture for marking `spec` on its panel, or on `offcut` if it is cut
/// from one.
pub fn marking(spec: &PieceSpec, offcut: Option<&Offcut>) -> Picture {
    let marks = Marks::of(spec);
    let stock = stock_outline(spec, offcut);
    let mut shapes = piece(spec, &stock);
    shapes.extend(outline_of(&stock));
    shapes.extend(tapes(&marks));
    shapes.extend(numbers(&marks));
    for line in marks.lines() {
        shapes.extend(cut_ends(line.cut, spec.panel));
        shapes.extend(bend_line(line.bend, spec.panel));
    }
    shapes.extend(across(spec, offcut));
    shapes.extend(words(spec, &marks));
    Picture {
        frame: Frame {
            panel: spec.panel,
            x_runs_to: spec.hand.other(),
            nose_at: PageEnd::Bottom,
        },
        shapes,
    }
}

/// What the cuts leave of its stock.
fn piece(spec: &PieceSpec, stock: &Polygon) -> Vec<Shape> {
    let (mut kept, _) = stock.cut_by(&spec.cut());
    if let Some(near) = spec.near_cut() {
        (_, kept) = kept.cut_by(&near);
    }
    let outline = kept.below(spec.top());
    if outline.is_empty() {
        return Vec::new();
    }
    vec![Shape::Area {
        outline,
        fill: Fill::Shaded,
        name: "PIECE",
    }]
}

fn bend_line(bend: Option<Ends>, panel: Panel) -> Option<Shape> {
    let [from, to] = points(bend?, panel);
    let role = LineRole::Bend;
    Some(Shape::Line { from, to, role })
}

/// A sixth of the cut line at either end.
fn cut_ends(cut: Option<Ends>, panel: Panel) -> Vec<Shape> {
    let Some(ends) = cut else {
        return Vec::new();
    };
    let [nose_end, back_end] = points(ends, panel);
    [(nose_end, back_end), (back_end, nose_end)]
        .map(|(from, far)| Shape::Line {
            from,
            to: part_way(from, far, 1, 6),
            role: LineRole::CutEnd,
        })
        .into()
}

/// One tape along each side of the panel that has marks, to the last of them.
fn tapes(marks: &Marks) -> Vec<Shape> {
    by_side(marks)
        .filter_map(|(side, marks)| {
            let (to, _) = *marks.last()?;
            Some(Shape::Bar {
                lane: Lane::new(side, 0),
                from: Length::ZERO,
                to,
                role: BarRole::Tape,
            })
        })
        .collect()
}

/// The bend line's marks are 1 and 2, the cut line's 3 and 4; of a second line
/// 5 to 8.
fn numbers(marks: &Marks) -> impl Iterator<Item = Shape> {
    by_side(marks).map(|(side, marks)| Shape::Numbers { side, marks })
}

/// Each side that has marks, and where they are and their numbers, in the order
/// of the tape.
fn by_side(marks: &Marks) -> impl Iterator<Item = (At, Vec<(Length, u32)>)> {
    let ends = |ends: Option<Ends>, first: u32| (first..).zip(ends.into_iter().flatten());
    let all: Vec<(u32, Mark)> = (1..)
        .step_by(4)
        .zip(marks.lines())
        .flat_map(|(first, line)| ends(line.bend, first).chain(ends(line.cut, first + 2)))
        .collect();
    [At::Nose, At::Back, At::FarSide, At::HandSide]
        .into_iter()
        .filter_map(move |side| {
            let here = all.iter().filter(|(_, mark)| mark.at == side);
            let mut here: Vec<_> = here
                .map(|(number, mark)| (mark.position, *number))
                .collect();
            here.sort_unstable();
            (!here.is_empty()).then_some((side, here))
        })
}

/// Of an offcut that is no higher nothing is to be cut across.
fn across(spec: &PieceSpec, offcut: Option<&Offcut>) -> Vec<Shape> {
    let is_due = offcut.is_none_or(|offcut| offcut.is_cut_across_for(spec));
    let Some(y) = spec.across.filter(|_| is_due) else {
        return Vec::new();
    };
    let middle = spec.panel.width.half();
    let text = "cut across first";
    let mut shapes = vec![word(Lane::new(At::Back, 1), middle, Grows::Both, text)];
    if y < spec.panel.height {
        let at = |x| Point { x, y };
        shapes.push(Shape::Line {
            from: at(Length::ZERO),
            to: at(spec.panel.width),
            role: LineRole::Across,
        });
    }
    shapes
}

fn words(spec: &PieceSpec, marks: &Marks) -> [Shape; 4] {
    let width = spec.panel.width;
    let mut all = marks
        .lines()
        .flat_map(|line| line.bend.into_iter().chain(line.cut).flatten());
    // Below the tape, where there is one.
    let first = u16::from(all.any(|mark| mark.at == At::Nose));
    let below = Lane::new(At::Nose, first);
    let side = |hand: Hand| hand.word().to_uppercase();
    let whole = if spec.near.is_none() {
        ", whole end"
    } else {
        ""
    };
    let from = format!("tape from the {}{whole}", side(spec.hand));
    let far = Grows::Only(Toward::Far);
    let inward = Grows::Only(Toward::Hand);
    [
        word(below, Length::ZERO, far, &side(spec.hand)),
        word(below, width, inward, &side(spec.hand.other())),
        word(below, width.half(), Grows::Both, "nose, toward you"),
        word(Lane::new(At::Nose, first + 1), Length::ZERO, far, &from),
    ]
}

/// Where both ends lie on the panel.
pub(super) fn points(ends: Ends, panel: Panel) -> [Point; 2] {
    ends.map(|mark| mark.point(panel.width, panel.height))
}
