//! A bar for how far a hip has come: each stage with a fill of its own.

use crate::ui::{pen::Pen, theme::Role};

/// Draws a bar `width` columns wide: full for stacked, half for begun, empty
/// for to mark; `counts` are in the order of the stages.
pub fn draw(pen: &mut Pen<'_>, x: u16, y: u16, width: u16, counts: [usize; 5]) {
    let total: usize = counts.iter().sum();
    let [to_mark, .., stacked] = counts;
    let share = |count: usize| {
        let cells = usize::from(width) * count;
        u16::try_from(cells.checked_div(total).unwrap_or(0)).unwrap_or(width)
    };
    let full = share(stacked);
    let begun = share(total - to_mark).saturating_sub(full);
    // Two dots would say that something is cut off.
    let (blocks, ascii) = (["\u{2588}", "\u{2584}", "\u{b7}"], ["#", "=", "-"]);
    let [done, half, none] = pen.theme().drawn(blocks, ascii);
    for column in 0..width {
        let symbol = if column < full {
            done
        } else if column < full + begun {
            half
        } else {
            none
        };
        pen.text(x + column, y, Role::Text, symbol);
    }
}
