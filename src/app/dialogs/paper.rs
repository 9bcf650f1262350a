//! Writing the cut sheet from within the screen: where, and what came of it.
//!
//! The end of the file's name says the form; making and writing it is the
//! shell's matter.

use super::answers::stay;
use crate::app::effect::Effect;
use crate::app::state::{Dialog, State};
use std::path::{Path, PathBuf};

/// Asks where the sheet is to go; beside the job, as a page to print, where
/// nothing else is typed.
pub fn ask_where(state: &mut State) -> Vec<Effect> {
    match &state.open {
        Some(open) => {
            let usual = open.path.with_extension("html");
            let text = usual.to_string_lossy().into_owned();
            state.dialog = Some(Dialog::WriteSheet { text });
        }
        None => state.complain("no job is open"),
    }
    Vec::new()
}

/// A path was typed; one without a folder is beside the job.
pub fn path_typed(state: &mut State, text: String) -> Vec<Effect> {
    let Some(open) = &state.open else {
        return Vec::new();
    };
    if text.trim().is_empty() {
        let why = "expected a file to write the sheet to".to_owned();
        stay(state, Dialog::WriteSheet { text }, why);
        return Vec::new();
    }
    let folder = open.path.parent().unwrap_or(Path::new(""));
    let path = folder.join(text.trim());
    let (_, job, _) = open.to_save();
    vec![Effect::WriteSheet { path, job }]
}

/// It is written.
pub fn written(state: &mut State, path: &Path) {
    state.say(format!("sheet written: {}", path.display()));
}

/// It is not; another path may be.
pub fn not_written(state: &mut State, path: PathBuf, why: String) {
    let text = path.to_string_lossy().into_owned();
    stay(state, Dialog::WriteSheet { text }, why);
}
