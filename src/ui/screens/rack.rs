//! Rack: the offcuts that wait for a later piece.

use crate::app::state::State;
use crate::ui::pen::Pen;
use crate::ui::theme::Role;

/// Draws the place.
pub fn draw(pen: &mut Pen<'_>, _state: &State) {
    pen.text(1, 1, Role::Strong, "No offcut is noted on the rack.");
    let words = "Every piece is planned from a new panel. The edge of the other hand is still whole on an offcut, so keep the wide ones beside the bench for pieces of the other hand.";
    pen.wrapped(1, 3, Role::Text, words);
}
