//! Whether the work is on the disk, and what is asked where it is not: a save
//! that failed, a file that another program has changed, a job that may only be
//! looked at.

use super::answers::stay;
use crate::app::effect::Effect;
use crate::app::state::{Dialog, Field, Saved, State};
use std::path::PathBuf;

/// Everything up to `change` is on the disk.
pub fn saved(state: &mut State, change: u64) -> Vec<Effect> {
    if let Some(open) = state.open.as_mut()
        && open.change() == change
    {
        open.saved = Saved::Yes;
        if state.leaving {
            return vec![Effect::Quit];
        }
    }
    Vec::new()
}

/// `change` could not be put on the disk.
pub fn not_saved(state: &mut State, change: u64, why: String) -> Vec<Effect> {
    if let Some(open) = state.open.as_mut()
        && open.change() == change
    {
        open.saved = Saved::No(why);
        if state.leaving {
            state.leaving = false;
            state.dialog = Some(Dialog::QuitUnsaved);
        }
    }
    Vec::new()
}

/// Another program has changed the file.
pub fn changed_outside(state: &mut State) -> Vec<Effect> {
    state.leaving = false;
    state.dialog = Some(Dialog::ChangedOutside);
    Vec::new()
}

/// Puts what is on the screen in the place of what another program wrote.
pub fn keep_ours(state: &mut State) -> Vec<Effect> {
    let Some(open) = state.open.as_mut() else {
        return Vec::new();
    };
    open.saved = Saved::Underway;
    let (path, job, change) = open.to_save();
    state.say("the other program's file is kept beside it, under a name of its own");
    vec![Effect::SaveOver { path, job, change }]
}

/// Opens what another program wrote, and keeps what is on the screen beside it.
pub fn take_theirs(state: &mut State) -> Vec<Effect> {
    let Some(open) = &state.open else {
        return Vec::new();
    };
    let (path, job, _) = open.to_save();
    vec![Effect::OpenTheirs { path, job }]
}

/// Asks for another file.
pub fn ask_where(state: &mut State) -> Vec<Effect> {
    match &state.open {
        Some(open) => {
            let text = open.path.to_string_lossy().into_owned();
            state.dialog = Some(Dialog::SaveElsewhere { text });
        }
        None => state.complain("no job is open: n makes one, o opens one"),
    }
    Vec::new()
}

/// The path of another file was typed.
pub fn path_typed(state: &mut State, text: String) -> Vec<Effect> {
    let Some(open) = &state.open else {
        return Vec::new();
    };
    if text.trim().is_empty() {
        let why = "type the path of a file or folder".to_owned();
        stay(state, Dialog::SaveElsewhere { text }, why);
        return Vec::new();
    }
    let (_, job, change) = open.to_save();
    let path = PathBuf::from(text.trim());
    vec![Effect::SaveElsewhere { path, job, change }]
}

/// The job is at `path` from now on.
pub fn moved(state: &mut State, path: PathBuf, change: u64) -> Vec<Effect> {
    let Some(open) = state.open.as_mut() else {
        return Vec::new();
    };
    open.path = path.clone();
    open.read_only = None;
    state.say(format!("saved in \"{}\" from now on", path.display()));
    state.preferences.opened(path);
    // Leaving may be next: the new place is remembered before.
    let mut effects = vec![Effect::SavePreferences(state.preferences.clone())];
    effects.extend(saved(state, change));
    effects
}

/// The job could not be put at the path that was typed.
pub fn not_moved(state: &mut State, text: String, why: String) -> Vec<Effect> {
    stay(state, Dialog::SaveElsewhere { text }, why);
    Vec::new()
}

/// After a key: says that a job may only be looked at, where the key would have
/// changed it. [`crate::app::state::OpenJob`] has not let it.
pub fn refuse_changes(state: &mut State, before: Option<&Field>, effects: &mut Vec<Effect>) {
    let Some(open) = state.open.as_mut() else {
        return;
    };
    let refused = open.take_refused();
    let Some(why) = open.read_only.clone() else {
        return;
    };
    // Nobody types a figure first to be told afterwards.
    let begun = state.field.is_some() && state.field.as_ref() != before;
    if refused || begun {
        state.field = None;
        state.complain(why);
        effects.retain(|effect| !matches!(effect, Effect::SaveJob { .. }));
    }
}
