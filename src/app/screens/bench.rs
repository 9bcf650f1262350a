//! Bench: the piece in hand, one key from one step to the next.

use super::spoiling;
use crate::app::{
    effect::Effect,
    key::Millis,
    place::Place,
    press::{Direction, Press},
    state::{Dialog, Field, OpenJob, Purpose, Sense, Spot, State, said_of},
    update::save,
};
use crate::domain::{
    bench::{CutRest, Fact, MarkedStock, Stage, stages},
    cutting::{CutPiece, PieceStock},
    measure::{Length, Name},
    piece::PieceId,
    settings::OneKey,
    stock::{Released, Rest},
};

/// The piece in hand: the chosen one, else the next that is not stacked, else
/// the last one.
pub fn in_hand(state: &State) -> Option<&CutPiece> {
    let open = state.open.as_ref()?;
    let place = place_in_hand(open, state.bench.piece)?;
    open.list.pieces.get(place)
}

fn place_in_hand(open: &OpenJob, chosen: Option<PieceId>) -> Option<usize> {
    let last = || open.list.pieces.len().checked_sub(1);
    chosen
        .and_then(|piece| open.list.place_of(piece))
        .or_else(|| open.list.next_open(0))
        .or_else(last)
}

/// A key at the Bench.
pub fn pressed(state: &mut State, press: Press, at: Millis) -> Vec<Effect> {
    match press {
        Press::Confirm => return confirm(state, at),
        Press::Move(direction) => look_around(state, direction),
        Press::Correct => start_correction(state),
        Press::Spoiled => return spoiling::spoil(state),
        Press::OffcutGone => return spoiling::offcut_gone(state),
        _ => {}
    }
    Vec::new()
}

/// The slowest that a held key repeats itself, once it does.
const REPEAT_MS: u64 = 250;

/// Whether a key for "done" is held down rather than pressed again.
pub fn is_held(state: &State, at: Millis) -> bool {
    state
        .last_confirm
        .is_some_and(|last| at.0.saturating_sub(last.0) < state.hold_ms)
}

fn confirm(state: &mut State, at: Millis) -> Vec<Effect> {
    if is_held(state, at) {
        // Slower than a key repeats: somebody means it.
        let apart = state
            .last_confirm
            .map_or(0, |last| at.0.saturating_sub(last.0));
        if apart >= REPEAT_MS {
            state.say("too soon after the last one to count: press it again");
        }
        return Vec::new();
    }
    if !state.bench.cautions_read {
        state.dialog = Some(Dialog::Cautions);
        return Vec::new();
    }
    let Some(piece) = in_hand(state).cloned() else {
        state.complain("no piece to cut yet: log a hip's readings first (F3)");
        return Vec::new();
    };
    state.bench.piece = Some(piece.id);
    if piece.stage == Stage::Stacked {
        if !go_on(state) {
            state.say("every piece is stacked");
        }
        return Vec::new();
    }
    let now = state.now;
    let Some(open) = state.open.as_mut() else {
        return Vec::new();
    };
    let facts = match facts_to_do(&piece, open) {
        Ok(facts) => facts,
        Err(why) => {
            state.complain(why);
            return Vec::new();
        }
    };
    let last = facts.last().map_or("", Fact::word);
    let was_cut = facts.iter().any(|fact| matches!(fact, Fact::Cut { .. }));
    let words = format!("{} {last}", open.labels.piece(piece.id));
    open.work(words.clone(), Spot::Piece(piece.id), facts, now);
    let after = open.piece(piece.id).cloned();
    let rest = after
        .as_ref()
        .filter(|_| was_cut)
        .and_then(|after| open.labels.rest(&after.rest))
        .map(|rest| format!("{words}, offcut: {rest}"));
    let mut said: Vec<String> = rest.into_iter().chain(released_words(open)).collect();
    if after.is_some_and(|piece| piece.stage == Stage::Stacked) && !go_on(state) {
        said.push("every piece is stacked".to_owned());
    }
    if !said.is_empty() {
        state.say(said.join("; "));
    }
    save(state)
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
fn facts_to_do(piece: &CutPiece, open: &OpenJob) -> Result<Vec<Fact>, String> {
    let settings = &open.job().settings;
    let left: Vec<Stage> = stages(&piece.spec, settings.bench_order)
        .into_iter()
        .skip_while(|stage| *stage != piece.stage)
        .take_while(|stage| *stage != Stage::Stacked)
        .collect();
    let count = match settings.one_key {
        OneKey::Step => 1,
        OneKey::Piece => left.len(),
    };
    left.into_iter()
        .take(count)
        .filter_map(|stage| fact_of(stage, piece, open).transpose())
        .collect()
}

fn fact_of(stage: Stage, piece: &CutPiece, open: &OpenJob) -> Result<Option<Fact>, String> {
    Ok(match stage {
        Stage::ToMark => Some(Fact::Marked {
            piece: piece.id,
            spec: Box::new(piece.spec),
            stock: stock_in_hand(piece, open)?,
            lot: lot_of(piece, open),
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

fn lot_of(piece: &CutPiece, open: &OpenJob) -> Option<Name> {
    let edge = open.job().edge(piece.id.edge)?;
    edge.lot.clone()
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

/// On to the next piece that is not stacked; false where there is none.
fn go_on(state: &mut State) -> bool {
    let Some(open) = state.open.as_ref() else {
        return false;
    };
    let from = place_in_hand(open, state.bench.piece).map_or(0, |at| at + 1);
    let next = open
        .list
        .next_open(from)
        .and_then(|at| open.list.pieces.get(at))
        .map(|piece| piece.id);
    if let Some(piece) = next {
        take_up(state, piece);
    }
    next.is_some()
}

fn look_around(state: &mut State, direction: Direction) {
    let Some(open) = state.open.as_ref() else {
        return;
    };
    let Some(at) = place_in_hand(open, state.bench.piece) else {
        return;
    };
    let last = open.list.pieces.len().saturating_sub(1);
    let to = match direction {
        Direction::Left | Direction::Up => at.saturating_sub(1),
        Direction::Right | Direction::Down => (at + 1).min(last),
        Direction::First => 0,
        Direction::Last => last,
        Direction::PageUp => start_of_edge_before(open, at),
        Direction::PageDown => start_of_next_edge(open, at),
    };
    let piece = open.list.pieces.get(to).map(|piece| piece.id);
    if let Some(piece) = piece {
        take_up(state, piece);
    }
}

/// Takes a piece in hand; one out of its turn is planned as if cut next.
fn take_up(state: &mut State, piece: PieceId) {
    state.bench.piece = Some(piece);
    if let Some(open) = state.open.as_mut() {
        open.take_first(Some(piece));
    }
}

fn edge_at(open: &OpenJob, at: usize) -> Option<crate::domain::log::EdgeId> {
    open.list.pieces.get(at).map(|piece| piece.id.edge)
}

fn start_of_next_edge(open: &OpenJob, at: usize) -> usize {
    let here = edge_at(open, at);
    (at..open.list.pieces.len())
        .find(|other| edge_at(open, *other) != here)
        .unwrap_or(at)
}

fn start_of_edge_before(open: &OpenJob, at: usize) -> usize {
    let start_of = |at: usize| {
        let here = edge_at(open, at);
        (0..at)
            .rev()
            .find(|other| edge_at(open, *other) != here)
            .map_or(0, |before| before + 1)
    };
    let start = start_of(at);
    if start < at {
        start
    } else {
        start_of(at.saturating_sub(1))
    }
}

/// Shorter or longer is asked first: a bare figure would be taken for either.
fn start_correction(state: &mut State) {
    if let Some(piece) = in_hand(state) {
        state.dialog = Some(Dialog::Correct(piece.id.edge));
    }
}

/// Asks by how much.
pub fn ask_correction(state: &mut State, edge: crate::domain::log::EdgeId, sense: Sense) {
    state.field = Some(Field::new(Purpose::Correction(edge, sense), None));
}

/// Takes a correction typed at the Bench.
pub fn accept_correction(
    state: &mut State,
    edge: crate::domain::log::EdgeId,
    by: Length,
) -> Vec<Effect> {
    let now = state.now;
    let Some(open) = state.open.as_mut() else {
        return Vec::new();
    };
    let said = said_of(by, &open.job().settings);
    let name = open.edge_name(edge).to_owned();
    let spot = state
        .bench
        .piece
        .filter(|piece| piece.edge == edge)
        .map_or(Spot::Edge(edge), Spot::Piece);
    let words = format!("{name}: {said}");
    open.work(words.clone(), spot, vec![Fact::Corrected { edge, by }], now);
    state.say(format!("{words}, all pieces of it not yet marked"));
    save(state)
}

/// Shows the piece that a change was about.
pub fn show(state: &mut State, piece: PieceId) {
    state.place = Place::Bench;
    take_up(state, piece);
}
