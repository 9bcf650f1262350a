//! The drawing by which a hand is chosen: the roof seen from the eave.
//!
//! Panels that lie to an edge's left take left-hand pieces, taped from the left: the
//! side of the key, of the panels and of the tape is one.

use crate::domain::{measure::Hand, roof::EdgeKind};
use crate::picture::roof_end::end_rows;
use crate::ui::{pen::Pen, theme::Role};

/// How many columns and rows one drawing takes with its words.
pub const SIZE: (u16, u16) = (30, 10);

/// Draws both ends side by side, the chosen one in a frame of words.
pub fn draw(pen: &mut Pen<'_>, x: u16, y: u16, kind: EdgeKind, chosen: Option<Hand>) {
    one(pen, x, y, kind, Hand::Left, chosen);
    one(pen, x + SIZE.0 + 2, y, kind, Hand::Right, chosen);
}

fn one(pen: &mut Pen<'_>, x: u16, y: u16, kind: EdgeKind, hand: Hand, chosen: Option<Hand>) {
    let (key, picture_at, ridge_at) = match hand {
        Hand::Left => ("4, or <- and Enter", 8, 9),
        Hand::Right => ("6, or -> and Enter", 4, 16),
    };
    let role = Role::of_row(Some(hand) == chosen);
    let mut part = pen.part(x, y, SIZE.0, SIZE.1);
    let side = hand.word().to_uppercase();
    part.row(0, role, &format!(" panels lie to its {side}"));
    part.text(ridge_at, 1, Role::Text, "ridge");
    for (row, text) in (2..).zip(end_rows(kind, hand)) {
        part.text(picture_at, row, Role::Text, &text);
    }
    part.text(1, 7, Role::Text, "  eave, you stand here");
    let is_chosen = Some(hand) == chosen;
    let role = if is_chosen { Role::Strong } else { Role::Text };
    let words = format!(" {side} hand: tape from {side}");
    part.row(8, role, &words);
    part.text(1, 9, Role::Text, &format!("key {key}"));
}
