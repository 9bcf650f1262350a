//! Writing the cut sheet from within the screen: of what, where, and what came of
//! it.
//!
//! The end of the file's name says the form; making and writing it is the
//! shell's matter.

use crate::app::{
    effect::Effect,
    place::Place,
    state::{Choice, Dialog, Prompt, State},
};
use crate::domain::log::EdgeId;
use std::path::Path;

/// Asks whether it is the sheet of the edge that is selected, or of all; with no
/// other edge there is nothing to ask.
pub fn ask_of_what(state: &mut State) {
    let several = state.job().is_some_and(|job| job.edges().len() > 1);
    match edge_here(state).filter(|_| several) {
        Some(edge) => state.ask_choice(Choice::SheetOf(edge), Some(1)),
        None => ask_where(state, None),
    }
}

fn edge_here(state: &State) -> Option<EdgeId> {
    match state.place {
        Place::Hips => state.edge_in_hips(),
        Place::Log => state.edge_in_log().map(|edge| edge.id),
        Place::Bench => state.piece_in_hand().map(|piece| piece.id.edge),
        Place::Rack | Place::Job => None,
    }
}

/// Asks where the sheet is to go; beside the job, as a page to print, where
/// nothing else is typed.
pub fn ask_where(state: &mut State, edge: Option<EdgeId>) {
    match &state.open {
        Some(open) => {
            let mut usual = open.path.with_extension("html");
            if let Some(edge) = edge {
                let stem = open.path.file_stem().unwrap_or_default().to_string_lossy();
                usual.set_file_name(format!("{stem}-{}.html", open.labels.edge(edge)));
            }
            let usual = usual.to_string_lossy().into_owned();
            state.ask(Prompt::WriteSheet(edge), usual);
        }
        None => state.complain("no job is open"),
    }
}

/// A path was typed; one without a folder is beside the job.
///
/// # Errors
/// Where none was typed.
pub fn path_typed(state: &mut State, text: &str, edge: Option<EdgeId>) -> Result<(), String> {
    let Some(open) = &mut state.open else {
        return Ok(());
    };
    if text.trim().is_empty() {
        return Err("expected a file to write the sheet to".to_owned());
    }
    let folder = open.path.parent().unwrap_or(Path::new(""));
    let path = folder.join(text.trim());
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
