//! The drawing by which a hand is chosen: the roof seen from the eave.
//!
//! An edge at the right end of its courses takes left-hand pieces; the drawing
//! shows which end, and which side of the piece stays whole.

use crate::domain::{measure::Hand, roof::EdgeKind};
use crate::picture::roof_end::end_rows;
use crate::ui::{pen::Pen, theme::Role};

/// How many columns and rows one drawing takes with its words.
pub const SIZE: (u16, u16) = (30, 11);

/// Draws both ends side by side, the chosen one in a frame of words.
pub fn draw(pen: &mut Pen<'_>, x: u16, y: u16, kind: EdgeKind, chosen: Option<Hand>) {
    one(pen, x, y, kind, Hand::Right, chosen);
    one(pen, x + SIZE.0 + 2, y, kind, Hand::Left, chosen);
}

fn one(pen: &mut Pen<'_>, x: u16, y: u16, kind: EdgeKind, hand: Hand, chosen: Option<Hand>) {
    let (end, key, picture_at, ridge_at) = match hand {
        Hand::Right => ("LEFT end of its courses", "4, or <- and Enter", 4, 16),
        Hand::Left => ("RIGHT end of its courses", "6, or -> and Enter", 8, 9),
    };
    let role = Role::of_row(Some(hand) == chosen);
    let mut part = pen.part(x, y, SIZE.0, SIZE.1);
    part.row(0, role, &format!(" {end}"));
    part.text(ridge_at, 1, Role::Text, "ridge");
    for (row, text) in (2..).zip(end_rows(kind, hand)) {
        part.text(picture_at, row, Role::Text, &text);
    }
    part.text(1, 7, Role::Text, "  eave, you stand here");
    part.row(
        8,
        if Some(hand) == chosen {
            Role::Strong
        } else {
            Role::Text
        },
        &format!(" its panels lie to its {}:", hand.word().to_uppercase()),
    );
    part.text(
        1,
        9,
        Role::Text,
        &format!("{0} hand, tape from the {0}", hand.word()),
    );
    part.text(1, 10, Role::Text, &format!("key {key}"));
}
