//! Several pieces at once, at the Bench: how many, how they lie, and on from
//! one to the next.

use crate::app::{
    go::take_up,
    state::{Batch, Choice, LeftOut, Lying, OpenJob, Prompt, State},
};
use crate::domain::{bench::Stage, measure::cleaned, piece::PieceId};

/// Asks how many.
pub fn ask(state: &mut State) {
    if state.piece_in_hand().is_some() {
        state.ask(Prompt::Several, "");
    }
}

/// Takes how many; how they are to lie is asked next.
///
/// # Errors
/// What was typed is no count.
pub fn count_typed(state: &mut State, text: &str) -> Result<(), String> {
    let typed = text.trim();
    let count = match typed.parse::<usize>() {
        Ok(count) if count > 0 => Some(count),
        _ if typed.is_empty() => None,
        _ => {
            return Err(format!(
                "\"{}\" is no count of pieces, expected a number such as 6, or nothing for the rest of this hip",
                cleaned(typed)
            ));
        }
    };
    state.ask_choice(Choice::Lying(count), None);
    Ok(())
}

/// Begins with the piece in hand, and says where it ends and why there.
pub fn begin(state: &mut State, count: Option<usize>, row: usize) {
    let Some(open) = &state.open else { return };
    let from = open.place_in_hand(state.bench.piece).unwrap_or(0);
    let lying = Lying::ALL.get(row).copied().unwrap_or(Lying::Row);
    let (batch, left_out) = Batch::of(open, from, count, lying);
    let words = words_of(open, &batch, &left_out);
    let Some(first) = batch.next(open) else {
        state.complain(words);
        return;
    };
    state.bench.batch = Some(batch);
    take_up(state, first);
    state.say(words);
}

/// `5 pieces to H1-5 R; H1-6 R comes from the offcut of H1-3 R`.
fn words_of(open: &OpenJob, batch: &Batch, left_out: &LeftOut) -> String {
    let label = |piece: PieceId| open.labels.piece(piece);
    let pieces = batch.last().map(|last| match batch.count() {
        1 => format!("1 piece, {}", label(last)),
        count => format!("{count} pieces to {}", label(last)),
    });
    let pieces = pieces.unwrap_or_else(|| "no piece that can be marked now".to_owned());
    let stock = left_out.stock.map(|[piece, before]| {
        let (piece, before) = (label(piece), label(before));
        format!("{piece} comes from the offcut of {before}: cut that one first")
    });
    let waiting: Vec<String> = left_out.waiting.iter().copied().map(label).collect();
    let waiting =
        (!waiting.is_empty()).then(|| format!("held, passed over: {}", waiting.join(", ")));
    let words = [Some(pieces), stock, waiting];
    words.into_iter().flatten().collect::<Vec<_>>().join("; ")
}

/// Ends it; what is left of it goes on piece by piece.
pub fn end(state: &mut State) {
    if state.several().is_some() {
        state.bench.batch = None;
        state.say("one at a time again: the rest goes on piece by piece");
    }
}

/// Whether `piece` is of a batch that is underway: then a key is one step of it.
pub fn has(state: &State, piece: PieceId) -> bool {
    in_hand(state).is_some_and(|(open, batch)| batch.pass_of(open, piece).is_some())
}

/// Another piece has to lie under `piece` in the stack: goes to that one, and
/// says so.
pub fn is_out_of_turn(state: &mut State, piece: PieceId, stage: Stage) -> bool {
    let under = in_hand(state)
        .filter(|_| stage == Stage::ToStack)
        .and_then(|(open, batch)| {
            let under = batch.goes_under(open, piece)?;
            Some((batch.next(open)?, open.labels.piece(under)))
        });
    let Some((next, under)) = under else {
        return false;
    };
    let label = state.open.as_ref().map(|open| open.labels.piece(piece));
    take_up(state, next);
    state.complain(format!(
        "{} is not stacked yet: {under} goes on the stack before it",
        label.unwrap_or_default()
    ));
    true
}

/// On to its next piece; false where nothing of it is left to do.
pub fn go_on(state: &mut State) -> bool {
    let next = in_hand(state).and_then(|(open, batch)| batch.next(open));
    if let Some(piece) = next
        && state.bench.piece != Some(piece)
    {
        take_up(state, piece);
    }
    next.is_some()
}

/// What was done with `piece` is no part of it; one that is done with is
/// forgotten then, and not before, so that undo leads back into it.
pub fn set_aside(state: &mut State, piece: PieceId) {
    let is_of_it = in_hand(state).is_some_and(|(_, batch)| batch.place_of(piece).is_some());
    if !is_of_it && state.several().is_none() {
        state.bench.batch = None;
    }
}

fn in_hand(state: &State) -> Option<(&OpenJob, &Batch)> {
    state.open.as_ref().zip(state.bench.batch.as_ref())
}
