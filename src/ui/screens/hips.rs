//! Hips: per edge the pieces in each stage, a bar, and the pieces themselves.

use crate::app::state::{HipsFocus, OpenJob, PiecesAs, State};
use crate::domain::{
    bench::Stage,
    cutting::{CutPiece, LotPanels, PanelsToCarry, PieceStock},
    log::{Edge, EdgeId},
    measure::Length,
    piece::Marks,
    roof::EdgeKind,
    tape::print_with_unit,
};
use crate::picture::staircase::Staircase;
use crate::ui::{
    drawing::staircase,
    pen::{Pen, clipped, first_in_sight},
    theme::Role,
    widgets::{piece_words::misfit_count, stage_bar},
};

/// From this width on, the pieces stand as a list and as a staircase.
const BOTH_FROM: u16 = 110;

/// Columns of that list; the marks of a row end at the 62nd.
const LIST_WIDTH: u16 = 76;

/// The list of edges: short name, name, hand, five stages, panels, bar. Where
/// the hand stands at 80 columns, and how far behind it the stages begin.
const HAND_AT: u16 = 22;
const STAGES_AFTER: u16 = 8;
const STAGE_WIDTH: u16 = 6;

/// How many columns more a name gets on a wider screen.
fn room_for_names(width: u16) -> u16 {
    width.saturating_sub(80).min(16)
}

/// Draws the place.
pub fn draw(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let edges = open.job().edges();
    let left = open.list.left();
    let carry = open.panels_to_carry();
    let more = open.job().settings.carry_more;
    let words = format!(
        "{}: {left} of {} pieces left, {} of {} new panels to carry",
        heading(edges.iter().map(|edge| edge.kind)),
        open.list.pieces.len(),
        more.on(carry.left),
        more.on(carry.whole_job),
    );
    let words = match open.progress.spoiled() {
        0 => words,
        count => format!("{words}, {count} spoiled"),
    };
    // With many pieces cut at both ends not every choice of sides is tried.
    let words = if open.list.plan.every_way {
        words
    } else {
        format!("{words}, maybe fewer")
    };
    pen.text(1, 0, Role::Strong, &words);
    if let Some(words) = misfit_count(open) {
        pen.text_right(1, 0, Role::Trouble, &words);
    }
    if left > 0
        && let Some(time) = open.time_left(None)
    {
        pen.text(1, 1, Role::Text, &format!("what is left takes {time}"));
    }
    lots(pen, open, &carry);
    if edges.is_empty() {
        pen.text(1, 2, Role::Text, "No hip yet: a adds one in the Log (F3).");
        return;
    }
    let height = pen.height();
    let rows = u16::try_from(edges.len())
        .unwrap_or(u16::MAX)
        .min(height / 2 - 3);
    edge_rows(pen, state, open, &carry, rows);
    let at = rows + 4;
    let width = pen.width();
    let mut below = pen.part(0, at, width, height.saturating_sub(at));
    pieces(&mut below, state, open);
}

/// How many of the panels to carry are of which colour lot.
fn lots(pen: &mut Pen<'_>, open: &OpenJob, carry: &PanelsToCarry) {
    let more = open.job().settings.carry_more;
    let of_lot = |panels: &LotPanels| {
        let lot = panels.lot.as_ref();
        let lot = lot.map_or("no lot", |lot| lot.as_str());
        format!("{lot}: {}", more.on(panels.left))
    };
    let lots: Vec<String> = carry.by_lot(open.job()).iter().map(of_lot).collect();
    if !lots.is_empty() {
        let room = usize::from(pen.width().saturating_sub(42));
        let words = clipped(&format!("carry {}", lots.join(", ")), room);
        pen.text_right(1, 1, Role::Strong, &words);
    }
}

/// The selected edge as it lies on the roof, each piece with its stage.
fn stairs(pen: &mut Pen<'_>, state: &State, open: &OpenJob, edge: EdgeId) {
    let Some(edge) = open.job().edge(edge) else {
        return;
    };
    let stairs = Staircase::of(edge, &open.list.pieces, &open.job().settings);
    let now = open
        .pieces_of(edge.id)
        .get(state.hips.piece)
        .map(|piece| piece.id);
    staircase::draw(pen, &stairs, now);
}

/// `hips, valleys`, whatever kinds there are.
pub fn heading(kinds: impl Iterator<Item = EdgeKind> + Clone) -> String {
    let words: Vec<_> = EdgeKind::ALL
        .into_iter()
        .filter(|kind| kinds.clone().any(|other| other == *kind))
        .collect();
    let none = words.is_empty();
    let shown = if none { &EdgeKind::ALL[..] } else { &words };
    let words: Vec<_> = shown
        .iter()
        .map(|kind| format!("{}s", kind.word()))
        .collect();
    words.join(", ")
}

fn edge_rows(pen: &mut Pen<'_>, state: &State, open: &OpenJob, carry: &PanelsToCarry, rows: u16) {
    let stages = HAND_AT + room_for_names(pen.width()) + STAGES_AFTER;
    pen.text(stages + 5 * STAGE_WIDTH + 2, 2, Role::Text, "panels");
    for (column, stage) in (0_u16..).zip(Stage::ALL) {
        let word = stage.word().trim_start_matches("to ");
        pen.text(stages + column * STAGE_WIDTH, 2, Role::Text, word);
    }
    pen.text(stages - STAGES_AFTER, 2, Role::Text, "hand");
    let view = &state.hips;
    let shown = usize::from(rows);
    let start = view.edge.saturating_sub(shown.saturating_sub(1));
    let edges = open.job().edges().iter().enumerate().skip(start);
    for (y, (index, edge)) in (3..).zip(edges.take(shown)) {
        let role = match (index == view.edge, view.focus) {
            (true, HipsFocus::Edges) => Role::Selected,
            (true, HipsFocus::Pieces) => Role::Strong,
            _ => Role::Text,
        };
        let panels = carry.by_edge.get(&edge.id).copied().unwrap_or(0);
        edge_row(pen, open, (edge, panels), y, role);
    }
}

fn edge_row(pen: &mut Pen<'_>, open: &OpenJob, (edge, panels): (&Edge, usize), y: u16, role: Role) {
    pen.row(y, role, "");
    pen.text(1, y, role, &open.labels.edge(edge.id));
    let names = room_for_names(pen.width());
    let hand = HAND_AT + names;
    let name = clipped(edge.name.as_str(), usize::from(16 + names));
    pen.text(5, y, role, &name);
    pen.text(hand, y, role, edge.hand.word());
    let stages = hand + STAGES_AFTER;
    let counts = open.list.at_stages(Some(edge.id));
    for (column, count) in (0_u16..).zip(counts) {
        let x = stages + column * STAGE_WIDTH;
        pen.text(x, y, role, &format!("{count:>3}"));
    }
    let x = stages + 5 * STAGE_WIDTH + 2;
    pen.text(x, y, role, &format!("{panels:>4}"));
    let bar_at = stages + 5 * STAGE_WIDTH + 10;
    let width = pen.width().saturating_sub(bar_at + 1).min(30);
    stage_bar::draw(pen, bar_at, y, width, counts);
}

fn pieces(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let Some(edge) = state.edge_in_hips() else {
        return;
    };
    pen.line(0);
    pen.text(2, 0, Role::Strong, &format!(" {} ", open.edge_name(edge)));
    let pieces = open.pieces_of(edge);
    if pieces.is_empty() {
        let words = "Nothing to cut yet: log its readings (F3).";
        pen.text(1, 1, Role::Text, words);
        return;
    }
    let (width, height) = (pen.width(), pen.height());
    if width >= BOTH_FROM {
        let at = LIST_WIDTH + 2;
        let mut beside = pen.part(at, 1, width - at, height - 1);
        stairs(&mut beside, state, open, edge);
        let mut left = pen.part(0, 0, LIST_WIDTH, height);
        list(&mut left, state, open, &pieces);
    } else if state.hips.pieces_as == PiecesAs::Staircase {
        let mut whole = pen.part(1, 1, width - 2, height - 1);
        stairs(&mut whole, state, open, edge);
    } else {
        list(pen, state, open, &pieces);
    }
}

/// A row a piece, the selected one in the middle where there are more.
fn list(pen: &mut Pen<'_>, state: &State, open: &OpenJob, pieces: &[&CutPiece]) {
    let rows = usize::from(pen.height().saturating_sub(1));
    let view = &state.hips;
    let start = first_in_sight(view.piece, pieces.len(), rows);
    let shown = pieces.iter().enumerate().skip(start).take(rows);
    for (y, (index, piece)) in (1..).zip(shown) {
        let role = Role::of_row(index == view.piece && view.focus == HipsFocus::Pieces);
        pen.row(y, role, &piece_words(open, piece));
    }
}

/// The figures come before the stock, which may be cut short.
fn piece_words(open: &OpenJob, piece: &CutPiece) -> String {
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
    format!(
        " {:<11} {:<9} {one:<19} {other:<19} {stock}",
        open.labels.piece(piece.id),
        piece.stage.word(),
    )
}
