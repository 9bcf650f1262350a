//! Choosing in a dialog: where the arrows go, and what the row that was chosen
//! leads to.

use crate::app::keymap::rows_for_help;
use crate::app::press::{Direction, moved};
use crate::app::screens::{batch, bench, doubt, edges, two_readings};
use crate::app::state::{Choice, Dialog, Entry, Field, Prompt, Purpose, Sense, State};
use crate::domain::{
    log::{CourseNumber, Edge, EdgeDetail, EdgeId},
    roof::EdgeKind,
    words::WORDS,
};

/// Moves the choice, or the text, of a dialog.
pub fn move_in(dialog: &mut Dialog, direction: Direction, state: &State) {
    match dialog {
        Dialog::Choice { what, row } => *row = row_after(*what, *row, direction, state),
        Dialog::Prompt {
            what: Prompt::OpenJob | Prompt::BringRack,
            recent,
            ..
        } => *recent = moved(*recent, direction, state.preferences.recent.len()),
        Dialog::Kept { states, row, .. } => *row = moved(*row, direction, states.len()),
        // To the end of what is offered.
        Dialog::Prompt { .. } if matches!(direction, Direction::Left | Direction::Right) => {
            dialog.keep_text();
        }
        Dialog::Details { edge, row, text }
            if matches!(direction, Direction::Left | Direction::Right) =>
        {
            turn_detail(text, *edge, *row, direction, state);
        }
        // What is typed is taken by Enter first, or it would be lost.
        Dialog::Details {
            edge,
            row,
            text: None,
        } => {
            let edge = state.job().and_then(|job| job.edge(*edge));
            let rows = edge.map_or(0, |edge| EdgeDetail::of(edge.kind).len());
            *row = moved(*row, direction, rows);
        }
        Dialog::Help { scroll } => {
            // The words after the keys take two rows at most.
            let rows = rows_for_help(state).len() + 2 + 2 * WORDS.len();
            *scroll = moved(*scroll, direction, rows);
        }
        _ => {}
    }
}

/// The next thing, or the one before, that the detail may be; Enter takes it.
fn turn_detail(text: &mut Option<String>, edge: EdgeId, row: usize, to: Direction, state: &State) {
    let edge = state.job().and_then(|job| job.edge(edge));
    let detail = |edge: &Edge| EdgeDetail::of(edge.kind).get(row);
    let Some((edge, detail)) = edge.and_then(|edge| Some((edge, detail(edge)?))) else {
        return;
    };
    let choices = detail.choices();
    let now = text.clone().unwrap_or_else(|| detail.said(edge));
    let at = choices
        .iter()
        .position(|choice| *choice == now)
        .unwrap_or(0);
    let on = match to {
        Direction::Left => choices.len().saturating_sub(1),
        _ => 1,
    };
    let next = (at + on).checked_rem(choices.len());
    let next = next.and_then(|next| choices.get(next));
    *text = next.map(|next| (*next).to_owned()).or(text.take());
}

/// The row that an arrow goes to from `row`.
fn row_after(what: Choice, row: Option<usize>, to: Direction, state: &State) -> Option<usize> {
    match (what, to) {
        (Choice::Kind, Direction::Left | Direction::Up) => row.map(|row| row.saturating_sub(1)),
        (Choice::Kind, _) => row.map(|row| (row + 1).min(EdgeKind::ALL.len() - 1)),
        (Choice::Hand { .. } | Choice::FoundWhole, Direction::Left) => Some(0),
        (Choice::Hand { .. } | Choice::FoundWhole, Direction::Right) => Some(1),
        (Choice::TwoReadings { .. } | Choice::Lying(_), Direction::Up) => Some(0),
        (Choice::TwoReadings { .. } | Choice::Lying(_), Direction::Down) => Some(1),
        (Choice::Doubt { edge, course }, _) => Some(match row {
            Some(row) => moved(row, to, suspects_of(state, edge, course)),
            // Two are as likely: neither was chosen before an arrow was pressed.
            None => 0,
        }),
        _ => row,
    }
}

/// A character that chooses no row; a digit at "longer, shorter" begins the amount.
pub fn no_row(state: &mut State, dialog: Dialog, what: Choice, c: char) {
    match what {
        Choice::Correct(edge) if c.is_ascii_digit() || c == '.' => {
            state.ask_further(Prompt::CorrectBy(edge), c.to_string());
        }
        _ => state.dialog = Some(dialog),
    }
}

/// A key that the cautions take no notice of.
pub fn swallowed(state: &mut State, dialog: Dialog) {
    state.dialog = Some(dialog);
    state.say("that key did nothing: Enter goes on from the cautions");
}

/// An amount was typed without its sense: it is asked which way.
///
/// # Errors
/// Why the amount is not taken.
pub fn ask_sense(state: &mut State, edge: EdgeId, text: &str) -> Result<(), String> {
    let job = state.job().ok_or("no job is open")?;
    let mut field = Field::new(Purpose::Correction(edge, Sense::Longer), None);
    text.trim().clone_into(&mut field.text);
    if let Entry::Correction(edge, by) = field.entry(&job.settings)? {
        state.ask_choice(Choice::CorrectBy(edge, by), None);
    }
    Ok(())
}

/// Takes the row that was chosen; asks for one where none was.
pub fn chosen(state: &mut State, what: Choice, row: Option<usize>) {
    let Some(at) = row else {
        state.stay(Dialog::Choice { what, row }, what.unchosen());
        return;
    };
    match what {
        // Its hand is asked for next: none is usual.
        Choice::Kind => {
            let kind = EdgeKind::ALL.get(at).copied().unwrap_or(EdgeKind::Hip);
            state.ask_choice(Choice::Hand { edge: None, kind }, None);
        }
        Choice::Hand { edge, kind } => edges::hand_chosen(state, edge, kind, Choice::side(at)),
        Choice::FoundWhole => state.ask(Prompt::FoundWidths(Choice::side(at)), ""),
        Choice::TwoReadings { edge, course } => two_readings::chosen(state, edge, course, at),
        Choice::Lying(count) => batch::begin(state, count, at),
        Choice::CorrectBy(edge, by) if at == 0 => bench::accept_correction(state, edge, -by),
        Choice::CorrectBy(edge, by) => bench::accept_correction(state, edge, by),
        Choice::Correct(edge) if at == 0 => bench::ask_correction(state, edge, Sense::Shorter),
        Choice::Correct(edge) => bench::ask_correction(state, edge, Sense::Longer),
        Choice::Doubt { edge, course } => {
            let listed = suspects_of(state, edge, course);
            match at < listed {
                true => doubt::take(state, edge, course, at),
                false => {
                    let why = format!("no {} in the list, expected 1 to {listed}", at + 1);
                    let row = Some(0);
                    state.stay(Dialog::Choice { what, row }, why);
                }
            }
        }
    }
}

/// How many explanations of a doubt are listed.
fn suspects_of(state: &State, edge: EdgeId, course: CourseNumber) -> usize {
    let open = state.open.as_ref();
    let doubt = open.and_then(|open| open.doubt_at(edge, course));
    doubt.map_or(0, |doubt| doubt.suspects().count())
}
