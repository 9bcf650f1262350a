//! Taking readings from a spreadsheet's file from within the screen: which one,
//! and what came of it.
//!
//! Reading the file and settling it with the log is the storage's matter; the
//! whole of it is one change, to be undone as one.

use crate::app::{
    effect::Effect,
    go,
    message::ReadingsTaken,
    record::edit_much,
    state::{Dialog, Prompt, Question, ReadingAt, Spot, State},
};
use crate::domain::{
    cutting::{EdgeDoubt, Job},
    log::TwoReadings,
    measure::shown,
};
use std::path::{Path, PathBuf};

/// Asks for the file, and offers the one taken last where this run of the program
/// took one: of others nobody knows whether they are there.
pub fn ask_which(state: &mut State) {
    let Some(open) = &state.open else { return };
    if let Some(why) = open.read_only.clone() {
        state.complain(why);
        return;
    }
    let last = open.readings.as_ref();
    let last = last.map_or_else(String::new, |path| path.to_string_lossy().into_owned());
    state.ask(Prompt::Readings, last);
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
        return Err("expected a CSV file with readings".to_owned());
    }
    let folder = open.path.parent().unwrap_or(Path::new(""));
    let path = folder.join(state.path_of(text));
    take(state, path, false);
    Ok(())
}

/// Takes the file at `path`, where `same_figures` also edges that may be
/// another one under a second name.
pub fn take(state: &mut State, path: PathBuf, same_figures: bool) {
    let Some(open) = &state.open else { return };
    let job = open.to_save().job;
    state.order(Effect::TakeReadings {
        path,
        job,
        same_figures,
    });
}

/// The file was read and settled with the log.
pub fn taken(state: &mut State, taken: ReadingsTaken) {
    let ReadingsTaken { path, job, said } = taken;
    let Some(open) = &mut state.open else { return };
    open.readings = Some(path.clone());
    let name = path.file_name().unwrap_or_default();
    let name = shown(&name.to_string_lossy());
    let words = format!("readings from \"{name}\"");
    let (spot, before) = (spot(state, &job), open_doubts(state));
    if edit_much(state, words.clone(), spot, |ours| *ours = job) {
        go::to(state, spot);
    }
    let Some(open) = &state.open else { return };
    let new = open.doubts.iter().filter(|doubt| !before.contains(doubt));
    let counts = [
        (new.count(), "doubtful now"),
        (open.list.no_longer_fit(), "marked that no longer fit"),
        (open.two.len(), "two readings (m goes to each)"),
    ];
    let counts = counts.into_iter().filter(|(count, _)| *count > 0);
    let mut parts: Vec<String> = (!said.is_empty()).then_some(said).into_iter().collect();
    parts.extend(counts.map(|(count, what)| format!("{what}: {count}")));
    if parts.is_empty() {
        parts.push("nothing new".to_owned());
    }
    let said = format!("{words}: {}", parts.join("; "));
    match open.two.len() {
        0 => state.say(said),
        _ => state.complain(said),
    }
}

fn open_doubts(state: &State) -> Vec<EdgeDoubt> {
    let open = state.open.as_ref();
    open.map_or_else(Vec::new, |open| open.doubts.clone())
}

/// Where to look after it: at the first two readings, else where one was.
fn spot(state: &State, job: &Job) -> Spot {
    let two = job.edges().iter().find_map(|edge| {
        let TwoReadings { course, figure, .. } = edge.two_readings().next()?;
        Some(ReadingAt {
            edge: edge.id,
            course,
            end: figure.end(),
        })
    });
    let here = state.reading_in_log();
    let first = job.edges().first().map(|edge| Spot::Edge(edge.id));
    two.or(here)
        .map(Spot::Reading)
        .or(first)
        .unwrap_or(Spot::Rack)
}

/// It was not taken; another path may be.
pub fn not_taken(state: &mut State, path: &Path, why: String) {
    let text = path.to_string_lossy().into_owned();
    state.stay(Dialog::prompt(Prompt::Readings, text), why);
}

/// Edges of it have the same figures as another one.
pub fn ask_about_same(state: &mut State, path: PathBuf, what: String) {
    state.ask_question(Question::SameFigures { path, what });
}
