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
const FALLS: &str = "Let it fall on a stand, hands and feet clear.";

/// How it is cut; the picture says it in few words.
const BITES: &str = "Enter square, roll into the line; stop three-quarters of the way, draw back, take the second bite.";

/// Rows for what is said below, where the screen has no more.
const LEAST_SAID: usize = 4;

/// Rows in which the panel at the shear is still seen.
const PICTURE: u16 = 6;

/// Columns of it.
const PICTURE_COLUMNS: u16 = 30;

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
    let spare = height.saturating_sub(y + drop_size.rows());
    let most = LEAST_SAID.max(usize::from(spare.saturating_sub(PICTURE)));
    let rows = |how: Option<&str>| {
        let said = said(open, piece, &cut, several, how);
        piece_words::broken_rows(said, width)
    };
    let all = Some(rows(Some(BITES))).filter(|rows| rows.len() <= most);
    let said = all.unwrap_or_else(|| rows(None));
    let said_rows = u16::try_from(said.len().min(most)).unwrap_or(1);
    let below = drop_size.rows() + said_rows;
    let mut picture = (width, spare.saturating_sub(said_rows));
    if let Some(several) = several {
        let area = &mut pen.part(0, y, width, picture.1);
        picture = label(area, &several.label);
    }
    if let Some(mut shapes) = shear(&cut, blade) {
        // Without a stop there is nothing to point at.
        let stops = |shape: &Shape| !matches!(shape, Shape::Pointer { .. });
        let one_bite = one_bite(open, &cut);
        shapes.shapes.retain(|shape| !one_bite || stops(shape));
        let shapes = &shapes;
        picture_raster::draw(
            &mut pen.part(1, y, picture.0.saturating_sub(2), picture.1),
            shapes,
        );
    }
    let y = height.saturating_sub(below);
    digits::draw(pen, 1, y, drops, drop_size);
    let y = y + drop_size.rows();
    piece_words::put_rows(&mut pen.part(0, y, width, said_rows), &said);
}

/// Draws the label of one of several below the picture, or beside it; says how much
/// is left for the picture, columns and rows.
fn label(pen: &mut Pen<'_>, label: &str) -> (u16, u16) {
    let (width, height) = (pen.width(), pen.height());
    let rows = DotSize::Half.rows() + 1;
    let above = height.saturating_sub(rows);
    if above >= PICTURE {
        let part = &mut pen.part(1, above, width.saturating_sub(2), rows);
        large_label::draw(part, label);
        return (width, above);
    }
    let sizes = [DotSize::Half, DotSize::Small].into_iter();
    let mut widths = sizes.map(|size| digits::width(label, size) + 1);
    let wide = widths.find(|wide| wide + PICTURE_COLUMNS <= width);
    let beside = width.saturating_sub(wide.unwrap_or(width / 2));
    let part = &mut pen.part(beside, 1, width.saturating_sub(beside), rows);
    large_label::draw(part, label);
    (beside, height)
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

/// What is said below, the gravest first, with `how` the cut is made where there is
/// room for that.
fn said(
    open: &OpenJob,
    piece: &CutPiece,
    cut: &CutNow,
    several: Option<&Several>,
    how: Option<&str>,
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
    let how = how.map_or_else(String::new, |how| format!(" {how}"));
    let falls = format!("{FALLS}{how}");
    let others = among
        .into_iter()
        .chain(small)
        .chain([falls])
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
