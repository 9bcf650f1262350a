//! Bench: the piece in hand, to be read at a glance from two metres.
//!
//! ```text
//!   H1-5 L   Hip 1, course 5                    piece 5 of 40, 36 left
//!   LEFT hand: nose TOWARD you, tape from YOUR LEFT
//!   BEND 1  nose, from the LEFT, in        |  the panel as it lies for
//!   (drawn figure)                         |  marking; at the cutter once
//!   BEND 2  back, from the LEFT, in        |  it is marked
//!   (drawn figure)                         |
//!   CUT 3 nose (smaller)     4 back (smaller)
//!   what is out of the ordinary
//!   FROM, LIE, steps, what to do now, what comes next
//! ```
//!
//! On wide screens the two pictures stand side by side under the figures. While
//! several pieces are in hand the label stands large at every step: under the
//! figures where there are rows, else above the picture.

use crate::app::state::{Batch, Field, OpenJob, Pass, Purpose, State};
use crate::domain::{
    bench::Stage,
    cutting::CutPiece,
    measure::Hand,
    piece::{LineAt, LineMarks, Marks, Nose},
};
use crate::picture::{cutter::cutter, marking::marking, shape::Picture};
use crate::ui::{
    drawing::picture_raster,
    pen::{Pen, clipped, columns},
    theme::Role,
    widgets::{
        digit_size,
        digits::{self, DotSize},
        large_label,
        mark_figures::{CutLayout, Marked, bend_figures, cut_figures},
        piece_words::{BELOW, below, line_name, misfit_count, notes},
    },
};

/// From this width on, the figures and the pictures stand side by side.
const WIDE: u16 = 92;

/// Where the picture starts on a narrow screen: right of the widest figure.
const PICTURE_AT: u16 = 46;

/// Rows of the two bend marks, one below the other.
const BEND_ROWS: u16 = 10;

/// A picture needs so many rows to be read.
const PICTURE_ROWS: u16 = 8;

/// Draws the place.
pub fn draw(pen: &mut Pen<'_>, state: &State) {
    let Some((open, piece)) = state.open.as_ref().zip(state.piece_in_hand()) else {
        pen.text(1, 1, Role::Strong, "No piece to cut yet.");
        pen.text(1, 3, Role::Text, "Log a hip's readings first (F3).");
        return;
    };
    let marks = Marks::of(&piece.spec);
    title(pen, state, open, piece);
    let line = line_in_hand(state, piece, &marks);
    pull(pen, open, piece, line.at);
    let (width, height) = (pen.width(), pen.height());
    let upper = height.saturating_sub(BELOW);
    let y = figures(
        &mut pen.part(0, 0, width, upper),
        state,
        open,
        piece,
        &marks,
        line,
    );
    let y = if width >= WIDE {
        two_pictures(pen, open, piece, y, upper)
    } else {
        y
    };
    let rows = upper.saturating_sub(y);
    // Without a row of their own they would stand in the one that says the stock.
    if rows > 0 {
        notes(&mut pen.part(0, y, width, rows), open, piece, &marks);
    }
    let below_all = &mut pen.part(0, upper, width, BELOW);
    below(below_all, open, piece, &marks, state.bench.batch.as_ref());
    correction(pen, state, open);
}

/// The line that this step is about: of a piece cut at both ends one after the
/// other.
fn line_in_hand(state: &State, piece: &CutPiece, marks: &Marks) -> LineMarks {
    let at = match piece.stage {
        Stage::ToCut => piece.cut_now().map_or(LineAt::Far, |cut| cut.line),
        _ if state.bench.far_line || marks.near.is_none() => LineAt::Far,
        _ => LineAt::Near,
    };
    let far = LineMarks {
        at: LineAt::Far,
        bend: marks.bend,
        cut: marks.cut,
    };
    marks.lines().find(|line| line.at == at).unwrap_or(far)
}

fn title(pen: &mut Pen<'_>, state: &State, open: &OpenJob, piece: &CutPiece) {
    let mut at = open.list.place_of(piece.id).map_or(0, |at| at + 1);
    let (mut what, mut all) = ("piece", open.list.pieces.len());
    if let Some((batch, _)) = pass_in(state, open, piece) {
        at = batch.place_of(piece.id).unwrap_or(0);
        (what, all) = ("several:", batch.count());
    }
    let words = format!(
        " {}   {}, course {}{}",
        open.labels.piece(piece.id),
        clipped(open.edge_name(piece.id.edge), 20),
        piece.id.course,
        if piece.id.number > 1 {
            format!(", piece {}", piece.id.number)
        } else {
            String::new()
        }
    );
    let count = format!("{what} {at} of {all}, {} left", open.list.left());
    let mut room = pen.width().saturating_sub(columns(&count) + 3);
    if let Some(words) = misfit_count(open) {
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

/// How the panel lies for this step, and from where the tape is pulled.
fn pull(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece, line: LineAt) {
    let side = piece.spec.hand.word().to_uppercase();
    let turn = piece.lie(open.job().settings.blade).map(|lie| lie.nose);
    // A piece cut at both ends has no hand: its lines are told apart.
    let count = if line == LineAt::Near {
        "1 of 2"
    } else {
        "2 of 2"
    };
    let which = match (line_name(open, piece, line), piece.stage) {
        (None, _) => format!("{side} hand"),
        (Some(_), Stage::ToStack | Stage::Stacked) => "BOTH ENDS".to_owned(),
        (Some(line), Stage::ToCut) => line.to_uppercase(),
        (Some(line), _) => format!("{}, {count}", line.to_uppercase()),
    };
    let words = match (piece.stage, turn) {
        (Stage::ToCut, Some(Nose::Away)) => {
            format!(" {which}: TURN IT END FOR END for the cut, nose AWAY from you")
        }
        (Stage::ToCut, _) => format!(" {which}: for the cut nose TOWARD you, as it was marked"),
        _ => format!(" {which}: nose TOWARD you, tape from YOUR {side}"),
    };
    pen.row(1, Role::Selected, &words);
    // Turned for the cut, that edge lies on the other side.
    if piece.spec.hand == Hand::Right && piece.stage != Stage::ToCut {
        pen.text_right(1, 1, Role::Selected, "<- RIGHT");
    }
}

/// The figures of the step; on a narrow screen the picture stands beside them.
/// Says the row below.
fn figures(
    pen: &mut Pen<'_>,
    state: &State,
    open: &OpenJob,
    piece: &CutPiece,
    marks: &Marks,
    line: LineMarks,
) -> u16 {
    // The marks of a second line are numbered on from those of the first.
    let first = if line.at == LineAt::Far && marks.near.is_some() {
        5
    } else {
        1
    };
    let (spec, division) = (&piece.spec, open.job().settings.division);
    let lower = spec.across.filter(|across| *across > spec.panel.height);
    let marked = |first, ends| Marked {
        first,
        ends,
        upper: lower.map(|_| spec.panel.height),
    };
    let least = digit_size::least(state.size.rows);
    let (width, height) = (pen.width(), pen.height());
    let rows = height.saturating_sub(2 + BEND_ROWS);
    let layout = line
        .cut
        .map(|ends| (ends, CutLayout::that_fits(width, rows, ends, division)));
    let below = layout.map_or(0, |(_, layout)| layout.rows());
    // On a narrow screen nothing reaches into the picture beside it.
    let room = if width < WIDE { PICTURE_AT } else { width };
    let mut beside = pen.part(0, 0, room, height);
    let y = match (piece.stage, line.bend) {
        (Stage::ToStack | Stage::Stacked, _) => return label(pen, open, piece, marks),
        (_, Some(ends)) => {
            let hand = piece.spec.hand;
            bend_figures(
                &mut beside,
                2,
                marked(first, ends),
                hand,
                division,
                least,
                below,
            )
        }
        (_, None) => no_bend(&mut beside, marks).min(height.saturating_sub(below)),
    };
    let label = pass_in(state, open, piece).map(|_| open.labels.piece(piece.id));
    let has_rows = height >= y + below + large_label::LEAST;
    if width < WIDE {
        let above = label.as_deref().filter(|_| !has_rows);
        picture_beside(pen, open, piece, above, y);
    }
    let y = layout.map_or(y, |(ends, layout)| {
        cut_figures(pen, y, marked(first + 2, ends), layout, division)
    });
    let pictures = if width < WIDE { 1 } else { PICTURE_ROWS + 2 };
    match label {
        Some(label) if has_rows || width >= WIDE => {
            large_label::below(pen, &label, y, height, pictures)
        }
        _ => y,
    }
}

/// On a narrow screen the picture stands right of the bend marks, down to row
/// `end`, with the label above it where that has no rows of its own.
fn picture_beside(
    pen: &mut Pen<'_>,
    open: &OpenJob,
    piece: &CutPiece,
    label: Option<&str>,
    end: u16,
) {
    let width = pen.width().saturating_sub(PICTURE_AT);
    let mut top = 2;
    if let Some(label) = label {
        let rows = DotSize::Small.rows() + 1;
        let used = large_label::draw(&mut pen.part(PICTURE_AT, top, width, rows), label);
        top += used.saturating_sub(1);
    }
    let rows = end.saturating_sub(top);
    if let Some(picture) = picture_now(open, piece) {
        picture_raster::draw(&mut pen.part(PICTURE_AT, top, width, rows), &picture);
    }
}

fn no_bend(pen: &mut Pen<'_>, marks: &Marks) -> u16 {
    let words = if marks.cut.is_some() {
        "NO BEND LINE: cut only"
    } else {
        "FULL PANEL: no bend, no cut"
    };
    pen.text(1, 3, Role::Mark, words);
    12
}

/// What is written on the piece, large where it fits.
fn label(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece, marks: &Marks) -> u16 {
    let label = open.labels.piece(piece.id);
    let words = if piece.stage == Stage::Stacked {
        "STACKED"
    } else {
        "WRITE ON IT"
    };
    pen.text(1, 2, Role::Strong, words);
    let size = digit_size::that_fits(&[&label], pen.width().saturating_sub(2), 12);
    let y = if digits::width(&label, size) + 2 <= pen.width() {
        digits::draw(pen, 1, 4, &label, size);
        5 + size.rows()
    } else {
        pen.row(4, Role::Selected, &format!("  {label}"));
        6
    };
    if piece.stage == Stage::ToStack {
        return y;
    }
    // Whoever makes it again wants to know.
    let division = open.job().settings.division;
    let side = piece.spec.hand.word();
    pen.text(
        1,
        y,
        Role::Text,
        &format!("It was marked, tape from the {side}:"),
    );
    let lines = marks
        .lines()
        .flat_map(|line| [("bend", line.bend), ("cut", line.cut)]);
    let lines = lines.filter_map(|(what, ends)| {
        let [one, other] = ends?.map(|mark| mark.words(division));
        Some(format!("{what:<4}  {one}, {other}"))
    });
    let mut at = y + 1;
    for line in lines {
        pen.text(3, at, Role::Text, &line);
        at += 1;
    }
    // As many rows as one line takes, whether or not it is cut.
    at.max(y + 3)
}

/// The picture that goes with the step: for marking, then at the cutter.
fn picture_now(open: &OpenJob, piece: &CutPiece) -> Option<Picture> {
    match piece.stage {
        Stage::ToMark | Stage::ToBend => Some(marking(&piece.spec, piece.stock.offcut())),
        Stage::ToCut => at_cutter(open, piece),
        Stage::ToStack | Stage::Stacked => None,
    }
}

fn at_cutter(open: &OpenJob, piece: &CutPiece) -> Option<Picture> {
    cutter(&piece.cut_now()?, open.job().settings.blade)
}

/// Both pictures side by side, where there are rows for them.
fn two_pictures(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece, y: u16, end: u16) -> u16 {
    // One row for their titles, one for what is out of the ordinary.
    let rows = end.saturating_sub(y + 2);
    if rows < PICTURE_ROWS {
        return y;
    }
    let half = pen.width() / 2;
    let stock = piece.stock.offcut();
    pen.text(1, y, Role::Strong, "FOR MARKING, face up, nose toward you");
    let left = marking(&piece.spec, stock);
    let used = picture_raster::draw(&mut pen.part(1, y + 1, half - 2, rows), &left);
    let Some(right) = at_cutter(open, piece) else {
        return y + 1 + used;
    };
    let blade = open.job().settings.blade.word();
    let words = format!("AT THE CUTTER, blade at the {blade}: filled stays on the table");
    pen.text(half, y, Role::Strong, &words);
    let beside = picture_raster::draw(&mut pen.part(half, y + 1, half - 1, rows), &right);
    y + 1 + used.max(beside)
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
