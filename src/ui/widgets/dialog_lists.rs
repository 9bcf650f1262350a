//! Dialogs that are a list, one row of it selected: two readings, a doubt's
//! explanations, the states that are kept, the details of an edge.

use super::dialog_box::{boxed, listed, say, typed};
use crate::app::{message::KeptState, state::State};
use crate::domain::{
    cutting::{or_at_words, place_words, suspect_words},
    doubt::{Basis, Doubt},
    log::{Edge, EdgeDetail, Reading, TwoReadings},
    measure::cleaned,
    tape::{Division, Unit, exact_with_unit},
};
use crate::ui::pen::{Pen, broken, clipped, first_in_sight};
use crate::ui::theme::Role;

/// The log's reading and the sheet's.
pub(super) fn choose_reading(pen: &mut Pen<'_>, two: &TwoReadings, row: Option<usize>, unit: Unit) {
    let TwoReadings {
        course,
        figure,
        log,
        sheet,
    } = two;
    let title = format!("course {course} {}: which one stands?", figure.word());
    let mut inner = boxed(pen, 60, 5, &title);
    let say = |reading: Reading| exact_with_unit(reading.length(), unit);
    let log = log.map_or_else(|| "not read".to_owned(), say);
    let rows = [("the log's", log), ("the sheet's", say(*sheet))];
    for (y, (at, (whose, figure))) in (1..).zip(rows.into_iter().enumerate()) {
        let words = format!("{y}  {whose:<12}{figure}");
        listed(&mut inner, y, row == Some(at), &words);
    }
    inner.text(
        1,
        4,
        Role::Strong,
        "1 or 2, then it is chosen; Esc leaves both",
    );
}

/// Every explanation of a doubt, best first.
pub(super) fn explain(
    pen: &mut Pen<'_>,
    doubt: &Doubt,
    selected: Option<usize>,
    division: Division,
) {
    const WIDTH: u16 = 74;
    const KEYS: &str = "a digit takes one, or arrows and Enter; x: it stands; Esc: neither";
    let room = usize::from(WIDTH.min(pen.width().saturating_sub(2))).saturating_sub(6);
    let suspects: Vec<Vec<String>> = doubt
        .suspects()
        .map(|suspect| {
            let place = place_words(doubt, suspect.reading);
            let words = format!("{place}: {}", suspect_words(&suspect, division));
            broken(&words, room)
        })
        .collect();
    let rows: usize = suspects.iter().map(Vec::len).sum();
    let rows = u16::try_from(rows).unwrap_or(u16::MAX);
    let other = doubt.or_at.as_ref().map(or_at_words);
    let other = other.map(|other| format!("{other}: if so, x here, then d leads there"));
    let even = "1 and 2 are as likely: measure both readings again";
    let even = doubt.is_even.then(|| even.to_owned());
    // All above a course that was never read comes a course too early.
    let missing = "where a course below it was never read, + here puts one in";
    let missing = (doubt.basis == Basis::Below).then(|| missing.to_owned());
    let basis = Some(doubt.basis.words().into_owned());
    let tail: Vec<_> = [basis, even, other, missing]
        .into_iter()
        .flatten()
        .map(|words| (Role::Text, words))
        .chain([(Role::Strong, KEYS.to_owned())])
        .collect();
    let count = |(_, words): &(_, String)| broken(words, room + 4).len();
    let tail_rows: usize = tail.iter().map(count).sum();
    let tail_rows = u16::try_from(tail_rows).unwrap_or(u16::MAX);
    let mut inner = boxed(pen, WIDTH, rows + 2 + tail_rows, "doubtful");
    let mut y = 1;
    for (at, lines) in suspects.iter().enumerate() {
        let is_here = selected == Some(at);
        for (row, line) in lines.iter().enumerate() {
            match row {
                0 => listed(&mut inner, y, is_here, &format!("{}  {line}", at + 1)),
                _ => inner.row(y, Role::of_row(is_here), &format!("    {line}")),
            }
            y += 1;
        }
    }
    y += 1;
    for (role, words) in &tail {
        y = inner.wrapped(1, y, *role, words);
    }
}

/// The states of the job that are kept, and what the selected one has otherwise
/// than what is on the screen.
pub(super) fn kept(pen: &mut Pen<'_>, states: &[KeptState], selected: usize, is_asked: bool) {
    if let Some(chosen) = states.get(selected).filter(|_| is_asked) {
        return say(pen, "go back to this version?", &go_back_words(chosen));
    }
    const DIFFERENCES: usize = 5;
    let width = 90.min(pen.width().saturating_sub(2));
    let rows = usize::from(pen.height()).saturating_sub(2 + 4 + DIFFERENCES);
    let first = first_in_sight(selected, states.len(), rows);
    let shown = states.iter().enumerate().skip(first).take(rows);
    let count = u16::try_from(shown.len()).unwrap_or(0);
    let tail = u16::try_from(DIFFERENCES).unwrap_or(0);
    let of = format!("go back to which? {} of {}", selected + 1, states.len());
    let mut inner = boxed(pen, width, count + 3 + tail, &of);
    for (y, (at, state)) in (0..).zip(shown) {
        let words = clipped(&state.says, usize::from(width).saturating_sub(2));
        listed(&mut inner, y, at == selected, &words);
    }
    let Some(state) = states.get(selected) else {
        return;
    };
    let lines = state.differs.iter();
    inner.text(
        1,
        count + 1,
        Role::Strong,
        match (state.is_readable, state.differs.len()) {
            (false, _) => "It cannot be read:",
            (true, 0) => "It is as what is on the screen.",
            (true, _) => "What it has otherwise than what is on the screen:",
        },
    );
    let over = state.differs.len() > DIFFERENCES;
    let told = if over { DIFFERENCES - 1 } else { DIFFERENCES };
    let more = over.then(|| format!("and {} more", state.differs.len() - told));
    for (y, line) in (count + 2..).zip(lines.take(told).cloned().chain(more)) {
        inner.text(
            2,
            y,
            Role::Text,
            &clipped(&line, usize::from(width).saturating_sub(4)),
        );
    }
    let keys = "arrows choose, Enter goes back to it, Esc changes nothing";
    inner.text(1, count + 2 + tail, Role::Strong, keys);
}

/// What going back to it takes away, and how to come forward again.
fn go_back_words(chosen: &KeptState) -> String {
    const TOLD: usize = 4;
    // In the list it stands in columns.
    let words: Vec<&str> = chosen.says.split_whitespace().collect();
    let mut told = chosen
        .differs
        .iter()
        .take(TOLD)
        .cloned()
        .collect::<Vec<String>>();
    let more = chosen.differs.len().saturating_sub(TOLD);
    if more > 0 {
        told.push(format!("{more} more"));
    }
    format!(
        "{}. It has otherwise: {}. u does not undo this. What is on the screen now is kept as a version first: v lists it and leads back to it. y goes back, Esc does not.",
        words.join(" "),
        told.join("; ")
    )
}

/// What a detail says that is one of a few, while it is none of its own.
const AS_THE_JOB: &str = "as the job says";

/// The details of an edge, the selected one with what is typed for it.
pub(super) fn details(pen: &mut Pen<'_>, edge: &Edge, selected: usize, text: Option<&str>) {
    let title = clipped(edge.name.as_str(), 40);
    let of = EdgeDetail::of(edge.kind);
    let count = u16::try_from(of.len()).unwrap_or(0);
    const WIDTH: u16 = 70;
    let room = usize::from(WIDTH.min(pen.width().saturating_sub(2))).saturating_sub(1);
    let examples = of.iter();
    let examples = examples.map(|detail| broken(detail.example(), room).len());
    // As many as the longest needs, so that the box does not jump.
    let examples = examples.max().unwrap_or(1);
    let examples = u16::try_from(examples).unwrap_or(1);
    let mut inner = boxed(pen, WIDTH, count + 3 + examples, &title);
    for (y, (index, detail)) in (1..).zip(of.iter().enumerate()) {
        let sign = if index == selected { ">" } else { " " };
        inner.text(0, y, Role::Text, &format!("{sign}{}", detail.label()));
        let said = |text: String| match text.is_empty() && !detail.choices().is_empty() {
            true => AS_THE_JOB.to_owned(),
            false => text,
        };
        let as_it_stands = said(detail.said(edge));
        if index != selected {
            inner.text(28, y, Role::Text, &as_it_stands);
            continue;
        }
        let end = match text {
            Some(typed) => inner.text(28, y, Role::Strong, &said(typed.to_owned())),
            // A blank before it, and it stands under the others.
            None => inner.text(27, y, Role::Selected, &format!(" {as_it_stands} ")),
        };
        inner.text(end, y, Role::Selected, " ");
        inner.wrapped(1, count + 2, Role::Text, detail.example());
    }
    let words = "arrows choose, type over, Enter takes it and goes on";
    inner.text(1, count + 2 + examples, Role::Text, words);
}

/// The jobs opened lately, or the path of another one.
pub(super) fn pick_job(pen: &mut Pen<'_>, state: &State, title: &str, choice: usize, text: &str) {
    let recent = &state.preferences.recent;
    let rows = u16::try_from(recent.len()).unwrap_or(0);
    let mut inner = boxed(pen, 70, rows + 5, title);
    inner.text(1, 0, Role::Text, "Opened lately (arrows choose):");
    for (y, (at, path)) in (1..).zip(recent.iter().enumerate()) {
        let is_here = at == choice && text.is_empty();
        let shown = clipped(&cleaned(&path.to_string_lossy()), 66);
        listed(&mut inner, y, is_here, &shown);
    }
    inner.text(1, rows + 2, Role::Text, "or type the path of a job file:");
    typed(&mut inner, rows + 3, Role::Strong, text);
}
