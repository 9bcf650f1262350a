//! Hips: what is left per hip, and a way to any piece.

use crate::app::effect::Effect;
use crate::app::message::{Direction, Press};
use crate::app::screens::bench;
use crate::app::state::State;
use crate::domain::cut_list::CutPiece;
use crate::domain::edge::EdgeId;

/// Which of the two lists the keys move in.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum HipsFocus {
    /// The edges.
    #[default]
    Edges,
    /// The pieces of the selected edge.
    Pieces,
}

/// What is selected in Hips.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct HipsView {
    /// Which edge, from 0.
    pub edge: usize,
    /// Which of its pieces, from 0.
    pub piece: usize,
    /// Which list the keys move in.
    pub focus: HipsFocus,
    /// How the pieces of the selected edge are shown.
    pub pieces_as: PiecesAs,
}

/// How the pieces of an edge are shown, where only one way has room.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum PiecesAs {
    /// A list.
    #[default]
    List,
    /// A staircase of courses, as it lies on the roof.
    Staircase,
}

/// The selected edge.
#[must_use]
pub fn selected(state: &State) -> Option<EdgeId> {
    let open = state.open.as_ref()?;
    let edges = open.job().edges();
    edges
        .get(state.hips.edge)
        .or_else(|| edges.last())
        .map(|edge| edge.id)
}

/// The pieces of one edge, in cutting order.
#[must_use]
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
            .find(|piece| piece.stage != crate::domain::progress::Stage::Stacked)
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

/// Where a selection of `count` things goes from `at`.
#[must_use]
pub fn moved(at: usize, direction: Direction, count: usize) -> usize {
    let last = count.saturating_sub(1);
    let to = match direction {
        Direction::Up => at.saturating_sub(1),
        Direction::Down => at + 1,
        Direction::PageUp => at.saturating_sub(10),
        Direction::PageDown => at + 10,
        Direction::First => 0,
        Direction::Last => last,
        Direction::Left | Direction::Right => at,
    };
    to.min(last)
}
