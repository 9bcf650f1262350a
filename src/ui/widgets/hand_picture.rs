//! The drawing by which a hand is chosen: the roof seen from the eave.
//!
//! An edge at the right end of its courses takes left-hand pieces; the drawing
//! shows which end, and which side of the piece stays whole.

use crate::domain::{measure::Hand, roof::EdgeKind};
use crate::ui::{pen::Pen, theme::Role};

const RIGHT_END: [&str; 6] = [
    "     ridge            ",
    "     _____________    ",
    "    |   |   |   | \\   ",
    "    |___|___|___|__\\  ",
    "    |   |   |   |   \\ ",
    "    |___|___|___|____\\",
];

const LEFT_END: [&str; 6] = [
    "            ridge     ",
    "    _____________     ",
    "   / |   |   |   |    ",
    "  /__|___|___|___|    ",
    " /   |   |   |   |    ",
    "/____|___|___|___|    ",
];

const VALLEY_RIGHT_END: [&str; 6] = [
    "     ridge            ",
    "    ______________    ",
    "    |   |   |   | /   ",
    "    |___|___|___|/    ",
    "    |   |   |  /      ",
    "    |___|___|_/       ",
];

const VALLEY_LEFT_END: [&str; 6] = [
    "            ridge     ",
    "    ______________    ",
    "   \\ |   |   |   |    ",
    "    \\|___|___|___|    ",
    "      \\  |   |   |    ",
    "       \\_|___|___|    ",
];

const RAKE_RIGHT_END: [&str; 6] = [
    "     ridge            ",
    "    ______________    ",
    "    |   |   |   | |   ",
    "    |___|___|___|_|   ",
    "    |   |   |   | |   ",
    "    |___|___|___|_|   ",
];

const RAKE_LEFT_END: [&str; 6] = [
    "            ridge     ",
    "    ______________    ",
    "   | |   |   |   |    ",
    "   |_|___|___|___|    ",
    "   | |   |   |   |    ",
    "   |_|___|___|___|    ",
];

/// How many columns and rows one drawing takes with its words.
pub const SIZE: (u16, u16) = (30, 11);

/// Draws both ends side by side, the chosen one in a frame of words.
pub fn draw(pen: &mut Pen<'_>, x: u16, y: u16, kind: EdgeKind, chosen: Option<Hand>) {
    let (left_end, right_end) = match kind {
        EdgeKind::Hip => (&LEFT_END, &RIGHT_END),
        EdgeKind::Valley => (&VALLEY_LEFT_END, &VALLEY_RIGHT_END),
        EdgeKind::Rake => (&RAKE_LEFT_END, &RAKE_RIGHT_END),
    };
    one(pen, x, y, left_end, Hand::Right, chosen);
    one(pen, x + SIZE.0 + 2, y, right_end, Hand::Left, chosen);
}

fn one(pen: &mut Pen<'_>, x: u16, y: u16, picture: &[&str], hand: Hand, chosen: Option<Hand>) {
    let (end, key) = match hand {
        Hand::Right => ("LEFT end of its courses", "4, or <- and Enter"),
        Hand::Left => ("RIGHT end of its courses", "6, or -> and Enter"),
    };
    let role = if Some(hand) == chosen {
        Role::Selected
    } else {
        Role::Text
    };
    let mut part = pen.part(x, y, SIZE.0, SIZE.1);
    part.row(0, role, &format!(" {end}"));
    for (row, text) in (1..).zip(picture) {
        part.text(4, row, Role::Text, text);
    }
    part.text(1, 7, Role::Text, "  eave, you stand here");
    part.row(
        8,
        if Some(hand) == chosen {
            Role::Strong
        } else {
            Role::Text
        },
        &format!(" {}-hand pieces", hand.word().to_uppercase()),
    );
    part.text(
        1,
        9,
        Role::Text,
        &format!("whole side and tape: {}", hand.word()),
    );
    part.text(1, 10, Role::Text, &format!("key {key}"));
}
