//! Bench, marking: four figures, and beside them the side from which the tape is
//! pulled, the panel as it lies, and what the piece is cut from.
//!
//! The figures stand away from the tape's side of the screen; the side's letter
//! and a bar stand at it, so that the screen lies as the panel does.
//!
//! ```text
//!    BACK  bend 2, in                 | TAPE FROM   ####   ||
//!    (drawn figure)                   | YOUR RIGHT  #   #  ||
//!   [BACK  cut 4, in                ] | >>>>>>>>>   ####   ||
//!   [(drawn figure)                 ] |     the panel, the piece
//!    NOSE  bend 1, in                 |     filled
//!    (drawn figure)                   | FROM new panel 2, lot A
//!   [NOSE  cut 3, in                ] | the leg stands 1 1/2 in
//!   [(drawn figure)                 ] | flatten at the lines
//! ```

use crate::app::state::{BenchPage, OpenJob};
use crate::domain::{
    bench::Stage,
    cutting::{CutNow, CutPiece, Note, notes_of},
    measure::{Hand, Length},
    piece::{At, LineAt, LineMarks, Marks, Nose, Part, stands},
    settings::OneKey,
    stock::Rest,
    tape::{exact_with_unit, print, print_with_unit},
};
use crate::picture::marking::marking;
use crate::ui::{
    drawing::picture_raster,
    pen::Pen,
    theme::Role,
    widgets::{
        digits::{self, DotSize},
        large_label,
        mark_figures::{self, Marked},
        piece_words::{self, CHECK, Room, Several},
    },
};

/// The least columns beside the figures: the side's letter and its bar.
const LEAST_BESIDE: u16 = 16;

/// Columns of the bar along the tape's side, and of the letter at it.
const BAR: u16 = 3;
const LETTER: u16 = 10;

/// The longest word beside the letter.
const WORD: u16 = 5;

/// Rows of the letter.
const SIDE_ROWS: u16 = 7;

/// A picture needs so many rows to be read.
const PICTURE_ROWS: u16 = 6;

/// Draws one page of the marks, in all rows of the pen; the label stands large
/// where several pieces are in hand.
pub(super) fn draw(
    pen: &mut Pen<'_>,
    open: &OpenJob,
    piece: &CutPiece,
    page: BenchPage,
    several: Option<&Several>,
) {
    let marks = Marks::of(&piece.spec);
    let line = match page {
        BenchPage::Across(up) => return across(pen, open, piece, up),
        BenchPage::Line(line) => line_of(&marks, line),
    };
    let (width, height) = (pen.width(), pen.height());
    let unit = open.job().settings.unit();
    let size = mark_figures::size_in(width, height, LEAST_BESIDE, unit);
    let wide = size.columns;
    let beside = width.saturating_sub(wide);
    let hand = piece.spec.hand;
    let (figures_at, beside_at) = match hand {
        Hand::Right => (0, wide),
        Hand::Left => (beside, 0),
    };
    let lower = piece.spec.across;
    let lower = lower.filter(|across| *across > piece.spec.panel.height);
    let marked = Marked {
        line,
        // The marks of a second line are numbered on from those of the first.
        first: if line.at == LineAt::Far && marks.near.is_some() {
            5
        } else {
            1
        },
        upper: lower.map(|_| piece.spec.panel.height),
        division: open.job().settings.division,
        doubtful: piece_words::is_doubtful(open, piece),
    };
    mark_figures::draw(&mut pen.part(figures_at, 0, wide, height), &marked, size);
    let part = &mut pen.part(beside_at, 0, beside, height);
    side(part, hand, marked.doubtful);
    below_side(part, open, piece, &marks, line, several);
}

/// That line's marks.
pub(super) fn line_of(marks: &Marks, at: LineAt) -> LineMarks {
    let far = LineMarks {
        at: LineAt::Far,
        bend: marks.bend,
        cut: marks.cut,
    };
    marks.lines().find(|line| line.at == at).unwrap_or(far)
}

/// From which side the tape is pulled; a doubtful reading has its mark there.
fn side(pen: &mut Pen<'_>, hand: Hand, doubtful: bool) {
    let width = pen.width();
    let words_wide = width.saturating_sub(BAR + LETTER + 3);
    let (bar_at, letter_at, words_at) = match hand {
        Hand::Right => (
            width.saturating_sub(BAR),
            width.saturating_sub(BAR + LETTER + 2),
            1,
        ),
        Hand::Left => (0, BAR + 2, BAR + LETTER + 3),
    };
    pen.part(bar_at, 0, BAR, SIDE_ROWS).fill(Role::Selected);
    digits::draw(pen, letter_at, 0, hand.letter(), DotSize::Whole);
    if doubtful && words_wide >= LETTER {
        digits::draw(pen, words_at + 1, 0, "?", DotSize::Whole);
        return;
    }
    let part = &mut pen.part(words_at, 0, words_wide.saturating_sub(1), SIDE_ROWS);
    let arrow = match hand {
        Hand::Right => ">",
        Hand::Left => "<",
    };
    let side = format!("YOUR {}", hand.word().to_uppercase());
    // A word broken in two would say nothing.
    if part.width() < WORD {
        return;
    }
    let y = part.wrapped(0, 0, Role::Strong, &format!("TAPE FROM {side}"));
    let arrows = arrow.repeat(usize::from(part.width()));
    part.text(0, y + 1, Role::Mark, &arrows);
}

/// Below the side: the picture, and in words what the step needs besides.
fn below_side(
    pen: &mut Pen<'_>,
    open: &OpenJob,
    piece: &CutPiece,
    marks: &Marks,
    line: LineMarks,
    several: Option<&Several>,
) {
    let (width, height) = (pen.width(), pen.height());
    let rows = |room: Room| {
        let does_all = several.is_none() && open.one_key(piece) == OneKey::Piece;
        let words = words(open, piece, marks, line, (room, does_all)).into_iter();
        let among = several.map(|several| (Role::Strong, several.words.clone()));
        piece_words::broken_rows(among.into_iter().chain(words).collect(), width)
    };
    let left = height.saturating_sub(SIDE_ROWS + 1);
    let room_for = usize::from(left.saturating_sub(PICTURE_ROWS));
    let ample = Some(rows(Room::Ample)).filter(|rows| rows.len() <= room_for);
    let rows = ample.unwrap_or_else(|| rows(Room::Scarce));
    // What is to be done comes before the picture of it.
    let wanted = u16::try_from(rows.len()).unwrap_or(left);
    let for_picture = left.saturating_sub(wanted);
    let picture = &mut pen.part(0, SIDE_ROWS + 1, width, for_picture);
    let used = match several {
        // A column off the figures: against a filled box its first stroke is lost.
        Some(several) => {
            let part = &mut picture.part(1, 0, width.saturating_sub(1), for_picture);
            large_label::draw(part, &several.label)
        }
        None => {
            let shapes = marking(&piece.spec, piece.stock.offcut());
            picture_raster::draw(picture, &shapes)
        }
    };
    let words_rows = wanted.min(left.saturating_sub(used));
    let y = height.saturating_sub(words_rows);
    piece_words::put_rows(&mut pen.part(0, y, width, words_rows), &rows);
}

/// The gravest first: what has no room is left off at the end.
fn words(
    open: &OpenJob,
    piece: &CutPiece,
    marks: &Marks,
    line: LineMarks,
    (room, does_all): (Room, bool),
) -> Vec<(Role, String)> {
    let mut all = Vec::new();
    if let Some(name) = piece_words::line_name(open, piece, line.at) {
        let count = match line.at {
            LineAt::Near => "1 of 2",
            LineAt::Far => "2 of 2",
        };
        all.push((Role::Strong, format!("{}, {count}", name.to_uppercase())));
    }
    if piece_words::is_doubtful(open, piece) {
        // Its `?` stands where the side is said otherwise.
        let side = piece.spec.hand.word().to_uppercase();
        all.push((Role::Strong, format!("TAPE FROM YOUR {side}")));
    }
    let trouble = piece_words::trouble(open, piece);
    all.extend(trouble.map(|words| (Role::Trouble, words)));
    let small = piece_words::small(open, piece, marks);
    all.extend(small.map(|words| (Role::Strong, words)));
    all.push((Role::Strong, piece_words::from(open, piece)));
    let notes = piece_words::notes(open, piece, marks, room).into_iter();
    // Of one cut at both ends the check with one tape comes first.
    let (check, notes): (Vec<_>, Vec<_>) = notes.partition(|note| note.starts_with(CHECK));
    let said = |note: String| (Role::Strong, format!("! {note}"));
    all.extend(check.into_iter().map(said));
    if piece.stage == Stage::ToMark {
        all.extend(leg(open, piece, line).map(|words| (Role::Strong, words)));
        let is_across = piece.spec.across.is_some();
        all.extend(flatten(line, is_across, room).map(|words| (Role::Strong, words)));
    }
    // At the last page: the key pressed there does it all, but for one of several.
    let is_last = line.at == LineAt::Far && piece.stage == Stage::ToMark;
    if is_last && does_all {
        all.extend(ahead(open, piece).map(|words| (Role::Strong, words)));
    }
    all.extend(notes.into_iter().map(said));
    let is_first = open.progress.panels().is_empty();
    if is_first && piece.stage == Stage::ToMark {
        let words = "Soapstone/awl, no pencil";
        all.push((Role::Text, words.to_owned()));
    }
    all
}

/// What the cut's page would say, where one key does the whole piece and the page
/// is not seen: `CUT TURNED, nose away; offcut drops`.
fn ahead(open: &OpenJob, piece: &CutPiece) -> impl Iterator<Item = String> {
    let cut = CutNow::of(&piece.spec, piece.stock.offcut(), false).map(|cut| {
        let lie = cut.lie(open.job().settings.blade);
        let lies = match lie.nose {
            Nose::Toward => "as it lies",
            Nose::Away => "TURNED, nose away",
        };
        let drops = match lie.on_table {
            Part::Kept => "offcut",
            Part::Offcut => "PIECE",
        };
        format!("CUT {lies}; {drops} drops")
    });
    let rest = match piece.rest {
        Rest::KeptFor { piece, number } => {
            let number = number.unwrap_or(open.progress.next_offcut());
            let whose = open.labels.piece(piece);
            Some(format!("OFFCUT: write {number} on it, for {whose}"))
        }
        Rest::Waste | Rest::Nothing => None,
    };
    cut.into_iter().chain(rest).chain(bend_ahead(open, piece))
}

/// `BEND UP to 69 deg`; how far where the slope says so.
fn bend_ahead(open: &OpenJob, piece: &CutPiece) -> Option<String> {
    Marks::of(&piece.spec).bend?;
    let way = piece.spec.kind.bend().word().to_uppercase();
    let edge = open.job().edge(piece.id.edge);
    let degrees = edge.and_then(|edge| edge.roof.slope.and(edge.roof.bend_deg(piece.spec.kind)));
    Some(match degrees {
        Some(degrees) => format!("BEND {way} to {degrees:.0} deg"),
        None => format!("BEND {way}"),
    })
}

/// `the leg stands 1 1/2 in`.
fn leg(open: &OpenJob, piece: &CutPiece, line: LineMarks) -> Option<String> {
    let division = open.job().settings.division;
    let near = piece.spec.near.filter(|_| line.at == LineAt::Near);
    let stands = match near {
        Some(_) => return None,
        None => stands(&piece.spec),
    };
    line.bend?;
    Some(format!("leg stands {}", print_with_unit(stands, division)))
}

/// Which of nose and back flange is flattened: those that a line crosses.
fn flatten(line: LineMarks, is_across: bool, room: Room) -> Option<String> {
    let crosses = |at| {
        let all = line.bend.into_iter().chain(line.cut).flatten();
        all.into_iter().any(|mark| mark.at == at)
    };
    // From inside the bend line to past the cut line. What is cut across has lost its
    // back flange.
    let words = match (crosses(At::Nose), crosses(At::Back) && !is_across) {
        (true, true) if room == Room::Scarce => "nose, back flange",
        (true, true) => "nose and back flange",
        (true, false) => "the nose",
        (false, true) => "the back flange",
        (false, false) => return None,
    };
    let place = match room {
        Room::Ample => " at the lines",
        Room::Scarce => "",
    };
    Some(format!("FLATTEN {words}{place}"))
}

/// What is cut off across before anything is marked: one figure.
fn across(pen: &mut Pen<'_>, open: &OpenJob, piece: &CutPiece, up: Length) {
    let settings = &open.job().settings;
    let figure = print(up, settings.division);
    let figure = figure.trim_end_matches(['+', '-']);
    let what = match piece.stock.offcut() {
        Some(_) => "CUT THE OFFCUT ACROSS FIRST",
        None => "CUT THE PANEL ACROSS FIRST",
    };
    pen.text(1, 1, Role::Mark, what);
    let fits = digits::width(figure, DotSize::Whole) + 2 <= pen.width();
    let size = match fits && pen.height() > 14 {
        true => DotSize::Whole,
        false => DotSize::Half,
    };
    let heading = format!("UP FROM THE NOSE, {}", settings.unit().word());
    pen.text(1, 3, Role::Strong, &heading);
    digits::draw(pen, 1, 4, figure, size);
    let y = 5 + size.rows();
    let exact = exact_with_unit(up, settings.unit());
    let both = match exact == print_with_unit(up, settings.division) {
        true => "At both ends of the panel".to_owned(),
        false => format!("Exactly {exact}, at both ends of the panel"),
    };
    let words = [
        piece_words::from(open, piece),
        format!("{both}. The nose part is the piece's: the marks come next."),
    ];
    let trouble = piece_words::trouble(open, piece);
    let mut at = y;
    for text in words.iter().chain(&trouble) {
        at = pen.wrapped(1, at, Role::Strong, text);
    }
    let marks = Marks::of(&piece.spec);
    let large = notes_of(piece, &marks, settings).into_iter();
    // What stands there large, and says no more than that.
    let large =
        large.filter(|note| matches!(note, Note::Across { up, marks_at, .. } if up == marks_at));
    let large: Vec<String> = large
        .map(|note| note.words(piece.spec.kind, settings.division))
        .collect();
    let mut notes = piece_words::notes(open, piece, &marks, Room::Ample);
    notes.retain(|note| !large.contains(note));
    pen.wrapped(1, at, Role::Strong, &notes.join("; "));
}
