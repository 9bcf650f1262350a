//! Whether the work is on the disk, and what is asked where it is not: a save
//! that failed, a file that another program has changed, a job that may only be
//! looked at.

use crate::app::{
    effect::{Effect, OtherFile},
    go,
    message::Opened,
    record::save,
    state::{Field, OnDisk, OpenJob, Prompt, Question, State},
};
use crate::domain::{cutting::Job, measure::shown};
use std::path::PathBuf;

/// What is said once of a disk that knows no syncing of folders.
pub const UNCONFIRMED: &str = "this disk does not confirm folders: the work is saved, but a power cut in the next seconds may take the last change";

/// Why a job may only be looked at while another program has it open.
pub const IN_USE: &str =
    "reading only: another bendmark has this job open; once that is closed, k opens it for work";

/// What is said of a job once the other program has let it go.
const FREE: &str = "reading only: the other window is closed, k opens this job for work";

/// Leaves, or says why not yet.
pub fn quit(state: &mut State) {
    match state.open.as_ref().map(|open| &open.saved) {
        None | Some(OnDisk::Yes) => state.order(Effect::Quit),
        Some(OnDisk::Underway) if !state.leaving => {
            state.leaving = true;
            state.say("leaving as soon as the last change is saved");
        }
        Some(OnDisk::Underway | OnDisk::No(_)) => state.ask_question(Question::QuitUnsaved),
    }
}

/// Whether the open job may be left for another one: not while its last change
/// is not on the disk.
///
/// # Errors
/// Why not.
pub fn may_leave(state: &State) -> Result<(), String> {
    let why = match state.open.as_ref().map(|open| &open.saved) {
        None | Some(OnDisk::Yes) => return Ok(()),
        Some(OnDisk::Underway) => "this job is still being saved: try again in a moment",
        Some(OnDisk::No(_)) => "this job is NOT SAVED: k saves it again, then go on",
    };
    Err(why.to_owned())
}

/// The open job, where that was its newest change.
fn newest(state: &mut State, change: u64) -> Option<&mut OpenJob> {
    let open = state.open.as_mut();
    open.filter(|open| open.change() == change)
}

/// Everything up to `change` is on the disk.
pub fn saved(state: &mut State, change: u64) {
    let Some(open) = newest(state, change) else {
        return;
    };
    open.saved = OnDisk::Yes;
    open.rescued = None;
    if state.leaving {
        state.order(Effect::Quit);
    }
}

/// `change` could not be put on the disk.
pub fn not_saved(state: &mut State, change: u64, why: String) {
    let Some(open) = newest(state, change) else {
        return;
    };
    open.saved = OnDisk::No(why);
    open.rescued = None;
    if state.leaving {
        state.leaving = false;
        state.ask_question(Question::QuitUnsaved);
    }
}

/// What could not be saved lies in the file at `path` meanwhile.
pub fn rescued(state: &mut State, change: u64, path: PathBuf) {
    if let Some(open) = newest(state, change) {
        open.rescued = Some(path);
    }
}

/// A job that may only be looked at is shown as it stands in its file now; what
/// is selected stays so.
pub fn reread(state: &mut State, job: Job) {
    let Some(open) = &mut state.open else { return };
    if open.read_only.is_none() {
        return;
    }
    let opened = Opened {
        path: open.path.clone(),
        job,
        odd: None,
        later: None,
        read_only: open.read_only.clone(),
    };
    *open = OpenJob::new(opened, open.change() + 1);
    go::keep_selections_within(state);
}

/// The other program has let the job go, or one has it again.
pub fn freed(state: &mut State, is_free: bool) {
    let Some(open) = &mut state.open else { return };
    if open.read_only.is_none() {
        return;
    }
    open.read_only = Some(if is_free { FREE } else { IN_USE }.to_owned());
    if is_free {
        state.complain(FREE);
    }
}

/// Saves again; a job that may only be looked at is opened for work where that
/// can be.
pub fn again(state: &mut State) {
    match &state.open {
        Some(open) if open.read_only.is_some() => {
            let path = open.path.clone();
            state.taking_over = true;
            state.order(Effect::OpenJob(path));
        }
        _ => save(state),
    }
}

/// Another program has changed the file.
pub fn changed_outside(state: &mut State) {
    state.leaving = false;
    state.ask_question(Question::ChangedOutside);
}

/// The file is not there any more: it is written anew at once, or it is said why
/// that cannot be.
pub fn gone(state: &mut State) {
    let Some(open) = &mut state.open else { return };
    if open.read_only.is_some() {
        state.complain("the file of this job is gone from the disk");
        return;
    }
    state.say("the file of this job was gone from the disk: it is written anew");
    save(state);
}

/// Puts what is on the screen in the place of what another program wrote.
pub fn keep_screen(state: &mut State) {
    let Some(open) = &mut state.open else { return };
    open.saved = OnDisk::Underway;
    let mut to_save = open.to_save();
    to_save.other = OtherFile::GoesAside;
    state.say("the other program's file is kept beside it, under a name of its own");
    state.order(Effect::SaveJob(to_save));
}

/// Opens what another program wrote, and keeps what is on the screen beside it.
pub fn open_other(state: &mut State) {
    let Some(open) = &state.open else { return };
    let ours = open.to_save();
    state.order(Effect::OpenOther(ours));
}

/// Asks for another file.
pub fn ask_where(state: &mut State) {
    match &state.open {
        Some(open) => {
            let text = open.path.to_string_lossy().into_owned();
            state.ask(Prompt::SaveElsewhere, text);
        }
        None => state.complain("no job is open: n makes one, o opens one"),
    }
}

/// The path of another file was typed.
///
/// # Errors
/// Where none was.
pub fn path_typed(state: &mut State, text: &str) -> Result<(), String> {
    let Some(open) = &state.open else {
        return Ok(());
    };
    if text.trim().is_empty() {
        return Err("type the path of a file or folder".to_owned());
    }
    let (path, to_save) = (state.path_of(text), open.to_save());
    state.order(Effect::SaveElsewhere(path, to_save));
    Ok(())
}

/// The job is at `path` from now on.
pub fn saved_elsewhere(state: &mut State, path: PathBuf, change: u64) {
    let Some(open) = &mut state.open else { return };
    open.path = path.clone();
    open.read_only = None;
    state.say(format!(
        "saved in \"{}\" from now on",
        shown(&path.to_string_lossy())
    ));
    state.preferences.opened(path);
    // Leaving may be next: the new place is remembered before.
    state.order_preferences();
    saved(state, change);
}

/// After a key: says that a job may only be looked at, where the key would have
/// changed it. [`OpenJob`] has not let it.
pub fn refuse_changes(state: &mut State, before: Option<&Field>) {
    let Some(open) = &mut state.open else { return };
    let refused = open.take_refused();
    let Some(why) = open.read_only.clone() else {
        return;
    };
    // Nobody types a figure first to be told afterwards.
    let begun = state.field.is_some() && state.field.as_ref() != before;
    if refused || begun {
        state.field = None;
        state.complain(why);
    }
}
