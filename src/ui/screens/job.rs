//! Job: what is open, and every setting with its value, in groups.
//!
//! One column of groups, or two where there is room for both, with the table of
//! hips, valleys and rakes below them.

use crate::app::state::{Notice, Purpose, State};
use crate::domain::{
    log::{PanelsLie, ReadTo},
    measure::{Hand, cleaned},
    roof::EdgeKind,
    settings::{Group, Line, Setting, Settings},
    tape::Unit,
};
use crate::ui::pen::{Pen, clipped, clipped_middle, columns, first_in_sight};
use crate::ui::theme::Role;

/// From so many columns on there are two columns of groups.
const TWO_FROM: u16 = 110;
/// What stands below the settings: a line, what the selected one moves, and
/// two rows about it.
const FOOT: u16 = 4;
/// Where the values stand; what says which is selected stands before the label.
const LABEL_AT: u16 = 2;
const VALUE_AT: u16 = 32;

/// Draws the place.
pub fn draw(pen: &mut Pen<'_>, state: &State) {
    let Some(open) = &state.open else {
        no_job(pen, state);
        return;
    };
    let path = cleaned(&open.path.to_string_lossy());
    let position = position(state.job_view.setting);
    let room = pen.width().saturating_sub(columns(&position) + 10);
    pen.text(1, 0, Role::Strong, "file");
    // Its folder begins and its name ends it: both stay in sight.
    let path = clipped_middle(&[&path], usize::from(room)).concat();
    pen.text(7, 0, Role::Text, &path);
    pen.text_right(1, 0, Role::Text, &position);
    settings(pen, state, &open.job().settings);
    let y = pen.height().saturating_sub(FOOT);
    pen.line(y);
    if let Some(setting) = state.setting() {
        let words = format!("changes: {}", setting.moves());
        pen.text(1, y + 1, Role::Text, &words);
    }
    field(pen, state, &open.job().settings);
}

/// `9 of 30`.
fn position(selected: Setting) -> String {
    let lines = Group::ALL.map(Group::lines).concat();
    let mut all = lines.iter().flat_map(|line| &line.settings);
    let count = all.clone().count();
    let at = all.position(|setting| *setting == selected);
    at.map_or_else(String::new, |at| format!("{} of {count}", at + 1))
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

/// A group, and where it stands on the whole of what may be scrolled.
struct Placed {
    group: Group,
    lines: Vec<Line>,
    /// The row of its title, from 0.
    y: u16,
    x: u16,
    width: u16,
}

/// Every group in its place, and how many rows they take.
fn placed(width: u16) -> (Vec<Placed>, u16) {
    let two = width >= TWO_FROM;
    let (mut left, mut right) = (0, 0);
    // What belongs beside what: the panel and its readings, the bench and what
    // leaves it; the table takes the whole width.
    let order = match two {
        true => [
            Group::Panel,
            Group::Readings,
            Group::Bench,
            Group::Carrying,
            Group::Edges,
        ],
        false => Group::ALL,
    };
    let mut all = Vec::new();
    for group in order {
        let lines = group.lines();
        let rows = u16::try_from(lines.len())
            .unwrap_or(u16::MAX)
            .saturating_add(1);
        let is_right = two && matches!(group, Group::Bench | Group::Carrying);
        if two && group == Group::Edges {
            left = left.max(right);
        }
        let (x, column) = match is_right {
            true => (width / 2, &mut right),
            false => (0, &mut left),
        };
        let full = if two && group != Group::Edges {
            width / 2
        } else {
            width
        };
        all.push(Placed {
            group,
            lines,
            y: *column,
            x,
            width: full,
        });
        *column += rows + u16::from(two);
    }
    (all, left.max(right) - u16::from(two))
}

/// The whole scrolls so that the selected setting stays in sight.
fn settings(pen: &mut Pen<'_>, state: &State, settings: &Settings) {
    let (all, count) = placed(pen.width());
    let selected = state.job_view.setting;
    let at = all.iter().find_map(|placed| {
        let mut lines = (placed.y + 1..).zip(&placed.lines);
        lines.find_map(|(y, line)| line.settings.contains(&selected).then_some(y))
    });
    let rows = pen.height().saturating_sub(FOOT + 1);
    let start = first_in_sight(at.unwrap_or(0).into(), count.into(), rows.into());
    let start = u16::try_from(start).unwrap_or(0);
    let width = pen.width();
    let mut sight = pen.part(0, 1, width, rows);
    for placed in &all {
        if let Some(y) = placed.y.checked_sub(start) {
            title(
                &mut sight.part(placed.x, y, placed.width, 1),
                placed.group,
                settings,
            );
        }
        for (y, line) in (placed.y + 1..).zip(&placed.lines) {
            if let Some(y) = y.checked_sub(start) {
                let mut row = sight.part(placed.x, y, placed.width, 1);
                one_line(&mut row, line, selected, settings);
            }
        }
    }
}

/// The group's name with the unit of its figures; a table's columns.
fn title(row: &mut Pen<'_>, group: Group, settings: &Settings) {
    let unit = match settings.unit() {
        Unit::Inch => "inches",
        Unit::Millimetre => "millimetres",
    };
    let words = format!("{}, {unit}", group.title());
    row.text(1, 0, Role::Strong, &words);
    if group == Group::Edges {
        for kind in EdgeKind::ALL {
            let x = column_of(kind, row.width());
            row.text(x, 0, Role::Strong, &format!("{}s", kind.word()));
        }
    }
}

/// Where a kind's column begins in the table of all kinds.
fn column_of(kind: EdgeKind, width: u16) -> u16 {
    let column = width.saturating_sub(VALUE_AT) / 3;
    let place = EdgeKind::ALL.iter().position(|other| *other == kind);
    VALUE_AT + column * u16::try_from(place.unwrap_or(0)).unwrap_or(0)
}

/// A line of the list: what is selected has a sign before it and is reversed.
fn one_line(row: &mut Pen<'_>, line: &Line, selected: Setting, settings: &Settings) {
    let is_here = line.settings.contains(&selected);
    let is_table = line.settings.iter().any(|setting| setting.kind().is_some());
    let width = row.width();
    if is_here && !is_table {
        let room = width.saturating_sub(u16::from(width < TWO_FROM));
        row.part(0, 0, room, 1).fill(Role::Selected);
    }
    let role = Role::of_row(is_here && !is_table);
    row.text(LABEL_AT, 0, role, line.label);
    if is_here && !is_table {
        row.text(0, 0, role, ">");
    }
    for setting in &line.settings {
        let said = match setting {
            // It holds for no edge as long as the laps say it.
            Setting::ReadTo if settings.panels_lie != PanelsLie::NotSaid => {
                "as the panels lie, above".to_owned()
            }
            setting => setting.said(settings),
        };
        match setting.kind() {
            Some(kind) => {
                let x = column_of(kind, width).saturating_sub(1);
                let is_here = *setting == selected;
                let sign = if is_here { ">" } else { " " };
                row.text(x, 0, Role::of_row(is_here), &format!("{sign}{said} "));
            }
            None => {
                row.text(VALUE_AT, 0, role, &said);
            }
        }
    }
}

fn field(pen: &mut Pen<'_>, state: &State, settings: &Settings) {
    let y = pen.height().saturating_sub(2);
    let typed = state.field.as_ref().and_then(|field| match field.purpose {
        Purpose::Setting(setting) => Some((field, setting)),
        _ => None,
    });
    let Some((field, setting)) = typed else {
        match state.setting() {
            Some(Setting::PanelsLie) => laps(pen, y, settings),
            Some(setting) => {
                pen.wrapped(1, y, Role::Text, &may_be(setting, settings));
            }
            None => {}
        }
        return;
    };
    let text = &field.text;
    let end = pen.text(1, y, Role::Strong, &format!("{}: {text}", setting.name()));
    pen.text(end, y, Role::Selected, " ");
    let (role, words) = match field.understood(settings) {
        Ok(value) => (Role::Strong, format!("understood: {value}")),
        Err(_) if text.is_empty() => (Role::Text, "type the new value".to_owned()),
        // It stands in the row below once Enter was pressed.
        Err(why) if state.notice == Some(Notice::Trouble(why.clone())) => return,
        Err(why) => (Role::Text, why),
    };
    pen.text(1, y + 1, role, &words);
}

/// What else may stand in it, and by what key.
fn may_be(setting: Setting, settings: &Settings) -> String {
    if let Setting::Along(_) | Setting::Standing(_) = setting {
        return "digits type it: 2 along, or 1 1/2 square; Enter: measured the other way"
            .to_owned();
    }
    let now = setting.said(settings);
    // Inches are not rounded to a millimetre.
    let choices = setting.choices().into_iter().zip(setting.said_choices());
    let others: Vec<&str> = choices
        .filter(|(choice, said)| *said != now && setting.set(settings, choice).is_ok())
        .map(|(_, said)| said)
        .collect();
    match (&others[..], setting.said_for_none()) {
        ([], Some(none)) => format!("digits type it; Enter: a length, or: {none}"),
        ([], None) => "digits type it".to_owned(),
        (others, _) => format!("Enter: {}", others.join(", ")),
    }
}

/// The panels of a course as they lap, looking up, with the edge of each that is
/// in sight, and to what the two ends are read.
fn laps(pen: &mut Pen<'_>, y: u16, settings: &Settings) {
    let row = match settings.panels_lie {
        PanelsLie::NotSaid => {
            "looking up:  |   1   |   2   |   3   |   not said: as \"readings go\""
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
