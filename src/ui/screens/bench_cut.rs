//! Bench, cutting: whether the panel is turned, the panel at the shear, and which
//! part drops.
//!
//! ```text
//!   TURN (drawn)                          offcut 2 (drawn), where it is kept
//!   END FOR END: nose AWAY from you, face up
//!   the panel at the shear over the full width, the piece filled
//!   OFFCUT DROPS (drawn)
//!   let it fall on a stand, hands and feet clear
//! ```

use crate::app::state::OpenJob;
use crate::domain::{
    cutting::{CutNow, CutPiece},
    piece::{LineAt, Marks, Nose, Part, length_mm},
    settings::BenchOrder,
    stock::Rest,
    tape::print_with_unit,
};
use crate::picture::{shape::Shape, shear::shear};
use crate::ui::{
    drawing::picture_raster,
    pen::Pen,
    theme::Role,
    widgets::{
        digit_size,
        digits::{self, DotSize},
        large_label,
        piece_words::{self, Several},
    },
};

/// A hand beyond the blade is where it hurts.
const FALLS: &str = "Let it fall on a stand, hands and feet clear. Enter square, roll into the line; stop three-quarters of the way, draw back, take the second bite.";

/// The rows of the screen above and below the step.
const BESIDE: u16 = 5;

/// Columns kept free for the offcut's number.
const NUMBER: u16 = 23;

/// Draws the step in all rows of the pen.
pub(super) fn draw(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece, several: Option<&Several>) {
    let Some(cut) = piece.cut_now() else { return };
    let (width, height) = (pen.width(), pen.height());
    let blade = open.job().settings.blade;
    let lie = cut.lie(blade);
    let turn = match lie.nose {
        Nose::Away => "TURN",
        Nose::Toward => "AS IT LIES",
    };
    let size = digit_size::of_words(height + BESIDE);
    digits::draw(pen, 1, 0, turn, size);
    let mut y = size.rows();
    // Of two cuts the far one leaves what is planned.
    if cut.line == LineAt::Far {
        let corner = &mut pen.part(width.saturating_sub(NUMBER), 0, NUMBER, y);
        number(corner, open, piece);
    }
    y = pen.wrapped(1, y, Role::Strong, &lies(open, piece, &cut, lie.nose));

    let drops = match lie.on_table {
        Part::Kept => "OFFCUT DROPS",
        Part::Offcut => "PIECE DROPS",
    };
    let drop_size = size;
    let said = piece_words::broken_rows(said(open, piece, &cut, several), width);
    let said_rows = u16::try_from(said.len()).unwrap_or(1).min(4);
    let below = drop_size.rows() + said_rows;
    let mut picture_rows = height.saturating_sub(y + below);
    if let Some(several) = several {
        let rows = DotSize::Half.rows() + 1;
        picture_rows = picture_rows.saturating_sub(rows);
        let at = y + picture_rows;
        large_label::draw(
            &mut pen.part(1, at, width.saturating_sub(2), rows),
            &several.label,
        );
    }
    if let Some(mut shapes) = shear(&cut, blade) {
        // Without a stop there is nothing to point at.
        let stops = |shape: &Shape| !matches!(shape, Shape::Pointer { .. });
        let one_bite = one_bite(open, &cut);
        shapes.shapes.retain(|shape| !one_bite || stops(shape));
        let shapes = &shapes;
        picture_raster::draw(
            &mut pen.part(1, y, width.saturating_sub(2), picture_rows),
            shapes,
        );
    }
    let y = height.saturating_sub(below);
    digits::draw(pen, 1, y, drops, drop_size);
    let y = y + drop_size.rows();
    piece_words::put_rows(&mut pen.part(0, y, width, said_rows), &said);
}

/// How the panel lies, in words.
fn lies(open: &OpenJob, piece: &CutPiece, cut: &CutNow, nose: Nose) -> String {
    let lies = match nose {
        Nose::Away => "END FOR END: nose AWAY from you, back toward you, face up",
        Nose::Toward => "nose TOWARD you as it was marked, face up",
    };
    let line = piece_words::line_name(open, piece, cut.line);
    let line = line.map_or_else(String::new, |line| format!("{}; ", line.to_uppercase()));
    let leg = match open.job().settings.bench_order {
        BenchOrder::BendFirst => ", its leg standing up",
        BenchOrder::CutFirst => "",
    };
    format!("{line}{lies}{leg}")
}

/// What is written on the offcut, where it is kept.
fn number(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece) {
    let (whose, number) = match piece.rest {
        Rest::KeptFor { piece, number } => (piece, number),
        Rest::Waste => {
            pen.text(0, 1, Role::Strong, "the offcut is waste");
            return;
        }
        Rest::Nothing => return,
    };
    let number = number.unwrap_or(open.progress.next_offcut()).to_string();
    let whose = format!("{}:", open.labels.piece(whose));
    for (y, words) in (0..).zip(["KEEP the", "offcut for", &whose, "write"]) {
        pen.text(0, y, Role::Strong, words);
    }
    let size = match pen.height() >= DotSize::Whole.rows() && number.len() < 2 {
        true => DotSize::Whole,
        false => DotSize::Half,
    };
    let x = pen.width().saturating_sub(digits::width(&number, size) + 1);
    digits::draw(pen, x, 0, &number, size);
}

/// What is said below, the gravest first.
fn said(
    open: &OpenJob,
    piece: &CutPiece,
    cut: &CutNow,
    several: Option<&Several>,
) -> Vec<(Role, String)> {
    let trouble = piece_words::trouble(open, piece);
    let trouble = trouble.map(|words| (Role::Trouble, words));
    let among = several.map(|several| several.words.clone());
    let last = piece.first_cut || Marks::of(&piece.spec).cuts().len() < 2;
    let tip = piece.spec.tip().filter(|_| last).map(|tip| {
        let tip = print_with_unit(tip, open.job().settings.division);
        format!("Then nip the tip off, {tip} up from the nose.")
    });
    let one_bite =
        one_bite(open, cut).then_some("Shorter than the shear opens: one bite, no stop.");
    let small = piece_words::small(open, piece, &Marks::of(&piece.spec));
    let others = among
        .into_iter()
        .chain(small)
        .chain([FALLS.to_owned()])
        .chain(tip)
        .chain(one_bite.map(str::to_owned));
    let others = others.map(|words| (Role::Strong, words));
    trouble.into_iter().chain(others).collect()
}

/// Whether the whole cut is made in one bite.
fn one_bite(open: &OpenJob, cut: &CutNow) -> bool {
    let ends = Marks::of(&cut.spec).cut;
    let panel = cut.spec.panel;
    let long = length_mm(ends, panel.width, panel.height);
    let opens = open.job().settings.shear_opens;
    opens.is_some_and(|opens| long <= opens.mm())
}
