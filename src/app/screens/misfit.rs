//! A marked piece whose figures the log no longer gives: what is done about it.

use super::spoiling;
use crate::app::go::take_up;
use crate::app::record::work;
use crate::app::state::{Question, Spot, State};
use crate::domain::bench::{Fact, SavedOffcut, SpoiledBy};
use crate::domain::cutting::{Misfit, Remedy};
use crate::domain::piece::PieceId;
use crate::domain::stock::Offcut;

/// Takes the next piece that no longer fits in hand, behind the one in hand or
/// from the start, and asks about it. Where it leads.
pub fn next(state: &mut State) -> Option<Spot> {
    let open = state.open.as_ref()?;
    let in_hand = open.place_in_hand(state.bench.piece);
    let place = |piece: PieceId| open.list.place_of(piece);
    let misfits = || open.list.misfits().map(|(piece, _)| piece.id);
    let behind = misfits().find(|piece| place(*piece) > in_hand);
    let Some(piece) = behind.or(misfits().next()) else {
        state.complain("every marked piece fits the log");
        return None;
    };
    ask(state, piece);
    Some(Spot::Piece(piece))
}

/// Asks what becomes of `piece`.
pub fn ask(state: &mut State, piece: PieceId) {
    take_up(state, piece);
    state.ask_question(Question::NoLongerFits(piece));
}

/// Does what can be done with `piece`.
pub fn again(state: &mut State, piece: PieceId) {
    let Some((open, misfit)) = of(state, piece) else {
        return;
    };
    let Some(done) = open.progress.done(piece) else {
        return;
    };
    let kept = |is_cut: bool| {
        is_cut.then(|| SavedOffcut {
            number: open.progress.next_offcut(),
            offcut: Offcut::own_part(&done.spec, done.spec.cut()),
            promised: piece,
        })
    };
    let fact = match misfit.remedy {
        Remedy::MakeAgain => {
            spoiling::ask(state, piece, Some(SpoiledBy::Reading), None);
            return;
        }
        Remedy::MarkAgain => Fact::TakenBack {
            piece,
            kept: kept(false),
        },
        Remedy::FromItself => Fact::TakenBack {
            piece,
            kept: kept(true),
        },
        Remedy::BendAnew { bend, .. } => Fact::BendStruck { piece, bend },
    };
    record(state, piece, fact);
}

/// It stays as it is; that silences only what the log asks for now.
pub fn leave(state: &mut State, piece: PieceId) {
    if let Some((_, misfit)) = of(state, piece) {
        let asked = misfit.asked;
        record(state, piece, Fact::Stays { piece, asked });
    }
}

fn of(state: &State, piece: PieceId) -> Option<(&crate::app::state::OpenJob, Misfit)> {
    let open = state.open.as_ref()?;
    let misfit = open.piece(piece)?.fit.misfit()?;
    Some((open, *misfit))
}

fn record(state: &mut State, piece: PieceId, fact: Fact) {
    let Some(open) = &state.open else { return };
    let words = format!("{} {}", open.labels.piece(piece), fact.word());
    state.bench.page = 0;
    work(state, words.clone(), Spot::Piece(piece), vec![fact]);
    state.bench.piece = Some(piece);
    let gone = state
        .open
        .as_ref()
        .is_some_and(|open| open.piece(piece).is_none());
    state.say(match gone {
        true => format!("{words}: the log asks for none"),
        false => words,
    });
}
