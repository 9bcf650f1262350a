//! The lower part of the Log: the reading that is being typed, large, or what
//! matters about the selected course and edge while none is.

use super::log_words::{says, why_no_piece};
use crate::app::screens::courses::reaches;
use crate::app::state::{Field, Figure, LogFocus, OpenJob, Purpose, ReadingAt, State};
use crate::domain::{
    cutting::{ExpectedEnd, Lots, doubt_words, expected_end, lacks_lot, lean_at_end, odd_plane},
    doubt::{Basis, basis, expected_reading},
    log::{CourseNumber, Edge, EdgeId, End},
    measure::Length,
    piece::leg_trouble,
    roof::Slope,
    settings::Settings,
    tape::{Unit, exact, parse_positive, print},
};
use crate::ui::pen::{Pen, broken, columns};
use crate::ui::theme::Role;
use crate::ui::widgets::digits::{self, DotSize};

/// Rows for what is being typed: a line, the figure understood, a line.
const ENTRY_ROWS: u16 = 6;

/// As many rows as what is said takes, as far as the courses leave them.
pub(super) fn entry_rows(
    pen: &Pen<'_>,
    state: &State,
    edge: &Edge,
    lines: &[(Role, String)],
) -> u16 {
    if state.field.as_ref().is_some_and(is_ours) {
        return ENTRY_ROWS;
    }
    let width = usize::from(pen.width().saturating_sub(1));
    let wanted: usize = lines
        .iter()
        .map(|(_, line)| broken(line, width).len())
        .sum();
    let wanted = u16::try_from(wanted).unwrap_or(u16::MAX).saturating_add(1);
    let shown = edge.next_course().max(state.log.course).get();
    let courses = u16::try_from(shown).unwrap_or(u16::MAX).saturating_add(2);
    let free = pen.height().saturating_sub(courses);
    // With many courses, half of the place is theirs.
    let most = free.max(pen.height() / 2).max(ENTRY_ROWS);
    wanted.clamp(ENTRY_ROWS, most)
}

/// Draws it from the pen's first row on: what is typed, else the doubt as a
/// block of its own, and below it what else matters.
pub(super) fn entry(
    pen: &mut Pen<'_>,
    state: &State,
    open: &OpenJob,
    doubt: &[(Role, String)],
    lines: &[(Role, String)],
) {
    let y = 0;
    pen.line(y);
    let Some(field) = state.field.as_ref().filter(|field| is_ours(field)) else {
        let mut y = y + 1;
        for (role, line) in doubt {
            y = pen.wrapped(1, y, *role, line);
        }
        if !doubt.is_empty() {
            pen.line(y);
            y += 1;
        }
        for (role, line) in lines {
            y = pen.wrapped(1, y, *role, line);
        }
        return;
    };
    let words = match field.purpose {
        Purpose::Course(figure, ReadingAt { edge, course, end }) => match figure {
            Figure::Width if runs_to(open, edge, course).is_some() => {
                format!("course {course} {}, board to board", end.word())
            }
            Figure::Width => format!("course {course} {}", end.word()),
            Figure::RunsOut if runs_to(open, edge, course).is_some() => {
                format!("course {course}: the boards meet, so far up")
            }
            Figure::RunsOut => format!("course {course} runs out, so far up"),
            Figure::Height => format!("course {course} is only so high"),
        },
        _ => String::new(),
    };
    let end = pen.text(1, y + 1, Role::Strong, &format!("{words}: {}", field.text));
    pen.text(end, y + 1, Role::Selected, " ");
    expected_beside(pen, (end + 2, y + 1), open, field);
    match field.understood(&open.job().settings) {
        Ok(figure) => understood(pen, y + 2, &figure),
        Err(why) => {
            pen.wrapped(1, y + 2, Role::Text, &why);
        }
    }
}

/// What the line or the roof lets expect, and how far off the figure is that
/// is being typed.
fn expected_beside(pen: &mut Pen<'_>, (from, y): (u16, u16), open: &OpenJob, field: &Field) {
    let settings = &open.job().settings;
    let say = |length| print(length, settings.division);
    let Some(expected) = expected_here(open, field.purpose) else {
        return;
    };
    let expected = match expected {
        ExpectedEnd::Reading(expected) => expected,
        ExpectedEnd::Meet(up) => {
            // No reading is expected here at all.
            let words = format!("expected: the boards meet {} up", say(up));
            if columns(&words) <= pen.width().saturating_sub(from + 1) {
                pen.text_right(1, y, Role::Strong, &words);
            }
            return;
        }
    };
    let alone = format!("expected {}", say(expected));
    let mut words = alone.clone();
    if let Ok(typed) = parse_positive(&field.text, settings.unit()) {
        let off = typed - expected;
        let sign = if off < Length::ZERO { "-" } else { "+" };
        words.push_str(&format!(" ({sign}{})", say(off.abs())));
    }
    // Never over the figure that is being typed.
    let room = pen.width().saturating_sub(from + 1);
    let fits = [&words, &alone]
        .into_iter()
        .find(|words| columns(words) <= room);
    if let Some(words) = fits {
        pen.text_right(1, y, Role::Strong, words);
    }
}

/// What is expected of the figure that is typed: where that is how far up the
/// boards meet, as a reading.
fn expected_here(open: &OpenJob, purpose: Purpose) -> Option<ExpectedEnd> {
    let Purpose::Course(figure, ReadingAt { edge, course, end }) = purpose else {
        return None;
    };
    let job = open.job();
    let edge = job.edge(edge)?;
    let to = runs_to(open, edge.id, course);
    match figure {
        Figure::Width if to.is_none() => {
            expected_reading(edge, &job.settings, course, end).map(ExpectedEnd::Reading)
        }
        Figure::Width => expected_end(job, edge, course, end, &open.doubts),
        Figure::RunsOut => match expected_end(job, edge, course, End::Top, &open.doubts)? {
            ExpectedEnd::Meet(up) => Some(ExpectedEnd::Reading(up)),
            ExpectedEnd::Reading(_) => None,
        },
        Figure::Height => None,
    }
}

/// The edge to which a course's piece runs.
fn runs_to(open: &OpenJob, edge: EdgeId, course: CourseNumber) -> Option<EdgeId> {
    open.job().edge(edge)?.course(course)?.to
}

fn is_ours(field: &Field) -> bool {
    matches!(field.purpose, Purpose::Course(..))
}

/// The figure as it was understood, large, before it is accepted.
fn understood(pen: &mut Pen<'_>, y: u16, figure: &str) {
    let (number, unit) = figure.rsplit_once(' ').unwrap_or((figure, ""));
    let width = digits::width(number, DotSize::Half);
    if width + columns(unit) + 3 <= pen.width() {
        let end = digits::draw(pen, 1, y, number, DotSize::Half);
        pen.text(end + 1, y + 2, Role::Strong, unit);
    } else {
        pen.text(1, y, Role::Strong, figure);
    }
}

/// Nothing is being typed: what matters most about the selected course or edge.
pub(super) fn idle_lines(state: &State, open: &OpenJob, edge: &Edge) -> Vec<(Role, String)> {
    let settings = &open.job().settings;
    let course = state.log.course;
    let prompt = match state.log.focus {
        LogFocus::Edges => "Enter or -> goes to the readings, digits start typing.".to_owned(),
        LogFocus::Courses => what_to_type(state, open, edge),
    };
    let mut lines = vec![(Role::Text, prompt)];
    let read = edge.course(course).map(|course| says(open, edge, course));
    if let Some(words) = read.filter(|words| words.len() > 1) {
        lines.push((Role::Text, format!("course {course}: {}", words.join(", "))));
    }
    let mut strong = |line: String| lines.push((Role::Strong, line));
    let why = edge.course(course);
    let why = why.and_then(|course| why_no_piece(open, edge, course));
    why.into_iter().for_each(&mut strong);
    for struck in edge.struck.iter().filter(|struck| struck.course == course) {
        let was = exact(struck.was.length(), settings.unit());
        strong(format!("{} was written {was}", struck.end.word()));
    }
    for (piece, note) in open.notes_of_course(edge.id, course) {
        let words = note.words(edge.kind, settings.division);
        strong(format!("piece {}: {words}", piece.number));
    }
    if let Some(reminder) = edge.roof.slope.and_then(Slope::low_slope_reminder) {
        strong(reminder.to_owned());
    }
    if lacks_lot(open.job(), edge) {
        strong("NO COLOUR LOT said, others have one: s says it".to_owned());
    }
    planes_and_lots(open, edge).into_iter().for_each(strong);
    let by = basis(edge, settings);
    if edge.courses().is_empty() {
        let words = "Up first where its lowest course is not course 1.";
        lines.push((Role::Text, words.to_owned()));
    }
    if edge.courses().is_empty() && edge.roof.slope.is_none() {
        let words = "s says its slope: with it a slip is seen from the first course on.";
        lines.push((Role::Text, words.to_owned()));
    } else if by != Basis::Own && !edge.courses().is_empty() {
        lines.push((Role::Text, format!("Doubts: {}.", by.words())));
    }
    match runs_to(open, edge.id, course) {
        Some(to) => lines.extend(board_to_board(open, edge, course, to)),
        None => lines.push((Role::Text, how_read(edge, course, settings))),
    }
    // About the edge as a whole: not again at every reading.
    let of_the_edge = state.log.focus == LogFocus::Edges || edge.courses().is_empty();
    if let Some(trouble) = leg_trouble(edge, settings).filter(|_| of_the_edge) {
        let words = format!("{}. F6 (Job) sets it.", trouble.words(settings.division));
        lines.push((Role::Strong, words));
    }
    lines
}

/// What digits and Enter do at the selected reading.
fn what_to_type(state: &State, open: &OpenJob, edge: &Edge) -> String {
    let (course, end) = (state.log.course, state.log.end);
    let read = edge.course(course);
    let ends = end == End::Bottom && !reaches(edge, course);
    let kind = edge.kind.word();
    if let Some(other) = open.job().read_from(edge.id, course) {
        let (name, label) = (&other.name, open.labels.edge(other.id));
        let then = if ends {
            format!("ends this {kind}")
        } else {
            "goes on".to_owned()
        };
        return format!(
            "Course {course} is read at {name} ({label}), from board to board; Enter {then}."
        );
    }
    let then = match ends {
        true => format!("Enter on this empty course ends this {kind}"),
        false => "Enter goes on".to_owned(),
    };
    let over = match read.and_then(|course| course.reading(end)) {
        Some(_) => "Type over",
        None => "Type",
    };
    format!("{over} the {} of course {course}; {then}.", end.word())
}

/// What is doubtful about the selected course.
pub(super) fn doubt_lines(state: &State, open: &OpenJob, edge: &Edge) -> Vec<(Role, String)> {
    let settings = &open.job().settings;
    let course = state.log.course;
    let two = open.two.iter();
    let mut lines = Vec::new();
    for (_, two) in two.filter(|(at, two)| *at == edge.id && two.course == course) {
        let words = two.words(settings.unit());
        lines.push((Role::Strong, format!("2 {words}: m chooses")));
    }
    if let Some(doubt) = open.doubt_at(edge.id, course) {
        let words = doubt_words(doubt, settings.division);
        lines.push((Role::Strong, format!("? {words}")));
    }
    lines
}

/// How a course that runs to another edge is read, and whose lean is taken from
/// other edges.
fn board_to_board(
    open: &OpenJob,
    edge: &Edge,
    course: CourseNumber,
    to: EdgeId,
) -> Vec<(Role, String)> {
    let read = format!(
        "Course {course} runs to {} ({}): read both ends from board to board, hard.",
        open.edge_name(to),
        open.labels.edge(to)
    );
    let job = open.job();
    let ends = [Some(edge), job.edge(to)].into_iter().flatten();
    let by_others = ends.filter(|edge| lean_at_end(job, edge).is_some_and(|lean| lean.by_others));
    let by_others = by_others.map(|edge| {
        format!(
            "How much {} leans is taken from the job's other {}s: its slope, or five courses of it, would tell.",
            edge.name,
            edge.kind.word()
        )
    });
    let lines = std::iter::once(read).chain(by_others);
    lines.map(|line| (Role::Text, line)).collect()
}

/// How readings of this course are taken, in words: as its edge's are, or to a line
/// of its own.
fn how_read(edge: &Edge, course: CourseNumber, settings: &Settings) -> String {
    use crate::domain::log::TapeEnd;
    let struck = edge.course(course).and_then(|course| course.reads_to);
    let to = match struck {
        Some(_) => "to the struck line",
        None => settings.reads_to(edge).said(),
    };
    let end = match settings.tape_end_at(edge) {
        TapeEnd::HeldOff => "the tape's end held off the board",
        TapeEnd::Hard => "the tape's end hard against the board",
    };
    let unit = match settings.unit() {
        Unit::Inch => "inches",
        Unit::Millimetre => "millimetres",
    };
    format!("Readings in {unit} {to}, {end}.")
}

/// What is odd about the edge's plane and the lots on it.
fn planes_and_lots(open: &OpenJob, edge: &Edge) -> Vec<String> {
    let Some(plane) = &edge.plane else {
        return Vec::new();
    };
    let lots = Lots::on(plane, open.job(), &open.progress, &open.list);
    let doubts = lots.doubts.into_iter().map(|lot| format!("? {lot}"));
    let planes = odd_plane(open.job(), plane).into_iter();
    planes.chain(doubts).chain(lots.notes).collect()
}
