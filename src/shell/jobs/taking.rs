//! Readings taken from a spreadsheet's file from within the screen.

use crate::app::message::{Message, ReadingsTaken};
use crate::domain::{cutting::Job, measure::cleaned};
use crate::storage::{
    files::RealFs,
    keeping::load,
    readings::{Imported, import},
};
use std::path::PathBuf;

/// `job` with the readings in the file at `path`.
pub fn take(path: PathBuf, job: &Job, same_figures: bool) -> Message {
    let read = load::read(&RealFs, &path).map_err(|error| error.to_string());
    let imported = read.and_then(|csv| {
        let name = cleaned(&path.file_name().unwrap_or_default().to_string_lossy());
        // The first bad row stands for all on the one line there is.
        import(job, &csv).map_err(|error| {
            let text = error.to_string();
            let lines: Vec<&str> = text.lines().take(2).collect();
            format!("\"{name}\": {}", lines.join("; "))
        })
    });
    let imported = match imported {
        Ok(imported) => imported,
        Err(why) => return Message::ReadingsNotTaken(path, why),
    };
    if !same_figures && !imported.same_figures.is_empty() {
        let what = imported.same_figures.iter();
        let what: Vec<_> = what.map(ToString::to_string).collect();
        return Message::SameFigures(path, what.join(" "));
    }
    Message::ReadingsTaken(Box::new(ReadingsTaken {
        said: words(&imported),
        path,
        job: imported.job,
    }))
}

fn words(imported: &Imported) -> String {
    let counts = [
        (imported.added, "courses added"),
        (imported.changed, "courses changed"),
        (imported.new_edges, "new edges"),
        (imported.filled_in, "edges filled in"),
    ];
    let counts = counts.into_iter().filter(|(count, _)| *count > 0);
    let words: Vec<_> = counts
        .map(|(count, what)| format!("{what}: {count}"))
        .collect();
    words.join(", ")
}
