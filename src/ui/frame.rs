//! The whole screen: header, place, notice, key bar, and what stands in front.

use super::{
    pen::{Pen, broken, clipped, columns},
    theme::{Role, Theme},
};
use crate::app::dialogs::kept::is_odd;
use crate::app::place::{Place, ScreenSize};
use crate::app::state::{Dialog, Notice, OnDisk, Question, State};
use crate::domain::measure::is_hidden;
use crate::ui::screens::{bench, hips, job, log, rack};
use crate::ui::widgets::{dialog, key_bar};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// Draws the state.
pub fn render(state: &State, theme: &Theme, area: Rect, buffer: &mut Buffer) {
    let mut pen = Pen::new(buffer, theme, area);
    pen.fill(Role::Text);
    let (width, height) = (pen.width(), pen.height());
    let size = ScreenSize {
        columns: width,
        rows: height,
    };
    if !size.is_enough() {
        too_small(&mut pen, state);
        return;
    }
    header(&mut pen, state);
    // The Bench says its steps where a notice comes and goes.
    let notice_row = u16::from(state.place == Place::Bench);
    place(&mut pen.part(0, 1, width, height - 3 + notice_row), state);
    notice(&mut pen, state);
    key_bar::draw(&mut pen, state);
    dialog::draw(&mut pen.part(0, 1, width, height - 3), state);
}

/// Nothing is done that cannot be seen: what still may be is said.
fn too_small(pen: &mut Pen<'_>, state: &State) {
    let (columns, rows) = (ScreenSize::LEAST.columns, ScreenSize::LEAST.rows);
    let is_asked = matches!(state.dialog, Some(Dialog::Question(Question::QuitUnsaved)));
    let words = match is_asked {
        true => "NOT SAVED: y leaves all the same, s saves, Esc stays".to_owned(),
        false => {
            format!("bendmark needs {columns}x{rows}, q quits, k saves; no other key does a thing")
        }
    };
    pen.wrapped(0, 0, Role::Strong, &words);
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
    let unsaved = match state.open.as_ref().map(|open| (&open.saved, &open.rescued)) {
        Some((OnDisk::No(why), there)) => {
            let there = there.as_ref().map_or_else(String::new, |path| {
                let path = path.to_string_lossy();
                let path: String = path.chars().filter(|c| !is_hidden(*c)).collect();
                format!("; kept meanwhile in \"{path}\"")
            });
            Some(format!(
                "NOT SAVED (k tries again, f saves elsewhere): {why}{there}"
            ))
        }
        _ => None,
    };
    match (&state.notice, unsaved) {
        (Some(Notice::Trouble(text)), _) => in_rows(pen, y, Role::Trouble, text, MOST_ROWS),
        (_, Some(text)) => in_rows(pen, y, Role::Trouble, &text, MOST_ROWS),
        // At the Bench the second row is that of the steps.
        (Some(Notice::Said(text)), None) => in_rows(pen, y, Role::Strong, text, 2),
        (None, None) => {}
    }
}

/// What is said takes further rows where it needs them, `most` at most; the last
/// one ends at `y`.
fn in_rows(pen: &mut Pen<'_>, y: u16, role: Role, text: &str, most: usize) {
    let room = usize::from(pen.width().saturating_sub(2));
    let mut rows = broken(text, room);
    let beyond = rows.split_off(most.min(rows.len()));
    if let Some(last) = rows.last_mut().filter(|_| !beyond.is_empty()) {
        *last = format!("{last} {}", beyond.join(" "));
    }
    for (up, row) in (0..).zip(rows.iter().rev()) {
        let row = format!(" {}", clipped(row, room));
        pen.row(y.saturating_sub(up), role, &row);
    }
}

/// The most rows a trouble takes of a place.
const MOST_ROWS: usize = 3;
