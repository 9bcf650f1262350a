//! Hips: what is left per hip, and a way to any piece.

use crate::app::press::{Direction, Press, moved, turn};
use crate::app::state::{HipsFocus, PiecesAs, Spot, State};
use crate::domain::bench::Stage;

/// A key in Hips; says where it leads.
pub fn pressed(state: &mut State, press: Press) -> Option<Spot> {
    match press {
        Press::Move(direction) => look_around(state, direction),
        Press::Switch => {
            turn(&mut state.hips.focus, [HipsFocus::Edges, HipsFocus::Pieces]);
        }
        Press::View => {
            turn(
                &mut state.hips.pieces_as,
                [PiecesAs::List, PiecesAs::Staircase],
            );
        }
        Press::Back => state.hips.focus = HipsFocus::Edges,
        Press::Confirm => return chosen(state),
        _ => {}
    }
    None
}

/// The selected piece, or the next of the selected edge.
fn chosen(state: &mut State) -> Option<Spot> {
    let Some((open, edge)) = state.open.as_ref().zip(state.edge_in_hips()) else {
        state.complain("no hip yet: add one in the Log (F3)");
        return None;
    };
    let pieces = open.pieces_of(edge);
    let chosen = match state.hips.focus {
        HipsFocus::Edges => {
            let mut left = pieces.iter().filter(|piece| piece.stage != Stage::Stacked);
            left.next().or_else(|| pieces.first())
        }
        HipsFocus::Pieces => pieces.get(state.hips.piece),
    };
    let spot = chosen.map(|piece| Spot::Piece(piece.id));
    if spot.is_none() {
        state.complain("nothing to cut here yet: log its readings first (F3)");
    }
    spot
}

fn look_around(state: &mut State, direction: Direction) {
    let edges = state.job().map_or(0, |job| job.edges().len());
    let in_hips = state.open.as_ref().zip(state.edge_in_hips());
    let pieces = in_hips.map_or(0, |(open, edge)| open.pieces_of(edge).len());
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
