//! Bench: the piece in hand, to be read at a glance.

use crate::app::field::{Field, Purpose, said_of};
use crate::app::open_job::OpenJob;
use crate::app::screens::bench::in_hand;
use crate::app::state::State;
use crate::domain::cut_list::CutPiece;
use crate::domain::doubtful::doubt_words;
use crate::domain::hand::Hand;
use crate::domain::length::Length;
use crate::domain::lie::{Nose, Part};
use crate::domain::marks::{At, Ends, Marks};
use crate::domain::note::notes_with;
use crate::domain::progress::{Stage, stages};
use crate::domain::tape::{Division, print, print_with_unit};
use crate::ui::pen::{Pen, clipped};
use crate::ui::theme::Role;
use crate::ui::widgets::big_digits::{self, DotSize};

/// Where the notes start, right of the widest figure.
const NOTES_AT: u16 = 58;

/// Draws the place.
pub fn draw(pen: &mut Pen<'_>, state: &State) {
    let Some((open, piece)) = state.open.as_ref().zip(in_hand(state)) else {
        pen.text(1, 1, Role::Strong, "No piece to cut yet.");
        pen.text(1, 3, Role::Text, "Log a hip's readings first (F3).");
        return;
    };
    let marks = Marks::of(&piece.spec);
    let division = open.job().settings.division;
    title(pen, open, piece);
    pull(pen, piece);
    notes(pen, open, piece, &marks);
    let y = bend_marks(pen, piece.spec.hand, &marks, division);
    let y = cut_marks(pen, y, piece, &marks, division);
    let y = lie(pen, y, open, piece, &marks);
    let y = steps(pen, y, open, piece);
    after(pen, y, open, piece);
    correction(pen, state, open);
}

fn title(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece) {
    let at = open.list.place_of(piece.id).map_or(0, |at| at + 1);
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
    pen.text(0, 0, Role::Strong, &words);
    let count = format!(
        "piece {at} of {}, {} left",
        open.list.pieces.len(),
        open.list.left()
    );
    pen.text_right(1, 0, Role::Text, &count);
}

fn pull(pen: &mut Pen<'_>, piece: &CutPiece) {
    let words = match piece.spec.hand {
        Hand::Left => " LEFT hand: pull the tape from the LEFT side",
        Hand::Right => " RIGHT hand: pull the tape from the RIGHT side",
    };
    pen.row(1, Role::Selected, words);
}

/// What is out of the ordinary, beside the figures.
fn notes(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece, marks: &Marks) {
    let settings = &open.job().settings;
    let width = pen.width().saturating_sub(NOTES_AT);
    let mut pen = pen.part(NOTES_AT, 3, width, 10);
    let mut y = 0;
    let doubt = open
        .doubt_at(piece.id.edge, piece.id.course)
        .filter(|_| piece.stage == Stage::ToMark);
    if let Some(doubt) = doubt {
        y = pen.wrapped(0, y, Role::Trouble, " DOUBTFUL: measure again ");
        y = pen.wrapped(0, y, Role::Strong, &doubt_words(doubt, settings.division));
    }
    for note in notes_with(&piece.spec, marks, piece.id, settings) {
        pen.text(0, y, Role::Strong, "!");
        let words = note.words(piece.spec.kind, settings.division);
        y = pen.wrapped(2, y, Role::Strong, &words);
    }
}

fn bend_marks(pen: &mut Pen<'_>, hand: Hand, marks: &Marks, division: Division) -> u16 {
    let Some(ends) = marks.bend else {
        let words = if marks.cut.is_some() {
            "NO BEND LINE: cut only"
        } else {
            "FULL PANEL: no bend, no cut"
        };
        pen.text(1, 3, Role::Mark, words);
        return 5;
    };
    let mut y = 3;
    for mark in ends {
        pen.text(1, y, Role::Strong, "BEND");
        pen.text(1, y + 1, Role::Strong, mark.at.word());
        let from = match (mark.at, hand) {
            (At::Nose | At::Back, Hand::Left) => "from LEFT",
            (At::Nose | At::Back, Hand::Right) => "from RIGHT",
            (At::FarSide | At::HandSide, _) => "up from nose",
        };
        pen.text(1, y + 2, Role::Text, from);
        let figure = print(mark.position, division);
        let end = big_digits::draw(pen, 15, y, &figure, DotSize::Half);
        pen.text(end + 1, y + 2, Role::Strong, division.unit().word());
        y += 5;
    }
    y
}

fn cut_marks(
    pen: &mut Pen<'_>,
    y: u16,
    piece: &CutPiece,
    marks: &Marks,
    division: Division,
) -> u16 {
    let Some(ends) = marks.cut else {
        if marks.bend.is_some() {
            pen.text(
                1,
                y,
                Role::Strong,
                "CUT   none: bend only, nothing is cut off",
            );
            return y + 1;
        }
        return y;
    };
    let words = format!(
        "CUT   {}   (the {} stands {})",
        in_words(ends, division),
        piece.spec.kind.bend().leg(),
        print_with_unit(piece.spec.turn_up(), division)
    );
    pen.text(1, y, Role::Strong, &words);
    y + 1
}

/// `nose 25 5/8 in, back 13 7/8 in`.
fn in_words(ends: Ends, division: Division) -> String {
    ends.map(|mark| {
        format!(
            "{} {}",
            mark.at.word(),
            print_with_unit(mark.position, division)
        )
    })
    .join(", ")
}

/// Where it comes from, how it lies, what becomes of the rest.
fn lie(pen: &mut Pen<'_>, y: u16, open: &OpenJob, piece: &CutPiece, marks: &Marks) -> u16 {
    let stock = format!("FROM  {}", open.labels.stock(&piece.stock));
    let stock = match (open.labels.rest(&piece.rest), marks.cut) {
        (Some(rest), Some(_)) => format!("{stock};  OFFCUT {rest}"),
        _ => stock,
    };
    pen.text(1, y, Role::Strong, &stock);
    let blade = open.job().settings.blade;
    let Some(lie) = piece.lie(marks, blade) else {
        return y + 1;
    };
    let nose = match lie.nose {
        Nose::Toward => "nose TOWARD you",
        Nose::Away => "nose AWAY from you",
    };
    let stays = match lie.on_table {
        Part::Kept => "the PIECE stays on the table, the offcut drops",
        Part::Offcut => "the OFFCUT stays on the table, the piece drops: hold it",
    };
    pen.text(1, y + 1, Role::Strong, &format!("LIE   {nose}; {stays}"));
    y + 2
}

fn steps(pen: &mut Pen<'_>, y: u16, open: &OpenJob, piece: &CutPiece) -> u16 {
    let order = open.job().settings.bench_order;
    let mut x = 1;
    for stage in stages(&piece.spec, order) {
        let words = step_words(stage, piece);
        let now = stage == piece.stage;
        let role = if now { Role::Selected } else { Role::Text };
        let mark = if now {
            ">"
        } else if stage < piece.stage || piece.stage == Stage::Stacked {
            "x"
        } else {
            " "
        };
        x = pen.text(x, y, role, &format!("{mark}{words} ")) + 1;
    }
    let board = open
        .job()
        .edge(piece.id.edge)
        .filter(|_| piece.stage == Stage::ToBend)
        .and_then(|edge| edge.roof.slope.and_then(|_| edge.roof.bend_deg(edge.kind)));
    if let Some(degrees) = board {
        let words = format!(
            "Bend on the bend line, {degrees:.0} deg from flat to stand against a plumb board."
        );
        pen.text(1, y + 1, Role::Text, &words);
        return y + 2;
    }
    let now = match piece.stage {
        Stage::ToMark => "Join the bend marks full length; mark the cut line at its two ends only.",
        Stage::ToCut => {
            "Flatten nose and back flange at the line; enter square, roll into the line."
        }
        Stage::ToBend => "Bend on the bend line, full length.",
        Stage::ToStack => "Write the label, stack face down.",
        Stage::Stacked => "This piece is done.",
    };
    pen.text(1, y + 1, Role::Text, now);
    y + 2
}

fn step_words(stage: Stage, piece: &CutPiece) -> String {
    match stage {
        Stage::ToMark => "mark, flatten".to_owned(),
        Stage::ToCut => "cut".to_owned(),
        Stage::ToBend => format!("bend {}", piece.spec.kind.bend().word()),
        Stage::ToStack => "label, stack".to_owned(),
        Stage::Stacked => "stacked".to_owned(),
    }
}

fn after(pen: &mut Pen<'_>, y: u16, open: &OpenJob, piece: &CutPiece) {
    let from = open.list.place_of(piece.id).map_or(0, |at| at + 1);
    let next = open
        .list
        .next_open(from)
        .and_then(|at| open.list.pieces.get(at))
        .filter(|next| next.id != piece.id);
    let correction = open.progress.correction(piece.id.edge);
    let mut words = match next {
        Some(next) => format!("next: {}", open.labels.piece(next.id)),
        None => "next: nothing, this is the last".to_owned(),
    };
    if correction != Length::ZERO {
        let said = said_of(correction, &open.job().settings);
        words.push_str(&format!("   this hip is cut {said}"));
    }
    pen.text(1, y, Role::Text, &words);
}

fn correction(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let Some(
        field @ Field {
            purpose: Purpose::Correction(edge),
            text,
        },
    ) = &state.field
    else {
        return;
    };
    let y = pen.height().saturating_sub(2);
    let words = format!(
        " {}: so much longer (- for shorter): {text}",
        clipped(open.edge_name(*edge), 20)
    );
    pen.row(y, Role::Trouble, &words);
    let said = match field.understood(&open.job().settings) {
        Ok(said) => format!(" understood: {said}"),
        Err(why) => format!(" {why}"),
    };
    pen.row(y + 1, Role::Strong, &said);
}
