//! Job: what is open, and every setting with its value.

use crate::app::state::{Purpose, State, value_of};
use crate::domain::{
    log::{PanelsLie, ReadTo},
    measure::{Hand, cleaned},
    settings::{Setting, Settings},
};
use crate::ui::pen::{Pen, clipped, first_in_sight};
use crate::ui::theme::Role;

/// Draws the place.
pub fn draw(pen: &mut Pen<'_>, state: &State) {
    let Some(open) = &state.open else {
        no_job(pen, state);
        return;
    };
    let path = cleaned(&open.path.to_string_lossy());
    let room = usize::from(pen.width().saturating_sub(8));
    pen.text(1, 0, Role::Strong, "file");
    pen.text(7, 0, Role::Text, &clipped(&path, room));
    settings(pen, state, &open.job().settings);
    field(pen, state, &open.job().settings);
}

fn no_job(pen: &mut Pen<'_>, state: &State) {
    pen.text(1, 1, Role::Strong, "No job is open.");
    pen.text(1, 3, Role::Text, "n makes a new job, o opens one.");
    for (y, path) in (5..).zip(&state.preferences.recent) {
        let shown = cleaned(&path.to_string_lossy());
        let room = usize::from(pen.width().saturating_sub(4));
        pen.text(3, y, Role::Text, &clipped(&shown, room));
    }
}

/// The list scrolls so that the selected setting stays in sight.
fn settings(pen: &mut Pen<'_>, state: &State, settings: &Settings) {
    let rows = usize::from(pen.height().saturating_sub(5));
    let at = state.job_view.setting;
    let start = first_in_sight(at, Setting::ALL.len(), rows);
    more(pen, start, rows);
    for (y, (index, setting)) in (2..).zip(Setting::ALL.iter().enumerate().skip(start).take(rows)) {
        let role = Role::of_row(index == at);
        let choices = setting.choices();
        let value = value_of(*setting, settings);
        let width = pen.width();
        let mut row = pen.part(0, y, width, 1);
        row.row(0, role, "");
        row.text(1, 0, role, setting.label());
        let end = row.text(40, 0, role, &value);
        if index == at && !choices.is_empty() {
            let others: Vec<&str> = choices
                .iter()
                .copied()
                .filter(|choice| *choice != value)
                .collect();
            let words = format!("Enter: {}", others.join(", "));
            row.text((end + 2).max(54), 0, role, &words);
        }
    }
}

/// How many settings are out of sight, so that nobody thinks the list ends.
fn more(pen: &mut Pen<'_>, start: usize, rows: usize) {
    let below = Setting::ALL.len().saturating_sub(start + rows);
    let words = match (start, below) {
        (0, 0) => return,
        (above, 0) => format!("{above} more above"),
        (0, below) => format!("{below} more below"),
        (above, below) => format!("{above} more above, {below} below"),
    };
    pen.text_right(1, 1, Role::Strong, &words);
}

fn field(pen: &mut Pen<'_>, state: &State, settings: &Settings) {
    let y = pen.height().saturating_sub(2);
    let typed = state.field.as_ref().and_then(|field| match field.purpose {
        Purpose::Setting(setting) => Some((field, setting)),
        _ => None,
    });
    let Some((field, setting)) = typed else {
        if state.setting() == Some(Setting::PanelsLie) {
            laps(pen, y, settings);
        } else if let Some(word) = state.setting().and_then(Setting::word_for_none) {
            let words = format!("a length, or the word {word}");
            pen.text(1, y, Role::Text, &words);
        }
        return;
    };
    let text = &field.text;
    let end = pen.text(1, y, Role::Strong, &format!("{}: {text}", setting.label()));
    pen.text(end, y, Role::Selected, " ");
    let (role, words) = match field.understood(settings) {
        Ok(value) => (Role::Strong, format!("understood: {value}")),
        Err(_) if text.is_empty() => (Role::Text, "type the new value".to_owned()),
        Err(why) => (Role::Text, why),
    };
    pen.text(1, y + 1, role, &words);
}

/// The panels of a course as they lap, looking up, with the edge of each that is
/// in sight, and to what the two ends are read.
fn laps(pen: &mut Pen<'_>, y: u16, settings: &Settings) {
    let row = match settings.panels_lie {
        PanelsLie::NotSaid => {
            "looking up:  |   1   |   2   |   3   |   not said: as \"readings go to\""
        }
        PanelsLie::OverLeft => "looking up:  |   1   [   2   [   3   |   [ edge in sight: on top",
        PanelsLie::OverRight => "looking up:  |   1   ]   2   ]   3   |   ] edge in sight: on top",
    };
    pen.text(1, y, Role::Strong, row);
    let to = |hand| match settings.panels_lie.reads_to(hand) {
        Some(ReadTo::LapLine) => "lap line",
        Some(ReadTo::PanelEdge) => "last panel's edge",
        None => "",
    };
    let [right_end, left_end] = Hand::BOTH.map(to);
    if !left_end.is_empty() {
        let words =
            format!("left end (right-hand): {left_end}; right end (left-hand): {right_end}");
        pen.text(1, y + 1, Role::Text, &words);
    }
}
