//! Job: make, open or duplicate a job; change its settings.

use crate::app::effect::Effect;
use crate::app::press::{Press, moved};
use crate::app::record::edit;
use crate::app::state::{Field, OpenJob, Prompt, Purpose, Spot, State, value_of};
use crate::domain::bench::Stage;
use crate::domain::piece::{PieceId, PieceSpec};
use crate::domain::settings::{Setting, Settings};
use std::collections::HashSet;

const NO_JOB: &str = "no job is open: n makes one, o opens one";

/// A key in Job.
pub fn pressed(state: &mut State, press: Press) {
    match press {
        Press::Move(direction) => {
            state.job_view.setting = moved(state.job_view.setting, direction, Setting::ALL.len());
        }
        Press::NewJob => state.ask(Prompt::NewJob, ""),
        Press::OpenJob => state.ask(Prompt::OpenJob, ""),
        Press::Duplicate => match state.job().map(|job| format!("{} again", job.name)) {
            Some(name) => state.ask(Prompt::Duplicate, name),
            None => state.complain(NO_JOB),
        },
        Press::ListKept => ask_kept(state),
        Press::Confirm => change(state),
        Press::Type(c) => start(state, Some(c)),
        _ => {}
    }
}

/// Asks for the list of states that are kept.
pub fn ask_kept(state: &mut State) {
    let Some(open) = &state.open else {
        state.complain(NO_JOB);
        return;
    };
    let (path, job) = (open.path.clone(), open.to_save().job);
    state.order(Effect::ListKept(path, job));
}

/// Takes the next choice of the selected setting, or asks for its figure.
fn change(state: &mut State) {
    let Some((job, setting)) = state.job().zip(state.setting()) else {
        state.complain(NO_JOB);
        return;
    };
    if setting.choices().is_empty() {
        start(state, None);
    } else if let Some(settings) = next_choice(setting, &job.settings) {
        accept(state, setting, settings);
    }
}

/// The settings with the next choice that goes with the others.
fn next_choice(setting: Setting, settings: &Settings) -> Option<Settings> {
    let now = setting.text(settings);
    let choices = setting.choices();
    let at = choices.iter().position(|choice| *choice == now)?;
    let mut others = choices.iter().cycle().skip(at + 1).take(choices.len());
    others.find_map(|choice| setting.set(settings, choice).ok())
}

fn start(state: &mut State, first: Option<char>) {
    if let Some(setting) = state.setting()
        && setting.choices().is_empty()
        && state.open.is_some()
    {
        state.field = Some(Field::new(Purpose::Setting(setting), first));
    }
}

/// Takes a setting that was understood.
pub fn accept(state: &mut State, setting: Setting, settings: Settings) {
    let words = format!("{}: {}", setting.label(), value_of(setting, &settings));
    let before = marks_to_come(state.open.as_ref());
    let changed = edit(state, words.clone(), Spot::Setting(setting), |job| {
        job.settings = settings;
    });
    if !changed {
        return;
    }
    let after = marks_to_come(state.open.as_ref());
    state.say(match after.difference(&before).count() {
        0 => words,
        1 => format!("{words}; 1 piece is marked differently now, u takes it back"),
        count => format!("{words}; {count} pieces are marked differently now, u takes it back"),
    });
}

/// The figures of all pieces that are not marked yet.
fn marks_to_come(open: Option<&OpenJob>) -> HashSet<(PieceId, PieceSpec)> {
    let pieces = open.into_iter().flat_map(|open| &open.list.pieces);
    pieces
        .filter(|piece| piece.stage == Stage::ToMark)
        .map(|piece| (piece.id, piece.spec))
        .collect()
}
