//! Log: the edges and the readings of their courses.

use super::doubt;
use super::hips::moved;
use crate::app::dialog::Dialog;
use crate::app::effect::Effect;
use crate::app::field::{Field, Purpose};
use crate::app::history::Spot;
use crate::app::message::{Direction, Press};
use crate::app::state::State;
use crate::app::update::save;
use crate::domain::course::{Course, CourseNumber, End, Reading};
use crate::domain::doubtful::doubt_words;
use crate::domain::edge::{Edge, EdgeId, EdgeKind};
use crate::domain::hand::Hand;
use crate::domain::job::Shift;
use crate::domain::tape::exact_with_unit;

/// Which of the two lists the keys move in.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum LogFocus {
    /// The edges.
    #[default]
    Edges,
    /// The courses of the selected edge.
    Courses,
}

/// In which rows the readings are shown and asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum EntryOrder {
    /// A row a course: bottom, top.
    #[default]
    Courses,
    /// A row a course line: the top of the course below it, the bottom of the
    /// course above it, as one placement of the tape gives them.
    Lines,
}

/// What is selected in the Log.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LogView {
    /// Which edge.
    pub edge: Option<EdgeId>,
    /// Which list the keys move in.
    pub focus: LogFocus,
    /// Which course.
    pub course: CourseNumber,
    /// Which of its readings.
    pub end: End,
    /// How the readings are shown.
    pub order: EntryOrder,
    /// Whether missing readings show what they are expected to be.
    pub expected: ShowExpected,
}

/// Whether missing readings show what they are expected to be.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum ShowExpected {
    /// They stay empty.
    #[default]
    No,
    /// They show it, marked as such.
    Yes,
}

impl Default for LogView {
    fn default() -> Self {
        Self {
            edge: None,
            focus: LogFocus::default(),
            course: CourseNumber::FIRST,
            end: End::Bottom,
            order: EntryOrder::default(),
            expected: ShowExpected::default(),
        }
    }
}

/// The selected edge; the first where none is.
#[must_use]
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
        Press::Type(c) => start_reading(state, c),
        Press::View => {
            state.log.order = match state.log.order {
                EntryOrder::Courses => EntryOrder::Lines,
                EntryOrder::Lines => EntryOrder::Courses,
            };
        }
        Press::Rename | Press::ChangeHand | Press::Details | Press::Delete => {
            ask_about_edge(state, press)
        }
        Press::RunsOut => start_runs_out(state),
        Press::ShortCourse => start_height(state),
        Press::Earlier => return shift(state, Shift::Earlier),
        Press::Later => return shift(state, Shift::Later),
        Press::Clear => return clear(state),
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
    let Some(edge) = state.open.as_ref().and_then(|open| open.job().edge(id)) else {
        return;
    };
    let (course, end) = first_missing(edge);
    state.log.edge = Some(id);
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

fn start_reading(state: &mut State, c: char) {
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

/// The missing end: the top of a course that narrows, else its bottom.
fn start_runs_out(state: &mut State) {
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

fn start_height(state: &mut State) {
    let Some(edge) = selected(state) else {
        return;
    };
    let (edge, course) = (edge.id, state.log.course);
    state.field = Some(Field::new(Purpose::Height { edge, course }, None));
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

fn clear(state: &mut State) -> Vec<Effect> {
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

/// Takes one reading out again.
pub fn take_out(state: &mut State, edge: EdgeId, course: CourseNumber, end: End) -> Vec<Effect> {
    change_course(state, edge, course, end, "taken out", |course| {
        course.with(end, None)
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
    let said = said(state, reading);
    let effects = change_course(state, edge, course, end, &said, |course| {
        course.with(end, Some(reading))
    });
    let kind = state
        .open
        .as_ref()
        .and_then(|open| open.job().edge(edge))
        .map(|edge| edge.kind);
    let narrow_end = match kind {
        Some(EdgeKind::Valley) => End::Bottom,
        _ => End::Top,
    };
    let zero = reading.length() == crate::domain::length::Length::ZERO;
    if zero && end == narrow_end {
        state.dialog = Some(Dialog::RunsOutAsk { edge, course, end });
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

/// Adds an edge and selects it.
pub fn add_edge(
    state: &mut State,
    kind: EdgeKind,
    hand: Hand,
    name: crate::domain::name::Name,
) -> Vec<Effect> {
    let Some(next) = state
        .open
        .as_ref()
        .map(|open| EdgeId(open.job().next_edge()))
    else {
        return Vec::new();
    };
    let words = format!("{name} added");
    let effects = edit(state, words, Spot::Edge(next), |job| {
        job.add_edge(name, kind, hand);
        true
    });
    select(state, next);
    state.log.focus = LogFocus::Courses;
    effects
}

/// Changes the job on paper, and saves it where anything changed.
pub fn edit(
    state: &mut State,
    words: String,
    spot: Spot,
    change: impl FnOnce(&mut crate::domain::job::Job) -> bool,
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
