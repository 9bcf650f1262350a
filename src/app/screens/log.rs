//! Log: the edges and the readings of their courses.

use super::{courses, doubt, edges, readings, taking, two_readings};
use crate::app::go::select;
use crate::app::press::{Direction, Press, moved, turn};
use crate::app::state::{EntryOrder, Figure, LogFocus, LogView, ShowExpected, State};
use crate::domain::cutting::Shift;
use crate::domain::log::{Course, CourseNumber, EdgeId, End};

/// A key in the Log.
pub fn pressed(state: &mut State, press: Press) {
    let once = state.log.pressed_once.take();
    match press {
        Press::Move(direction) => {
            state.log.told = None;
            match state.log.focus {
                LogFocus::Edges => go_among_edges(state, direction),
                LogFocus::Courses => go_among_courses(state, direction),
            }
        }
        Press::Switch => switch(state),
        Press::Back => state.log.focus = LogFocus::Edges,
        Press::Add => edges::ask_for_new(state),
        Press::Confirm => confirm(state),
        Press::Type(c) => readings::start_reading(state, c),
        Press::View => {
            turn(
                &mut state.log.order,
                [EntryOrder::Courses, EntryOrder::Lines],
            );
        }
        Press::Rename | Press::ChangeHand | Press::Details | Press::Delete => {
            edges::ask_about(state, press);
        }
        Press::TakeReadings => taking::ask_which(state),
        Press::ChooseReading => two_readings::pressed(state),
        Press::RunsOut => readings::start_runs_out(state),
        Press::ShortCourse => readings::start(state, Figure::Height, None),
        Press::BoardToBoard => turn_course(state, 'b', once),
        Press::StrikeLine => turn_course(state, 'l', once),
        Press::Earlier => edges::shift(state, Shift::Earlier),
        Press::Later => edges::shift(state, Shift::Later),
        Press::Clear => readings::clear(state),
        Press::PutIn => courses::put_in_here(state),
        Press::TakeOut => courses::take_out(state),
        Press::TakeSuggestion | Press::MeasuredAgain | Press::Explain => {
            doubt::pressed(state, press);
        }
        Press::ShowExpected => {
            turn(
                &mut state.log.expected,
                [ShowExpected::No, ShowExpected::Yes],
            );
        }
        _ => {}
    }
}

/// Turns what a course's readings go to, from board to board or to a struck line.
fn turn_course(state: &mut State, key: char, once: Option<(char, EdgeId, CourseNumber)>) {
    if !is_sure(state, key, once) {
        return;
    }
    match key {
        'b' => readings::run_to_next(state),
        _ => readings::strike_line(state),
    }
}

/// Whether the press of `key` may turn what the course's readings go to, and says so
/// where it may not: at every other place that letter leads to another place, so that
/// of a course that is read it is asked for twice. `once` is the press before.
fn is_sure(state: &mut State, key: char, once: Option<(char, EdgeId, CourseNumber)>) -> bool {
    let Some((open, edge)) = state.open.as_ref().zip(state.edge_in_log()) else {
        return true;
    };
    let course = state.log.course;
    let read = edge.course(course).copied();
    // One that is half read is being typed.
    let is_read = |course: &Course| {
        let mut ends = End::BOTH.into_iter();
        course.runs_out.is_some() || ends.all(|end| course.reading(end).is_some())
    };
    let now = (key, edge.id, course);
    let Some(read) = read.filter(is_read).filter(|_| once != Some(now)) else {
        return true;
    };
    let words = match (key, read.to) {
        ('b', None) => "b again makes it run from board to board",
        ('b', Some(_)) => "b again makes it end in the field",
        (_, Some(_)) if !readings::is_too_wide(open, edge.id, course) => {
            "l again strikes a line up it and drops its readings"
        }
        _ => return true,
    };
    state.log.pressed_once = Some(now);
    state.complain(format!("course {course} is read: {words}"));
    false
}

fn switch(state: &mut State) {
    state.log.focus = match state.log.focus {
        LogFocus::Edges if state.edge_in_log().is_some() => LogFocus::Courses,
        _ => LogFocus::Edges,
    };
}

fn go_among_edges(state: &mut State, direction: Direction) {
    if direction == Direction::Right {
        switch(state);
        return;
    }
    let Some(job) = state.job() else { return };
    let at = state.edge_in_log().and_then(|edge| job.place_of(edge.id));
    let to = moved(at.unwrap_or(0), direction, job.edges().len());
    if let Some(edge) = job.edges().get(to).map(|edge| edge.id)
        && Some(to) != at
    {
        select(state, edge);
    }
}

/// Up the roof is up the screen: the course at the eave is the lowest row.
fn go_among_courses(state: &mut State, direction: Direction) {
    let Some(edge) = state.edge_in_log() else {
        return;
    };
    // What is not read yet may start at any course: a valley above the eave.
    let highest = match edge.courses() {
        [] => state.log.course.next(),
        _ => edge.next_course(),
    };
    let view = &mut state.log;
    let (from, end, by_line) = (view.course, view.end, view.order == EntryOrder::Lines);
    let up = |course: CourseNumber| course.next().min(highest);
    match direction {
        Direction::Up => view.course = up(from),
        Direction::Down => view.course = from.before(),
        Direction::PageUp => view.course = (0..10).fold(from, |course, _| up(course)),
        Direction::PageDown => view.course = (0..10).fold(from, |course, _| course.before()),
        Direction::First => view.course = CourseNumber::FIRST,
        Direction::Last => view.course = highest,
        Direction::Left | Direction::Right if by_line => {
            across_a_line(view, direction, highest);
        }
        Direction::Left if end == End::Bottom => view.focus = LogFocus::Edges,
        Direction::Left => view.end = End::Bottom,
        Direction::Right => view.end = End::Top,
    }
}

/// A course line shows the top of the course below it on the left and the
/// bottom of the course above it on the right.
fn across_a_line(view: &mut LogView, direction: Direction, highest: CourseNumber) {
    match (direction, view.end) {
        (Direction::Left, End::Bottom) if view.course > CourseNumber::FIRST => {
            view.course = view.course.before();
            view.end = End::Top;
        }
        (Direction::Left, _) => view.focus = LogFocus::Edges,
        (_, End::Top) if view.course < highest => {
            view.course = view.course.next();
            view.end = End::Bottom;
        }
        _ => {}
    }
}

fn confirm(state: &mut State) {
    // One left out below others is gone past: it ends nothing.
    let edge = state.edge_in_log();
    let beyond = edge.map(|edge| !courses::reaches(edge, state.log.course));
    match (state.log.focus, beyond) {
        (LogFocus::Edges, None) => edges::ask_for_new(state),
        (LogFocus::Edges, Some(_)) => state.log.focus = LogFocus::Courses,
        (LogFocus::Courses, None) => {}
        (LogFocus::Courses, Some(true)) if state.log.end == End::Bottom => finish_edge(state),
        (LogFocus::Courses, Some(_)) => readings::go_to_next(state),
    }
}

/// Nothing typed above the last course: this hip is logged, on to the next.
fn finish_edge(state: &mut State) {
    let Some((job, edge)) = state.job().zip(state.edge_in_log()) else {
        return;
    };
    let words = match edge.courses().len() {
        1 => format!("{}: 1 course logged", edge.name),
        count => format!("{}: {count} courses logged", edge.name),
    };
    let doubts = state
        .open
        .as_ref()
        .map_or(0, |open| open.count_of_doubts(edge.id));
    let at = job.place_of(edge.id).map_or(0, |at| at + 1);
    match job.edges().get(at).map(|edge| edge.id) {
        Some(next) => {
            select(state, next);
            said(state, words, doubts);
        }
        None => {
            state.log.focus = LogFocus::Edges;
            let words = format!("{words}: a adds another edge, F4 goes to the bench");
            said(state, words, doubts);
        }
    }
}

/// A hip is finished: what is doubtful about it is said before anybody leaves the
/// roof.
fn said(state: &mut State, words: String, doubts: usize) {
    match doubts {
        0 => state.say(words),
        1 => state.complain(format!("{words}. 1 place of it is DOUBTFUL, marked ?")),
        count => state.complain(format!(
            "{words}. {count} places of it are DOUBTFUL, marked ?"
        )),
    }
}
