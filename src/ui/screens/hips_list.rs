//! Hips as a list: a row an edge with the pieces in each stage and a bar, and the
//! pieces of the selected one, or its staircase.

use super::hips_pieces;
use crate::app::state::{HipsAs, HipsFocus, OpenJob, State};
use crate::domain::{
    bench::Stage,
    cutting::PanelsToCarry,
    log::{Edge, EdgeId},
};
use crate::picture::staircase::Staircase;
use crate::ui::{
    drawing::staircase,
    pen::{Pen, clipped_middle, columns},
    theme::Role,
    widgets::stage_bar,
};

/// Columns of the pieces beside the staircase; the marks of a row end at the
/// 62nd.
const LIST_WIDTH: u16 = 76;

/// A row: pointer and short name, name, hand, five stages, panels, bar. The bar
/// has what is left, the name what the others leave.
const NAME_AT: u16 = 6;
const HAND_WIDTH: u16 = 5;
const STAGE_WIDTH: u16 = 6;
const PANELS_WIDTH: u16 = 9;
const BESIDE_NAME: u16 = NAME_AT + 1 + HAND_WIDTH + 5 * STAGE_WIDTH + PANELS_WIDTH;

/// A bar of fewer columns says nothing.
const LEAST_BAR: u16 = 8;

/// How many columns names get: the longest as many as it needs, if it can.
fn room_for_names(open: &OpenJob, width: u16) -> u16 {
    let edges = open.job().edges().iter();
    let longest = edges.map(|edge| columns(edge.name.as_str())).max();
    let room = width.saturating_sub(BESIDE_NAME);
    longest.unwrap_or(0).clamp(8, room.max(8))
}

/// Draws it from the pen's first row on.
pub(super) fn draw(pen: &mut Pen<'_>, state: &State, open: &OpenJob, carry: &PanelsToCarry) {
    let (width, height) = (pen.width(), pen.height());
    let edges = open.job().edges().len();
    let rows = u16::try_from(edges).unwrap_or(u16::MAX);
    let rows = rows.min((height / 2).saturating_sub(2));
    edge_rows(pen, state, open, carry, rows);
    let at = rows + 2;
    let mut below = pen.part(0, at, width, height.saturating_sub(at));
    pieces(&mut below, state, open);
}

fn edge_rows(pen: &mut Pen<'_>, state: &State, open: &OpenJob, carry: &PanelsToCarry, rows: u16) {
    let room = room_for_names(open, pen.width());
    let hand = NAME_AT + room + 1;
    let stages = hand + HAND_WIDTH;
    let view = &state.hips;
    let shown = usize::from(rows);
    let start = view.edge.saturating_sub(shown.saturating_sub(1));
    let edges = open.job().edges();
    let place = format!("{} of {}", view.edge + 1, edges.len());
    pen.text(NAME_AT, 0, Role::Text, &place);
    pen.text(hand, 0, Role::Text, "hand");
    for (column, stage) in (0_u16..).zip(Stage::ALL) {
        let word = stage.word().trim_start_matches("to ");
        pen.text(stages + column * STAGE_WIDTH, 0, Role::Text, word);
    }
    pen.text(stages + 5 * STAGE_WIDTH + 2, 0, Role::Text, "panels");
    let edges: Vec<&Edge> = edges.iter().skip(start).take(shown).map(|e| &**e).collect();
    let names: Vec<&str> = edges.iter().map(|edge| edge.name.as_str()).collect();
    let names = clipped_middle(&names, usize::from(room));
    for (y, (index, (edge, name))) in (1..).zip((start..).zip(edges.into_iter().zip(&names))) {
        let role = match (index == view.edge, view.focus) {
            (true, HipsFocus::Edges) => Role::Selected,
            (true, HipsFocus::Pieces) => Role::Strong,
            _ => Role::Text,
        };
        let panels = carry.by_edge.get(&edge.id).copied().unwrap_or(0);
        let pointer = if index == view.edge { ">" } else { " " };
        pen.row(y, role, pointer);
        pen.text(NAME_AT, y, role, name);
        edge_row(pen, open, (edge, panels), (hand, y), role);
    }
    let below = open.job().edges().len().saturating_sub(start + shown);
    let words = match (start, below) {
        (0, 0) => return,
        (0, below) => format!("{below} more below"),
        (above, 0) => format!("{above} more above"),
        (above, below) => format!("{above} more above, {below} below"),
    };
    pen.text(NAME_AT, rows + 1, Role::Strong, &words);
}

fn edge_row(
    pen: &mut Pen<'_>,
    open: &OpenJob,
    (edge, panels): (&Edge, usize),
    (hand, y): (u16, u16),
    role: Role,
) {
    pen.text(1, y, role, &open.labels.edge(edge.id));
    pen.text(hand + 1, y, role, edge.hand.letter());
    let stages = hand + HAND_WIDTH;
    let counts = open.list.at_stages(Some(edge.id));
    for (column, count) in (0_u16..).zip(counts) {
        let x = stages + column * STAGE_WIDTH;
        pen.text(x, y, role, &format!("{count:>3}"));
    }
    let x = stages + 5 * STAGE_WIDTH + 2;
    pen.text(x, y, role, &format!("{panels:>4}"));
    let bar_at = stages + 5 * STAGE_WIDTH + PANELS_WIDTH;
    let width = pen.width().saturating_sub(bar_at + 1).min(30);
    if width >= LEAST_BAR {
        stage_bar::draw(pen, bar_at, y, width, counts);
    }
}

fn pieces(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let Some(edge) = state.edge_in_hips() else {
        return;
    };
    let (width, height) = (pen.width(), pen.height());
    let is_wide = width >= HipsAs::BOTH_FROM;
    let none = open.list.pieces_of(edge).next().is_none();
    if none || !(is_wide || state.hips.shown_as == HipsAs::Staircase) {
        hips_pieces::draw(pen, state, open, edge);
        return;
    }
    let at = if is_wide { LIST_WIDTH + 2 } else { 1 };
    pen.line(0);
    let (columns, rows) = if is_wide {
        (LIST_WIDTH, height)
    } else {
        (width, 1)
    };
    hips_pieces::draw(&mut pen.part(0, 0, columns, rows), state, open, edge);
    let mut beside = pen.part(at, 1, width.saturating_sub(at + 1), height - 1);
    stairs(&mut beside, state, open, edge);
}

/// The selected edge as it lies on the roof, each piece with its stage.
fn stairs(pen: &mut Pen<'_>, state: &State, open: &OpenJob, edge: EdgeId) {
    let Some(edge) = open.job().edge(edge) else {
        return;
    };
    let stairs = Staircase::of(edge, &open.list.pieces, &open.job().settings);
    let pieces = open.pieces_of(edge.id);
    let now = state.piece_in_hips().and_then(|at| pieces.get(at));
    let now = now.map(|piece| piece.id);
    staircase::draw(pen, &stairs, now);
}
