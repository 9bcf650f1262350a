//! Bench, the last step: the label that is written on the piece, where it goes, and
//! what comes next.

use crate::app::state::OpenJob;
use crate::domain::bench::Stage;
use crate::domain::cutting::CutPiece;
use crate::domain::piece::Marks;
use crate::ui::pen::Pen;
use crate::ui::theme::Role;
use crate::ui::widgets::digits::{self, DotSize};
use crate::ui::widgets::{
    digit_size,
    piece_words::{self, Room},
};

/// Draws the step in all rows of the pen.
pub(super) fn draw(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece) {
    let (width, height) = (pen.width(), pen.height());
    let label = open.labels.piece(piece.id);
    let words = match piece.stage {
        Stage::Stacked => "STACKED",
        _ => "WRITE ON THE UNDERSIDE: face down that is the side seen",
    };
    pen.text(1, 0, Role::Strong, words);
    let size = digit_size::that_fits(&[&label], width.saturating_sub(2), height);
    let mut y = if digits::width(&label, size) + 2 <= width {
        digits::draw(pen, 1, 2, &label, size);
        3 + size.rows()
    } else {
        pen.row(2, Role::Selected, &format!("  {label}"));
        4
    };
    let trouble = piece_words::trouble(open, piece).map(|words| (Role::Trouble, words));
    let rows = piece_words::broken_rows(trouble.into_iter().collect(), width);
    let trouble_rows = u16::try_from(rows.len()).unwrap_or(0);
    piece_words::put_rows(&mut pen.part(0, y, width, trouble_rows), &rows);
    y += trouble_rows;
    if piece.stage != Stage::Stacked {
        let words = over(open, piece).map_or_else(
            || "STACK it face down, near the next panel to cut.".to_owned(),
            |(label, count)| format!("STACK it face down, UNDER {label}: lift off {count} first."),
        );
        pen.text(1, y, Role::Strong, &words);
    }
    let of_edge = open.list.pieces_of(piece.id.edge);
    let of_edge: Vec<_> = of_edge.collect();
    let at = of_edge.iter().position(|other| other.id == piece.id);
    let place = format!(
        "{} of {} of {}; {}",
        at.map_or(0, |at| at + 1),
        of_edge.len(),
        open.edge_name(piece.id.edge),
        piece_words::left(open, piece)
    );
    y = pen.wrapped(1, y + 1, Role::Strong, &place) + 1;
    y = next(pen, open, piece, y);
    let notes = piece_words::notes(open, piece, &Marks::of(&piece.spec), Room::Ample);
    if !notes.is_empty() && y < height {
        pen.wrapped(1, y, Role::Strong, &format!("! {}", notes.join("; ")));
    }
}

/// The lowest of the stacked pieces that are laid after a piece made late, and how
/// many lie on the stack down to it.
fn over(open: &OpenJob, piece: &CutPiece) -> Option<(String, usize)> {
    let of_edge = open.list.pieces_of(piece.id.edge);
    let later = of_edge.skip_while(|other| other.id != piece.id).skip(1);
    let later = later.filter(|other| other.stage == Stage::Stacked);
    let places = later.filter_map(|other| Some((open.stack_place(other.id)?, other.id)));
    let (count, lowest) = places.max()?;
    Some((open.labels.piece(lowest), count))
}

/// The piece that comes next, its label drawn; says the row below.
fn next(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece, y: u16) -> u16 {
    let Some(next) = piece_words::next(open, piece) else {
        let words = match open.list.left() {
            0 => "NEXT: the roof. F2 says what was cut of each hip.",
            _ => "NEXT: nothing, this is the last.",
        };
        pen.text(1, y, Role::Strong, words);
        return y + 2;
    };
    let label = open.labels.piece(next.id);
    let size = DotSize::Half;
    if y + 1 + size.rows() > pen.height() || digits::width(&label, size) + 9 > pen.width() {
        let words = format!("NEXT {label}: {}", piece_words::from(open, next));
        return pen.wrapped(1, y, Role::Strong, &words) + 1;
    }
    pen.text(1, y, Role::Strong, "NEXT");
    digits::draw(pen, 8, y, &label, size);
    let hand = next.spec.hand.word().to_uppercase();
    let words = format!("{}; tape from the {hand}", piece_words::from(open, next));
    pen.text(1, y + size.rows(), Role::Strong, &words);
    y + size.rows() + 2
}
