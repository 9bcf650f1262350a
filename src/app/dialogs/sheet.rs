//! Writing the cut sheet from within the screen: of what, where, and what came of
//! it.
//!
//! The end of the file's name says the form; making and writing it is the
//! shell's matter.

use crate::app::{
    effect::Effect,
    state::{Dialog, Prompt, State},
};
use crate::domain::log::EdgeId;
use std::path::Path;

/// Asks where the sheet of the whole job is to go; beside the job, as a page to
/// print, where nothing else is typed.
pub fn ask_where(state: &mut State) {
    match usual(state, None) {
        Some(usual) => state.ask(Prompt::WriteSheet(None), usual),
        None => state.complain("no job is open"),
    }
}

/// From all edges to the selected one, and back; a name that was typed stays.
pub fn turn(state: &mut State, dialog: Dialog) {
    let (offers, now, text) = match &dialog {
        Dialog::Prompt {
            what: Prompt::WriteSheet(edge),
            text,
            ..
        } => (usual(state, *edge), *edge, text.clone()),
        _ => {
            state.dialog = Some(dialog);
            return;
        }
    };
    let to = match now {
        Some(_) => None,
        None => state.edge_to_write(),
    };
    if offers.as_ref() == Some(&text) {
        state.ask(Prompt::WriteSheet(to), usual(state, to).unwrap_or(text));
    } else {
        state.ask_further(Prompt::WriteSheet(to), text);
    }
}

/// The file offered for the sheet of one edge or of all.
fn usual(state: &State, edge: Option<EdgeId>) -> Option<String> {
    let open = state.open.as_ref()?;
    let mut usual = open.path.with_extension("html");
    if let Some(edge) = edge {
        let stem = open.path.file_stem().unwrap_or_default().to_string_lossy();
        usual.set_file_name(format!("{stem}-{}.html", open.labels.edge(edge)));
    }
    Some(usual.to_string_lossy().into_owned())
}

/// A path was typed; one without a folder is beside the job.
///
/// # Errors
/// Where none was typed.
pub fn path_typed(state: &mut State, text: &str, edge: Option<EdgeId>) -> Result<(), String> {
    let typed = state.path_of(text);
    let Some(open) = &mut state.open else {
        return Ok(());
    };
    if text.trim().is_empty() {
        return Err("expected a file to write the sheet to".to_owned());
    }
    let folder = open.path.parent().unwrap_or(Path::new(""));
    let path = folder.join(typed);
    // The paper and the screen name the same steel.
    open.settle();
    let job = open.to_save().job;
    state.order(Effect::WriteSheet { path, job, edge });
    Ok(())
}

/// It is not written; another path may be.
pub fn not_written(state: &mut State, path: &Path, edge: Option<EdgeId>, why: String) {
    let text = path.to_string_lossy().into_owned();
    state.stay(Dialog::prompt(Prompt::WriteSheet(edge), text), why);
}
