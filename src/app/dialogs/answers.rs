//! Keys in a dialog: choosing, typing a name, saying yes or going back.

use super::{
    choosing::{self, Choice},
    edge_changes,
};
use crate::app::{
    effect::Effect,
    place::Place,
    press::Press,
    screens::{bench, doubt, log, rack, readings},
    state::{Dialog, Saved, State, name_in},
};
use crate::domain::measure::{Name, cleaned};
use crate::domain::settings::Settings;
use std::path::{Path, PathBuf};

/// A key while `dialog` stands in front of the place.
pub fn pressed(state: &mut State, mut dialog: Dialog, press: Press) -> Vec<Effect> {
    match press {
        Press::Back => return closed(state, &dialog),
        Press::Type(c) if dialog.has_field() => dialog.push(c),
        Press::Erase => {
            if let Some(text) = dialog.text_mut() {
                text.pop();
            }
        }
        Press::Move(direction) => choosing::move_in(&mut dialog, direction, state),
        Press::Type(c) => return by_digit(state, dialog, c),
        Press::Yes => return yes(state, dialog),
        Press::RunsOut => {
            if let Dialog::RunsOutAsk { end, .. } = dialog {
                readings::ask_runs_out(state, end);
                return Vec::new();
            }
        }
        Press::SaveAgain => return crate::app::update::save(state),
        Press::SaveElsewhere => return super::safekeeping::ask_where(state),
        Press::OpenJob if dialog == Dialog::ChangedOutside => {
            return super::safekeeping::take_theirs(state);
        }
        Press::Confirm => return confirm(state, dialog),
        _ => {}
    }
    state.dialog = Some(dialog);
    Vec::new()
}

fn closed(state: &mut State, dialog: &Dialog) -> Vec<Effect> {
    match dialog {
        Dialog::Cautions => state.bench.cautions_read = true,
        // Leave it as it was: the 0 goes again.
        Dialog::RunsOutAsk {
            edge,
            course,
            end,
            before,
        } => {
            return readings::put_back(state, *edge, *course, *end, *before);
        }
        // Nothing was changed on the disk, and nothing will be.
        Dialog::OpenedOdd { before, .. } => {
            state.open = None;
            state.place = Place::Job;
            // Nobody here works on it any more.
            let back = before.clone().map(Effect::OpenJob);
            return std::iter::once(Effect::LetGo).chain(back).collect();
        }
        _ => {}
    }
    Vec::new()
}

fn by_digit(state: &mut State, dialog: Dialog, digit: char) -> Vec<Effect> {
    match choosing::by_digit(&dialog, digit) {
        Some(Choice::Taken(chosen)) => return confirm(state, chosen),
        Some(Choice::Sense(edge, sense)) => bench::ask_correction(state, edge, sense),
        None => state.dialog = Some(dialog),
    }
    Vec::new()
}

fn yes(state: &mut State, dialog: Dialog) -> Vec<Effect> {
    match dialog {
        Dialog::DeleteEdge(edge) => edge_changes::delete(state, edge),
        Dialog::QuitUnsaved => vec![Effect::Quit],
        Dialog::ChangedOutside => super::safekeeping::keep_ours(state),
        // From here on the file is as it is on the screen.
        Dialog::OpenedOdd { .. } => crate::app::update::save(state),
        other => {
            state.dialog = Some(other);
            Vec::new()
        }
    }
}

// Over 60 lines: an arm a dialog.
fn confirm(state: &mut State, dialog: Dialog) -> Vec<Effect> {
    match dialog {
        Dialog::Help { .. } => {}
        Dialog::Cautions => state.bench.cautions_read = true,
        Dialog::RunsOutAsk { .. } => log::go_to_next_reading(state),
        Dialog::ChooseKind(kind) => {
            state.dialog = Some(Dialog::ChooseHand {
                edge: None,
                kind,
                hand: None,
            });
        }
        Dialog::ChooseHand {
            edge,
            kind,
            hand: Some(hand),
        } => return edge_changes::hand_chosen(state, edge, kind, hand),
        unchosen @ Dialog::ChooseHand { .. } => {
            let why = "4 if it is at the LEFT end of its courses, 6 if at the RIGHT end";
            stay(state, unchosen, why.to_owned());
        }
        waiting @ Dialog::Correct(_) => {
            let why = "- if the pieces came out too long, + if too short";
            stay(state, waiting, why.to_owned());
        }
        Dialog::NameNew {
            kind,
            hand,
            usual,
            text,
        } => {
            let name = Name::or(&text, &usual);
            return edge_changes::add(state, kind, hand, name);
        }
        Dialog::Rename { edge, text } => match name_in(&text) {
            Ok(name) => return edge_changes::rename(state, edge, name),
            Err(error) => stay(state, Dialog::Rename { edge, text }, error),
        },
        Dialog::Details { edge, row, text } => {
            return edge_changes::detail_typed(state, edge, row, text);
        }
        leaving @ (Dialog::NewJob { .. } | Dialog::Duplicate { .. } | Dialog::OpenJob { .. })
            if !may_leave(state) =>
        {
            state.dialog = Some(leaving);
        }
        Dialog::NewJob { text } => match name_in(&text) {
            Ok(name) => return vec![Effect::new_job(name, settings_to_start_from(state))],
            Err(error) => stay(state, Dialog::NewJob { text }, error),
        },
        Dialog::Duplicate { text } => match name_in(&text) {
            Ok(name) => return duplicate(state, name),
            Err(error) => stay(state, Dialog::Duplicate { text }, error),
        },
        Dialog::Doubt {
            edge,
            course,
            choice,
        } => return doubt::take(state, edge, course, choice),
        Dialog::Find { text } => find(state, text),
        unchosen @ Dialog::FoundWhole(None) => {
            let why = "4 if its LEFT edge is whole, 6 if the RIGHT one is";
            stay(state, unchosen, why.to_owned());
        }
        Dialog::FoundWhole(Some(whole)) => {
            let text = String::new();
            state.dialog = Some(Dialog::FoundWidths { whole, text });
        }
        // A number pad has no semicolon: Enter goes on to the other width.
        Dialog::FoundWidths { whole, text } if !text.trim().is_empty() && !text.contains(';') => {
            let text = format!("{}; ", text.trim());
            state.dialog = Some(Dialog::FoundWidths { whole, text });
            state.say("now its width at the back");
        }
        Dialog::FoundWidths { whole, text } => match rack::found(state, whole, &text) {
            Ok((offcut, lot)) => return rack::add_found(state, offcut, lot),
            Err(error) => stay(state, Dialog::FoundWidths { whole, text }, error),
        },
        Dialog::OpenJob { choice, text } => match path_in(state, choice, &text) {
            Some(path) => return vec![Effect::OpenJob(path)],
            None => ask_for_path(state, Dialog::OpenJob { choice, text }),
        },
        Dialog::WriteSheet { text } => return super::paper::path_typed(state, text),
        Dialog::SaveElsewhere { text } => return super::safekeeping::path_typed(state, text),
        Dialog::BringRack { choice, text } => match path_in(state, choice, &text) {
            Some(path) if is_open(state, &path) => {
                let why =
                    "that is this very job, expected another one: its offcuts lie here already";
                stay(state, Dialog::BringRack { choice, text }, why.to_owned());
            }
            Some(path) => return vec![Effect::ReadRack(path)],
            None => ask_for_path(state, Dialog::BringRack { choice, text }),
        },
        // These want another key than the one that brought them up.
        waiting @ (Dialog::DeleteEdge(_)
        | Dialog::QuitUnsaved
        | Dialog::ChangedOutside
        | Dialog::OpenedOdd { .. }) => {
            state.dialog = Some(waiting);
        }
    }
    Vec::new()
}

/// Shows a dialog once more, with what is wrong with the answer.
pub fn stay(state: &mut State, dialog: Dialog, error: String) {
    state.dialog = Some(dialog);
    state.complain(error);
}

/// A new job starts from the present one's settings: the same crew, the same
/// bench, mostly the same panel.
fn settings_to_start_from(state: &State) -> Settings {
    state
        .open
        .as_ref()
        .map_or_else(Settings::default, |open| open.job().settings)
}

fn duplicate(state: &State, name: Name) -> Vec<Effect> {
    let Some(open) = &state.open else {
        return Vec::new();
    };
    let mut job = open.job().clone();
    job.name = name.clone();
    vec![Effect::CreateJob {
        name,
        path: None,
        job: Box::new(job),
    }]
}

fn is_open(state: &State, path: &Path) -> bool {
    state.open.as_ref().is_some_and(|open| open.path == path)
}

/// Whether the open job may be left for another one: not while its last change
/// is not on the disk.
fn may_leave(state: &mut State) -> bool {
    let why = match state.open.as_ref().map(|open| &open.saved) {
        None | Some(Saved::Yes) => return true,
        Some(Saved::Underway) => "this job is still being saved: try again in a moment",
        Some(Saved::No(_)) => "this job is NOT SAVED: k saves it again, then go on",
    };
    state.complain(why);
    false
}

/// Takes the piece that was asked for in hand.
fn find(state: &mut State, text: String) {
    let found = state
        .open
        .as_ref()
        .and_then(|open| open.labels.find(open.job(), &open.list, &text));
    match found {
        Some(piece) => {
            bench::show(state, piece);
            crate::app::update::arrive(state);
        }
        None => {
            let why = format!(
                "\"{}\" is no piece here, expected a label such as H2-5, a course such as 2-5, or a hip's name",
                cleaned(&text)
            );
            stay(state, Dialog::Find { text }, why);
        }
    }
}

/// The path that was typed, or the recent one that is selected.
fn path_in(state: &State, choice: usize, text: &str) -> Option<PathBuf> {
    let typed = text.trim();
    if typed.is_empty() {
        state.preferences.recent.get(choice).cloned()
    } else {
        Some(PathBuf::from(typed))
    }
}

fn ask_for_path(state: &mut State, dialog: Dialog) {
    stay(state, dialog, "type the path of a job file".to_owned());
}

/// Where a freshly opened job is shown.
pub fn first_place(state: &State) -> Place {
    match &state.open {
        Some(open) if !open.list.pieces.is_empty() => Place::Hips,
        Some(_) => Place::Log,
        None => Place::Job,
    }
}
