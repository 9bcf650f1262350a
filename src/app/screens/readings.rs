//! What is done to the readings of a course: taken, cleared, taken out again,
//! and what is said of them at once. Which one is selected is the Log's.

use crate::app::place::Place;
use crate::app::record::{edit, edit_edge, work};
use crate::app::state::{
    Field, Figure, LogFocus, OpenJob, Purpose, Question, ReadingAt, Spot, State, said_of,
};
use crate::domain::bench::Fact;
use crate::domain::cutting::doubt_words;
use crate::domain::log::{Course, CourseNumber, EdgeId, End, ReadTo, Reading};
use crate::domain::measure::Length;
use crate::domain::piece::CourseTrouble;
use crate::domain::tape::{Unit, exact_with_unit};

/// Opens the field for a figure of the selected course, `first` typed already.
pub fn start(state: &mut State, figure: Figure, first: Option<char>) {
    if let Some(at) = state
        .reading_in_log()
        .filter(|at| !is_read_elsewhere(state, *at))
    {
        state.field = Some(Field::new(Purpose::Course(figure, at), first));
    }
}

/// Whether this course is read at the edge from which its piece runs; says so.
fn is_read_elsewhere(state: &mut State, at: ReadingAt) -> bool {
    let Some(open) = &state.open else {
        return false;
    };
    let Some(edge) = open.job().read_from(at.edge, at.course) else {
        return false;
    };
    let (name, label) = (&edge.name, open.labels.edge(edge.id));
    let words = format!(
        "course {} is read from board to board at {name} ({label})",
        at.course
    );
    state.complain(words);
    true
}

/// The selected course's piece runs to the next edge that is possible, after the
/// last to none again; its readings are taken from board to board then.
pub fn run_to_next(state: &mut State) {
    let Some((open, at)) = state.open.as_ref().zip(state.reading_in_log()) else {
        return;
    };
    let job = open.job();
    let Some(edge) = job.edge(at.edge) else {
        return;
    };
    let now = edge.course(at.course).and_then(|course| course.to);
    let read = |id| {
        job.edge(id)
            .is_some_and(|edge| edge.course(at.course).is_some())
    };
    let all: Vec<_> = job.may_run_to(edge).iter().map(|other| other.id).collect();
    let free: Vec<_> = all.iter().copied().filter(|id| !read(*id)).collect();
    let next = match now {
        None => free.first(),
        Some(now) => free.iter().skip_while(|id| **id != now).nth(1),
    };
    let next = next.copied();
    if next.is_none() && now.is_none() {
        let words = match all.first().map(|id| open.edge_name(*id)) {
            Some(name) => format!(
                "course {} of {name} has readings of its own: clear them first",
                at.course
            ),
            None => format!(
                "no {}-hand edge to run to: a adds one",
                edge.hand.other().word()
            ),
        };
        state.complain(words);
        return;
    }
    if is_read_elsewhere(state, at) {
        return;
    }
    let Some(open) = &state.open else { return };
    let said = match next {
        Some(to) => format!(
            "runs to {}, read both ends from board to board",
            open.edge_name(to)
        ),
        None => "ends in the field again".to_owned(),
    };
    change_course(state, at, &said, |course| course.to = next);
    state.say(format!("course {}: {said}", at.course));
}

/// A course from board to board that is too wide for one panel becomes two, one
/// at each edge, read to a line struck up it. Which of them lies on top there,
/// and so is read to it as to a lap line, follows from the way the panels lie.
pub fn strike_line(state: &mut State) {
    let Some((open, at)) = state.open.as_ref().zip(state.reading_in_log()) else {
        return;
    };
    let at = below_if_too_wide(open, at);
    let job = open.job();
    let edge = job.edge(at.edge);
    let course = edge.and_then(|edge| edge.course(at.course)).copied();
    let other = course.and_then(|course| job.edge(course.to?));
    let Some(((edge, course), other)) = edge.zip(course).zip(other) else {
        state.complain(
            "press b first: l parts a course that runs from board to board, and this one does not",
        );
        return;
    };
    let lie = job.settings.panels_lie;
    let to = lie.reads_to(edge.hand).unwrap_or(ReadTo::LapLine);
    let halves = [(edge.id, to), (other.id, to.other())];
    let names = [&edge.name, &other.name].map(ToString::to_string);
    let words = format!(
        "course {}: a line is struck, {} and {} are read to it",
        at.course, names[0], names[1]
    );
    let dropped = dropped_words(&course, job.settings.unit());
    edit(state, words.clone(), Spot::Reading(at), |job| {
        for (id, to) in halves {
            if let Some(edge) = job.edge_mut(id) {
                edge.put(Course {
                    height: course.height,
                    reads_to: Some(to),
                    ..Course::unread(at.course)
                });
            }
        }
    });
    (state.log.course, state.log.end) = (at.course, End::Bottom);
    state.say(format!("{words}{dropped}"));
}

/// The course below an unread one where that one is too wide: read to its top, the
/// cursor has gone on, and the line is meant for what was just read.
fn below_if_too_wide(open: &OpenJob, at: ReadingAt) -> ReadingAt {
    let edge = open.job().edge(at.edge);
    let is_unread = edge.is_some_and(|edge| edge.course(at.course).is_none());
    let course = at.course.before();
    match is_unread && is_too_wide(open, at.edge, course) {
        true => ReadingAt { course, ..at },
        false => at,
    }
}

/// Whether a course is too wide for one panel from board to board.
pub fn is_too_wide(open: &OpenJob, edge: EdgeId, course: CourseNumber) -> bool {
    let mut empty = open.list.empty.iter();
    empty.any(|empty| {
        (empty.edge, empty.course) == (edge, course)
            && matches!(empty.why, CourseTrouble::TooWide { .. })
    })
}

/// `; dropped: bottom 30 in, top 18 in, u brings them back`; the line parts what was
/// read over both ends, or before b to another line.
fn dropped_words(course: &Course, unit: Unit) -> String {
    let end = |end: End| Some((end.word(), course.reading(end)?));
    let out = course.runs_out.map(|at| ("runs out", at));
    let read = End::BOTH.map(end).into_iter().chain([out]).flatten();
    let read = read.map(|(what, at)| format!("{what} {}", exact_with_unit(at.length(), unit)));
    let read: Vec<String> = read.collect();
    match read.is_empty() {
        true => String::new(),
        false => format!("; dropped: {}, u brings them back", read.join(", ")),
    }
}

/// Opens the field for the selected reading, `c` typed already.
pub fn start_reading(state: &mut State, c: char) {
    let Some(edge) = state.edge_in_log().map(|edge| edge.id) else {
        state.complain("no hip yet: a adds one");
        return;
    };
    state.log.edge = Some(edge);
    state.log.focus = LogFocus::Courses;
    start(state, Figure::Width, Some(c));
}

/// Asks how far up the line runs out at the missing end: the top of a course
/// that narrows, else its bottom.
pub fn start_runs_out(state: &mut State) {
    let Some(edge) = state.edge_in_log() else {
        return;
    };
    let read = edge.course(state.log.course);
    let boards_meet = read.is_some_and(|course| course.to.is_some());
    let end = match read.map(|course| (course.bottom.is_some(), course.top.is_some())) {
        _ if boards_meet => End::Top,
        Some((false, true)) => End::Bottom,
        Some((true, false)) => End::Top,
        _ => End::narrow(edge.kind),
    };
    ask_runs_out(state, end);
}

/// Opens the field for how far up the course the line runs out.
pub fn ask_runs_out(state: &mut State, end: End) {
    state.log.end = end;
    start(state, Figure::RunsOut, None);
}

/// Up the tape: bottom, top, then the course above.
pub fn go_to_next(state: &mut State) {
    match state.log.end {
        End::Bottom => state.log.end = End::Top,
        End::Top => {
            state.log.end = End::Bottom;
            state.log.course = state.log.course.next();
        }
    }
}

/// Takes the selected reading out, and what belongs to it.
pub fn clear(state: &mut State) {
    let Some(at) = state.reading_in_log() else {
        return;
    };
    change_course(state, at, "cleared", |course| {
        *course = course.with(at.end, None);
        course.runs_out = None;
        if at.end == End::Top {
            course.height = None;
        }
    });
}

/// Puts back what one reading was before, or takes it out where it was none.
pub fn put_back(state: &mut State, at: ReadingAt, before: Option<Reading>) {
    change_course(state, at, "as before", |course| {
        *course = course.with(at.end, before);
    });
}

/// Takes a figure of a course.
pub fn accept(state: &mut State, figure: Figure, at: ReadingAt, reading: Reading) {
    let Some(job) = state.job() else { return };
    let said = exact_with_unit(reading.length(), job.settings.unit());
    match figure {
        Figure::Width => accept_width(state, at, reading, said),
        Figure::RunsOut => {
            change_course(state, at, &format!("runs out {said} up"), |course| {
                *course = course.with(at.end, None);
                course.runs_out = Some(reading);
            });
            state.log.end = End::Top;
            go_to_next(state);
            say_notes(state, at);
        }
        Figure::Height => {
            change_course(state, at, &format!("height {said}"), |course| {
                course.height = Some(reading);
            });
            say_notes(state, at);
        }
    }
}

/// Takes a reading; a 0 where the course narrows asks whether the line runs out
/// lower.
fn accept_width(state: &mut State, at: ReadingAt, reading: Reading, mut said: String) {
    let Some(job) = state.job() else { return };
    let edge = job.edge(at.edge);
    let narrows_at = edge.map_or(End::Top, |edge| End::narrow(edge.kind));
    let before = edge.and_then(|edge| edge.course(at.course)?.reading(at.end));
    let other = before.filter(|before| *before != reading);
    if let Some(other) = other {
        let was = exact_with_unit(other.length(), job.settings.unit());
        said = format!("{said}, it was {was}");
    }
    change_course(state, at, &said, |course| {
        *course = course.with(at.end, Some(reading));
    });
    if other.is_some() {
        state.say(format!("course {} {}: {said}", at.course, at.end.word()));
    }
    if reading.length() == Length::ZERO && at.end == narrows_at {
        state.ask_question(Question::RunsOut { at, before });
    } else {
        go_to_next(state);
    }
    if other.is_some() {
        state.log.read_again = Some(at);
    }
    say_notes(state, at);
    say_doubt(state, at);
}

/// A course of an edge whose pieces were corrected was read again: whether that
/// holds for it is asked once an edge, when both its readings are typed, so that
/// no digit of the second answers it.
pub fn ask_of_read_again(state: &mut State) {
    let here = state.reading_in_log().filter(|_| state.place == Place::Log);
    let is_here =
        |at: &ReadingAt| here.is_some_and(|here| (here.edge, here.course) == (at.edge, at.course));
    let is_busy = state.field.is_some() || state.dialog.is_some();
    let Some(at) = state.log.read_again.filter(|at| !is_busy && !is_here(at)) else {
        return;
    };
    state.log.read_again = None;
    let Some(open) = &state.open else { return };
    let progress = &open.progress;
    if progress.correction(at.edge, at.course) == Length::ZERO {
        return;
    }
    match progress.correction_holds(at.edge) {
        Some(true) => {}
        Some(false) => correction_holds(state, at, false),
        None => state.ask_question(Question::CorrectionHolds(at)),
    }
}

/// Writes down whether an edge's correction holds for a course that was read again.
pub fn correction_holds(state: &mut State, at: ReadingAt, corrected: bool) {
    let Some(open) = &state.open else { return };
    let (course, name) = (at.course, open.edge_name(at.edge));
    let read = open
        .job()
        .edge(at.edge)
        .and_then(|edge| edge.course(course));
    // One piece has both edges, and so both their corrections.
    let edges = std::iter::once(at.edge).chain(read.and_then(|course| course.to));
    let facts = edges.map(|edge| Fact::ReadAgain {
        edge,
        course,
        corrected,
    });
    let said = open.progress.correction(at.edge, course);
    let said = said_of(said, &open.job().settings);
    let words = match corrected {
        true => format!("{name}: course {course} is cut {said} again, from its new reading"),
        false => format!("{name}: course {course} is cut as it is read now, not {said}"),
    };
    let facts = facts.collect();
    work(state, words.clone(), Spot::Reading(at), facts);
    state.say(words);
}

/// Says at once what is doubtful about a course just read.
fn say_doubt(state: &mut State, at: ReadingAt) {
    let Some(open) = &state.open else { return };
    let division = open.job().settings.division;
    if let Some(doubt) = open.doubt_at(at.edge, at.course) {
        state.complain(format!("DOUBTFUL: {}", doubt_words(doubt, division)));
        state.log.told = Some(at);
    }
}

/// Says what is out of the ordinary about a course just read.
fn say_notes(state: &mut State, at: ReadingAt) {
    let Some(open) = &state.open else { return };
    let Some(edge) = open.job().edge(at.edge) else {
        return;
    };
    let division = open.job().settings.division;
    let notes = open.notes_of_course(at.edge, at.course).into_iter();
    let words: Vec<String> = notes
        .map(|(piece, note)| (piece.number, note.words(edge.kind, division)))
        .map(|(piece, words)| format!("piece {piece}: {words}"))
        .collect();
    let course = at.course;
    if !words.is_empty() {
        state.say(format!("course {course}, {}", words.join("; ")));
    } else if is_too_wide(open, at.edge, course) {
        state.complain(format!(
            "course {course} is too wide for one panel: l strikes a line up it, for a piece at each edge"
        ));
    }
}

fn change_course(state: &mut State, at: ReadingAt, said: &str, change: impl FnOnce(&mut Course)) {
    let Some(open) = &state.open else { return };
    let (name, end) = (open.edge_name(at.edge), at.end.word());
    let words = format!("{name} course {} {end}: {said}", at.course);
    edit_edge(state, at.edge, words, Spot::Reading(at), |edge| {
        let unread = || Course::unread(at.course);
        let mut course = edge.course(at.course).copied().unwrap_or_else(unread);
        change(&mut course);
        if course.is_blank() {
            edge.remove(at.course);
        } else {
            edge.put(course);
        }
    });
}
