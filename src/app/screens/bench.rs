//! Bench: the piece in hand, one key from one step to the next.

use super::{batch, misfit, second_trip, spoiling};
use crate::app::{
    go::take_up,
    key::Millis,
    press::{Direction, Press},
    record::work,
    state::{
        Choice, Dialog, Field, OpenJob, Purpose, REPEAT_MS, Sense, Spot, State, pages_of, said_of,
    },
};
use crate::domain::{
    bench::{CutRest, Fact, MarkedStock, Stage, stages},
    cutting::{CutPiece, PieceStock},
    log::EdgeId,
    measure::Length,
    piece::{Marks, PieceId},
    settings::OneKey,
    stock::{Released, Rest},
};

/// A key at the Bench.
pub fn pressed(state: &mut State, press: Press, at: Millis) {
    state.bench.touched = true;
    match press {
        Press::Confirm => confirm(state, at),
        Press::Move(direction) => look_around(state, direction),
        Press::Correct => start_correction(state),
        Press::Several => batch::ask(state),
        Press::Back => batch::end(state),
        Press::Pause => pause(state),
        Press::SecondTrip => second_trip::pressed(state),
        Press::Spoiled => spoil(state),
        Press::OffcutGone => spoiling::own_offcut_gone(state),
        Press::ShowMarks => state.bench.shows_marks = !state.bench.shows_marks,
        _ => {}
    }
}

/// Spoiled at work: where one key does the whole piece, it was pressed for none of
/// its steps yet, but the steel is marked.
fn spoil(state: &mut State) {
    let Some((open, piece)) = state.open.as_ref().zip(state.piece_in_hand()) else {
        return;
    };
    let id = piece.id;
    let is_free = open.is_free(piece) && state.bench.cautions_read;
    let is_whole = one_key(state, open, piece) == OneKey::Piece;
    let mark = match is_whole && is_free && piece.stage == Stage::ToMark {
        true => fact_of(Stage::ToMark, piece, open),
        false => Ok(None),
    };
    match mark {
        Ok(mark) => spoiling::ask(state, id, None, mark),
        Err(why) => state.complain(why),
    }
}

/// How far one key goes on with `piece`.
fn one_key(state: &State, open: &OpenJob, piece: &CutPiece) -> OneKey {
    match batch::has(state, piece.id) {
        true => OneKey::Step,
        false => open.one_key(piece),
    }
}

fn confirm(state: &mut State, at: Millis) {
    if let Some(apart) = state.held_for(at) {
        // Slower than a key repeats: somebody means it.
        if apart >= REPEAT_MS {
            state.say("too soon after the last one to count: a moment, then press it again");
        }
        return;
    }
    if !state.bench.cautions_read {
        state.dialog = Some(Dialog::Cautions);
        return;
    }
    let Some((open, piece)) = state.open.as_ref().zip(state.piece_in_hand()) else {
        state.complain("no piece to cut yet: log a hip's readings first (F3)");
        return;
    };
    let (id, stage, pages) = (piece.id, piece.stage, pages_of(piece).len());
    if piece.fit.misfit().is_some() {
        misfit::ask(state, id);
        return;
    }
    if let Some(two) = open.held(piece) {
        let words = two.words(open.job().settings.unit());
        state.bench.piece = Some(id);
        state.complain(format!("HELD, {words}: m in the Log (F3) chooses"));
        return;
    }
    if piece.waits() {
        second_trip::ask(state, id);
        return;
    }
    let label = open.labels.piece(id);
    let facts = facts_to_do(piece, open, one_key(state, open, piece));
    if batch::is_out_of_turn(state, id, stage) {
        return;
    }
    state.bench.piece = Some(id);
    state.bench.shows_marks = false;
    // Every line is read before anything is cut, and bent before it is stacked.
    if state.bench.page + 1 < pages {
        state.bench.page += 1;
        return;
    }
    match facts {
        _ if stage == Stage::Stacked => {
            if !go_on(state) {
                let words = state.open.as_ref().map(all_stacked);
                state.say(words.unwrap_or_default());
            }
        }
        Ok(facts) => do_next(state, id, &label, facts),
        Err(why) => state.complain(why),
    }
}

/// Writes the next step down, says what it leaves and goes on from a piece that
/// is stacked.
fn do_next(state: &mut State, id: PieceId, label: &str, facts: Vec<Fact>) {
    let words = format!("{label} {}", facts.last().map_or("", Fact::word));
    state.bench.page = 0;
    let is_of_batch = batch::has(state, id);
    batch::set_aside(state, id);
    let was_cut = facts.iter().any(|fact| matches!(fact, Fact::Cut { .. }));
    work(state, words.clone(), Spot::Piece(id), facts);
    let Some(open) = &state.open else { return };
    let piece = open.piece(id);
    let rest = piece
        .filter(|_| was_cut)
        .and_then(|piece| open.labels.rest(&piece.rest))
        .map(|rest| format!("{words}, offcut: {rest}"));
    let mut said: Vec<String> = rest.into_iter().chain(released_words(open)).collect();
    let is_stacked = piece.is_some_and(|piece| piece.stage == Stage::Stacked);
    let is_laid_away = is_of_batch && batch::go_on(state);
    if is_stacked && !is_laid_away {
        match go_on(state) {
            // First: where the row is too short, the rest stands on the rack.
            true => said = passed_on(state, id).into_iter().chain(said).collect(),
            false => said.extend(state.open.as_ref().map(all_stacked)),
        }
    }
    if !said.is_empty() {
        state.say(said.join("; "));
    }
}

/// Another edge or another lot than the piece before: the stack, the hand and the
/// pallet change with it, and one key a piece is easily pressed on.
fn passed_on(state: &State, before: PieceId) -> Option<String> {
    let (open, now) = state.open.as_ref().zip(state.piece_in_hand())?;
    let edge_of = |piece: PieceId| open.job().edge(piece.edge);
    let lot_of = |piece: PieceId| edge_of(piece).and_then(|edge| edge.lot_of(piece.course));
    let (edge, lot) = (edge_of(now.id)?, lot_of(now.id));
    let is_other_edge = now.id.edge != before.edge;
    let on = is_other_edge.then(|| {
        let hand = edge.hand.word().to_uppercase();
        let label = open.labels.edge(edge.id);
        format!("now {label} {}, {hand} hand", edge.name)
    });
    let lot = lot.filter(|lot| is_other_edge || Some(*lot) != lot_of(before));
    let lot = lot.map(|lot| match is_other_edge {
        true => format!("lot {lot}"),
        false => format!("now lot {lot}"),
    });
    let said: Vec<String> = on.into_iter().chain(lot).collect();
    (!said.is_empty()).then(|| said.join(", "))
}

/// Nothing is left to do; a hole in the log means that pieces are still to come.
fn all_stacked(open: &OpenJob) -> String {
    let mut holes = open.list.holes();
    let Some(first) = holes.next() else {
        return "every piece is stacked".to_owned();
    };
    let (edge, place) = (open.edge_name(first.edge), first.place_and_why());
    let more = match holes.count() {
        0 => String::new(),
        count => format!(" and {count} more"),
    };
    format!("what is logged is stacked; still to come: {edge} {place}{more}")
}

/// Which promises the plan no longer keeps, in words.
fn released_words(open: &OpenJob) -> Vec<String> {
    let plan = &open.list.plan;
    let one = |released: &Released| {
        let now = plan.rack.get(&released.offcut).map_or_else(
            || "it has no use".to_owned(),
            |piece| format!("now for {}", open.labels.piece(*piece)),
        );
        let before = open.labels.piece(released.piece);
        format!("offcut {} no longer for {before}: {now}", released.offcut)
    };
    plan.released.iter().map(one).collect()
}

/// The facts that one key press writes down: the next step, or all that are
/// left of the piece.
///
/// # Errors
/// Why it cannot be marked yet.
fn facts_to_do(piece: &CutPiece, open: &OpenJob, one_key: OneKey) -> Result<Vec<Fact>, String> {
    let settings = &open.job().settings;
    let left: Vec<Stage> = stages(&piece.spec, settings.bench_order)
        .into_iter()
        .skip_while(|stage| *stage != piece.stage)
        .take_while(|stage| *stage != Stage::Stacked)
        .collect();
    let count = match one_key {
        OneKey::Step => 1,
        OneKey::Piece => left.len(),
    };
    left.into_iter()
        .take(count)
        .flat_map(|stage| match fact_of(stage, piece, open) {
            Ok(Some(fact)) => vec![Ok(cut_by_cut(fact, piece))],
            Ok(None) => Vec::new(),
            Err(why) => vec![Err(why)],
        })
        .collect()
}

/// A piece cut at both ends is cut twice, with a key each.
fn cut_by_cut(fact: Fact, piece: &CutPiece) -> Fact {
    let is_cut = matches!(fact, Fact::Cut { .. });
    match is_cut && !piece.first_cut && Marks::of(&piece.spec).cuts().len() > 1 {
        true => Fact::FirstCut(piece.id),
        false => fact,
    }
}

fn fact_of(stage: Stage, piece: &CutPiece, open: &OpenJob) -> Result<Option<Fact>, String> {
    Ok(match stage {
        Stage::ToMark => Some(Fact::Marked {
            piece: piece.id,
            spec: Box::new(piece.spec),
            stock: stock_in_hand(piece, open)?,
            lot: open
                .job()
                .edge(piece.id.edge)
                .and_then(|edge| edge.lot_of(piece.id.course).cloned()),
            written: open.labels.written(piece.id),
        }),
        Stage::ToCut => Some(Fact::Cut {
            piece: piece.id,
            rest: rest_of(piece, open),
        }),
        Stage::ToBend => Some(Fact::Bent(piece.id)),
        Stage::ToStack => Some(Fact::Stacked(piece.id)),
        Stage::Stacked => None,
    })
}

fn stock_in_hand(piece: &CutPiece, open: &OpenJob) -> Result<MarkedStock, String> {
    match piece.stock {
        PieceStock::New { panel } => Ok(MarkedStock::New { panel }),
        PieceStock::Rack { number, panel, .. } => Ok(MarkedStock::Offcut {
            offcut: number,
            panel,
        }),
        PieceStock::LeftBy { piece, .. } => {
            let before = open.labels.piece(piece);
            Err(format!(
                "this piece comes from the offcut of {before}: cut that one first"
            ))
        }
    }
}

fn rest_of(piece: &CutPiece, open: &OpenJob) -> CutRest {
    match piece.rest {
        Rest::KeptFor { piece, .. } => CutRest::Kept {
            offcut: open.progress.next_offcut(),
            promised: piece,
        },
        Rest::Waste | Rest::Nothing => CutRest::Waste,
    }
}

/// On to the next piece that is not stacked, of several at once to theirs; false
/// where there is none.
fn go_on(state: &mut State) -> bool {
    if batch::go_on(state) {
        return true;
    }
    let next = state.open.as_ref().and_then(|open| {
        let next = match open.place_in_hand(state.bench.piece) {
            Some(at) => open.next_after(at),
            None => open.next_open(0),
        };
        open.list.pieces.get(next?)
    });
    let next = next.map(|piece| piece.id);
    if let Some(piece) = next {
        take_up(state, piece);
    }
    next.is_some()
}

fn look_around(state: &mut State, direction: Direction) {
    if state.bench.page > 0 && matches!(direction, Direction::Left | Direction::Up) {
        state.bench.page -= 1;
        return;
    }
    let Some(open) = &state.open else { return };
    let Some(at) = open.place_in_hand(state.bench.piece) else {
        return;
    };
    let pieces = &open.list.pieces;
    let last = pieces.len().saturating_sub(1);
    let edge = |at: usize| pieces.get(at).map(|piece| piece.id.edge);
    let is_first = |at: &usize| at.checked_sub(1).and_then(edge) != edge(*at);
    let to = match direction {
        Direction::Left | Direction::Up => at.saturating_sub(1),
        Direction::Right | Direction::Down => (at + 1).min(last),
        Direction::First => 0,
        Direction::Last => last,
        // From within an edge, its own first piece.
        Direction::PageUp => (0..at).rfind(is_first).unwrap_or(0),
        Direction::PageDown => (at + 1..=last).find(is_first).unwrap_or(at),
    };
    if let Some(piece) = pieces.get(to).map(|piece| piece.id) {
        take_up(state, piece);
    }
}

/// Something else is done now: the time until the next step is no work.
fn pause(state: &mut State) {
    let Some(piece) = state.piece_in_hand().map(|piece| piece.id) else {
        return;
    };
    work(
        state,
        "pause".to_owned(),
        Spot::Piece(piece),
        vec![Fact::Paused],
    );
    state.say("pause: the time until the next step does not count");
}

/// Shorter or longer is asked first: a bare figure would be taken for either.
fn start_correction(state: &mut State) {
    if let Some(piece) = state.piece_in_hand() {
        state.ask_choice(Choice::Correct(piece.id.edge), None);
    }
}

/// Asks by how much.
pub fn ask_correction(state: &mut State, edge: EdgeId, sense: Sense) {
    state.field = Some(Field::new(Purpose::Correction(edge, sense), None));
}

/// Takes a correction typed at the Bench.
pub fn accept_correction(state: &mut State, edge: EdgeId, by: Length) {
    let Some(open) = &state.open else { return };
    let said = said_of(by, &open.job().settings);
    let words = format!("{}: {said}", open.edge_name(edge));
    let in_hand = state.bench.piece.filter(|piece| piece.edge == edge);
    let spot = in_hand.map_or(Spot::Edge(edge), Spot::Piece);
    let fact = Fact::Corrected { edge, by };
    work(state, words.clone(), spot, vec![fact]);
    state.say(format!("{words}, all pieces of it not yet marked"));
}
