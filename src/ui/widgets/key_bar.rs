//! The bottom row: the keys that matter now, pruned to the width.

use crate::app::keymap::{InBar, rows_now};
use crate::app::state::State;
use crate::ui::pen::{Pen, columns};
use crate::ui::theme::Role;

/// Draws the key bar on the pen's last row.
pub fn draw(pen: &mut Pen<'_>, state: &State) {
    let y = pen.height().saturating_sub(1);
    pen.row(y, Role::Bar, "");
    let mut x = 1;
    for row in rows_now(state).filter(|row| row.bar == InBar::Yes) {
        let text = format!("{} {}", row.key, row.says);
        if x + columns(&text) > pen.width() {
            continue;
        }
        x = pen.text(x, y, Role::Bar, &text) + 3;
    }
}
