//! The one way in which the state changes.

use super::{
    effect::Effect,
    key::Millis,
    message::{Message, Opened},
    place::{Glyphs, Look, Place},
    press::Press,
};
use crate::app::dialogs::{answers, paper, safekeeping};
use crate::app::screens::{bench, hips, job, log, rack, readings};
use crate::app::state::{
    BenchView, Dialog, HipsView, LogFocus, LogView, OpenJob, Purpose, RackView, Saved, Spot, State,
    Undone,
};
use crate::domain::log::Reading;

/// Changes the state by what happened and says what is to be done outside.
pub fn update(state: &mut State, message: Message) -> Vec<Effect> {
    match message {
        Message::Pressed(press, at) => {
            let field = state.field.clone();
            let mut effects = pressed(state, press, at);
            safekeeping::refuse_changes(state, field.as_ref(), &mut effects);
            if press == Press::Confirm {
                state.last_confirm = Some(at);
            }
            effects
        }
        Message::Resized(size) => {
            state.size = size;
            Vec::new()
        }
        Message::Opened(opened) => opened_job(state, *opened),
        Message::NotOpened(why) => {
            state.complain(why);
            Vec::new()
        }
        Message::Saved(change) => safekeeping::saved(state, change),
        Message::NotSaved(change, why) => safekeeping::not_saved(state, change, why),
        Message::ChangedOutside => safekeeping::changed_outside(state),
        Message::SavedElsewhere(path, change) => safekeeping::moved(state, path, change),
        Message::NotSavedElsewhere(text, why) => safekeeping::not_moved(state, text, why),
        Message::NoCopy(why) => {
            state.complain(format!("no copy of this day was kept: {why}"));
            Vec::new()
        }
        Message::RackRead(offcuts) => rack::bring(state, offcuts),
        Message::OursKept(path) => {
            let path = path.display();
            state.say(format!(
                "what was on the screen before is kept in \"{path}\""
            ));
            Vec::new()
        }
        Message::SheetWritten(path) => {
            paper::written(state, &path);
            Vec::new()
        }
        Message::SheetNotWritten(path, why) => {
            paper::not_written(state, path, why);
            Vec::new()
        }
        Message::PreferencesKnown(preferences) => {
            state.preferences = preferences;
            Vec::new()
        }
    }
}

/// Keys that take something away and would take the next one too while held.
const fn is_final(press: Press) -> bool {
    matches!(
        press,
        Press::Throw
            | Press::Used
            | Press::OffcutGone
            | Press::Spoiled
            | Press::TakeSuggestion
            | Press::Stands
    )
}

fn pressed(state: &mut State, press: Press, at: Millis) -> Vec<Effect> {
    let held = state
        .last_final
        .is_some_and(|(last, when)| last == press && at.0.saturating_sub(when.0) < state.hold_ms);
    if is_final(press) {
        state.last_final = Some((press, at));
        if held {
            return Vec::new();
        }
    }
    state.notice = None;
    match press {
        Press::Quit => return quit(state),
        Press::Go(_) if matches!(state.dialog, Some(Dialog::OpenedOdd { .. })) => {
            return Vec::new();
        }
        Press::Go(place) => {
            state.dialog = None;
            state.place = place;
            let in_hand = state.bench.piece.filter(|_| place == Place::Bench);
            if let Some(open) = state.open.as_mut() {
                open.take_first(in_hand);
            }
            arrive(state);
            return Vec::new();
        }
        Press::NumLockOff => {
            state.complain("NumLock is off: press NumLock for digits");
            return Vec::new();
        }
        _ => {}
    }
    if let Some(dialog) = state.dialog.take() {
        return answers::pressed(state, dialog, press);
    }
    if active_field(state) {
        return in_field(state, press);
    }
    at_a_place(state, press, at)
}

/// A key while nothing stands in front of the place.
fn at_a_place(state: &mut State, press: Press, at: Millis) -> Vec<Effect> {
    match press {
        Press::Undo => undo(state),
        Press::Redo => redo(state),
        Press::Help => {
            state.dialog = Some(Dialog::Help { scroll: 0 });
            Vec::new()
        }
        Press::Cautions => {
            state.dialog = Some(Dialog::Cautions);
            Vec::new()
        }
        Press::Look => change_look(state),
        Press::Glyphs => change_glyphs(state),
        Press::Find => {
            if state.open.is_some() {
                let text = String::new();
                state.dialog = Some(Dialog::Find { text });
            }
            Vec::new()
        }
        Press::SaveAgain => save(state),
        Press::WriteSheet => paper::ask_where(state),
        Press::SaveElsewhere => safekeeping::ask_where(state),
        _ => match state.place {
            Place::Hips => hips::pressed(state, press),
            Place::Log => log::pressed(state, press),
            Place::Bench => bench::pressed(state, press, at),
            Place::Rack => rack::pressed(state, press),
            // Held, the key would turn a choice over and over.
            Place::Job if press == Press::Confirm && bench::is_held(state, at) => Vec::new(),
            Place::Job => job::pressed(state, press),
        },
    }
}

/// Whether a field at the place shown takes the keys.
pub fn active_field(state: &State) -> bool {
    state.field.as_ref().is_some_and(|field| {
        let place = match field.purpose {
            Purpose::Reading { .. } | Purpose::RunsOut { .. } | Purpose::Height { .. } => {
                Place::Log
            }
            Purpose::Correction(..) => Place::Bench,
            Purpose::Setting(_) => Place::Job,
        };
        place == state.place
    })
}

/// What is to be shown on coming to a place.
pub fn arrive(state: &mut State) {
    keep_selections_within(state);
    let pieces = state
        .open
        .as_ref()
        .is_some_and(|open| !open.list.pieces.is_empty());
    if state.place == Place::Bench && pieces && !state.bench.cautions_read {
        state.dialog = Some(Dialog::Cautions);
    }
    if state.place == Place::Log && state.log.edge.is_none() {
        let first = state
            .open
            .as_ref()
            .and_then(|open| open.job().edges().first().map(|edge| edge.id));
        if let Some(first) = first {
            log::select(state, first);
        }
    }
}

/// Lists may have become shorter meanwhile: what is selected is what is shown.
fn keep_selections_within(state: &mut State) {
    let Some(open) = &state.open else {
        return;
    };
    let last = |count: usize| count.saturating_sub(1);
    state.rack.offcut = state.rack.offcut.min(last(open.progress.rack().len()));
    state.hips.edge = state.hips.edge.min(last(open.job().edges().len()));
    let pieces = hips::selected(state).map_or(0, |edge| hips::pieces_of(state, edge).len());
    state.hips.piece = state.hips.piece.min(last(pieces));
}

fn in_field(state: &mut State, press: Press) -> Vec<Effect> {
    let Some(mut field) = state.field.take() else {
        return Vec::new();
    };
    match press {
        Press::Type(c) => field.push(c),
        // An empty field stays: a held key must not run on into undo.
        Press::Erase => {
            field.text.pop();
        }
        Press::Undo => return undo(state),
        Press::Redo => return redo(state),
        Press::Help => state.dialog = Some(Dialog::Help { scroll: 0 }),
        Press::Back => return Vec::new(),
        Press::Confirm => {
            return match accept(state, field.purpose, &field.text) {
                Ok(effects) => effects,
                Err(error) => {
                    state.field = Some(field);
                    state.complain(error);
                    Vec::new()
                }
            };
        }
        _ => {}
    }
    state.field = Some(field);
    Vec::new()
}

fn accept(state: &mut State, purpose: Purpose, text: &str) -> Result<Vec<Effect>, String> {
    let settings = match &state.open {
        Some(open) => open.job().settings,
        None => return Err("no job is open".to_owned()),
    };
    let reading = || Reading::parse(text, settings.unit()).map_err(|error| error.to_string());
    Ok(match purpose {
        Purpose::Reading { edge, course, end } => {
            readings::accept_reading(state, edge, course, end, reading()?)
        }
        Purpose::RunsOut { edge, course, end } => {
            readings::accept_runs_out(state, edge, course, end, reading()?)
        }
        Purpose::Height { edge, course } => {
            readings::accept_height(state, edge, course, reading()?)
        }
        Purpose::Setting(setting) => {
            let changed = setting
                .set(&settings, text)
                .map_err(|error| error.to_string())?;
            job::accept(state, setting, changed)
        }
        Purpose::Correction(edge, _) => {
            let field = crate::app::state::Field {
                purpose,
                text: text.to_owned(),
            };
            bench::accept_correction(state, edge, field.correction(&settings)?)
        }
    })
}

fn opened_job(state: &mut State, opened: Opened) -> Vec<Effect> {
    let odd = opened.odd.clone();
    let read_only = opened.read_only.clone();
    state.preferences.opened(opened.path.clone());
    // Answers about the job before are never taken for this one's.
    let first = state.open.as_ref().map_or(0, |open| open.change() + 1);
    let before = state.open.take().map(|open| open.path);
    let before = before.filter(|before| *before != opened.path);
    state.open = Some(OpenJob::new(opened, first));
    state.leaving = false;
    state.log = LogView::default();
    state.bench = BenchView::default();
    state.hips = HipsView::default();
    state.rack = RackView::default();
    state.field = None;
    state.dialog = odd.map(|why| Dialog::OpenedOdd { why, before });
    state.place = answers::first_place(state);
    hips::select_edge_in_work(state);
    arrive(state);
    if let Some(why) = read_only {
        state.complain(why);
    }
    vec![Effect::SavePreferences(state.preferences.clone())]
}

/// An order to save the job as it now is.
pub fn save(state: &mut State) -> Vec<Effect> {
    let Some(open) = state.open.as_mut() else {
        return Vec::new();
    };
    if let Some(why) = open.read_only.clone() {
        state.complain(why);
        return Vec::new();
    }
    open.saved = Saved::Underway;
    let (path, job, change) = open.to_save();
    vec![Effect::SaveJob { path, job, change }]
}

fn quit(state: &mut State) -> Vec<Effect> {
    match state.open.as_ref().map(|open| &open.saved) {
        None | Some(Saved::Yes) => return vec![Effect::Quit],
        Some(Saved::Underway) if state.leaving => state.dialog = Some(Dialog::QuitUnsaved),
        Some(Saved::Underway) => {
            state.leaving = true;
            state.say("leaving as soon as the last change is saved");
        }
        Some(Saved::No(_)) => state.dialog = Some(Dialog::QuitUnsaved),
    }
    Vec::new()
}

fn change_look(state: &mut State) -> Vec<Effect> {
    state.preferences.look = match state.preferences.look {
        Look::Sun => Look::Dark,
        Look::Dark => Look::Sun,
    };
    vec![Effect::SavePreferences(state.preferences.clone())]
}

fn change_glyphs(state: &mut State) -> Vec<Effect> {
    state.preferences.glyphs = match state.preferences.glyphs {
        Glyphs::Blocks => Glyphs::Ascii,
        Glyphs::Ascii => Glyphs::Blocks,
    };
    vec![Effect::SavePreferences(state.preferences.clone())]
}

fn undo(state: &mut State) -> Vec<Effect> {
    match state.open.as_mut().and_then(OpenJob::undo) {
        Some(change) => {
            show(state, &change);
            state.say(format!("taken back: {}", change.words));
            save(state)
        }
        None => {
            state.complain("nothing left to take back");
            Vec::new()
        }
    }
}

fn redo(state: &mut State) -> Vec<Effect> {
    match state.open.as_mut().and_then(OpenJob::redo) {
        Some(change) => {
            show(state, &change);
            state.say(format!("done again: {}", change.words));
            save(state)
        }
        None => {
            state.complain("nothing left to do again");
            Vec::new()
        }
    }
}

/// Goes to where a change was made.
fn show(state: &mut State, change: &Undone) {
    // A figure half typed was for another moment.
    state.field = None;
    match change.spot {
        Spot::Reading(edge, course, end) => {
            state.place = Place::Log;
            state.log.edge = Some(edge);
            state.log.focus = LogFocus::Courses;
            state.log.course = course;
            state.log.end = end;
        }
        Spot::Edge(edge) => {
            state.place = Place::Log;
            log::select(state, edge);
            state.log.focus = LogFocus::Edges;
        }
        Spot::Piece(piece) => bench::show(state, piece),
        Spot::Rack => state.place = Place::Rack,
        Spot::Setting(setting) => {
            state.place = Place::Job;
            let all = crate::domain::settings::Setting::ALL;
            state.job_view.setting = all.iter().position(|s| *s == setting).unwrap_or(0);
        }
    }
}
