//! A course put in where one was forgotten, or taken out.

use crate::app::record::renumber;
use crate::app::state::{ReadingAt, Spot, State};
use crate::domain::log::{CourseNumber, CourseShift, Edge, EdgeId, End};

/// Puts an unread course in at the selected one.
pub fn put_in_here(state: &mut State) {
    if let Some(edge) = state.edge_in_log().map(|edge| edge.id) {
        put_in(state, edge, state.log.course);
    }
}

/// Puts an unread course in at `course`: it and those above move up by one.
pub fn put_in(state: &mut State, id: EdgeId, course: CourseNumber) {
    let Some(edge) = state.job().and_then(|job| job.edge(id)) else {
        return;
    };
    if !reaches(edge, course) {
        state.complain(format!("no course at {course} or above it to move up"));
        return;
    }
    let words = format!(
        "{}: course {course} put in, those above move up by one",
        edge.name
    );
    shift(state, id, CourseShift::In(course), course, words);
}

/// Takes the selected course out: those above move down by one.
pub fn take_out(state: &mut State) {
    let Some((open, edge)) = state.open.as_ref().zip(state.edge_in_log()) else {
        return;
    };
    let (id, course) = (edge.id, state.log.course);
    if !reaches(edge, course) {
        state.complain(format!("no course {course} to take out"));
        return;
    }
    let words = format!(
        "{}: course {course} taken out, those above move down by one",
        edge.name
    );
    let marked = open.progress.marked().map(|(piece, _)| piece);
    let here = marked.filter(|piece| (piece.edge, piece.course) == (id, course));
    let least = here.min().map(|piece| open.labels.piece(piece));
    match least {
        None => shift(state, id, CourseShift::Out(course), course, words),
        Some(label) => state.complain(format!(
            "{label} is marked already: x at the Bench spoils it, then its course can go"
        )),
    }
}

/// Whether a course of the log stands there or above.
pub fn reaches(edge: &Edge, course: CourseNumber) -> bool {
    edge.courses()
        .last()
        .is_some_and(|last| last.number >= course)
}

fn shift(state: &mut State, edge: EdgeId, shift: CourseShift, course: CourseNumber, words: String) {
    let end = End::Bottom;
    let spot = Spot::Reading(ReadingAt { edge, course, end });
    let lots = |state: &State| {
        let edge = state.job().and_then(|job| job.edge(edge));
        edge.map(|edge| edge.later_lots.clone()).unwrap_or_default()
    };
    let before = lots(state);
    if renumber(state, words.clone(), spot, |job| {
        job.shift_courses(edge, shift);
    }) {
        // Another piece may have its number now.
        state.bench.piece = None;
        state.log.edge = Some(edge);
        (state.log.course, state.log.end) = (course, end);
        let lots: String = lots(state)
            .iter()
            .filter(|later| !before.contains(later))
            .map(|later| format!("; lot {} now from {}", later.lot, later.from))
            .collect();
        state.say(format!("{words}{lots}: u takes it back"));
    } else {
        state.complain("no course number is left above the highest");
    }
}
