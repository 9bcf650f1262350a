//! Job: make, open or duplicate a job; change its settings.

use crate::app::{
    effect::Effect,
    press::{Press, moved},
    state::{Dialog, Field, OpenJob, Purpose, Spot, State, value_of},
    update::save,
};
use crate::domain::bench::Stage;
use crate::domain::piece::{PieceId, PieceSpec};
use crate::domain::settings::{Setting, Settings};
use std::collections::HashSet;

/// The selected setting.
pub fn selected(state: &State) -> Option<Setting> {
    Setting::ALL.get(state.job_view.setting).copied()
}

/// A key in Job.
pub fn pressed(state: &mut State, press: Press) -> Vec<Effect> {
    match press {
        Press::Move(direction) => {
            state.job_view.setting = moved(state.job_view.setting, direction, Setting::ALL.len());
        }
        Press::NewJob => {
            state.dialog = Some(Dialog::NewJob {
                text: String::new(),
            })
        }
        Press::OpenJob => {
            state.dialog = Some(Dialog::OpenJob {
                choice: 0,
                text: String::new(),
            });
        }
        Press::Duplicate => duplicate(state),
        Press::Confirm => return confirm(state),
        Press::Type(c) => start(state, Some(c)),
        _ => {}
    }
    Vec::new()
}

fn duplicate(state: &mut State) {
    match &state.open {
        Some(open) => {
            let text = format!("{} again", open.job().name);
            state.dialog = Some(Dialog::Duplicate { text });
        }
        None => state.complain("no job is open: n makes one, o opens one"),
    }
}

fn confirm(state: &mut State) -> Vec<Effect> {
    let (Some(open), Some(setting)) = (&state.open, selected(state)) else {
        state.complain("no job is open: n makes one, o opens one");
        return Vec::new();
    };
    if setting.choices().is_empty() {
        start(state, None);
        return Vec::new();
    }
    match next_choice(setting, &open.job().settings) {
        Some(settings) => accept(state, setting, settings),
        None => Vec::new(),
    }
}

/// The settings with the next choice that goes with the others.
fn next_choice(setting: Setting, settings: &Settings) -> Option<Settings> {
    let now = setting.text(settings);
    let choices = setting.choices();
    let at = choices.iter().position(|choice| *choice == now)?;
    choices
        .iter()
        .cycle()
        .skip(at + 1)
        .take(choices.len())
        .find_map(|choice| setting.set(settings, choice).ok())
}

fn start(state: &mut State, first: Option<char>) {
    let Some(setting) = selected(state) else {
        return;
    };
    if state.open.is_some() && setting.choices().is_empty() {
        state.field = Some(Field::new(Purpose::Setting(setting), first));
    }
}

/// Takes a setting that was understood.
pub fn accept(state: &mut State, setting: Setting, settings: Settings) -> Vec<Effect> {
    let Some(open) = state.open.as_mut() else {
        return Vec::new();
    };
    let words = format!("{}: {}", setting.label(), value_of(setting, &settings));
    let before = marks_to_come(open);
    let changed = open.edit(words.clone(), Spot::Setting(setting), |job| {
        job.settings = settings;
        true
    });
    if !changed {
        return Vec::new();
    }
    let others = marks_to_come(open)
        .into_iter()
        .filter(|piece| !before.contains(piece))
        .count();
    state.say(match others {
        0 => words,
        1 => format!("{words}; 1 piece is marked otherwise now, u takes it back"),
        count => format!("{words}; {count} pieces are marked otherwise now, u takes it back"),
    });
    save(state)
}

/// The figures of all pieces that are not marked yet.
fn marks_to_come(open: &OpenJob) -> HashSet<(PieceId, PieceSpec)> {
    let pieces = open.list.pieces.iter();
    pieces
        .filter(|piece| piece.stage == Stage::ToMark)
        .map(|piece| (piece.id, piece.spec))
        .collect()
}
