//! What a key answers in a dialog: choosing, typing, saying yes or going back.

use super::{choosing, kept, saving, sheet};
use crate::app::{
    effect::Effect,
    place::Place,
    press::Press,
    record::save,
    screens::{batch, doubt, edges, job, misfit, rack, readings, second_trip, spoiling, taking},
    state::{Choice, Dialog, OpenJob, Prompt, Question, Spoiling, Spot, State},
};
use crate::domain::cutting::Job;
use crate::domain::measure::{Name, cleaned};
use std::path::PathBuf;

/// A key while `dialog` stands in front of the place; says where it leads.
pub fn pressed(state: &mut State, dialog: Dialog, press: Press) -> Option<Spot> {
    match (press, &dialog) {
        (Press::Back, _) => closed(state, dialog),
        (Press::Confirm, other) if !matches!(other, Dialog::Question(Question::Spoiled(_))) => {
            return confirm(state, dialog);
        }
        (Press::Type(c), &Dialog::Choice { what, .. }) => match what.row_of(c) {
            Some(row) => choosing::chosen(state, what, Some(row)),
            None => choosing::no_row(state, dialog, what, c),
        },
        (
            Press::TakeSuggestion | Press::MeasuredAgain,
            &Dialog::Choice {
                what: Choice::Doubt { edge, course },
                ..
            },
        ) => match press {
            Press::TakeSuggestion => doubt::take_first(state, edge, course),
            _ => doubt::stands(state, edge, course),
        },
        (Press::Yes, _) => yes(state, dialog),
        (
            Press::ListKept,
            Dialog::Question(Question::OpenedOdd { .. } | Question::LaterWork(_)),
        ) => {
            state.dialog = Some(dialog);
            job::ask_kept(state);
        }
        (Press::RunsOut, Dialog::Question(Question::RunsOut { at, .. })) => {
            readings::ask_runs_out(state, at.end);
        }
        (press, Dialog::Question(Question::Spoiled(asked))) => {
            of_spoiled(state, press, asked.clone());
        }
        (Press::Nothing, Dialog::Question(Question::CorrectionHolds(at))) => {
            readings::correction_holds(state, *at, false);
        }
        (Press::Again, Dialog::Question(Question::NoLongerFits(piece))) => {
            misfit::again(state, *piece);
        }
        (Press::LeaveIt, Dialog::Question(Question::NoLongerFits(piece))) => {
            misfit::leave(state, *piece);
        }
        (Press::OpenJob, Dialog::Question(Question::ChangedOutside)) => saving::open_other(state),
        (Press::Type(_), Dialog::Cautions) => choosing::swallowed(state, dialog),
        (Press::Switch, Dialog::Prompt { .. }) => sheet::turn(state, dialog),
        (Press::SaveAgain, _) => saving::again(state),
        (Press::SaveElsewhere, _) => saving::ask_where(state),
        _ => edited(state, dialog, press),
    }
    None
}

fn yes(state: &mut State, dialog: Dialog) {
    match dialog {
        Dialog::Kept {
            states,
            row,
            behind,
            is_asked: true,
        } => kept::read_it(state, states, row, behind),
        Dialog::Question(Question::DeleteEdge(edge)) => edges::delete(state, edge),
        Dialog::Question(Question::QuitUnsaved) => state.order(Effect::Quit),
        Dialog::Question(Question::ChangedOutside) => saving::keep_screen(state),
        // From here on the file is as it is on the screen.
        Dialog::Question(Question::OpenedOdd { .. }) => save(state),
        Dialog::Question(Question::SameFigures { path, .. }) => taking::take(state, path, true),
        Dialog::Question(Question::CorrectionHolds(at)) => {
            readings::correction_holds(state, at, true);
        }
        other => state.dialog = Some(other),
    }
}

/// A key that changes the dialog's text or moves its choice, else nothing.
fn edited(state: &mut State, mut dialog: Dialog, press: Press) {
    match press {
        Press::Type(c) => dialog.push(c),
        Press::Erase => dialog.erase(),
        Press::EraseAll => dialog.erase_all(),
        Press::Move(direction) => choosing::move_in(&mut dialog, direction, state),
        _ => {}
    }
    state.dialog = Some(dialog);
}

/// A key while it is asked what of a spoiled piece is usable.
fn of_spoiled(state: &mut State, press: Press, asked: Spoiling) {
    match press {
        Press::Confirm => spoiling::spoiled(state, asked),
        Press::Nothing => {
            let saved = Vec::new();
            spoiling::spoiled(state, Spoiling { saved, ..asked });
        }
        Press::Shorter => state.ask(Prompt::SpoiledShorter(asked), ""),
        Press::Because(said) => spoiling::because(state, asked, said),
        _ => state.dialog = Some(Dialog::Question(Question::Spoiled(asked))),
    }
}

fn closed(state: &mut State, dialog: Dialog) {
    match dialog {
        Dialog::Cautions => state.bench.cautions_read = true,
        // Leave it as it was: the 0 goes again.
        Dialog::Question(Question::RunsOut { at, before }) => readings::put_back(state, at, before),
        // Nothing was changed on the disk, and nothing will be.
        Dialog::Question(Question::OpenedOdd { before, .. }) => {
            state.open = None;
            state.place = Place::Job;
            // Nobody here works on it any more.
            state.order(Effect::LetGo);
            state.orders.extend(before.map(Effect::OpenJob));
        }
        // Back to the list.
        Dialog::Kept {
            states,
            row,
            behind,
            is_asked: true,
        } => {
            state.dialog = Some(Dialog::Kept {
                states,
                row,
                behind,
                is_asked: false,
            });
        }
        Dialog::Kept { behind, .. } => state.dialog = behind.map(Dialog::Question),
        _ => {}
    }
}

fn confirm(state: &mut State, dialog: Dialog) -> Option<Spot> {
    match dialog {
        Dialog::Help { .. } => {}
        Dialog::Cautions => state.bench.cautions_read = true,
        Dialog::Choice { what, row } => choosing::chosen(state, what, row),
        Dialog::Question(Question::RunsOut { .. }) => readings::go_to_next(state),
        // Answered by a letter alone: Enter belongs to the readings.
        Dialog::Question(Question::CorrectionHolds(at)) => {
            state.ask_question(Question::CorrectionHolds(at));
        }
        Dialog::Kept {
            states,
            row,
            behind,
            is_asked: false,
        } => kept::chosen(state, states, row, behind),
        // The others want another key than the one that brought them up.
        Dialog::Question(_) | Dialog::Kept { .. } => state.dialog = Some(dialog),
        Dialog::Details { edge, row, text } => edges::detail_typed(state, edge, row, text),
        Dialog::Prompt {
            ref what,
            ref text,
            recent,
            ..
        } => match typed(state, what, text, recent) {
            Ok(spot) => return spot,
            Err(why) => state.stay(dialog, why),
        },
    }
    None
}

/// Takes the text that was typed; says where it leads.
///
/// # Errors
/// Why it is not taken.
fn typed(
    state: &mut State,
    what: &Prompt,
    text: &str,
    recent: usize,
) -> Result<Option<Spot>, String> {
    let name = || Name::new(text).map_err(|error| error.to_string());
    match what {
        Prompt::Rename(edge) => edges::rename(state, *edge, name()?),
        // A number pad has no semicolon: Enter goes on to the other width.
        Prompt::FoundWidths(_) | Prompt::OffcutWidths(_)
            if !text.trim().is_empty() && !text.contains(';') =>
        {
            state.ask_further(what.clone(), format!("{}; ", text.trim()));
            state.say("now its width at the back");
        }
        Prompt::FoundWidths(_) | Prompt::OffcutWidths(_) if rack::asks_lot(state, what, text) => {
            state.ask_further(what.clone(), format!("{}; ", text.trim()));
            let lots = rack::numbered_lots(state);
            state.say(format!("now its colour lot: {lots}, or its name"));
        }
        Prompt::FoundWidths(whole) => rack::add_found(state, *whole, text)?,
        Prompt::CorrectBy(edge) => choosing::ask_sense(state, *edge, text)?,
        Prompt::SpoiledShorter(asked) => spoiling::shorter_typed(state, asked.clone(), text)?,
        Prompt::OverLaid(_) if !text.trim().is_empty() && !text.contains(';') => {
            state.ask_further(what.clone(), format!("{}; ", text.trim()));
            state.say("now its top, or * and how far up the edge runs out");
        }
        Prompt::OverLaid(piece) => second_trip::typed(state, *piece, text)?,
        Prompt::OffcutWidths(offcut) => rack::measured(state, *offcut, text)?,
        Prompt::Several => batch::count_typed(state, text)?,
        Prompt::Find => return find(state, text).map(Some),
        Prompt::Readings => taking::path_typed(state, text)?,
        Prompt::WriteSheet(edge) => sheet::path_typed(state, text, *edge)?,
        Prompt::SaveElsewhere => saving::path_typed(state, text)?,
        Prompt::BringRack => {
            let path = path_in(state, recent, text)?;
            if state.open.as_ref().is_some_and(|open| open.path == path) {
                let why =
                    "that is this very job, expected another one: its offcuts lie here already";
                return Err(why.to_owned());
            }
            state.order(Effect::ReadRack(path));
        }
        Prompt::NewJob | Prompt::Duplicate | Prompt::OpenJob => {
            saving::may_leave(state)?;
            let order = match what {
                Prompt::OpenJob => Effect::OpenJob(path_in(state, recent, text)?),
                _ => Effect::CreateJob(Box::new(new_job(state, what, name()?)?)),
            };
            state.order(order);
        }
    }
    Ok(None)
}

/// The open job under another name, or a new one from its settings: the same
/// crew, the same bench, mostly the same panel.
fn new_job(state: &State, what: &Prompt, name: Name) -> Result<Job, String> {
    let open = state.job();
    if *what == Prompt::Duplicate {
        let mut job = open.ok_or("no job is open")?.clone();
        job.name = name;
        return Ok(job);
    }
    let settings = open.map(|job| job.settings).unwrap_or_default();
    Ok(Job::new(name, settings))
}

/// The piece that was asked for.
fn find(state: &State, text: &str) -> Result<Spot, String> {
    let found = |open: &OpenJob| open.labels.find(open.job(), &open.list, text);
    let piece = state.open.as_ref().and_then(found);
    piece.map(Spot::Piece).ok_or_else(|| {
        format!(
            "\"{}\" is not one piece here, expected a label such as H2-5, or a hip's name",
            cleaned(text)
        )
    })
}

/// The path that was typed, or the recent one that is selected.
fn path_in(state: &State, recent: usize, text: &str) -> Result<PathBuf, String> {
    let typed = text.trim();
    if !typed.is_empty() {
        return Ok(state.path_of(typed));
    }
    let path = state.preferences.recent.get(recent).cloned();
    path.ok_or_else(|| "type the path of a job file".to_owned())
}
