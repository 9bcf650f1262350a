//! What went wrong at the Bench: a piece that is spoiled, an offcut that is
//! not there.

use crate::app::record::{offcut_gone, work};
use crate::app::state::{OpenJob, Spot, State};
use crate::domain::bench::{Fact, GoneBy, MarkedStock, SavedOffcut, Stage};
use crate::domain::cutting::CutPiece;
use crate::domain::piece::PieceId;
use crate::domain::stock::{Offcut, OffcutNumber};

/// The piece in hand was marked, cut or bent wrong: it is to be made again, and
/// what is still of use of it goes to the rack.
pub fn spoil(state: &mut State) {
    if let Some(piece) = state.piece_in_hand().map(|piece| piece.id) {
        spoil_piece(state, piece);
    }
}

/// The same of any piece.
pub fn spoil_piece(state: &mut State, piece: PieceId) {
    let Some(open) = state.open.as_ref() else {
        return;
    };
    let Some(piece) = open.piece(piece) else {
        return;
    };
    let label = open.labels.piece(piece.id);
    if piece.stage == Stage::ToMark {
        state.complain(format!("{label} is not marked yet: nothing is spoiled"));
        return;
    }
    let was_bent = open.progress.done(piece.id).is_some_and(|done| done.bent);
    let only_marked = if piece.stage == Stage::ToCut && !was_bent {
        "; if only the marks were wrong, u and mark it anew"
    } else {
        ""
    };
    let saved = saved_from(piece, open);
    let kept = match &*saved {
        [] => "nothing of it has a use".to_owned(),
        saved => format!("keep {}", saved_words(saved, open)),
    };
    let piece = piece.id;
    let words = format!("{label} spoiled");
    let fact = Fact::Spoiled { piece, saved };
    work(state, words.clone(), Spot::Piece(piece), vec![fact]);
    state.bench.piece = Some(piece);
    // The log may ask for fewer pieces by now.
    let open = state.open.as_ref();
    let again = match open.and_then(|open| open.piece(piece)) {
        Some(_) => "to be made again",
        None => "no longer asked for",
    };
    state.say(format!("{words}, {again}: {kept}{only_marked}"));
}

fn saved_words(saved: &[SavedOffcut], open: &OpenJob) -> String {
    let one = |saved: &SavedOffcut| {
        let whose = open.labels.piece(saved.promised);
        format!("offcut {}, for {whose}", saved.number)
    };
    let all: Vec<String> = saved.iter().map(one).collect();
    all.join("; ")
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
    let offcuts: Vec<Offcut> = left.into_iter().chain(own).collect();
    let used = open.uses_after_spoiling(piece.id, &offcuts, done.lot.as_ref());
    (open.progress.next_offcut().0..)
        .zip(used)
        .map(|(number, (offcut, promised))| SavedOffcut {
            number: OffcutNumber(number),
            offcut,
            promised,
        })
        .collect()
}

/// The offcut that the piece in hand should come from is gone or bad.
pub fn own_offcut_gone(state: &mut State) {
    match state.offcut_in_hand() {
        Some(number) => offcut_gone(state, number, GoneBy::Thrown),
        None => state.complain("the piece in hand is not waiting for an offcut from the rack"),
    }
}
