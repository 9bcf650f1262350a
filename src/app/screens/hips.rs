//! Hips: what is left per hip, and a way to any piece.

use super::bench;
use crate::app::effect::Effect;
use crate::app::press::{Direction, Press, moved};
use crate::app::state::{HipsFocus, PiecesAs, State};
use crate::domain::{cutting::CutPiece, log::EdgeId};

/// The selected edge.
pub fn selected(state: &State) -> Option<EdgeId> {
    let open = state.open.as_ref()?;
    let edges = open.job().edges();
    edges
        .get(state.hips.edge)
        .or_else(|| edges.last())
        .map(|edge| edge.id)
}

/// The pieces of one edge, in cutting order.
pub fn pieces_of(state: &State, edge: EdgeId) -> Vec<&CutPiece> {
    state.open.as_ref().map_or_else(Vec::new, |open| {
        open.list
            .pieces
            .iter()
            .filter(|piece| piece.id.edge == edge)
            .collect()
    })
}

/// Selects the edge of the piece that is next at the Bench.
pub fn select_edge_in_work(state: &mut State) {
    let at = state.open.as_ref().and_then(|open| {
        let next = open.list.pieces.get(open.list.next_open(0)?)?;
        open.job().place_of(next.id.edge)
    });
    state.hips.edge = at.unwrap_or(0);
}

/// A key in Hips.
pub fn pressed(state: &mut State, press: Press) -> Vec<Effect> {
    match press {
        Press::Move(direction) => go(state, direction),
        Press::Switch => {
            state.hips.focus = match state.hips.focus {
                HipsFocus::Edges => HipsFocus::Pieces,
                HipsFocus::Pieces => HipsFocus::Edges,
            };
        }
        Press::View => {
            state.hips.pieces_as = match state.hips.pieces_as {
                PiecesAs::List => PiecesAs::Staircase,
                PiecesAs::Staircase => PiecesAs::List,
            };
        }
        Press::Back => state.hips.focus = HipsFocus::Edges,
        Press::Confirm => confirm(state),
        _ => {}
    }
    Vec::new()
}

fn confirm(state: &mut State) {
    let Some(edge) = selected(state) else {
        state.complain("no hip yet: add one in the Log (F3)");
        return;
    };
    let pieces = pieces_of(state, edge);
    let chosen = match state.hips.focus {
        HipsFocus::Edges => pieces
            .iter()
            .find(|piece| piece.stage != crate::domain::bench::Stage::Stacked)
            .or_else(|| pieces.first()),
        HipsFocus::Pieces => pieces.get(state.hips.piece),
    };
    match chosen.map(|piece| piece.id) {
        Some(piece) => {
            bench::show(state, piece);
            crate::app::update::arrive(state);
        }
        None => state.complain("nothing to cut here yet: log its readings first (F3)"),
    }
}

fn go(state: &mut State, direction: Direction) {
    let edges = state
        .open
        .as_ref()
        .map_or(0, |open| open.job().edges().len());
    let pieces = selected(state).map_or(0, |edge| pieces_of(state, edge).len());
    let view = &mut state.hips;
    match (view.focus, direction) {
        (HipsFocus::Edges, Direction::Right) => view.focus = HipsFocus::Pieces,
        (HipsFocus::Pieces, Direction::Left) => view.focus = HipsFocus::Edges,
        (HipsFocus::Edges, _) => {
            let to = moved(view.edge, direction, edges);
            if to != view.edge {
                view.edge = to;
                view.piece = 0;
            }
        }
        (HipsFocus::Pieces, _) => view.piece = moved(view.piece, direction, pieces),
    }
}
