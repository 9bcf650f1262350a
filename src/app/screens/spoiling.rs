//! What went wrong at the Bench: a piece that is spoiled, an offcut that is
//! not there.

use crate::app::record::{offcut_gone, work};
use crate::app::state::{OpenJob, Question, Spoiling, Spot, State};
use crate::domain::bench::{Fact, GoneBy, MarkedStock, SavedOffcut, SpoiledBy};
use crate::domain::cutting::Job;
use crate::domain::measure::Length;
use crate::domain::piece::PieceId;
use crate::domain::stock::{Offcut, OffcutNumber};
use crate::domain::tape::{Division, parse_positive, print, print_with_unit};
use std::borrow::Cow;

/// Asks what of a piece is usable before it is made again; `mark` where that it was
/// marked is still to be written down.
pub fn ask(state: &mut State, piece: PieceId, why: Option<SpoiledBy>, mark: Option<Fact>) {
    let Some(open) = state.open.as_ref() else {
        return;
    };
    let mark = mark.map(Box::new);
    let open = with_mark(open, mark.as_deref());
    if open.progress.done(piece).is_none() {
        let label = open.labels.piece(piece);
        state.complain(format!("{label} is not marked yet: nothing is spoiled"));
        return;
    }
    let saved = saved_from(piece, &open, Length::ZERO);
    state.ask_question(Question::Spoiled(Spoiling {
        piece,
        why,
        mark,
        saved,
    }));
}

/// The job as it will be once `mark` is written down.
fn with_mark<'a>(open: &'a OpenJob, mark: Option<&Fact>) -> Cow<'a, OpenJob> {
    let Some(mark) = mark else {
        return Cow::Borrowed(open);
    };
    let mut open = open.clone();
    open.work(String::new(), Spot::Rack, vec![mark.clone()], None);
    Cow::Owned(open)
}

/// Why it was spoiled, where somebody says so; the same again takes it back.
pub fn because(state: &mut State, asked: Spoiling, said: SpoiledBy) {
    let why = (asked.why != Some(said)).then_some(said);
    state.ask_question(Question::Spoiled(Spoiling { why, ..asked }));
}

/// The piece is to be made again, and what is usable of it goes to the rack with
/// the figures that were confirmed.
pub fn spoiled(state: &mut State, asked: Spoiling) {
    let Some(open) = state.open.as_ref() else {
        return;
    };
    let Spoiling {
        piece,
        why,
        mark,
        saved,
    } = asked;
    let label = open.labels.piece(piece);
    let kept = match &*saved {
        [] => "nothing of it is kept".to_owned(),
        saved => format!("keep {}", saved_words(saved, open)),
    };
    let words = format!("{label} spoiled");
    let mark = mark.map(|mark| *mark);
    let facts = mark
        .into_iter()
        .chain([Fact::Spoiled { piece, saved, why }]);
    work(state, words.clone(), Spot::Piece(piece), facts.collect());
    state.bench.piece = Some(piece);
    // The log may ask for fewer pieces by now.
    let open = state.open.as_ref();
    let again = match open.and_then(|open| open.piece(piece)) {
        Some(_) => "to be made again",
        None => "no longer asked for",
    };
    state.say(format!("{words}, {again}: {kept}"));
}

/// By how much its usable part is shorter, as it was typed.
///
/// # Errors
/// Why it is not taken, quoting it.
pub fn shorter_typed(state: &mut State, asked: Spoiling, text: &str) -> Result<(), String> {
    let open = state.open.as_ref().ok_or("no job is open")?;
    let unit = open.job().settings.unit();
    let by = parse_positive(text, unit).map_err(|error| error.to_string())?;
    let saved = saved_from(asked.piece, &with_mark(open, asked.mark.as_deref()), by);
    spoiled(state, Spoiling { saved, ..asked });
    Ok(())
}

/// What would be kept of a spoiled piece, in words for the question about it.
pub fn kept_words(open: &OpenJob, spoiled: PieceId, saved: &[SavedOffcut]) -> String {
    let division = open.job().settings.division;
    // One still to be written down as marked is so in the list.
    let hand = match open.progress.done(spoiled) {
        Some(done) => Some(done.spec.hand),
        None => open.piece(spoiled).map(|piece| piece.spec.hand),
    };
    let one = |saved: &SavedOffcut| {
        let [nose, back] = saved.offcut.widths().map(|width| print(width, division));
        let whose = open.labels.piece(saved.promised);
        let whole = saved.offcut.whole.word();
        let what = match Some(saved.offcut.whole) == hand {
            true => "the piece itself",
            false => "what it leaves",
        };
        format!(
            "{what} as offcut {} for {whose}: {whole} end whole, {nose} at the nose, {back} at the back",
            saved.number
        )
    };
    match saved.is_empty() {
        true => "The plan has a use for nothing of it. Enter: it is spoiled.".to_owned(),
        false => {
            let kept: Vec<String> = saved.iter().map(one).collect();
            format!(
                "Keep {}. Enter: it is as good as that. -: it is shorter. 0: nothing of it is usable.",
                kept.join("; ")
            )
        }
    }
}

/// What would be kept of it, where it is asked how much less that is.
pub fn shorter_words(saved: &[SavedOffcut], job: Option<&Job>) -> String {
    let division = job.map_or(Division::SixteenthInch, |job| job.settings.division);
    let one = |saved: &SavedOffcut| {
        let widths = saved.offcut.widths();
        let [nose, back] = widths.map(|width| print_with_unit(width, division));
        format!("{nose} at the nose, {back} at the back")
    };
    let kept: Vec<String> = saved.iter().map(one).collect();
    let kept = kept.join("; ");
    format!("It would be {kept}. How much less it is, along nose and back alike.")
}

fn saved_words(saved: &[SavedOffcut], open: &OpenJob) -> String {
    let one = |saved: &SavedOffcut| {
        let whose = open.labels.piece(saved.promised);
        format!("offcut {}, for {whose}", saved.number)
    };
    let all: Vec<String> = saved.iter().map(one).collect();
    all.join("; ")
}

/// What of a spoiled piece and its stock the new plan has a use for: what its
/// cut leaves, unless that went its way already, and its own part up to the
/// bend line, which is the most that is surely straight and unbent; each `shorter`
/// by so much.
fn saved_from(piece: PieceId, open: &OpenJob, shorter: Length) -> Vec<SavedOffcut> {
    let Some(done) = open.progress.done(piece) else {
        return Vec::new();
    };
    let left = match (done.stock, done.cut) {
        (MarkedStock::New { .. }, false) => Offcut::left_by(&done.spec),
        _ => None,
    };
    let own = Offcut::own_part(&done.spec, done.spec.bend);
    let own = (!own.outline().is_empty()).then_some(own);
    let offcuts = left.into_iter().chain(own).map(|offcut| Offcut {
        limit: offcut.limit.moved(-shorter),
        ..offcut
    });
    let offcuts: Vec<Offcut> = offcuts.collect();
    let used = open.uses_after_spoiling(piece, &offcuts, done.lot.as_ref());
    (open.progress.next_offcut().0..)
        .zip(used)
        .map(|(number, (offcut, promised))| SavedOffcut {
            number: OffcutNumber(number),
            offcut,
            promised,
        })
        .collect()
}

/// The offcut that the piece in hand should come from is gone or bad.
pub fn own_offcut_gone(state: &mut State) {
    match state.offcut_in_hand() {
        Some(number) => offcut_gone(state, number, GoneBy::Thrown),
        None => state.complain("the piece in hand is not waiting for an offcut from the rack"),
    }
}
