//! Writing the cut sheet from within the screen: where, and what came of it.
//!
//! The end of the file's name says the form; making and writing it is the
//! shell's matter.

use crate::app::effect::Effect;
use crate::app::state::{Dialog, Prompt, State};
use std::path::Path;

/// Asks where the sheet is to go; beside the job, as a page to print, where
/// nothing else is typed.
pub fn ask_where(state: &mut State) {
    match &state.open {
        Some(open) => {
            let usual = open.path.with_extension("html");
            state.ask(Prompt::WriteSheet, usual.to_string_lossy().into_owned());
        }
        None => state.complain("no job is open"),
    }
}

/// A path was typed; one without a folder is beside the job.
///
/// # Errors
/// Where none was typed.
pub fn path_typed(state: &mut State, text: &str) -> Result<(), String> {
    let Some(open) = &state.open else {
        return Ok(());
    };
    if text.trim().is_empty() {
        return Err("expected a file to write the sheet to".to_owned());
    }
    let folder = open.path.parent().unwrap_or(Path::new(""));
    let path = folder.join(text.trim());
    let job = open.to_save().job;
    state.order(Effect::WriteSheet { path, job });
    Ok(())
}

/// It is not written; another path may be.
pub fn not_written(state: &mut State, path: &Path, why: String) {
    let text = path.to_string_lossy().into_owned();
    state.stay(Dialog::prompt(Prompt::WriteSheet, text), why);
}
