//! What the Bench says in words about a piece: what is out of the ordinary,
//! where it comes from, its steps, what comes next.

use crate::app::state::{Batch, Lying, OpenJob, Pass, said_of};
use crate::domain::{
    bench::{Stage, stages},
    cutting::{CutPiece, Note, OnTrip, doubt_words, is_let_stand, notes_of},
    measure::{Length, Name},
    piece::{LineAt, Marks},
    roof::EdgeKind,
    tape::{Division, print},
};
use crate::ui::pen::{Pen, broken};
use crate::ui::theme::Role;

/// What keeps a piece from being cut as it is marked, the gravest alone, and what
/// Enter does about it.
pub fn trouble(open: &OpenJob, piece: &CutPiece) -> Option<String> {
    let settings = &open.job().settings;
    if let Some(two) = open.held(piece) {
        let words = two.words(settings.unit());
        return Some(format!("HELD, {words}: F3, then m chooses one"));
    }
    if let Some(misfit) = piece.fit.misfit() {
        let words = misfit.words(settings.division);
        return Some(format!(
            "NO LONGER FITS: {words}; Enter says what can be done"
        ));
    }
    if piece.waits() {
        return Some(
            "HELD for the second trip, these figures are the cover's: Enter takes the gap over the laid pieces, m cuts it on the cover".to_owned(),
        );
    }
    if let OnTrip::Read(Some(off)) = &piece.trip
        && piece.stage != Stage::Stacked
    {
        return Some(format!("DOUBTFUL: {}", off.words(settings.division)));
    }
    let doubt = open.doubt_at(piece.id.edge, piece.id.course);
    let doubt = doubt.filter(|_| piece.stage != Stage::Stacked)?;
    let words = doubt_words(doubt, settings.division);
    Some(format!("DOUBTFUL, measure again: {words}"))
}

/// Whether its reading is doubtful, so that its figures are.
pub fn is_doubtful(open: &OpenJob, piece: &CutPiece) -> bool {
    trouble(open, piece).is_some_and(|words| words.starts_with("DOUBTFUL"))
}

/// A piece of less than 80 sq in is too small to be held in the bender (common
/// practice).
const SMALL_MM2: f64 = 80.0 * 645.16;

/// What is done about it.
const SMALL: &str = "small: bend it FIRST, while the panel is whole, then cut with snips; or ask whether the cap covers it";

const SMALL_AT_MARK: &str = "small: bend while whole, finish with snips";

/// A short course ends at the ridge, and the job keeps nothing of it to bend there.
const BARE_RIDGE: &str = "no leg at the ridge: the job's ridge leg is 0";

/// The same of one that is cut and not bent yet.
const SMALL_WHEN_CUT: &str = "small: bend it by hand, or ask whether the cap covers it";

/// Whether its part of the panel lies apart already.
fn is_cut(open: &OpenJob, piece: &CutPiece) -> bool {
    open.progress.done(piece.id).is_some_and(|done| done.cut)
}

/// What is to be known of a small piece; in few words where it is marked, for what is
/// flattened has to stand there too.
pub fn small(open: &OpenJob, piece: &CutPiece, marks: &Marks) -> Option<String> {
    let is_small = marks.cut.is_some() && marks.kept.area().mm2() < SMALL_MM2;
    let words = match piece.stage {
        Stage::ToMark => SMALL_AT_MARK,
        _ if is_cut(open, piece) => SMALL_WHEN_CUT,
        _ => SMALL,
    };
    (is_small && piece.stage < Stage::ToStack).then(|| format!("! {words}"))
}

/// How much room words have.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Room {
    Ample,
    /// What a figure on the same page says already is left out, the rest is short.
    Scarce,
}

/// Begins the check with one tape of a piece cut at both ends.
pub const CHECK: &str = "check bend to bend";

/// A note where room is scarce.
fn brief(note: &Note, kind: EdgeKind, division: Division) -> Option<String> {
    let say = |length: &Length| print(*length, division);
    match note {
        Note::BothEnds { nose, back } => {
            let crossed = match *back < Length::ZERO {
                true => "crossed by ",
                false => "",
            };
            let back = say(&back.abs());
            let nose = say(nose);
            Some(format!("{CHECK}: nose {nose}, back {crossed}{back}"))
        }
        Note::Tip(up) => Some(format!("nip the tip off last, {} up", say(up))),
        // Its mark says: whole end, up.
        Note::Triangle(_) => None,
        Note::Taper(taper) => Some(taper.brief(division)),
        Note::Sliver(width) => Some(format!("too narrow: {}", say(width))),
        note => Some(note.words(kind, division)),
    }
}

/// By how much it is longer or shorter than read; of one cut at both ends, at which
/// edge.
fn corrected(open: &OpenJob, piece: &CutPiece) -> Vec<String> {
    let settings = &open.job().settings;
    let words = |what: String, by: Length| {
        let said = || format!("{what} is cut {}", said_of(by, settings));
        (by != Length::ZERO).then(said)
    };
    let own = format!("this {}", piece.spec.kind.word());
    let at = |edge| open.progress.correction(edge, piece.id.course);
    match (open.progress.done(piece.id), piece.spec.near) {
        // Of a marked piece the one that reached it.
        (Some(done), _) => words(own, done.corrected).into_iter().collect(),
        (None, None) => words(own, at(piece.id.edge)).into_iter().collect(),
        (None, Some(near)) => near
            .edges
            .into_iter()
            .filter_map(|edge| words(open.labels.edge(edge).to_string(), at(edge)))
            .collect(),
    }
}

/// Everything else out of the ordinary.
pub fn notes(open: &OpenJob, piece: &CutPiece, marks: &Marks, room: Room) -> Vec<String> {
    let settings = &open.job().settings;
    let edge = open.job().edge(piece.id.edge);
    let stands = edge
        .filter(|edge| is_let_stand(edge, piece.id.course))
        .map(|_| "its reading was doubtful and was let stand".to_owned());
    let course = edge.and_then(|edge| edge.course(piece.id.course));
    let is_short = course.is_some_and(|course| course.height.is_some());
    let bare_ridge = is_short && settings.ridge_turn_up == Length::ZERO;
    let bare_ridge = bare_ridge.then(|| BARE_RIDGE.to_owned());
    notes_of(piece, marks, settings)
        .into_iter()
        .filter(|note| match note {
            Note::NoLongerFits(_) | Note::OffCover(_) => false,
            Note::Across { .. } => !is_cut(open, piece),
            _ => true,
        })
        .filter_map(|note| match (&note, room) {
            // The check with one tape, in few words: both pages have it.
            (Note::BothEnds { .. }, _) | (_, Room::Scarce) => {
                brief(&note, piece.spec.kind, settings.division)
            }
            (note, Room::Ample) => Some(note.words(piece.spec.kind, settings.division)),
        })
        .chain(corrected(open, piece))
        .chain(stands)
        .chain(bare_ridge)
        .collect()
}

/// `FROM new panel 2, lot A`.
pub fn from(open: &OpenJob, piece: &CutPiece) -> String {
    let turn = match open.is_out_of_turn(piece.id) {
        true => " (out of turn)",
        false => "",
    };
    let lot = lot_of(open, piece).map_or_else(String::new, |lot| format!(", lot {lot}"));
    format!("FROM {}{lot}{turn}", open.labels.stock(&piece.stock))
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

/// The steps of a piece in the pen's row `y`, the present one as if selected.
pub fn steps(pen: &mut Pen<'_>, y: u16, open: &OpenJob, piece: &CutPiece) {
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
        x = pen.text(x, y, role, &words) + 1;
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

/// What is said of a piece while several go through the steps together.
pub struct Several {
    pub label: String,
    /// Where it lies, and where it is laid.
    pub words: String,
}

/// That of `piece`, where it is one of several.
pub fn several(open: &OpenJob, piece: &CutPiece, batch: &Batch) -> Option<Several> {
    let pass = batch.pass_of(open, piece.id)?;
    let label = open.labels.piece(piece.id);
    let lies = match batch.lying {
        _ if batch.next(open) != Some(piece.id) => "taken by its number",
        Lying::Pile => "on top of the pile",
        Lying::Row => "next in the row",
    };
    let words = match (pass, batch.lying) {
        (Pass::Mark, Lying::Pile) => "WRITE IT ON, to the pile".to_owned(),
        (Pass::Mark, Lying::Row) => "WRITE IT ON, lay beside".to_owned(),
        (Pass::First, Lying::Pile) => format!("{label}: {lies}; then onto a new pile"),
        (Pass::First, Lying::Row) => format!("{label}: {lies}; then back to its place"),
        (Pass::Last, _) => format!("{label}: {lies}; then onto the stack"),
    };
    Some(Several { label, words })
}

/// The piece that comes after this one; none where it is the last.
pub fn next<'a>(open: &'a OpenJob, piece: &CutPiece) -> Option<&'a CutPiece> {
    let at = open.list.place_of(piece.id).unwrap_or(0);
    let next = open.next_after(at).and_then(|at| open.list.pieces.get(at));
    // What is held comes once nothing else is open.
    next.filter(|next| next.id != piece.id).or_else(|| {
        let mut later = open.list.pieces.iter().skip(at + 1);
        later.find(|later| later.waits())
    })
}

/// `after it 3 in this hip, about 9 min; job about 1 h`.
pub fn left(open: &OpenJob, piece: &CutPiece) -> String {
    let (here, kind) = (open.left_at(piece.id.edge), piece.spec.kind.word());
    if open.list.left() == 0 {
        return format!("this {kind} and the job are done");
    }
    if here == 0 {
        let job = open.time_left(None).map(|job| format!("; job {job}"));
        return format!("this {kind} is done{}", job.unwrap_or_default());
    }
    let after = here - usize::from(piece.is_open()).min(here);
    let mut words = match after {
        0 => format!("the last of this {kind}"),
        _ => format!("after it {after} in this {kind}"),
    };
    let (of_edge, of_job) = (open.time_left(Some(piece.id.edge)), open.time_left(None));
    if let (Some(of_edge), Some(of_job)) = (of_edge, of_job) {
        words.push_str(&format!(", {of_edge}; job {of_job}"));
    }
    words
}

/// ` 2 NO LONGER FIT: n `, where any does not.
pub fn misfit_count(open: &OpenJob) -> Option<String> {
    match open.list.no_longer_fit() {
        0 => None,
        1 => Some(" 1 NO LONGER FITS: n ".to_owned()),
        count => Some(format!(" {count} NO LONGER FIT: n ")),
    }
}

/// `all` in rows for an area so wide, a blank at either side.
pub fn broken_rows(all: Vec<(Role, String)>, width: u16) -> Vec<(Role, String)> {
    let room = usize::from(width.saturating_sub(2));
    let rows = all.into_iter().flat_map(|(role, text)| {
        let rows = broken(&text, room).into_iter();
        rows.map(move |row| (role, row))
    });
    rows.collect()
}

/// Writes as many of `rows` as the pen's area has; what is in trouble takes the
/// whole row.
pub fn put_rows(pen: &mut Pen<'_>, rows: &[(Role, String)]) {
    for (y, (role, row)) in (0..pen.height()).zip(rows) {
        match role {
            Role::Trouble => pen.row(y, *role, &format!(" {row}")),
            _ => {
                pen.text(1, y, *role, row);
            }
        }
    }
}
