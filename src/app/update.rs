//! The one way in which the state changes.

use super::{
    dialogs::{answers, kept, pasting, saving, sheet},
    effect::Effect,
    go,
    key::Millis,
    message::{Message, Opened},
    place::{Glyphs, Look, Place},
    press::{Press, turn},
    record::save,
    screens::{bench, hips, job, log, misfit, rack, readings, taking},
    state::{
        BenchView, Dialog, Entry, Field, HipsView, LogView, NamedChange, OpenJob, Prompt, Question,
        RackView, Spot, State,
    },
};
use crate::domain::measure::shown;

/// Changes the state by what happened and says what is to be done outside.
pub fn update(state: &mut State, message: Message) -> Vec<Effect> {
    match message {
        Message::Pressed(press, at) => {
            let field = state.field.clone();
            let is_held = state.held_for(at).is_some();
            pressed(state, press, at);
            readings::ask_of_read_again(state);
            saving::refuse_changes(state, field.as_ref());
            if press == Press::Confirm {
                state.last_confirm = Some(at);
                if !is_held {
                    state.last_done = Some(at);
                }
            }
        }
        Message::Pasted(text) => pasting::pasted(state, &text),
        Message::Shown(size) => state.size = size,
        Message::Opened(opened) => opened_job(state, *opened),
        Message::NotOpened(why) => {
            state.taking_over = false;
            state.complain(why);
        }
        Message::Saved(change) => saving::saved(state, change),
        Message::NotSaved(change, why) => saving::not_saved(state, change, why),
        Message::Rescued(change, path) => saving::rescued(state, change, path),
        Message::Unconfirmed => state.complain(saving::UNCONFIRMED),
        Message::Reread(job) => saving::reread(state, *job),
        Message::Freed(is_free) => saving::freed(state, is_free),
        Message::ChangedOutside => saving::changed_outside(state),
        Message::FileGone => saving::gone(state),
        Message::KeptListed(states) => kept::listed(state, states),
        Message::KeptRead(job) => kept::read(state, *job),
        Message::SavedElsewhere(path, change) => saving::saved_elsewhere(state, path, change),
        Message::NotSavedElsewhere(text, why) => {
            state.stay(Dialog::prompt(Prompt::SaveElsewhere, text), why);
        }
        Message::NoCopy(why) => state.complain(format!(
            "no version was kept of what was there before: {why}"
        )),
        Message::RackRead(offcuts) => rack::bring(state, offcuts),
        Message::OursKept(path) => {
            let path = shown(&path.to_string_lossy());
            state.say(format!(
                "what was on the screen before is kept in \"{path}\""
            ));
        }
        Message::ReadingsTaken(taken) => taking::taken(state, *taken),
        Message::ReadingsNotTaken(path, why) => taking::not_taken(state, &path, why),
        Message::SameFigures(path, what) => taking::ask_about_same(state, path, what),
        Message::SheetWritten(path) => {
            state.say(format!("sheet written: {}", shown(&path.to_string_lossy())))
        }
        Message::SheetNotWritten { path, edge, why } => {
            sheet::not_written(state, &path, edge, why);
        }
        Message::PreferencesRead(preferences) => state.preferences = preferences,
    }
    std::mem::take(&mut state.orders)
}

fn pressed(state: &mut State, press: Press, at: Millis) {
    if press.takes_away() {
        let before = state.last_final.replace((press, at));
        let held =
            before.is_some_and(|(last, when)| last == press && at.since(when) < state.hold_ms);
        if held {
            return;
        }
    }
    state.notice = None;
    let odd = kept::is_odd(state.dialog.as_ref());
    match press {
        Press::Quit => saving::quit(state),
        Press::Go(_) if odd => {}
        Press::Go(place) => go::to_place(state, place),
        Press::NumLockOff => state.complain("NumLock is off: press NumLock for digits"),
        _ => {
            let leads_to = match state.dialog.take() {
                Some(dialog) => answers::pressed(state, dialog, press),
                None if state.is_typing() => {
                    in_field(state, press);
                    None
                }
                None => at_a_place(state, press, at),
            };
            if let Some(spot) = leads_to {
                go::to(state, spot);
                go::arrive(state);
            }
        }
    }
}

/// A key while nothing stands in front of the place; says where it leads.
fn at_a_place(state: &mut State, press: Press, at: Millis) -> Option<Spot> {
    match press {
        Press::Undo => undo(state),
        Press::Redo => redo(state),
        Press::Help => state.dialog = Some(Dialog::Help { scroll: 0 }),
        Press::Cautions => state.dialog = Some(Dialog::Cautions),
        Press::ChangeLook => {
            turn(&mut state.preferences.look, [Look::Sun, Look::Dark]);
            state.order_preferences();
        }
        Press::ChangeGlyphs => {
            let glyphs = &mut state.preferences.glyphs;
            turn(glyphs, [Glyphs::Blocks, Glyphs::Ascii]);
            state.order_preferences();
        }
        Press::NextMisfit => return misfit::next(state),
        Press::Find if state.open.is_some() => state.ask(Prompt::Find, ""),
        Press::Find => {}
        Press::SaveAgain => saving::again(state),
        Press::WriteSheet => sheet::ask_where(state),
        Press::SaveElsewhere => saving::ask_where(state),
        _ => match state.place {
            Place::Hips => return hips::pressed(state, press),
            Place::Log => log::pressed(state, press),
            Place::Bench => bench::pressed(state, press, at),
            Place::Rack => rack::pressed(state, press),
            // Held, the key would turn a choice over and over.
            Place::Job if press == Press::Confirm && state.held_for(at).is_some() => {}
            Place::Job => job::pressed(state, press),
        },
    }
    None
}

fn in_field(state: &mut State, press: Press) {
    let Some(mut field) = state.field.take() else {
        return;
    };
    match press {
        Press::Type(c) => field.push(c),
        // An empty field stays: a held key must not run on into undo.
        Press::Erase => {
            field.text.pop();
        }
        Press::EraseAll => field.text.clear(),
        Press::Undo => return undo(state),
        Press::Redo => return redo(state),
        Press::Help => state.dialog = Some(Dialog::Help { scroll: 0 }),
        Press::Back => return,
        Press::Confirm => match accept(state, &field) {
            Ok(()) => return,
            Err(why) => state.complain(why),
        },
        _ => {}
    }
    state.field = Some(field);
}

fn accept(state: &mut State, field: &Field) -> Result<(), String> {
    let job = state.job().ok_or("no job is open")?;
    match field.entry(&job.settings)? {
        Entry::Course(figure, at, reading) => readings::accept(state, figure, at, reading),
        Entry::Setting(setting, changed) => job::typed(state, setting, *changed),
        Entry::Correction(edge, by) => bench::accept_correction(state, edge, by),
    }
    Ok(())
}

fn opened_job(state: &mut State, opened: Opened) {
    let (odd, later) = (opened.odd.clone(), opened.later.clone());
    let read_only = opened.read_only.clone();
    state.preferences.opened(opened.path.clone());
    // Answers about the job before are never taken for this one's.
    let first = state.open.as_ref().map_or(0, |open| open.change() + 1);
    let is_same = |open: &OpenJob| open.path == opened.path;
    let stays = std::mem::take(&mut state.taking_over) && odd.is_none();
    let stays = stays && state.open.as_ref().is_some_and(is_same);
    let before = state.open.take().map(|open| open.path);
    let before = before.filter(|before| *before != opened.path);
    state.open = Some(OpenJob::new(opened, first));
    state.leaving = false;
    state.field = None;
    let odd = odd.map(|why| Question::OpenedOdd { why, before });
    state.dialog = odd.or(later.map(Question::LaterWork)).map(Dialog::Question);
    if stays {
        // The very job that was looked at: whoever works on it now is where it is.
        go::keep_selections_within(state);
    } else {
        state.log = LogView::default();
        state.bench = BenchView::default();
        state.hips = HipsView::default();
        state.rack = RackView::default();
        go::to_opened(state);
    }
    let is_cut = state.job().is_some_and(|job| job.history().is_cut());
    match read_only {
        Some(why) => state.complain(why),
        None if stays => state.say("open for work"),
        None if is_cut => {
            state.complain("undo begins here: what was changed before no longer fits this file");
        }
        None => {
            if let Some(words) = state.open.as_ref().and_then(OpenJob::several_begun) {
                state.say(words);
            }
        }
    }
    state.order_preferences();
}

fn undo(state: &mut State) {
    let change = state.open.as_mut().and_then(OpenJob::undo);
    changed_back(state, change, "taken back", "nothing left to take back");
}

fn redo(state: &mut State) {
    let change = state.open.as_mut().and_then(OpenJob::redo);
    changed_back(state, change, "done again", "nothing left to do again");
}

/// Goes to where a change was taken back or done again, and says so.
fn changed_back(state: &mut State, change: Option<NamedChange>, said: &str, none: &str) {
    let Some(change) = change else {
        state.complain(none);
        return;
    };
    // A figure half typed was for another moment.
    state.field = None;
    go::to(state, change.spot);
    state.say(format!("{said}: {}", change.words));
    save(state);
}
