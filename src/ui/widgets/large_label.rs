//! A piece's label, large at every step while several pieces are in hand, so that
//! they are not mixed up.

use super::digits::{self, DotSize};
use crate::ui::pen::{Pen, clipped};
use crate::ui::theme::Role;

/// The least rows below the figures in which it stands there.
pub const LEAST: u16 = 6;

/// How many rows it leaves free of `rows` below the figures, where there are
/// pictures of at least `pictures` rows to come.
const fn room(rows: u16, pictures: u16) -> u16 {
    let room = rows.saturating_sub(pictures);
    if room < DotSize::Small.rows() + 1 {
        // As on a screen with no rows for pictures.
        rows.saturating_sub(1)
    } else {
        room
    }
}

/// Draws it below the figures from row `y` to `end`; says the row below it.
pub fn below(pen: &mut Pen<'_>, label: &str, y: u16, end: u16, pictures: u16) -> u16 {
    let rows = room(end.saturating_sub(y), pictures);
    let width = pen.width().saturating_sub(2);
    let used = draw(&mut pen.part(1, y, width, rows), label);
    y + used
}

/// Draws it as large as there is room; says the row below it.
pub fn draw(pen: &mut Pen<'_>, label: &str) -> u16 {
    let fits =
        |size: &DotSize| digits::width(label, *size) <= pen.width() && size.rows() < pen.height();
    let sizes = [DotSize::Whole, DotSize::Half, DotSize::Small];
    let Some(size) = sizes.into_iter().find(fits) else {
        let room = usize::from(pen.width());
        pen.row(0, Role::Selected, &clipped(label, room));
        return 1;
    };
    digits::draw(pen, 0, 0, label, size);
    size.rows() + 1
}
