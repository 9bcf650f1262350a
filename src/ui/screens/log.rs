//! Log: the edges on the left, the readings of one as they stand on the roof.
//!
//! Up the roof is up the screen: the course at the eave is the lowest row.

use super::{
    hips::heading,
    log_entry::{entry, entry_rows, idle_lines},
};
use crate::app::state::{EntryOrder, LogFocus, OpenJob, ShowExpected, State};
use crate::domain::{
    bench::Done,
    cutting::is_let_stand,
    doubt::expected_readings,
    log::{Course, CourseNumber, Edge, End},
    tape::{exact, print},
};
use crate::ui::pen::{Pen, clipped, columns};
use crate::ui::theme::Role;

const LIST_WIDTH: u16 = 24;
const BOTTOM_AT: u16 = 9;
const TOP_AT: u16 = 22;
const SAYS_AT: u16 = 36;

/// Draws the place.
pub fn draw(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let (width, height) = (pen.width(), pen.height());
    edges(&mut pen.part(0, 0, LIST_WIDTH, height), state, open);
    pen.upright(LIST_WIDTH, 0, height);
    let x = LIST_WIDTH + 1;
    let mut right = pen.part(x, 0, width.saturating_sub(x), height);
    let Some(edge) = state.edge_in_log() else {
        right.text(1, 1, Role::Strong, "No hip yet.");
        let words = "a adds one: its hand is chosen by a drawing.";
        right.text(1, 3, Role::Text, words);
        let words = "g takes readings from a spreadsheet's file (CSV).";
        right.text(1, 4, Role::Text, words);
        return;
    };
    let lines = idle_lines(state, open, edge);
    let entry_rows = entry_rows(&right, state, edge, &lines);
    courses(&mut right, state, open, edge, entry_rows);
    entry(&mut right, state, open, entry_rows, &lines);
}

fn edges(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let edges = open.job().edges();
    let heading = heading(edges.iter().map(|edge| edge.kind));
    pen.text(1, 0, Role::Strong, &heading);
    let at = state
        .edge_in_log()
        .and_then(|edge| open.job().place_of(edge.id));
    let rows = usize::from(pen.height().saturating_sub(2));
    let start = at.unwrap_or(0).saturating_sub(rows.saturating_sub(1));
    for (y, (index, edge)) in (2..).zip(edges.iter().enumerate().skip(start).take(rows)) {
        let role = match (Some(index) == at, state.log.focus) {
            (true, LogFocus::Edges) => Role::Selected,
            (true, LogFocus::Courses) => Role::Strong,
            _ => Role::Text,
        };
        pen.row(y, role, "");
        pen.text(1, y, role, &open.labels.edge(edge.id));
        pen.text(5, y, role, &clipped(edge.name.as_str(), 13));
        let count = edge.courses().len().to_string();
        pen.text(19, y, role, edge.hand.letter());
        pen.text_right(0, y, role, &count);
    }
}

fn courses(pen: &mut Pen<'_>, state: &State, open: &OpenJob, edge: &Edge, entry_rows: u16) {
    let slope = edge.roof.slope.map(|slope| format!(", {slope}"));
    let words = format!(
        ": {}, {}-hand pieces{}",
        edge.kind.word(),
        edge.hand.word().to_uppercase(),
        slope.unwrap_or_default()
    );
    let room = pen.width().saturating_sub(columns(&words) + 2);
    let name = clipped(edge.name.as_str(), usize::from(room));
    pen.text(1, 0, Role::Strong, &format!("{name}{words}"));
    let rows = pen.height().saturating_sub(entry_rows + 2);
    match state.log.order {
        EntryOrder::Courses => by_course(pen, state, open, edge, rows),
        EntryOrder::Lines => by_line(pen, state, open, edge, rows),
    }
}

/// The lowest number shown, so that the selected one stays in sight.
fn lowest(selected: CourseNumber, highest: CourseNumber, rows: u16) -> u32 {
    let rows = u32::from(rows);
    let below = selected.get().saturating_sub(rows / 2).max(1);
    let last_full = (highest.get() + 1).saturating_sub(rows).max(1);
    below.min(last_full)
}

fn by_course(pen: &mut Pen<'_>, state: &State, open: &OpenJob, edge: &Edge, rows: u16) {
    pen.text(1, 1, Role::Text, "course");
    pen.text(BOTTOM_AT, 1, Role::Text, "bottom");
    pen.text(TOP_AT, 1, Role::Text, "top");
    let highest = edge.next_course().max(state.log.course);
    let first = lowest(state.log.course, highest, rows);
    for (up, number) in (1..=rows).zip((first..=highest.get()).filter_map(CourseNumber::new)) {
        let y = rows + 2 - up;
        let course = edge.course(number).copied();
        let shown = course.unwrap_or(Course::unread(number));
        pen.text(1, y, Role::Text, &format!("{:>5}", number.get()));
        cell(pen, state, open, &shown, End::Bottom, BOTTOM_AT, y);
        cell(pen, state, open, &shown, End::Top, TOP_AT, y);
        doubt_mark(pen, open, edge, number, (0, y));
        let elsewhere = open.job().read_from(edge.id, number);
        let words = match elsewhere {
            Some(other) => Some(format!("see {}-{number}", open.labels.edge(other.id))),
            None => course.map(|course| says(open, edge, &course)),
        };
        if let Some(words) = words {
            let room = usize::from(pen.width().saturating_sub(SAYS_AT));
            pen.text(SAYS_AT, y, Role::Text, &clipped(&words, room));
        } else if edge.courses().first().is_some_and(|c| number < c.number) {
            pen.text(SAYS_AT, y, Role::Text, "it starts above");
        } else if edge.courses().last().is_some_and(|c| number < c.number) {
            pen.text(SAYS_AT, y, Role::Strong, "left out");
        }
    }
}

/// `2` for a course that is two readings, `?` for one that is doubted, `!` for
/// one that was let stand.
fn doubt_mark(
    pen: &mut Pen<'_>,
    open: &OpenJob,
    edge: &Edge,
    number: CourseNumber,
    (x, y): (u16, u16),
) {
    let doubt = open.doubt_at(edge.id, number);
    if open.two_at(edge.id, number).is_some() {
        pen.text(x, y, Role::Trouble, "2");
    } else if doubt.is_some_and(|doubt| doubt.course.is_some()) {
        pen.text(x, y, Role::Trouble, "?");
    } else if is_let_stand(edge, number) {
        pen.text(x, y, Role::Strong, "!");
    }
}

fn by_line(pen: &mut Pen<'_>, state: &State, open: &OpenJob, edge: &Edge, rows: u16) {
    pen.text(1, 1, Role::Text, "line");
    pen.text(BOTTOM_AT, 1, Role::Text, "top below");
    pen.text(TOP_AT, 1, Role::Text, "bottom above");
    let highest = edge.next_course().max(state.log.course);
    let first = lowest(state.log.course, highest, rows);
    for (up, line) in (1..=rows).zip(first..=highest.get()) {
        let y = rows + 2 - up;
        pen.text(1, y, Role::Text, &format!("{line:>5}"));
        let below = line.checked_sub(1).and_then(CourseNumber::new);
        for (number, end, x) in [
            (below, End::Top, BOTTOM_AT),
            (CourseNumber::new(line), End::Bottom, TOP_AT),
        ] {
            if let Some(number) = number {
                let course = edge.course(number).copied();
                let shown = course.unwrap_or(Course::unread(number));
                cell(pen, state, open, &shown, end, x, y);
                doubt_mark(pen, open, edge, number, (x, y));
            }
        }
    }
}

fn cell(
    pen: &mut Pen<'_>,
    state: &State,
    open: &OpenJob,
    course: &Course,
    end: End,
    x: u16,
    y: u16,
) {
    let unit = open.job().settings.unit();
    let text = match (course.reading(end), course.runs_out) {
        (Some(reading), _) => exact(reading.length(), unit),
        (None, Some(at)) => {
            let word = if course.to.is_some() { "meet" } else { "out" };
            format!("{word} {}", exact(at.length(), unit))
        }
        (None, None) => expected_text(state, open, course.number, end),
    };
    let here = state.log.course == course.number && state.log.end == end;
    let role = match (here, state.log.focus) {
        (true, LogFocus::Courses) => Role::Selected,
        (true, LogFocus::Edges) => Role::Strong,
        _ => Role::Text,
    };
    pen.text(x, y, role, &format!(" {text:<11} "));
}

/// A missing reading; what it is expected to be where that is asked for.
fn expected_text(state: &State, open: &OpenJob, course: CourseNumber, end: End) -> String {
    let missing = || "--".to_owned();
    let Some(edge) = state
        .edge_in_log()
        .filter(|_| state.log.expected == ShowExpected::Yes)
    else {
        return missing();
    };
    let settings = &open.job().settings;
    let found = expected_readings(edge, settings, course, None)
        .into_iter()
        .find(|expected| expected.number == course)
        .and_then(|expected| match end {
            End::Bottom => expected.bottom,
            End::Top => expected.top,
        });
    found.map_or_else(missing, |length| {
        format!("~{}", print(length, settings.division))
    })
}

/// What a course comes to: its pieces, or why it has none.
fn says(open: &OpenJob, edge: &Edge, course: &Course) -> String {
    let division = open.job().settings.division;
    let empty = open
        .list
        .empty
        .iter()
        .find(|empty| empty.edge == edge.id && empty.course == course.number);
    if let Some(empty) = empty {
        return empty.why.words(division);
    }
    let pieces = match open.pieces_of_course(edge.id, course.number).len() {
        1 if course.to.is_some() => "board to board".to_owned(),
        1 => "1 piece".to_owned(),
        count => format!("{count} pieces"),
    };
    let height = course
        .height
        .map(|height| format!("high {}", print(height.length(), division)));
    let notes = open.notes_of_course(edge.id, course.number);
    let mut words = vec![pieces];
    words.extend(height);
    // What was begun at the bench: a reading that is retyped reaches steel.
    for piece in open.pieces_of_course(edge.id, course.number) {
        let done = open.progress.done(piece.id).map(Done::word);
        let done = done.map(str::to_owned);
        words.extend(done.filter(|done| !words.contains(done)));
    }
    for (_, note) in notes {
        let short = note.short().to_owned();
        if !words.contains(&short) {
            words.push(short);
        }
    }
    words.join(", ")
}
