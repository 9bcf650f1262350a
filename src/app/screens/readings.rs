//! What is done to the readings of a course: taken, cleared, taken out again,
//! and what is said of them at once. Which one is selected is the Log's.

use crate::app::{
    record::edit_edge,
    state::{Dialog, Field, LogFocus, Purpose, Question, Spot, State},
};
use crate::domain::{
    cutting::doubt_words,
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::Length,
    roof::EdgeKind,
    tape::exact_with_unit,
};

/// Opens the field for the selected reading, `c` typed already.
pub fn start_reading(state: &mut State, c: char) {
    let Some(edge) = state.edge_in_log().map(|edge| edge.id) else {
        state.complain("no hip yet: a adds one");
        return;
    };
    state.log.edge = Some(edge);
    state.log.focus = LogFocus::Courses;
    let (course, end) = (state.log.course, state.log.end);
    let purpose = Purpose::Reading { edge, course, end };
    state.field = Some(Field::new(purpose, Some(c)));
}

/// The end at which a course of that kind narrows.
const fn narrow_end(kind: EdgeKind) -> End {
    match kind {
        EdgeKind::Valley => End::Bottom,
        EdgeKind::Hip | EdgeKind::Rake => End::Top,
    }
}

/// Asks how far up the line runs out at the missing end: the top of a course
/// that narrows, else its bottom.
pub fn start_runs_out(state: &mut State) {
    let Some(edge) = state.edge_in_log() else {
        return;
    };
    let read = edge.course(state.log.course);
    let end = match read.map(|course| (course.bottom.is_some(), course.top.is_some())) {
        Some((false, true)) => End::Bottom,
        Some((true, false)) => End::Top,
        _ => narrow_end(edge.kind),
    };
    ask_runs_out(state, end);
}

/// Opens the field for how far up the course the line runs out.
pub fn ask_runs_out(state: &mut State, end: End) {
    let Some(edge) = state.edge_in_log().map(|edge| edge.id) else {
        return;
    };
    let course = state.log.course;
    state.log.end = end;
    state.field = Some(Field::new(Purpose::RunsOut { edge, course, end }, None));
}

/// Opens the field for a short course's height.
pub fn start_height(state: &mut State) {
    let Some(edge) = state.edge_in_log().map(|edge| edge.id) else {
        return;
    };
    let course = state.log.course;
    state.field = Some(Field::new(Purpose::Height { edge, course }, None));
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
    let (course, end) = (state.log.course, state.log.end);
    let Some(edge) = state.edge_in_log().map(|edge| edge.id) else {
        return;
    };
    change_course(state, edge, course, end, "cleared", |course| {
        *course = course.with(end, None);
        course.runs_out = None;
        if end == End::Top {
            course.height = None;
        }
    });
}

/// Puts back what one reading was before, or takes it out where it was none.
pub fn put_back(
    state: &mut State,
    edge: EdgeId,
    course: CourseNumber,
    end: End,
    before: Option<Reading>,
) {
    change_course(state, edge, course, end, "as before", |course| {
        *course = course.with(end, before);
    });
}

/// Takes what was typed for a course and was understood.
pub fn accept(state: &mut State, purpose: Purpose, reading: Reading) {
    let Some(unit) = state.job().map(|job| job.settings.unit()) else {
        return;
    };
    let said = exact_with_unit(reading.length(), unit);
    match purpose {
        Purpose::Reading { edge, course, end } => {
            accept_reading(state, edge, course, end, reading);
        }
        Purpose::RunsOut { edge, course, end } => {
            let said = format!("runs out {said} up");
            change_course(state, edge, course, end, &said, |course| {
                *course = course.with(end, None);
                course.runs_out = Some(reading);
            });
            state.log.end = End::Top;
            go_to_next(state);
            say_notes(state, edge, course);
        }
        Purpose::Height { edge, course } => {
            let (said, end) = (format!("height {said}"), state.log.end);
            change_course(state, edge, course, end, &said, |course| {
                course.height = Some(reading);
            });
            say_notes(state, edge, course);
        }
        Purpose::Setting(_) | Purpose::Correction(..) => {}
    }
}

/// Takes a reading; a 0 where the course narrows asks whether the line runs out
/// lower.
fn accept_reading(
    state: &mut State,
    edge: EdgeId,
    course: CourseNumber,
    end: End,
    reading: Reading,
) {
    let Some(job) = state.job() else { return };
    let in_words = |reading: Reading| exact_with_unit(reading.length(), job.settings.unit());
    let read = job.edge(edge);
    let narrows_at = narrow_end(read.map_or(EdgeKind::Hip, |edge| edge.kind));
    let before = read.and_then(|edge| edge.course(course)?.reading(end));
    let other = before.filter(|before| *before != reading);
    let said = match other {
        Some(before) => format!("{}, it was {}", in_words(reading), in_words(before)),
        None => in_words(reading),
    };
    change_course(state, edge, course, end, &said, |course| {
        *course = course.with(end, Some(reading));
    });
    if other.is_some() {
        state.say(format!("course {course} {}: {said}", end.word()));
    }
    if reading.length() == Length::ZERO && end == narrows_at {
        state.dialog = Some(Dialog::Question(Question::RunsOut {
            edge,
            course,
            end,
            before,
        }));
    } else {
        go_to_next(state);
    }
    say_notes(state, edge, course);
    say_doubt(state, edge, course);
}

/// Says at once what is doubtful about a course just read.
fn say_doubt(state: &mut State, edge: EdgeId, course: CourseNumber) {
    let Some(open) = &state.open else { return };
    let division = open.job().settings.division;
    if let Some(doubt) = open.doubt_at(edge, course) {
        state.complain(format!("DOUBTFUL: {}", doubt_words(doubt, division)));
    }
}

/// Says what is out of the ordinary about a course just read.
fn say_notes(state: &mut State, edge: EdgeId, course: CourseNumber) {
    let Some(open) = &state.open else { return };
    let Some(kind) = open.job().edge(edge).map(|edge| edge.kind) else {
        return;
    };
    let division = open.job().settings.division;
    let words: Vec<String> = open
        .notes_of_course(edge, course)
        .iter()
        .map(|(piece, note)| format!("piece {}: {}", piece.number, note.words(kind, division)))
        .collect();
    if !words.is_empty() {
        state.say(format!("course {course}, {}", words.join("; ")));
    }
}

fn change_course(
    state: &mut State,
    edge: EdgeId,
    number: CourseNumber,
    end: End,
    said: &str,
    change: impl FnOnce(&mut Course),
) {
    let Some(open) = &state.open else { return };
    let name = open.edge_name(edge);
    let words = format!("{name} course {number} {}: {said}", end.word());
    edit_edge(
        state,
        edge,
        words,
        Spot::Reading(edge, number, end),
        |edge| {
            let mut course = edge
                .course(number)
                .copied()
                .unwrap_or(Course::unread(number));
            change(&mut course);
            if course.is_blank() {
                edge.remove(number);
            } else {
                edge.put(course);
            }
        },
    );
}
