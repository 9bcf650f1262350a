//! Bench: pieces of a wide course that are held for a second trip, and the gap
//! that is read over the laid ones.

use crate::app::record::edit_edge;
use crate::app::state::{OpenJob, Prompt, Spot, State};
use crate::domain::{
    bench::Stage,
    cutting::OnTrip,
    log::{Course, Gap, Reading, SecondTrip, Trip},
    measure::{Length, cleaned},
    piece::PieceId,
    settings,
    tape::{Unit, exact},
};

/// Holds the piece in hand for the second trip or, where it waits, has it cut with
/// the others; the gap of one that was read is asked anew.
pub fn pressed(state: &mut State) {
    let Some((open, piece)) = state.open.as_ref().zip(state.piece_in_hand()) else {
        return;
    };
    let (id, label) = (piece.id, open.labels.piece(piece.id));
    let by_job = open.job().settings.second_trip;
    let (trip, said) = match &piece.trip {
        _ if piece.stage != Stage::ToMark => {
            state.complain(format!("{label} is marked already"));
            return;
        }
        _ if id.number < 2 || piece.spec.near.is_some() => {
            let words = "only a piece beyond the first of its course waits for a second trip";
            state.complain(format!("{label}: {words}"));
            return;
        }
        OnTrip::Read(_) => {
            ask(state, id);
            return;
        }
        OnTrip::Waits => {
            let on_cover = (by_job == settings::SecondTrip::Yes).then_some(Trip::First);
            (on_cover, "cut with the others, on the cover")
        }
        OnTrip::First => {
            let waits = Trip::Second(SecondTrip::waiting(id.number));
            (Some(waits), "held for the second trip")
        }
    };
    change(state, id, said, trip);
    state.say(format!("{label}: {said}"));
}

/// Asks for the gap over the pieces before `piece`, once they are done.
pub fn ask(state: &mut State, piece: PieceId) {
    let Some((open, second)) = of(state, piece) else {
        return;
    };
    let pieces = open.pieces_of_course(piece.edge, piece.course).into_iter();
    let mut before = pieces.filter(|before| before.id.number < second.from);
    if let Some(open_yet) = before.find(|before| before.is_open()) {
        let words = format!(
            "{} waits for the second trip: {} is to be cut and laid first",
            open.labels.piece(piece),
            open.labels.piece(open_yet.id)
        );
        state.complain(words);
        return;
    }
    let text = text_of(&second, open.job().settings.unit());
    state.bench.piece = Some(piece);
    state.ask(Prompt::OverLaid(piece), text);
}

/// Takes the gap over the laid pieces: `bottom; top`, with `*` before a height
/// where the edge runs out below that end; nothing has it wait again.
///
/// # Errors
/// Why it is not taken, quoting what was typed.
pub fn typed(state: &mut State, piece: PieceId, text: &str) -> Result<(), String> {
    let (open, second) = of(state, piece).ok_or("that piece is no longer asked for")?;
    let (settings, label) = (open.job().settings, open.labels.piece(piece));
    let edge = open.job().edge(piece.edge);
    let course = edge.and_then(|edge| edge.course(piece.course)).copied();
    let course = course.ok_or("that course is no longer read")?;
    let read = read(second.from, text, settings.unit())?;
    if read.is_read() {
        check(&read, &course, settings.exposure, text)?;
    } else if !second.is_read() {
        return Err("nothing typed, expected bottom; top".to_owned());
    }
    let said = match read.is_read() {
        true => format!("gap over the laid pieces {}", text.trim()),
        false => "held for the second trip".to_owned(),
    };
    change(state, piece, &said, Some(Trip::Second(read)));
    let now = state.open.as_ref().and_then(|open| open.piece(piece));
    match now.map(|piece| piece.trip.clone()) {
        None => state.say(format!("{label}: the laid pieces leave no gap for it")),
        Some(OnTrip::Read(Some(off))) => {
            let words = off.words(settings.division);
            state.complain(format!("DOUBTFUL: {words}; m types it again"));
        }
        Some(_) => state.say(format!("{label}: {said}")),
    }
    Ok(())
}

/// The job, and the second trip of the course of `piece`.
fn of(state: &State, piece: PieceId) -> Option<(&OpenJob, SecondTrip)> {
    let open = state.open.as_ref()?;
    let edge = open.job().edge(piece.edge)?;
    let course = edge.course(piece.course)?;
    if let Some(Trip::Second(second)) = course.trip.filter(is_read) {
        return Some((open, second));
    }
    let pieces = open.pieces_of_course(piece.edge, piece.course);
    let first = pieces.iter().find(|piece| piece.waits())?;
    Some((open, SecondTrip::waiting(first.id.number)))
}

const fn is_read(trip: &Trip) -> bool {
    matches!(trip, Trip::Second(second) if second.is_read())
}

fn read(from: u32, text: &str, unit: Unit) -> Result<SecondTrip, String> {
    let mut second = SecondTrip::waiting(from);
    let parts: Vec<&str> = text.split(';').map(str::trim).collect();
    if parts.len() > 2 {
        return Err(format!("\"{}\", expected bottom; top", cleaned(text)));
    }
    let parse = |end: &str, text: &str| {
        let read = Reading::parse(text, unit);
        read.map(Some).map_err(|error| format!("{end}: {error}"))
    };
    for (end, part) in ["bottom", "top"].into_iter().zip(parts) {
        let place = match (end, part.strip_prefix('*')) {
            (_, None) if part.is_empty() => continue,
            (_, Some(_)) if second.runs_out.is_some() => {
                return Err(format!(
                    "\"{}\": a line runs out once, expected a width at one end",
                    cleaned(text)
                ));
            }
            (_, Some(up)) => {
                second.runs_out = parse("runs out", up)?;
                continue;
            }
            ("bottom", None) => &mut second.bottom,
            (_, None) => &mut second.top,
        };
        *place = parse(end, part)?;
    }
    Ok(second)
}

/// Whether something can be cut to it.
fn check(second: &SecondTrip, course: &Course, exposure: Length, text: &str) -> Result<(), String> {
    let height = course.height_in(exposure);
    let far = |gap: &Gap| gap.bottom.abs().max(gap.top.abs()) > Length::LONGEST;
    match second.gap(height) {
        Some(gap) if !far(&gap) => Ok(()),
        Some(_) => Err(format!(
            "\"{}\": the line runs out too low to mark: read that again",
            cleaned(text)
        )),
        None => Err(format!(
            "\"{}\", expected bottom; top, or * and how far up the course the edge runs out for one of them",
            cleaned(text)
        )),
    }
}

fn text_of(second: &SecondTrip, unit: Unit) -> String {
    let say = |reading: Reading| exact(reading.length(), unit);
    let runs_out = second.runs_out.map(|up| format!("*{}", say(up)));
    match (second.bottom, second.top) {
        (None, None) => String::new(),
        (Some(bottom), None) => format!("{}; {}", say(bottom), runs_out.unwrap_or_default()),
        (None, Some(top)) => format!("{}; {}", runs_out.unwrap_or_default(), say(top)),
        (Some(bottom), Some(top)) => format!("{}; {}", say(bottom), say(top)),
    }
}

fn change(state: &mut State, piece: PieceId, said: &str, trip: Option<Trip>) {
    let Some(open) = &state.open else { return };
    let words = format!("{} {said}", open.labels.piece(piece));
    edit_edge(state, piece.edge, words, Spot::Piece(piece), |edge| {
        if let Some(course) = edge.course(piece.course).copied() {
            edge.put(Course { trip, ..course });
        }
    });
    state.bench.piece = Some(piece);
}
