//! What a course of the Log comes to, in few words.

use crate::app::state::OpenJob;
use crate::domain::{
    bench::Done,
    cutting::{EmptyCourse, Note},
    log::{Course, Edge},
    piece::CourseTrouble,
    tape::{print, print_with_unit},
};
use crate::ui::pen::columns;

/// Which key parts a course that is too wide for one panel.
const TOO_WIDE: [&str; 3] = [
    "too wide: l strikes a line",
    "too wide: press l",
    "too wide: l",
];

/// What stands in the course's row, in so many columns as there are.
pub(super) fn in_row(open: &OpenJob, edge: &Edge, course: &Course, room: u16) -> String {
    let Some(empty) = empty(open, edge, course) else {
        return as_many(&says(open, edge, course), room);
    };
    if !matches!(empty.why, CourseTrouble::TooWide { .. }) {
        let whole = empty.why.words(open.job().settings.division);
        return match columns(&whole) <= room {
            true => whole,
            false => empty.briefly().to_owned(),
        };
    }
    let fits = TOO_WIDE.into_iter().find(|words| columns(words) <= room);
    fits.unwrap_or("too wide").to_owned()
}

/// Why a course that is read has no piece, in a whole sentence, where its row
/// does not say it all.
pub(super) fn why_no_piece(open: &OpenJob, edge: &Edge, course: &Course) -> Option<String> {
    use CourseTrouble::{NotRead, NothingToCut, TooWide, Unread};
    let division = open.job().settings.division;
    let words = match empty(open, edge, course)?.why {
        NotRead(_) | Unread | NothingToCut => return None,
        TooWide { needs } => format!(
            "too wide for one panel (the bend lines need {}). Strike a line up the course where a side lap shall be and press l: both ends are read to it then, a piece each.",
            print_with_unit(needs, division)
        ),
        why => why.words(division),
    };
    Some(format!("course {}: {words}", course.number))
}

fn empty<'a>(open: &'a OpenJob, edge: &Edge, course: &Course) -> Option<&'a EmptyCourse> {
    let mut empty = open.list.empty.iter();
    empty.find(|empty| empty.edge == edge.id && empty.course == course.number)
}

/// What a course comes to: its pieces and how far they are, or why it has none;
/// what matters most first.
pub(super) fn says(open: &OpenJob, edge: &Edge, course: &Course) -> Vec<String> {
    let division = open.job().settings.division;
    if let Some(empty) = empty(open, edge, course) {
        return vec![empty.briefly().to_owned()];
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
fn as_many(words: &[String], room: u16) -> String {
    let shown = (1..=words.len()).rev().find_map(|count| {
        let shown = words.get(..count)?.join(", ");
        let line = match words.len() - count {
            0 => shown,
            1 => format!("{shown} +1 note"),
            more => format!("{shown} +{more} notes"),
        };
        (columns(&line) <= room).then_some(line)
    });
    let first = || words.first().cloned().unwrap_or_default();
    // A row that has no room for the word still says that there is more.
    let short = || Some(format!("{} +{}", first(), words.len().checked_sub(1)?));
    let short = || short().filter(|line| words.len() > 1 && columns(line) <= room);
    shown.or_else(short).unwrap_or_else(first)
}
