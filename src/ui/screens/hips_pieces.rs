//! The pieces of the edge selected in Hips, a row each.

use crate::app::state::{HipsFocus, OpenJob, State};
use crate::domain::{
    cutting::{CutPiece, PieceStock},
    log::EdgeId,
    measure::Length,
    piece::Marks,
    tape::print_with_unit,
};
use crate::ui::{
    drawing::roof_plan_signs::MISFIT,
    pen::{Pen, clipped, clipped_middle, columns, first_in_sight},
    theme::Role,
};

/// The selected edge by its name, and as many of its pieces as there is room for.
pub(super) fn draw(pen: &mut Pen<'_>, state: &State, open: &OpenJob, edge: EdgeId) {
    let pieces = open.pieces_of(edge);
    pen.line(0);
    let at = state.piece_in_hips().unwrap_or(0);
    let place = pieces.get(at).map_or_else(String::new, |piece| {
        let (name, stage) = (open.labels.piece(piece.id), piece.stage.word());
        format!(" {name} {stage}, {} of {} ", at + 1, pieces.len())
    });
    let label = open.labels.edge(edge);
    let room = usize::from(
        pen.width()
            .saturating_sub(columns(&place) + columns(&label) + 8),
    );
    let name = clipped_middle(&[open.edge_name(edge)], room).concat();
    pen.text(2, 0, Role::Strong, &format!(" {label} {name} "));
    pen.text_right(1, 0, Role::Text, &place);
    if pieces.is_empty() {
        let words = "Nothing to cut yet: log its readings (F3).";
        pen.text(1, 1, Role::Text, words);
        return;
    }
    list(pen, state, open, &pieces);
}

/// A row a piece, the one that Enter takes in the middle where there are more.
/// Each column is as wide as its longest word, so that none runs into the next.
fn list(pen: &mut Pen<'_>, state: &State, open: &OpenJob, pieces: &[&CutPiece]) {
    let rows = usize::from(pen.height().saturating_sub(1));
    let at = state.piece_in_hips().unwrap_or(0);
    let start = first_in_sight(at, pieces.len(), rows);
    let shown = pieces.iter().enumerate().skip(start).take(rows);
    let shown: Vec<_> = shown.map(|(at, piece)| (at, cells(open, piece))).collect();
    let mut wide = LEAST;
    for (_, cells) in &shown {
        for (wide, cell) in wide.iter_mut().zip(cells) {
            *wide = (*wide).max(columns(cell));
        }
    }
    for (y, (index, cells)) in (1..).zip(&shown) {
        let is_selected = *index == at && state.hips.focus == HipsFocus::Pieces;
        let pointer = if *index == at { ">" } else { " " };
        let role = Role::of_row(is_selected);
        pen.row(y, role, pointer);
        let mut x = 1;
        for (cell, wide) in cells.iter().zip(wide) {
            let room = usize::from(pen.width().saturating_sub(x + 1));
            pen.text(x, y, role, &clipped(cell, room));
            x = x.saturating_add(wide + 1);
        }
    }
}

/// The least columns of each cell, so that lists of usual pieces stand alike.
const LEAST: [u16; 5] = [11, 9, 19, 19, 8];

/// Label, stage, two figures and stock: the figures come before the stock, which
/// may be cut short.
fn cells(open: &OpenJob, piece: &CutPiece) -> [String; 5] {
    let division = open.job().settings.division;
    let stock = match &piece.stock {
        PieceStock::New { panel } => format!("panel {panel}"),
        PieceStock::Rack { number, .. } => format!("offcut {number}"),
        PieceStock::LeftBy { piece, .. } => format!("from {}", open.labels.piece(*piece)),
    };
    let [one, other] = match (piece.spec.near, Marks::of(&piece.spec).bend) {
        // Eight marks have no room here.
        (Some(_), _) => {
            let wide = print_with_unit(piece.spec.bend_to_bend(Length::ZERO), division);
            ["both ends".to_owned(), format!("{wide} at the nose")]
        }
        (None, Some(ends)) => ends.map(|mark| mark.words(division)),
        (None, None) => ["no bend line".to_owned(), String::new()],
    };
    let misfit = if piece.fit.misfit().is_some() {
        MISFIT
    } else {
        ' '
    };
    let stage = format!("{:<8}{misfit}", piece.stage.word());
    [open.labels.piece(piece.id), stage, one, other, stock]
}
