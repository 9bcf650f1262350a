//! What went wrong at the Bench: a piece that is spoiled, an offcut that is
//! not there.

use super::bench::in_hand;
use crate::app::effect::Effect;
use crate::app::state::{OpenJob, Spot, State};
use crate::app::update::save;
use crate::domain::bench::{Fact, GoneBy, MarkedStock, SavedOffcut, Stage};
use crate::domain::cutting::{CutPiece, PieceStock};
use crate::domain::stock::{Offcut, OffcutNumber};

/// The piece in hand was marked, cut or bent wrong: it is to be made again, and
/// what is still of use of it goes to the rack.
pub fn spoil(state: &mut State) -> Vec<Effect> {
    let Some(piece) = in_hand(state).cloned() else {
        return Vec::new();
    };
    let now = state.now;
    let Some(open) = state.open.as_mut() else {
        return Vec::new();
    };
    let label = open.labels.piece(piece.id);
    if piece.stage == Stage::ToMark {
        state.complain(format!("{label} is not marked yet: nothing is spoiled"));
        return Vec::new();
    }
    let was_bent = open.progress.done(piece.id).is_some_and(|done| done.bent);
    let saved = saved_from(&piece, open);
    let kept: Vec<String> = saved
        .iter()
        .map(|saved| {
            let whose = open.labels.piece(saved.promised);
            format!("offcut {}, for {whose}", saved.number)
        })
        .collect();
    let fact = Fact::Spoiled {
        piece: piece.id,
        saved,
    };
    let words = format!("{label} spoiled");
    open.work(words.clone(), Spot::Piece(piece.id), vec![fact], now);
    state.bench.piece = Some(piece.id);
    let kept = if kept.is_empty() {
        "nothing of it has a use".to_owned()
    } else {
        format!("keep {}", kept.join("; "))
    };
    // The log may ask for fewer pieces by now.
    let again = if state
        .open
        .as_ref()
        .is_some_and(|open| open.piece(piece.id).is_some())
    {
        "to be made again"
    } else {
        "no longer asked for"
    };
    let only_marked = if piece.stage == Stage::ToCut && !was_bent {
        "; if only the marks were wrong, u and mark it anew"
    } else {
        ""
    };
    state.say(format!("{words}, {again}: {kept}{only_marked}"));
    save(state)
}

/// What of a spoiled piece and its stock the new plan has a use for: what its
/// cut leaves, unless that went its way already, and its own part up to the
/// bend line, which is the most that is surely straight and unbent.
fn saved_from(piece: &CutPiece, open: &OpenJob) -> Vec<SavedOffcut> {
    let Some(done) = open.progress.done(piece.id) else {
        return Vec::new();
    };
    let left = match (done.stock, done.cut) {
        (MarkedStock::New { .. }, false) => Offcut::left_by(&done.spec),
        _ => None,
    };
    let own = Offcut::own_part(&done.spec, done.spec.bend);
    let own = (!own.outline().is_empty()).then_some(own);
    let first = open.progress.next_offcut().0;
    let candidates: Vec<(OffcutNumber, Offcut)> = (first..)
        .map(OffcutNumber)
        .zip(left.into_iter().chain(own))
        .collect();
    let uses = open.uses_after_spoiling(piece.id, &candidates, done.lot.as_ref());
    let used = candidates
        .into_iter()
        .filter_map(|(number, offcut)| Some((offcut, *uses.get(&number)?)));
    (first..)
        .zip(used)
        .map(|(number, (offcut, promised))| SavedOffcut {
            number: OffcutNumber(number),
            offcut,
            promised,
        })
        .collect()
}

/// The offcut that the piece in hand should come from is gone or bad.
pub fn offcut_gone(state: &mut State) -> Vec<Effect> {
    let number = in_hand(state).and_then(|piece| match piece.stock {
        PieceStock::Rack { number, .. } if piece.stage == Stage::ToMark => Some(number),
        _ => None,
    });
    match number {
        Some(number) => super::rack::gone(state, number, GoneBy::Thrown),
        None => {
            state.complain("the piece in hand is not waiting for an offcut from the rack");
            Vec::new()
        }
    }
}
