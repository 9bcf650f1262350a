//! Log: the edges and the readings of their courses.

use super::{doubt, readings};
use crate::app::{
    effect::Effect,
    press::{Direction, Press, moved},
    state::{Dialog, EntryOrder, LogFocus, LogView, ShowExpected, Spot, State},
    update::save,
};
use crate::domain::cutting::{Job, Shift};
use crate::domain::log::{CourseNumber, Edge, EdgeId, End};
use crate::domain::roof::EdgeKind;

/// The selected edge; the first where none is.
pub fn selected(state: &State) -> Option<&Edge> {
    let job = state.open.as_ref()?.job();
    state
        .log
        .edge
        .and_then(|edge| job.edge(edge))
        .or_else(|| job.edges().first().map(|edge| &**edge))
}

/// A key in the Log.
pub fn pressed(state: &mut State, press: Press) -> Vec<Effect> {
    match press {
        Press::Move(direction) => go(state, direction),
        Press::Switch => switch(state),
        Press::Back => state.log.focus = LogFocus::Edges,
        Press::Add => ask_for_new(state),
        Press::Confirm => confirm(state),
        Press::Type(c) => readings::start_reading(state, c),
        Press::View => {
            state.log.order = match state.log.order {
                EntryOrder::Courses => EntryOrder::Lines,
                EntryOrder::Lines => EntryOrder::Courses,
            };
        }
        Press::Rename | Press::ChangeHand | Press::Details | Press::Delete => {
            ask_about_edge(state, press)
        }
        Press::RunsOut => readings::start_runs_out(state),
        Press::ShortCourse => readings::start_height(state),
        Press::Earlier => return shift(state, Shift::Earlier),
        Press::Later => return shift(state, Shift::Later),
        Press::Clear => return readings::clear(state),
        Press::TakeSuggestion | Press::Stands | Press::Explain => {
            return doubt::pressed(state, press);
        }
        Press::ShowExpected => {
            state.log.expected = match state.log.expected {
                ShowExpected::No => ShowExpected::Yes,
                ShowExpected::Yes => ShowExpected::No,
            };
        }
        _ => {}
    }
    Vec::new()
}

fn ask_for_new(state: &mut State) {
    if state.open.is_some() {
        state.dialog = Some(Dialog::ChooseKind(EdgeKind::Hip));
    } else {
        state.complain("no job is open: F6 makes or opens one");
    }
}

fn ask_about_edge(state: &mut State, press: Press) {
    let Some(edge) = selected(state) else {
        state.complain("no hip yet: a adds one");
        return;
    };
    let (id, kind, hand) = (edge.id, edge.kind, edge.hand);
    let text = edge.name.to_string();
    let marked = state.open.as_ref().map_or(0, |open| {
        let marked = open.progress.marked();
        marked.filter(|(piece, _)| piece.edge == id).count()
    });
    if press == Press::ChangeHand && marked > 0 {
        let hand = hand.word().to_uppercase();
        state.complain(format!(
            "{text}: {marked} of its pieces are marked {hand}-hand already; add another edge for the other hand"
        ));
        return;
    }
    state.log.edge = Some(id);
    state.dialog = Some(match press {
        Press::Rename => Dialog::Rename { edge: id, text },
        Press::Details => Dialog::Details {
            edge: id,
            row: 0,
            text: None,
        },
        Press::ChangeHand => Dialog::ChooseHand {
            edge: Some(id),
            kind,
            hand: Some(hand),
        },
        _ => Dialog::DeleteEdge(id),
    });
}

fn switch(state: &mut State) {
    state.log.focus = match state.log.focus {
        LogFocus::Edges if selected(state).is_some() => LogFocus::Courses,
        _ => LogFocus::Edges,
    };
}

fn go(state: &mut State, direction: Direction) {
    match state.log.focus {
        LogFocus::Edges => go_among_edges(state, direction),
        LogFocus::Courses => go_among_courses(state, direction),
    }
}

fn go_among_edges(state: &mut State, direction: Direction) {
    if direction == Direction::Right {
        switch(state);
        return;
    }
    let Some(open) = &state.open else {
        return;
    };
    let edges = open.job().edges();
    let at = selected(state).and_then(|edge| open.job().place_of(edge.id));
    let to = moved(at.unwrap_or(0), direction, edges.len());
    if let Some(edge) = edges.get(to).map(|edge| edge.id)
        && Some(to) != at
    {
        select(state, edge);
    }
}

/// Selects an edge, at the first of its readings that is missing.
pub fn select(state: &mut State, id: EdgeId) {
    let Some(open) = &state.open else {
        return;
    };
    // Undone or deleted: another one, so that nothing is typed into its place.
    let edge = open
        .job()
        .edge(id)
        .or_else(|| open.job().edges().first().map(|edge| &**edge));
    let Some(edge) = edge else {
        state.log = LogView::default();
        return;
    };
    let (course, end) = first_missing(edge);
    state.log.edge = Some(edge.id);
    state.log.course = course;
    state.log.end = end;
}

fn first_missing(edge: &Edge) -> (CourseNumber, End) {
    for course in edge.courses() {
        if course.runs_out.is_some() {
            continue;
        }
        if let Some(end) = End::BOTH
            .into_iter()
            .find(|end| course.reading(*end).is_none())
        {
            return (course.number, end);
        }
    }
    (edge.next_course(), End::Bottom)
}

/// Up the roof is up the screen: the course at the eave is the lowest row.
fn go_among_courses(state: &mut State, direction: Direction) {
    let Some(highest) = selected(state).map(Edge::next_course) else {
        return;
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
    if state.log.focus == LogFocus::Edges {
        if selected(state).is_some() {
            state.log.focus = LogFocus::Courses;
        } else {
            ask_for_new(state);
        }
        return;
    }
    let Some(edge) = selected(state) else {
        return;
    };
    let beyond = edge.course(state.log.course).is_none();
    if beyond && state.log.end == End::Bottom {
        finish_edge(state);
    } else {
        go_to_next_reading(state);
    }
}

/// Nothing typed above the last course: this hip is logged, on to the next.
fn finish_edge(state: &mut State) {
    let Some(open) = &state.open else {
        return;
    };
    let Some(edge) = selected(state) else {
        return;
    };
    let words = match edge.courses().len() {
        1 => format!("{}: 1 course logged", edge.name),
        count => format!("{}: {count} courses logged", edge.name),
    };
    let at = open.job().place_of(edge.id).map_or(0, |at| at + 1);
    let next = open.job().edges().get(at).map(|edge| edge.id);
    match next {
        Some(next) => {
            select(state, next);
            state.say(words);
        }
        None => {
            state.log.focus = LogFocus::Edges;
            state.say(format!(
                "{words}: a adds another edge, F4 goes to the bench"
            ));
        }
    }
}

/// Up the tape: bottom, top, then the course above.
pub fn go_to_next_reading(state: &mut State) {
    match state.log.end {
        End::Bottom => state.log.end = End::Top,
        End::Top => {
            state.log.end = End::Bottom;
            state.log.course = state.log.course.next();
        }
    }
}

fn shift(state: &mut State, shift: Shift) -> Vec<Effect> {
    let Some((id, name)) = selected(state).map(|edge| (edge.id, edge.name.clone())) else {
        return Vec::new();
    };
    let way = match shift {
        Shift::Earlier => "earlier",
        Shift::Later => "later",
    };
    edit(state, format!("{name} cut {way}"), Spot::Edge(id), |job| {
        job.shift_edge(id, shift)
    })
}

/// Changes the job on paper, and saves it where anything changed.
pub fn edit(
    state: &mut State,
    words: String,
    spot: Spot,
    change: impl FnOnce(&mut Job) -> bool,
) -> Vec<Effect> {
    let Some(open) = state.open.as_mut() else {
        return Vec::new();
    };
    if open.edit(words, spot, change) {
        save(state)
    } else {
        Vec::new()
    }
}
