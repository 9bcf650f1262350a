//! The bottom row: the keys that matter now, pruned to the width.

use crate::app::keymap::{Binding, matters, rows_now};
use crate::app::place::Place;
use crate::app::press::Press;
use crate::app::state::State;
use crate::ui::pen::{Pen, columns};
use crate::ui::theme::Role;

/// Draws the key bar on the pen's last row. Help keeps its place at the right,
/// however many keys there are.
pub fn draw(pen: &mut Pen<'_>, state: &State) {
    let y = pen.height().saturating_sub(1);
    pen.row(y, Role::Bar, "");
    let help = rows_now(state).find(|row| row.press == Press::Help && row.is_in_bar);
    let mut right = pen.width();
    if let Some(row) = help {
        let text = format!("{} {}", row.key, row.says);
        right = right.saturating_sub(columns(&text) + 3);
        pen.text_right(1, y, Role::Bar, &text);
    }
    let mut x = 1;
    let here = |row: &&Binding| row.is_in_bar && row.press != Press::Help && matters(state, row);
    // What is needed in a hurry stands there whatever else there is.
    let in_a_hurry = |row: &&Binding| {
        let press = matches!(row.press, Press::Confirm | Press::Spoiled | Press::Undo);
        state.place == Place::Bench && press
    };
    let first = rows_now(state).filter(here).filter(in_a_hurry);
    let others = rows_now(state).filter(here).filter(|row| !in_a_hurry(row));
    for row in first.chain(others) {
        let text = format!("{} {}", row.key, row.says);
        if x + columns(&text) > right {
            continue;
        }
        x = pen.text(x, y, Role::Bar, &text) + 3;
    }
}
