//! What a course of the Log comes to, in few words.

use crate::app::state::OpenJob;
use crate::domain::{
    bench::Done,
    cutting::Note,
    log::{Course, Edge},
    tape::print,
};
use crate::ui::pen::columns;

/// What a course comes to: its pieces and how far they are, or why it has none;
/// what matters most first.
pub(super) fn says(open: &OpenJob, edge: &Edge, course: &Course) -> Vec<String> {
    let division = open.job().settings.division;
    let empty = open
        .list
        .empty
        .iter()
        .find(|empty| empty.edge == edge.id && empty.course == course.number);
    if let Some(empty) = empty {
        return vec![empty.why.words(division)];
    }
    let pieces = match open.pieces_of_course(edge.id, course.number).len() {
        1 if course.to.is_some() => "board to board".to_owned(),
        1 => "1 piece".to_owned(),
        count => format!("{count} pieces"),
    };
    let mut words = vec![pieces];
    // What was begun at the bench: a reading that is retyped reaches steel.
    for piece in open.pieces_of_course(edge.id, course.number) {
        let done = open.progress.done(piece.id).map(Done::word);
        let done = done.map(str::to_owned);
        words.extend(done.filter(|done| !words.contains(done)));
    }
    let height = course.height;
    words.extend(height.map(|height| format!("high {}", print(height.length(), division))));
    for (_, note) in open.notes_of_course(edge.id, course.number) {
        let short = note.short().to_owned();
        if !words.contains(&short) {
            words.push(short);
        }
    }
    // The gravest first: the others may have no room.
    words.sort_by_key(|word| *word != Note::MISFIT_SHORT);
    words
}

/// As many of `words` as there is room for, and how many there are more: the
/// selected course says them all below.
pub(super) fn as_many(words: &[String], room: u16) -> String {
    let shown = (1..=words.len()).rev().find_map(|count| {
        let shown = words.get(..count)?.join(", ");
        let line = match words.len() - count {
            0 => shown,
            1 => format!("{shown} +1 note"),
            more => format!("{shown} +{more} notes"),
        };
        (columns(&line) <= room).then_some(line)
    });
    shown.unwrap_or_else(|| words.first().cloned().unwrap_or_default())
}
