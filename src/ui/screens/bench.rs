//! Bench: one step of the piece in hand, to be read at a glance from two metres.
//!
//! Each step has a page of its own that shows what that step needs and nothing else:
//! `bench_mark`, `bench_cut`, `bench_bend`, `bench_stack`. Above it stands whose
//! piece it is, below it the steps; the same places at every size.

use super::{bench_bend, bench_cut, bench_mark, bench_stack};
use crate::app::state::{Batch, BenchPage, Field, OpenJob, Pass, Purpose, State, pages_of};
use crate::domain::{bench::Stage, cutting::CutPiece, piece::LineAt};
use crate::ui::{
    pen::{Pen, clipped, columns},
    theme::Role,
    widgets::piece_words,
};

/// The rows of the place on a screen of 24.
const LEAST_ROWS: u16 = 22;

/// Draws the place; the pen's last row is the one in which a notice stands.
pub fn draw(pen: &mut Pen<'_>, state: &State) {
    let Some((open, piece)) = state.open.as_ref().zip(state.piece_in_hand()) else {
        pen.text(1, 1, Role::Strong, "No piece to cut yet.");
        pen.text(1, 3, Role::Text, "Log a hip's readings first (F3).");
        return;
    };
    title(pen, state, open, piece);
    let (width, height) = (pen.width(), pen.height());
    let page = page_of(state, piece);
    let batch = state.bench.batch.as_ref();
    let several = batch.and_then(|batch| piece_words::several(open, piece, batch));
    let several = several.as_ref();
    // Four figures take every row of a small screen: there the steps give way to a
    // notice.
    let shows_marks = piece.stage == Stage::ToMark || state.bench.shows_marks;
    let steps_at = match shows_marks && height <= LEAST_ROWS {
        true => height.saturating_sub(1),
        false => height.saturating_sub(2),
    };
    let step = &mut pen.part(0, 1, width, steps_at.saturating_sub(1));
    match piece.stage {
        Stage::ToCut if !shows_marks => bench_cut::draw(step, open, piece, several),
        Stage::ToBend if !shows_marks => bench_bend::draw(step, open, piece, page, several),
        Stage::ToStack | Stage::Stacked if !shows_marks => bench_stack::draw(step, open, piece),
        // Also as it was marked: whoever makes it again wants to know.
        _ => bench_mark::draw(step, open, piece, page, several),
    }
    piece_words::steps(pen, steps_at, open, piece);
    correction(pen, state, open);
}

/// The page that is shown.
fn page_of(state: &State, piece: &CutPiece) -> BenchPage {
    let pages = pages_of(piece);
    let at = state.bench.page.min(pages.len().saturating_sub(1));
    let page = pages.get(at).copied();
    page.unwrap_or(BenchPage::Line(LineAt::Far))
}

fn title(pen: &mut Pen<'_>, state: &State, open: &OpenJob, piece: &CutPiece) {
    let mut at = open.list.place_of(piece.id).map_or(0, |at| at + 1);
    let (mut what, mut all) = ("piece", open.list.pieces.len());
    if let Some((batch, _)) = pass_in(state, open, piece) {
        at = batch.place_of(piece.id).unwrap_or(0);
        (what, all) = ("several:", batch.count());
    }
    let number = match piece.id.number {
        1 => String::new(),
        number => format!(", piece {number}"),
    };
    let words = format!(
        " {}   course {}{number}, {}",
        open.labels.piece(piece.id),
        piece.id.course,
        open.edge_name(piece.id.edge)
    );
    let count = format!("{what} {at} of {all}, {} left", open.list.left());
    let mut room = pen.width().saturating_sub(columns(&count) + 3);
    if let Some(words) = piece_words::misfit_count(open) {
        let wide = columns(&words);
        room = room.saturating_sub(wide + 2);
        pen.text(room + 2, 0, Role::Trouble, &words);
    }
    pen.text(0, 0, Role::Strong, &clipped(&words, usize::from(room)));
    pen.text_right(1, 0, Role::Text, &count);
}

/// Where `piece` is among several that go through the steps together.
fn pass_in<'a>(state: &'a State, open: &OpenJob, piece: &CutPiece) -> Option<(&'a Batch, Pass)> {
    let batch = state.bench.batch.as_ref()?;
    Some((batch, batch.pass_of(open, piece.id)?))
}

fn correction(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let Some(
        field @ Field {
            purpose: Purpose::Correction(edge, sense),
            text,
        },
    ) = &state.field
    else {
        return;
    };
    let y = pen.height().saturating_sub(2);
    let words = format!(
        " {}: the rest {} by: {text}",
        clipped(open.edge_name(*edge), 30),
        sense.word()
    );
    pen.row(y, Role::Trouble, &words);
    let said = match field.understood(&open.job().settings) {
        Ok(said) => format!(" understood: {said}"),
        Err(why) => format!(" {why}"),
    };
    pen.row(y + 1, Role::Strong, &said);
}
