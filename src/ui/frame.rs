//! The whole screen: header, place, notice, key bar, and what stands in front.

use super::{
    pen::{Pen, broken, clipped, columns},
    theme::{Role, Theme},
};
use crate::app::dialogs::kept::is_odd;
use crate::app::place::Place;
use crate::app::state::{Notice, OnDisk, State};
use crate::ui::screens::{bench, hips, job, log, rack};
use crate::ui::widgets::{dialog, key_bar};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// The least size everything is laid out for.
pub const LEAST: (u16, u16) = (60, 18);

/// Draws the state.
pub fn render(state: &State, theme: &Theme, area: Rect, buffer: &mut Buffer) {
    let mut pen = Pen::new(buffer, theme, area);
    pen.fill(Role::Text);
    let (width, height) = (pen.width(), pen.height());
    if width < LEAST.0 || height < LEAST.1 {
        too_small(&mut pen);
        return;
    }
    header(&mut pen, state);
    place(&mut pen.part(0, 1, width, height - 3), state);
    notice(&mut pen, state);
    key_bar::draw(&mut pen, state);
    dialog::draw(&mut pen.part(0, 1, width, height - 3), state);
}

fn too_small(pen: &mut Pen<'_>) {
    let (columns, rows) = LEAST;
    let words = format!("bendmark needs {columns}x{rows}, q quits");
    pen.text(0, 0, Role::Strong, &words);
}

fn header(pen: &mut Pen<'_>, state: &State) {
    pen.row(0, Role::Bar, "");
    let open = state.open.as_ref();
    let saved = match open.map(|open| (&open.read_only, &open.saved)) {
        None => "",
        Some((Some(_), _)) => "READ ONLY",
        // What is on the disk is damaged or edited, and nobody has answered yet.
        _ if is_odd(state.dialog.as_ref()) => "NOT WHOLE",
        Some((_, OnDisk::Yes)) => "saved",
        Some((_, OnDisk::Underway)) => "saving",
        Some((_, OnDisk::No(_))) => "NOT SAVED",
    };
    pen.text_right(1, 0, Role::Bar, saved);
    let tabs = || {
        (2..)
            .zip(Place::ALL)
            .map(|(key, place)| (place, format!(" F{key} {} ", place.word())))
    };
    let places: u16 = tabs().map(|(_, tab)| columns(&tab) + 1).sum();
    let start = pen.width().saturating_sub(places + 11);
    let name = open.map_or("no job", |open| open.job().name.as_str());
    let room = usize::from(start.saturating_sub(2));
    pen.text(1, 0, Role::Bar, &clipped(name, room));
    let mut x = start;
    for (place, tab) in tabs() {
        let role = if place == state.place {
            Role::Here
        } else {
            Role::Bar
        };
        x = pen.text(x, 0, role, &tab) + 1;
    }
}

fn place(pen: &mut Pen<'_>, state: &State) {
    match (state.place, &state.open) {
        (Place::Hips, Some(open)) => hips::draw(pen, state, open),
        (Place::Log, Some(open)) => log::draw(pen, state, open),
        (Place::Bench, _) => bench::draw(pen, state),
        (Place::Rack, Some(open)) => rack::draw(pen, state, open),
        (Place::Job, _) => job::draw(pen, state),
        (_, None) => {
            pen.text(1, 1, Role::Strong, "No job is open: F6 makes or opens one.");
        }
    }
}

fn notice(pen: &mut Pen<'_>, state: &State) {
    let y = pen.height() - 2;
    let unsaved = match state.open.as_ref().map(|open| &open.saved) {
        Some(OnDisk::No(why)) => Some(format!(
            "NOT SAVED (k tries again, f saves elsewhere): {why}"
        )),
        _ => None,
    };
    match (&state.notice, unsaved) {
        (Some(Notice::Trouble(text)), _) => trouble(pen, y, text),
        (_, Some(text)) => trouble(pen, y, &text),
        (Some(Notice::Said(text)), None) => {
            let room = usize::from(pen.width().saturating_sub(2));
            pen.row(y, Role::Strong, &format!(" {}", clipped(text, room)));
        }
        (None, None) => {}
    }
}

/// A trouble and what to do about it take a second row where they need it.
fn trouble(pen: &mut Pen<'_>, y: u16, text: &str) {
    let room = usize::from(pen.width().saturating_sub(2));
    let rows = broken(text, room);
    let last = match rows.split_first() {
        Some((first, rest)) if !rest.is_empty() => {
            pen.row(y - 1, Role::Trouble, &format!(" {}", clipped(first, room)));
            rest.join(" ")
        }
        _ => text.to_owned(),
    };
    pen.row(y, Role::Trouble, &format!(" {}", clipped(&last, room)));
}
