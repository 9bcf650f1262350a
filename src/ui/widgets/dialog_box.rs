//! The boxes that dialogs stand in: a frame in the middle, words, a text field.

use crate::ui::pen::{Pen, broken};
use crate::ui::theme::Role;

/// An empty framed box in the middle; a pen for its inside.
pub(super) fn boxed<'p>(pen: &'p mut Pen<'_>, width: u16, height: u16, title: &str) -> Pen<'p> {
    let width = (width + 2).min(pen.width());
    let height = (height + 2).min(pen.height());
    let x = (pen.width() - width) / 2;
    let y = (pen.height() - height) / 2;
    let mut frame = pen.part(x, y, width, height);
    frame.fill(Role::Text);
    outline(&mut frame);
    frame.text(2, 0, Role::Selected, &format!(" {title} "));
    pen.part(
        x + 1,
        y + 1,
        width.saturating_sub(2),
        height.saturating_sub(2),
    )
}

fn outline(pen: &mut Pen<'_>) {
    let (right, bottom) = (
        pen.width().saturating_sub(1),
        pen.height().saturating_sub(1),
    );
    pen.line(0);
    pen.line(bottom);
    pen.upright(0, 1, bottom);
    pen.upright(right, 1, bottom);
    let blocks = ["\u{250c}", "\u{2510}", "\u{2514}", "\u{2518}"];
    let corners = pen.theme().drawn(blocks, ["+"; 4]);
    let at = [(0, 0), (right, 0), (0, bottom), (right, bottom)];
    for ((x, y), corner) in at.into_iter().zip(corners) {
        pen.text(x, y, Role::Line, corner);
    }
}

/// A row of a list: what is selected has a sign before it and is reversed.
pub(super) fn listed(pen: &mut Pen<'_>, y: u16, is_here: bool, words: &str) {
    let sign = if is_here { ">" } else { " " };
    pen.row(y, Role::of_row(is_here), &format!("{sign}{words}"));
}

pub(super) fn say(pen: &mut Pen<'_>, title: &str, words: &str) {
    let rows = u16::try_from(broken(words, 58).len()).unwrap_or(1);
    let mut inner = boxed(pen, 60, rows, title);
    inner.wrapped(1, 0, Role::Strong, words);
}

/// A box with a text to type, and whether that is one that was offered.
pub(super) fn text_box(pen: &mut Pen<'_>, title: &str, (text, offered): (&str, bool), words: &str) {
    let rows = u16::try_from(broken(words, 58).len()).unwrap_or(0);
    let mut inner = boxed(pen, 60, 3 + rows, title);
    let role = if offered {
        Role::Selected
    } else {
        Role::Strong
    };
    typed(&mut inner, 1, role, text);
    inner.wrapped(1, 3, Role::Text, words);
}

/// What is being typed, its end always in sight, with a mark behind it; two dots
/// where its front has no room.
pub(super) fn typed(pen: &mut Pen<'_>, y: u16, role: Role, text: &str) {
    let room = usize::from(pen.width().saturating_sub(4));
    let count = text.chars().count();
    let shown = match count > room {
        true => {
            let kept = room.saturating_sub(2);
            let end: String = text.chars().skip(count - kept).collect();
            format!("..{end}")
        }
        false => text.to_owned(),
    };
    let end = pen.text(1, y, role, &shown);
    pen.text(end, y, Role::Selected, " ");
}
