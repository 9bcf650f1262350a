//! What is done to the readings of a course: taken, cleared, taken out again,
//! and what is said of them at once. Which one is selected is the Log's.

use super::log::{edit, go_to_next_reading, selected};
use crate::app::effect::Effect;
use crate::app::state::{Dialog, Field, LogFocus, Purpose, Spot, State};
use crate::domain::{
    cutting::doubt_words,
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::Length,
    roof::EdgeKind,
    tape::exact_with_unit,
};

/// Opens the field for the selected reading, `c` typed already.
pub fn start_reading(state: &mut State, c: char) {
    let Some(edge) = selected(state).map(|edge| edge.id) else {
        state.complain("no hip yet: a adds one");
        return;
    };
    state.log.edge = Some(edge);
    state.log.focus = LogFocus::Courses;
    let purpose = Purpose::Reading {
        edge,
        course: state.log.course,
        end: state.log.end,
    };
    state.field = Some(Field::new(purpose, Some(c)));
}

/// Asks how far up the line runs out at the missing end: the top of a course
/// that narrows, else its bottom.
pub fn start_runs_out(state: &mut State) {
    let Some(edge) = selected(state) else {
        return;
    };
    let read = edge.course(state.log.course).copied();
    let end = match read {
        Some(course) if course.bottom.is_none() && course.top.is_some() => End::Bottom,
        Some(course) if course.bottom.is_some() && course.top.is_none() => End::Top,
        _ => match edge.kind {
            EdgeKind::Valley => End::Bottom,
            EdgeKind::Hip | EdgeKind::Rake => End::Top,
        },
    };
    ask_runs_out(state, end);
}

/// Opens the field for how far up the course the line runs out.
pub fn ask_runs_out(state: &mut State, end: End) {
    let Some(edge) = selected(state) else {
        return;
    };
    let (edge, course) = (edge.id, state.log.course);
    state.log.end = end;
    state.field = Some(Field::new(Purpose::RunsOut { edge, course, end }, None));
}

/// Opens the field for a short course's height.
pub fn start_height(state: &mut State) {
    let Some(edge) = selected(state) else {
        return;
    };
    let (edge, course) = (edge.id, state.log.course);
    state.field = Some(Field::new(Purpose::Height { edge, course }, None));
}

/// Takes the selected reading out, and what belongs to it.
pub fn clear(state: &mut State) -> Vec<Effect> {
    let (course, end) = (state.log.course, state.log.end);
    let Some(id) = selected(state).map(|edge| edge.id) else {
        return Vec::new();
    };
    change_course(state, id, course, end, "cleared", |course| {
        let mut course = course.with(end, None);
        course.runs_out = None;
        course.height = match end {
            End::Bottom => course.height,
            End::Top => None,
        };
        course
    })
}

/// Puts back what one reading was before, or takes it out where it was none.
pub fn put_back(
    state: &mut State,
    edge: EdgeId,
    course: CourseNumber,
    end: End,
    before: Option<Reading>,
) -> Vec<Effect> {
    change_course(state, edge, course, end, "as before", |course| {
        course.with(end, before)
    })
}

/// Takes a reading that was understood; a 0 where the course narrows asks
/// whether the line runs out lower.
pub fn accept_reading(
    state: &mut State,
    edge: EdgeId,
    course: CourseNumber,
    end: End,
    reading: Reading,
) -> Vec<Effect> {
    let before = state
        .open
        .as_ref()
        .and_then(|open| open.job().edge(edge)?.course(course)?.reading(end));
    let other = before.filter(|before| *before != reading);
    let said = match other {
        Some(before) => format!(
            "{}, it was {}",
            said(state, reading),
            self::said(state, before)
        ),
        None => said(state, reading),
    };
    let effects = change_course(state, edge, course, end, &said, |course| {
        course.with(end, Some(reading))
    });
    if other.is_some() {
        state.say(format!("course {course} {}: {said}", end.word()));
    }
    let kind = state
        .open
        .as_ref()
        .and_then(|open| open.job().edge(edge))
        .map(|edge| edge.kind);
    let narrow_end = match kind {
        Some(EdgeKind::Valley) => End::Bottom,
        _ => End::Top,
    };
    let zero = reading.length() == Length::ZERO;
    if zero && end == narrow_end {
        state.dialog = Some(Dialog::RunsOutAsk {
            edge,
            course,
            end,
            before,
        });
    } else {
        go_to_next_reading(state);
    }
    say_notes(state, edge, course);
    say_doubt(state, edge, course);
    effects
}

/// Says at once what is doubtful about a course just read.
fn say_doubt(state: &mut State, edge: EdgeId, course: CourseNumber) {
    let words = state.open.as_ref().and_then(|open| {
        let division = open.job().settings.division;
        let doubt = open.doubt_at(edge, course)?;
        Some(format!("DOUBTFUL: {}", doubt_words(doubt, division)))
    });
    if let Some(words) = words {
        state.complain(words);
    }
}

/// Says what is out of the ordinary about a course just read.
fn say_notes(state: &mut State, edge: EdgeId, course: CourseNumber) {
    let Some(open) = &state.open else {
        return;
    };
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

/// Takes how far up the course its line runs out.
pub fn accept_runs_out(
    state: &mut State,
    edge: EdgeId,
    course: CourseNumber,
    end: End,
    at: Reading,
) -> Vec<Effect> {
    let said = format!("runs out {} up", said(state, at));
    let effects = change_course(state, edge, course, end, &said, |course| {
        let mut course = course.with(end, None);
        course.runs_out = Some(at);
        course
    });
    state.log.end = End::Top;
    go_to_next_reading(state);
    say_notes(state, edge, course);
    effects
}

/// Takes a short course's own height.
pub fn accept_height(
    state: &mut State,
    edge: EdgeId,
    course: CourseNumber,
    height: Reading,
) -> Vec<Effect> {
    let said = format!("height {}", said(state, height));
    let end = state.log.end;
    let effects = change_course(state, edge, course, end, &said, |mut course| {
        course.height = Some(height);
        course
    });
    say_notes(state, edge, course);
    effects
}

fn said(state: &State, reading: Reading) -> String {
    state.open.as_ref().map_or_else(String::new, |open| {
        exact_with_unit(reading.length(), open.job().settings.unit())
    })
}

fn change_course(
    state: &mut State,
    id: EdgeId,
    number: CourseNumber,
    end: End,
    said: &str,
    change: impl FnOnce(Course) -> Course,
) -> Vec<Effect> {
    let name = state
        .open
        .as_ref()
        .map_or_else(String::new, |open| open.edge_name(id).to_owned());
    let words = format!("{name} course {number} {}: {said}", end.word());
    edit(state, words, Spot::Reading(id, number, end), |job| {
        let Some(edge) = job.edge_mut(id) else {
            return false;
        };
        let before = edge.course(number).copied();
        let after = change(before.unwrap_or(Course::unread(number)));
        if after.is_blank() {
            return edge.remove(number).is_some();
        }
        edge.put(after);
        before != Some(after)
    })
}
