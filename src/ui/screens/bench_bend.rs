//! Bench, bending: which way, how far, how high the leg stands, and the panel's
//! profile.
//!
//! ```text
//!   UP 72 (drawn)                       the angle large at an edge's first piece
//!   degrees from flat, for a plumb board
//!   1 1/2 (drawn)  the leg stands, in
//!            the profile, looking from the nose
//! ```

use crate::app::state::{BenchPage, OpenJob};
use crate::domain::{
    cutting::{CutPiece, Note, notes_of},
    measure::{Hand, Length},
    piece::{LineAt, Marks, standing, stands},
    roof::{Bend, EdgeKind},
    settings::BenderFolds,
    tape::{print, print_with_unit},
};
use crate::ui::{
    drawing::profile,
    pen::Pen,
    theme::Role,
    widgets::{
        digit_size,
        digits::{self, DotSize},
        large_label,
        piece_words::{self, Room, Several},
    },
};

/// A bender that folds upward bends a valley's leg on a panel that lies on its face.
const TURN_OVER: &str = "The bender folds up only: turn it over SIDE FOR SIDE, nose still to you. The whole end is now on the OTHER side and the line leans the other way: carry 1 and 2 round nose and flange, strike the line on the back, X on the leg's side. Do not measure again.";

/// The leg that is bent now.
struct Leg {
    kind: EdgeKind,
    stands: Length,
    /// At which side of the panel it is, looking from the nose, face up.
    at: Hand,
    degrees: Option<f64>,
}

/// Draws one line's bend in all rows of the pen.
pub(super) fn draw(
    pen: &mut Pen<'_>,
    open: &OpenJob,
    piece: &CutPiece,
    page: BenchPage,
    several: Option<&Several>,
) {
    let (width, height) = (pen.width(), pen.height());
    let leg = leg_of(open, piece, page);
    let way = match leg.kind.bend() {
        Bend::Up => "UP",
        Bend::Down => "DOWN",
    };
    let degrees = leg.degrees.map(|degrees| format!("{degrees:.0}"));
    let large = degrees.as_ref().filter(|_| is_first(open, piece));
    let huge = large.map_or(way.to_owned(), |degrees| format!("{way} {degrees}"));
    let size = digit_size::that_fits(&[&huge], width.saturating_sub(2), height);
    digits::draw(pen, 1, 0, &huge, size);
    let words = angle_words(open, piece, &leg, page);
    let y = pen.wrapped(1, size.rows(), Role::Strong, &words) + 1;
    let division = open.job().settings.division;
    let figure = print(leg.stands, division);
    let sign = figure.trim_end_matches(['+', '-']);
    let leg_size = match height > 30 {
        true => digit_size::that_fits(&[sign], width / 2, 8),
        false => DotSize::Half,
    };
    let end = digits::draw(pen, 1, y, sign, leg_size);
    let stands = format!("{}, the leg stands", division.unit().word());
    pen.text(end + 1, y + 1, Role::Strong, &stands);
    let along = match is_even(open, piece, page) {
        true => "square to the line, full length",
        false => "square to the line, where it is full",
    };
    pen.text(end + 1, y + 2, Role::Text, along);
    let y = y + leg_size.rows();
    let said = piece_words::broken_rows(said(open, piece, &leg, several), width);
    let said_rows = u16::try_from(said.len()).unwrap_or(0).min(5);
    let room = height.saturating_sub(y + said_rows);
    let blank = u16::from(room > profile::LEAST);
    let (y, picture) = (y + blank, room.saturating_sub(blank));
    let part = &mut pen.part(1, y, width.saturating_sub(2), picture);
    match several {
        Some(several) => {
            large_label::draw(part, &several.label);
        }
        None => profile::draw(part, leg.at, leg.kind.bend(), leg.degrees),
    }
    let y = height.saturating_sub(said_rows);
    piece_words::put_rows(&mut pen.part(0, y, width, said_rows), &said);
}

fn leg_of(open: &OpenJob, piece: &CutPiece, page: BenchPage) -> Leg {
    let spec = &piece.spec;
    let degrees = |edge, kind| {
        let edge = open.job().edge(edge)?;
        edge.roof.slope.and_then(|_| edge.roof.bend_deg(kind))
    };
    match (spec.near, page) {
        (Some(near), BenchPage::Line(LineAt::Near)) => Leg {
            kind: near.kind,
            stands: standing(near.allowance, near.bend.lean()),
            at: spec.hand,
            degrees: near
                .edges
                .first()
                .and_then(|edge| degrees(*edge, near.kind)),
        },
        (near, _) => {
            let edge = near.map_or(piece.id.edge, |near| near.edges[1]);
            Leg {
                kind: spec.kind,
                stands: stands(spec),
                // Away from the whole end.
                at: spec.hand.other(),
                degrees: degrees(edge, spec.kind),
            }
        }
    }
}

/// Whether the leg stands as high all along its line.
fn is_even(open: &OpenJob, piece: &CutPiece, page: BenchPage) -> bool {
    let at_near = page == BenchPage::Line(LineAt::Near);
    let notes = notes_of(piece, &Marks::of(&piece.spec), &open.job().settings);
    !notes.iter().any(|note| match note {
        Note::NearTaper(_) => at_near,
        Note::Taper(_) => !at_near,
        Note::NoCut { nose, back } => !at_near && nose != back,
        _ => false,
    })
}

/// Whether no other piece of its edge was bent before: the bender is set for it.
fn is_first(open: &OpenJob, piece: &CutPiece) -> bool {
    let of_edge = open.list.pieces_of(piece.id.edge);
    let mut others = of_edge.filter(|other| other.id != piece.id);
    let bent = |other: &CutPiece| open.progress.done(other.id).is_some_and(|done| done.bent);
    !others.any(bent)
}

fn angle_words(open: &OpenJob, piece: &CutPiece, leg: &Leg, page: BenchPage) -> String {
    let line = match page {
        BenchPage::Line(line) => piece_words::line_name(open, piece, line),
        BenchPage::Across(_) => None,
    };
    let line = line.map_or_else(String::new, |line| format!("{}: ", line.to_uppercase()));
    let turned = match leg.kind.bend() {
        Bend::Up => "toward the stone coat",
        Bend::Down => "away from the stone coat",
    };
    match leg.degrees {
        Some(degrees) => {
            let short = 90.0 - degrees;
            let short = match short >= 0.5 {
                true => format!(", {short:.0} short of square"),
                false => String::new(),
            };
            format!("{line}bend {turned} to {degrees:.0} deg{short}, for a plumb board")
        }
        None => format!("{line}bend {turned}, as far as the board or valley stands"),
    }
}

/// The leg that a short course has at the ridge.
fn ridge_leg(open: &OpenJob, piece: &CutPiece) -> Option<String> {
    let spec = &piece.spec;
    let up = spec.panel.height;
    let stands = spec.across.filter(|across| *across > up)? - up;
    let division = open.job().settings.division;
    let [up, stands] = [up, stands].map(|length| print_with_unit(length, division));
    Some(format!(
        "Where two legs meet: nip the corner out between both bend lines before the first bend. Then the ridge's leg: bend up on the line {up} up, it stands {stands}."
    ))
}

/// The gravest first.
fn said(
    open: &OpenJob,
    piece: &CutPiece,
    leg: &Leg,
    several: Option<&Several>,
) -> Vec<(Role, String)> {
    let trouble = piece_words::trouble(open, piece);
    let trouble = trouble.map(|words| (Role::Trouble, words));
    let among = several.map(|several| several.words.clone());
    let up_only = open.job().settings.bender_folds == BenderFolds::UpOnly;
    let turn_over = leg.kind.bend() == Bend::Down && up_only;
    let notes = piece_words::notes(open, piece, &Marks::of(&piece.spec), Room::Ample).into_iter();
    let others = among
        .into_iter()
        .chain(piece_words::small(open, piece, &Marks::of(&piece.spec)))
        .chain(turn_over.then(|| TURN_OVER.to_owned()))
        .chain(ridge_leg(open, piece))
        .chain(notes.map(|note| format!("! {note}")));
    let others = others.map(|words| (Role::Strong, words));
    trouble.into_iter().chain(others).collect()
}
