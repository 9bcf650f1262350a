//! Hips: what is left per hip, and a way to any piece.

use crate::app::press::{Direction, Press, moved, turn};
use crate::app::state::{HipsAs, HipsFocus, Spot, State};
use crate::domain::roof::roof_sides;

/// A key in Hips; says where it leads.
pub fn pressed(state: &mut State, press: Press) -> Option<Spot> {
    match press {
        Press::Move(direction) => look_around(state, direction),
        Press::Switch => {
            turn(&mut state.hips.focus, [HipsFocus::Edges, HipsFocus::Pieces]);
        }
        Press::View => {
            state.hips.shown_as = state.hips.shown_as.next(state.size.columns);
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
    let is_done = !pieces.is_empty() && !pieces.iter().any(|piece| piece.is_open());
    if is_done && state.hips.focus == HipsFocus::Edges {
        let label = open.labels.edge(edge);
        let words = format!("every piece of {label} is stacked: Tab goes to one of them");
        state.complain(words);
        return None;
    }
    let chosen = state.piece_in_hips().and_then(|at| pieces.get(at));
    let spot = chosen.map(|piece| Spot::Piece(piece.id));
    if spot.is_none() {
        state.complain("nothing to cut here yet: log its readings first (F3)");
    }
    spot
}

fn look_around(state: &mut State, direction: Direction) {
    let beside = edge_beside(state, direction);
    let edges = state.job().map_or(0, |job| job.edges().len());
    let in_hips = state.open.as_ref().zip(state.edge_in_hips());
    let pieces = in_hips.map_or(0, |(open, edge)| open.pieces_of(edge).len());
    let view = &mut state.hips;
    match (view.focus, direction) {
        // In the plan the arrows go where they point; up and down go through the
        // cutting order, as they do in the list.
        (_, Direction::Left | Direction::Right) if view.shown_as == HipsAs::Plan => {
            if let Some(to) = beside {
                view.edge = to;
                view.piece = 0;
            }
        }
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

/// The edge that stands to the left or right of the selected one in the plan.
fn edge_beside(state: &State, direction: Direction) -> Option<usize> {
    let edges = state.job()?.edges().iter().enumerate();
    let sides = roof_sides(edges.map(|(at, edge)| (edge.plane.as_ref(), edge.hand, at)));
    let order: Vec<usize> = sides
        .iter()
        .flat_map(|side| side.edges().copied())
        .collect();
    let here = order.iter().position(|at| *at == state.hips.edge)?;
    let to = match direction {
        Direction::Left => here.checked_sub(1)?,
        Direction::Right => here + 1,
        _ => return None,
    };
    order.get(to).copied()
}
