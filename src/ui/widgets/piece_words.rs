//! What the Bench says in words about a piece: what is out of the ordinary,
//! where it comes from, how it lies, what to do now, what comes next.

use super::mark_figures::has_sign;
use crate::app::state::{Batch, Lying, OpenJob, Pass, said_of};
use crate::domain::{
    bench::{Stage, stages},
    cutting::{CutPiece, Note, OnTrip, doubt_words, is_let_stand, notes_of},
    measure::{Length, Name},
    piece::{LineAt, Marks, NearEnd, Nose, Part},
    tape::print_with_unit,
};
use crate::ui::pen::{Pen, clipped};
use crate::ui::theme::Role;

/// How many rows [`below`] takes.
pub const BELOW: u16 = 5;

/// What keeps a piece from being cut as it is marked, the gravest alone.
fn trouble(pen: &Pen<'_>, open: &OpenJob, piece: &CutPiece) -> Option<String> {
    let settings = &open.job().settings;
    if let Some(two) = open.held(piece) {
        return Some(format!(" HELD, {}", two.words(settings.unit())));
    }
    if let Some(misfit) = piece.fit.misfit() {
        let words = misfit.words(settings.division);
        return Some(format!(" NO LONGER FITS: {words}"));
    }
    if piece.waits() {
        return Some(" HELD for the second trip: these figures are the cover's".to_owned());
    }
    if let OnTrip::Read(Some(off)) = &piece.trip
        && piece.stage != Stage::Stacked
    {
        return Some(format!(" DOUBTFUL: {}", off.words(settings.division)));
    }
    let doubt = open.doubt_at(piece.id.edge, piece.id.course);
    let doubt = doubt.filter(|_| piece.stage != Stage::Stacked)?;
    let words = doubt_words(doubt, settings.division);
    let room = usize::from(pen.width().saturating_sub(27));
    let words = clipped(&words, room);
    Some(format!(" DOUBTFUL, measure again: {words}"))
}

/// Everything out of the ordinary, a doubt first.
pub fn notes(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece, marks: &Marks) {
    let settings = &open.job().settings;
    let trouble = trouble(pen, open, piece);
    if let Some(words) = &trouble {
        pen.row(0, Role::Trouble, words);
    }
    let y = u16::from(trouble.is_some());
    // Of a marked piece the one that reached it.
    let correction = match open.progress.done(piece.id) {
        Some(done) => done.corrected,
        None => open.progress.correction(piece.id.edge, piece.id.course),
    };
    let corrected = (correction != Length::ZERO).then(|| {
        format!(
            "this {} is cut {}",
            piece.spec.kind.word(),
            said_of(correction, settings)
        )
    });
    let stands = open
        .job()
        .edge(piece.id.edge)
        .filter(|edge| is_let_stand(edge, piece.id.course))
        .map(|_| "its reading was doubtful and was let stand".to_owned());
    let signs = marks
        .lines()
        .flat_map(|line| line.bend.into_iter().chain(line.cut))
        .any(|ends| has_sign(ends, settings.division))
        .then(|| "+ behind a figure: a hair more, - a hair less".to_owned());
    let words: Vec<String> = notes_of(piece, marks, settings)
        .into_iter()
        .filter(|note| !matches!(note, Note::NoLongerFits(_) | Note::OffCover(_)))
        .map(|note| note.words(piece.spec.kind, settings.division))
        .chain(corrected)
        .chain(stands)
        .chain(signs.filter(|_| piece.stage < Stage::ToStack))
        .collect();
    if words.is_empty() {
        return;
    }
    let words = format!("! {}", words.join("; "));
    if pen.height() > y + 1 {
        pen.wrapped(1, y, Role::Strong, &words);
    } else {
        let room = usize::from(pen.width().saturating_sub(2));
        pen.text(1, y, Role::Strong, &clipped(&words, room));
    }
}

/// Stock, lie, steps, what to do now, what comes next: five rows.
pub fn below(
    pen: &mut Pen<'_>,
    open: &OpenJob,
    piece: &CutPiece,
    marks: &Marks,
    batch: Option<&Batch>,
) {
    let turn = if open.is_out_of_turn(piece.id) {
        "if cut now, out of its turn: "
    } else {
        ""
    };
    let lot = lot_of(open, piece).map_or_else(String::new, |lot| format!(", lot {lot}"));
    let stock = format!("FROM  {turn}{}{lot}", open.labels.stock(&piece.stock));
    let stock = match (open.labels.rest(&piece.rest), marks.cut) {
        (Some(rest), Some(_)) => format!("{stock};  OFFCUT {rest}"),
        _ => stock,
    };
    pen.text(1, 0, Role::Strong, &stock);
    lie(pen, open, piece, marks);
    steps(pen, open, piece);
    match open.held(piece) {
        _ if piece.fit.misfit().is_some() => {
            let words = "HELD: Enter says what can be done with it.";
            pen.row(3, Role::Trouble, &format!(" {words}"));
        }
        Some(_) => {
            let words = "HELD: nothing is marked or cut until one is chosen: F3, then m.";
            pen.row(3, Role::Trouble, &format!(" {words}"));
        }
        None if piece.waits() => {
            let words = "HELD: Enter takes the gap over the laid pieces; m: cut it on the cover.";
            pen.row(3, Role::Trouble, &format!(" {words}"));
        }
        None => {
            pen.text(1, 3, Role::Text, &now(open, piece));
        }
    }
    next(pen, open, piece, batch);
}

fn lie(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece, marks: &Marks) {
    // Of one cut at both ends the line in hand is said above, until it is cut.
    let is_done = piece.spec.near.is_some() && is_behind(Stage::ToCut, piece, open);
    let Some(cut) = piece.cut_now().filter(|_| !is_done) else {
        let words = match marks.bend {
            _ if is_done => "CUT   both ends are cut",
            Some(_) => "CUT   none: bend only, nothing is cut off",
            None => "CUT   none: take it as it is",
        };
        pen.text(1, 1, Role::Strong, words);
        return;
    };
    let lie = cut.lie(open.job().settings.blade);
    let first = if piece.stage == Stage::ToMark {
        "first "
    } else {
        ""
    };
    let line = line_name(open, piece, cut.line);
    let line = line.map_or(String::new(), |line| format!("{first}{line}; "));
    // The line's name takes its room from the rest.
    let nose = match (lie.nose, line.is_empty()) {
        (Nose::Toward, true) => "nose TOWARD you",
        (Nose::Away, true) => "nose AWAY from you",
        (Nose::Toward, false) => "nose TOWARD",
        (Nose::Away, false) => "nose AWAY",
    };
    let stays = match lie.on_table {
        Part::Kept => "PIECE stays on the table, hold the offcut",
        Part::Offcut => "OFFCUT stays on the table, hold the piece",
    };
    pen.text(1, 1, Role::Strong, &format!("CUT   {line}{nose}; {stays}"));
}

/// The colour lot it is cut from: as it was marked, else its edge's.
fn lot_of<'a>(open: &'a OpenJob, piece: &CutPiece) -> Option<&'a Name> {
    match open.progress.done(piece.id) {
        Some(done) => done.lot.as_ref(),
        None => open.job().edge(piece.id.edge)?.lot_of(piece.id.course),
    }
}

/// `the H1 line`, of a piece cut at both ends.
pub fn line_name(open: &OpenJob, piece: &CutPiece, line: LineAt) -> Option<String> {
    let [near, far] = piece.spec.near?.edges;
    let edge = match line {
        LineAt::Near => near,
        LineAt::Far => far,
    };
    Some(format!("the {} line", open.labels.edge(edge)))
}

fn steps(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece) {
    let order = open.job().settings.bench_order;
    let mut x = 1;
    for stage in stages(&piece.spec, order) {
        let now = stage == piece.stage;
        let role = if now { Role::Selected } else { Role::Text };
        let mark = if now {
            ">"
        } else if is_behind(stage, piece, open) {
            "*"
        } else {
            " "
        };
        let words = format!("{mark}{} ", step_words(stage, piece));
        x = pen.text(x, 2, role, &words) + 1;
    }
}

/// Whether `stage` comes before the present one in this job's order.
fn is_behind(stage: Stage, piece: &CutPiece, open: &OpenJob) -> bool {
    let all = stages(&piece.spec, open.job().settings.bench_order);
    let place = |stage| all.iter().position(|other| *other == stage);
    place(stage) < place(piece.stage)
}

fn step_words(stage: Stage, piece: &CutPiece) -> String {
    match stage {
        Stage::ToMark => "mark, flatten".to_owned(),
        Stage::ToCut => "cut".to_owned(),
        Stage::ToBend => match (piece.spec.near, piece.spec.kind.bend()) {
            (Some(near), bend) if near.kind.bend() != bend => "bend".to_owned(),
            (_, bend) => format!("bend {}", bend.word()),
        },
        Stage::ToStack => "label, stack".to_owned(),
        Stage::Stacked => "stacked".to_owned(),
    }
}

/// What to do now, in a sentence of the trade.
fn now(open: &OpenJob, piece: &CutPiece) -> String {
    let division = open.job().settings.division;
    if let Some(near) = &piece.spec.near {
        return at_both_ends(open, piece, near);
    }
    match piece.stage {
        Stage::ToMark if Marks::of(&piece.spec).bend.is_none() => {
            "Nothing to mark for the bend: see FROM and CUT above.".to_owned()
        }
        Stage::ToMark => {
            let leg = piece.spec.kind.bend().leg();
            let stands = print_with_unit(piece.spec.turn_up(), division);
            format!("Join 1-2 full length; mark 3, 4 at the ends. The {leg} stands {stands}.")
        }
        Stage::ToCut => {
            "Flatten nose and back flange at the line. Enter square, roll into the line.".to_owned()
        }
        Stage::ToBend => {
            let leg = piece.spec.kind.bend().leg();
            let stands = print_with_unit(piece.spec.turn_up(), division);
            let board = open
                .job()
                .edge(piece.id.edge)
                .and_then(|edge| edge.roof.slope.and_then(|_| edge.roof.bend_deg(edge.kind)));
            match board {
                Some(degrees) => format!(
                    "Bend on line 1-2, {degrees:.0} deg from flat for a plumb board; the {leg} stands {stands}."
                ),
                None => format!("Bend on line 1-2, full length; the {leg} stands {stands}."),
            }
        }
        Stage::ToStack => "Write the label, stack face down near the next panel.".to_owned(),
        Stage::Stacked => "This piece is done. Arrows look at others.".to_owned(),
    }
}

/// Whether nothing is cut after this.
fn is_last_cut(piece: &CutPiece) -> bool {
    piece.first_cut || Marks::of(&piece.spec).cuts().len() < 2
}

/// The same for a piece that is cut at both ends.
fn at_both_ends(open: &OpenJob, piece: &CutPiece, near: &NearEnd) -> String {
    let [first, second] = near.edges.map(|edge| open.labels.edge(edge));
    match piece.stage {
        Stage::ToMark => {
            let division = open.job().settings.division;
            let wide = |up| print_with_unit(piece.spec.bend_to_bend(up).abs(), division);
            let (nose, back) = (wide(Length::ZERO), wide(piece.spec.panel.height));
            let crossed = if piece.spec.bend_to_bend(piece.spec.panel.height) < Length::ZERO {
                ", crossed"
            } else {
                ""
            };
            format!("Strike both lines. Bend to bend: nose {nose}, back {back}{crossed}.")
        }
        Stage::ToCut => match piece.spec.tip().filter(|_| is_last_cut(piece)) {
            Some(tip) => {
                let tip = print_with_unit(tip, open.job().settings.division);
                format!("Flatten, enter square, roll in; then nip the tip off {tip} up.")
            }
            None => "Flatten nose and back flange at the line. Enter square, roll into the line."
                .to_owned(),
        },
        Stage::ToBend => {
            let [near, far] = [near.kind, piece.spec.kind].map(|kind| kind.bend().word());
            format!(
                "Bend {near} on the {first} line, then {far} on the {second} line, full length."
            )
        }
        Stage::ToStack => "Write the label, stack face down near the next panel.".to_owned(),
        Stage::Stacked => "This piece is done. Arrows look at others.".to_owned(),
    }
}

/// Where a piece lies among several at once, and where it is laid.
fn among_several(open: &OpenJob, piece: &CutPiece, batch: &Batch) -> Option<String> {
    let pass = batch.pass_of(open, piece.id)?;
    let label = open.labels.piece(piece.id);
    let lies = match batch.lying {
        _ if batch.next(open) != Some(piece.id) => "taken by its number",
        Lying::Pile => "on top of the pile",
        Lying::Row => "next in the row",
    };
    Some(match (pass, batch.lying) {
        (Pass::Mark, Lying::Pile) => format!("WRITE {label} ON IT, lay it on the pile"),
        (Pass::Mark, Lying::Row) => format!("WRITE {label} ON IT, lay it beside the one before"),
        (Pass::First, Lying::Pile) => format!("{label}: {lies}; then onto a new pile"),
        (Pass::First, Lying::Row) => format!("{label}: {lies}; then back to its place"),
        (Pass::Last, _) => format!("{label}: {lies}; then onto the stack"),
    })
}

fn next(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece, batch: Option<&Batch>) {
    let from = open.list.place_of(piece.id).map_or(0, |at| at + 1);
    let next = open
        .next_open(from)
        .and_then(|at| open.list.pieces.get(at))
        .filter(|next| next.id != piece.id)
        // What is held comes once nothing else is open.
        .or_else(|| {
            let mut later = open.list.pieces.iter().skip(from);
            later.find(|later| later.waits())
        });
    let mut words = match next {
        Some(next) => format!("next: {}", open.labels.piece(next.id)),
        None => "next: nothing, this is the last".to_owned(),
    };
    if let Some(several) = batch.and_then(|batch| among_several(open, piece, batch)) {
        words = several;
    }
    let here = open.left_at(piece.id.edge);
    words.push_str(&format!(
        "   left in this {}: {here}",
        piece.spec.kind.word()
    ));
    let (of_edge, of_job) = (open.time_left(Some(piece.id.edge)), open.time_left(None));
    if let (Some(of_edge), Some(of_job)) = (of_edge, of_job) {
        words.push_str(&format!(", {of_edge}; job {of_job}"));
    }
    pen.text(1, 4, Role::Text, &words);
}

/// ` 2 NO LONGER FIT: n `, where any does not.
pub fn misfit_count(open: &OpenJob) -> Option<String> {
    match open.list.no_longer_fit() {
        0 => None,
        1 => Some(" 1 NO LONGER FITS: n ".to_owned()),
        count => Some(format!(" {count} NO LONGER FIT: n ")),
    }
}
