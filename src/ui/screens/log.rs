//! Log: the edges on the left, the readings of one as they stand on the roof.
//!
//! Up the roof is up the screen: the course at the eave is the lowest row. Of the
//! two lists only the one that has the keys shows `>`; where the other one stands is
//! bold.

use super::{
    hips::heading,
    log_entry::{doubt_lines, entry, entry_rows, idle_lines},
    log_words::in_row,
};
use crate::app::state::{EntryOrder, LogFocus, OpenJob, ShowExpected, State};
use crate::domain::{
    cutting::{ExpectedEnd, expected_end, is_let_stand},
    doubt::expected_readings,
    log::{Course, CourseNumber, Edge, End},
    tape::{exact, print},
};
use crate::ui::pen::{Pen, broken, columns};
use crate::ui::theme::Role;

/// Where the columns of readings begin, and how far behind the second one that is
/// what is said of the course.
const LEFT_AT: u16 = 8;
const RIGHT_AT: u16 = 21;
const SAYS_BEHIND: u16 = 14;
/// What stands beside a name in the list: its label, its hand, how many courses.
const BESIDE_NAME: u16 = 5 + 7;

/// Draws the place.
pub fn draw(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let (width, height) = (pen.width(), pen.height());
    let list = list_width(open, width);
    edges(&mut pen.part(0, 0, list, height), state, open);
    pen.upright(list, 0, height);
    let x = list + 1;
    let mut right = pen.part(x, 0, width.saturating_sub(x), height);
    let Some(edge) = state.edge_in_log() else {
        right.text(1, 1, Role::Strong, "No hip yet.");
        let words = "a adds one: its hand is chosen by a drawing.";
        right.text(1, 3, Role::Text, words);
        let words = "g takes readings from a spreadsheet's file (CSV).";
        right.text(1, 4, Role::Text, words);
        return;
    };
    let block = doubt_lines(state, open, edge);
    let lines = idle_lines(state, open, edge);
    let title = title(&mut right, edge);
    let said = [&block[..], &lines].concat();
    let entry_rows = entry_rows(&right, state, edge, &said) + u16::from(!block.is_empty());
    let rows = right.height().saturating_sub(entry_rows + title + 1);
    let width = right.width();
    let mut table = right.part(0, title, width, rows + 1);
    let used = match state.log.order {
        EntryOrder::Courses => by_course(&mut table, state, open, edge, rows),
        EntryOrder::Lines => by_line(&mut table, state, open, edge, rows),
    };
    let below = title + 1 + used;
    let height = right.height().saturating_sub(below);
    entry(
        &mut right.part(0, below, width, height),
        state,
        open,
        &block,
        &lines,
    );
}

/// As wide as the names need, as far as a third of the screen goes.
fn list_width(open: &OpenJob, width: u16) -> u16 {
    let names = open.job().edges().iter();
    let longest = names.map(|edge| columns(edge.name.as_str())).max();
    let wanted = longest.unwrap_or(0) + BESIDE_NAME;
    wanted.clamp(24, 26.max(width / 3))
}

/// The edges; a name too long for its column goes on in further rows, so that
/// none is cut short and no two look alike.
fn edges(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let edges = open.job().edges();
    let at = state
        .edge_in_log()
        .and_then(|edge| open.job().place_of(edge.id));
    let place = at.map_or_else(String::new, |at| format!("{} of {}", at + 1, edges.len()));
    let kinds = heading(edges.iter().map(|edge| edge.kind));
    let fits = columns(&kinds) + columns(&place) + 3 <= pen.width();
    let heading = if fits { &kinds } else { "edges" };
    pen.text(1, 0, Role::Strong, heading);
    pen.text_right(1, 0, Role::Text, &place);
    let room = usize::from(pen.width().saturating_sub(BESIDE_NAME));
    let names = edges.iter().map(|edge| broken(edge.name.as_str(), room));
    let names: Vec<Vec<String>> = names.collect();
    let rows = usize::from(pen.height().saturating_sub(2));
    let at = at.unwrap_or(0);
    // From the selected one backwards as far as the rows go.
    let mut taken = 0;
    let start = (0..=at).rev().take_while(|index| {
        taken += names.get(*index).map_or(1, |name| name.len().max(1));
        taken <= rows
    });
    let mut y = 2;
    let start = start.last().unwrap_or(at);
    for (index, (edge, name)) in edges.iter().zip(&names).enumerate().skip(start) {
        let role = match (index == at, state.log.focus) {
            (true, LogFocus::Edges) => Role::Selected,
            (true, LogFocus::Courses) => Role::Strong,
            _ => Role::Text,
        };
        let sign = if role == Role::Selected { ">" } else { " " };
        let label = format!("{sign}{}", open.labels.edge(edge.id));
        let count = edge.courses().len().to_string();
        let is_doubted = open.count_of_doubts(edge.id) > 0;
        let first = y;
        for row in name {
            pen.row(y, role, "");
            pen.text(5, y, role, row);
            y += 1;
        }
        y = y.max(first + 1);
        pen.text(0, first, role, &label);
        let hand = pen.width().saturating_sub(6);
        let doubt = if is_doubted { "?" } else { " " };
        let words = format!("{doubt} {}", edge.hand.letter());
        pen.text(hand, first, role, &words);
        pen.text_right(0, first, role, &count);
    }
}

/// What is open: its name, its kind and hand, its slope. Says how many rows it
/// took.
fn title(pen: &mut Pen<'_>, edge: &Edge) -> u16 {
    let slope = edge.roof.slope.map(|slope| format!(", {slope}"));
    let words = format!(
        "{}: {}, {}-hand pieces{}",
        edge.name,
        edge.kind.word(),
        edge.hand.word().to_uppercase(),
        slope.unwrap_or_default()
    );
    pen.wrapped(1, 0, Role::Strong, &words)
}

/// `course 4 of 13`, over the table.
fn place_in_edge(pen: &mut Pen<'_>, state: &State, edge: &Edge) {
    let last = edge.courses().last().map_or(0, |last| last.number.get());
    let at = state.log.course.get();
    let words = match at <= last {
        true => format!("{at} of {last}"),
        false => format!("after {last}"),
    };
    if last > 0 {
        pen.text_right(1, 0, Role::Text, &words);
    }
}

/// The lowest number shown, so that the selected one stays in sight.
fn lowest(selected: CourseNumber, highest: CourseNumber, rows: u16) -> u32 {
    let rows = u32::from(rows);
    let below = selected.get().saturating_sub(rows / 2).max(1);
    let last_full = (highest.get() + 1).saturating_sub(rows).max(1);
    below.min(last_full)
}

/// Where the two columns of readings begin, and what is said beside them.
struct Across {
    left: u16,
    right: u16,
    says: u16,
}

impl Across {
    /// As wide as the `readings` of the rows that are shown, so that none touches
    /// what stands beside it, and as usual at least.
    fn of<'t>(readings: impl Iterator<Item = &'t [String; 2]>) -> Self {
        let [mut left, mut right] = [0, 0];
        for [one, other] in readings {
            left = columns(one).max(left);
            right = columns(other).max(right);
        }
        // Before a reading stands `>`, before that a doubt's sign.
        let right_at = RIGHT_AT.max(LEFT_AT + left + 3);
        Self {
            left: LEFT_AT,
            right: right_at,
            says: (right_at + SAYS_BEHIND).max(right_at + right + 2),
        }
    }
}

/// The numbers that have a row, from the eave up, as far as the place goes.
fn numbers(state: &State, edge: &Edge, rows: u16) -> std::ops::RangeInclusive<u32> {
    let highest = edge.next_course().max(state.log.course);
    let first = lowest(state.log.course, highest, rows);
    let count = u32::from(rows).min((highest.get() + 1).saturating_sub(first));
    first..=(first + count).saturating_sub(1)
}

fn headings(pen: &mut Pen<'_>, state: &State, edge: &Edge, at: &Across, words: [&str; 3]) {
    let [number, left, right] = words;
    pen.text(1, 0, Role::Text, number);
    pen.text(at.left + 1, 0, Role::Text, left);
    pen.text(at.right + 1, 0, Role::Text, right);
    place_in_edge(pen, state, edge);
}

/// A row a course, the eave lowest, without a hole below the headings; says how
/// many rows that are.
fn by_course(pen: &mut Pen<'_>, state: &State, open: &OpenJob, edge: &Edge, rows: u16) -> u16 {
    let shown = numbers(state, edge, rows).filter_map(CourseNumber::new);
    let shown: Vec<(Option<Course>, CourseNumber, [String; 2])> = shown
        .map(|number| {
            let course = edge.course(number).copied();
            let read = course.unwrap_or(Course::unread(number));
            let texts = End::BOTH.map(|end| cell_text(state, open, &read, end));
            (course, number, texts)
        })
        .collect();
    let at = Across::of(shown.iter().map(|(_, _, texts)| texts));
    headings(pen, state, edge, &at, ["course", "bottom", "top"]);
    let used = u16::try_from(shown.len()).unwrap_or(u16::MAX);
    for (up, (course, number, [bottom, top])) in (1..=used).zip(shown) {
        let y = used + 1 - up;
        pen.text(1, y, Role::Text, &format!("{:>5}", number.get()));
        cell(pen, state, (number, End::Bottom), &bottom, (at.left, y));
        cell(pen, state, (number, End::Top), &top, (at.right, y));
        doubt_mark(pen, open, edge, number, (0, y));
        let elsewhere = open.job().read_from(edge.id, number);
        let room = pen.width().saturating_sub(at.says);
        let words = match elsewhere {
            Some(other) => Some(format!("see {}-{number}", open.labels.edge(other.id))),
            None => course.map(|course| in_row(open, edge, &course, room)),
        };
        if let Some(words) = words {
            pen.text(at.says, y, Role::Text, &words);
        } else if edge.courses().first().is_some_and(|c| number < c.number) {
            pen.text(at.says, y, Role::Text, "it starts above");
        } else if edge.courses().last().is_some_and(|c| number < c.number) {
            pen.text(at.says, y, Role::Strong, "left out");
        }
    }
    used
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
        pen.text(x, y, Role::Strong, "2");
    } else if doubt.is_some_and(|doubt| doubt.course.is_some()) {
        pen.text(x, y, Role::Strong, "?");
    } else if is_let_stand(edge, number) {
        pen.text(x, y, Role::Strong, "!");
    }
}

fn by_line(pen: &mut Pen<'_>, state: &State, open: &OpenJob, edge: &Edge, rows: u16) -> u16 {
    let beside = |line: u32| {
        let below = line.checked_sub(1).and_then(CourseNumber::new);
        [(below, End::Top), (CourseNumber::new(line), End::Bottom)]
    };
    let shown: Vec<(u32, [String; 2])> = numbers(state, edge, rows)
        .map(|line| {
            let text = |(number, end): (Option<CourseNumber>, End)| {
                let course = number.map(|number| {
                    let course = edge.course(number).copied();
                    course.unwrap_or(Course::unread(number))
                });
                let text = course.map(|course| cell_text(state, open, &course, end));
                text.unwrap_or_default()
            };
            (line, beside(line).map(text))
        })
        .collect();
    let at = Across::of(shown.iter().map(|(_, texts)| texts));
    headings(pen, state, edge, &at, ["line", "top below", "bottom above"]);
    let used = u16::try_from(shown.len()).unwrap_or(u16::MAX);
    for (up, (line, texts)) in (1..=used).zip(shown) {
        let y = used + 1 - up;
        pen.text(1, y, Role::Text, &format!("{line:>5}"));
        let columns = [at.left, at.right].into_iter().zip(&texts);
        for ((number, end), (x, text)) in beside(line).into_iter().zip(columns) {
            if let Some(number) = number {
                cell(pen, state, (number, end), text, (x, y));
                doubt_mark(pen, open, edge, number, (x.saturating_sub(1), y));
            }
        }
    }
    used
}

/// A reading as it stands in its row.
fn cell_text(state: &State, open: &OpenJob, course: &Course, end: End) -> String {
    let unit = open.job().settings.unit();
    match (course.reading(end), course.runs_out) {
        (Some(reading), _) => exact(reading.length(), unit),
        (None, Some(at)) => {
            let word = if course.to.is_some() { "meet" } else { "out" };
            format!("{word} {}", exact(at.length(), unit))
        }
        (None, None) => expected_text(state, open, course.number, end),
    }
}

fn cell(
    pen: &mut Pen<'_>,
    state: &State,
    (number, end): (CourseNumber, End),
    text: &str,
    (x, y): (u16, u16),
) {
    let here = state.log.course == number && state.log.end == end;
    let role = match (here, state.log.focus) {
        (true, LogFocus::Courses) => Role::Selected,
        (true, LogFocus::Edges) => Role::Strong,
        _ => Role::Text,
    };
    let sign = if role == Role::Selected { ">" } else { " " };
    pen.text(x, y, role, &format!("{sign}{text:<11}"));
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
    // Read at the edge from which its piece runs.
    if open.job().read_from(edge.id, course).is_some() {
        return missing();
    }
    let settings = &open.job().settings;
    let say = |length| print(length, settings.division);
    if (edge.course(course)).is_some_and(|course| course.to.is_some()) {
        let expected = expected_end(open.job(), edge, course, end, &open.doubts);
        return match expected {
            Some(ExpectedEnd::Reading(length)) => format!("~{}", say(length)),
            Some(ExpectedEnd::Meet(up)) => format!("~meet {}", say(up)),
            None => missing(),
        };
    }
    let found = expected_readings(edge, settings, course, None)
        .into_iter()
        .find(|expected| expected.number == course)
        .and_then(|expected| match end {
            End::Bottom => expected.bottom,
            End::Top => expected.top,
        });
    found.map_or_else(missing, |length| format!("~{}", say(length)))
}
