//! Going: to a place, to where a change was made, to a piece or an edge.

use super::place::Place;
use super::state::{Dialog, LogFocus, LogView, OpenJob, Question, Spot, State};
use crate::domain::cutting::CutPiece;
use crate::domain::log::{CourseNumber, Edge, EdgeId, End};
use crate::domain::piece::PieceId;
use crate::domain::settings::Setting;

/// Goes to one of the five places, by its key.
pub fn to_place(state: &mut State, place: Place) {
    let left = state.dialog.take();
    let worked = std::mem::take(&mut state.bench.touched) && state.place == Place::Bench;
    if worked && let Some(piece) = state.piece_in_hand().map(|piece| piece.id) {
        follow(state, piece, place);
    }
    state.place = place;
    let in_hand = state.bench.piece.filter(|_| place == Place::Bench);
    if let Some(open) = state.open.as_mut() {
        open.take_first(in_hand);
        if place != Place::Bench {
            open.settle();
        }
    }
    arrive(state);
    if let Some(Dialog::Question(Question::CorrectionHolds(at))) = left {
        let course = at.course;
        state.complain(format!(
            "not answered: course {course}, read again, is cut longer or shorter as before; c at the Bench changes that"
        ));
    }
}

/// From work at the Bench to the hip in hand, and not to the one that was looked at
/// there before. Who only had a look at the Bench comes back to what was left.
fn follow(state: &mut State, piece: PieceId, place: Place) {
    let Some(open) = &state.open else { return };
    match place {
        Place::Hips => {
            state.hips.edge = open.job().place_of(piece.edge).unwrap_or(state.hips.edge);
            let at = |of_edge: &&CutPiece| of_edge.id == piece;
            let at = open.pieces_of(piece.edge).iter().position(at);
            state.hips.piece = at.unwrap_or(0);
        }
        Place::Log if state.log.edge != Some(piece.edge) => {
            let (label, name) = (open.labels.edge(piece.edge), open.edge_name(piece.edge));
            let words = format!("now at {label} {name}, the one in hand");
            state.log.edge = Some(piece.edge);
            state.log.course = piece.course;
            state.log.end = End::Bottom;
            state.say(words);
        }
        Place::Log | Place::Bench | Place::Rack | Place::Job => {}
    }
}

/// Goes to where a change was made, or where a screen points.
pub fn to(state: &mut State, spot: Spot) {
    match spot {
        Spot::Reading(at) => {
            state.place = Place::Log;
            state.log.edge = Some(at.edge);
            state.log.focus = LogFocus::Courses;
            state.log.course = at.course;
            state.log.end = at.end;
        }
        Spot::Edge(edge) => {
            state.place = Place::Log;
            select(state, edge);
            state.log.focus = LogFocus::Edges;
        }
        Spot::Piece(piece) => {
            state.place = Place::Bench;
            take_up(state, piece);
        }
        Spot::Rack => state.place = Place::Rack,
        Spot::Setting(setting) => {
            state.place = Place::Job;
            state.job_view.setting = match setting {
                Setting::Standing(kind) => Setting::Along(kind),
                other => other,
            };
        }
    }
}

/// What is to be shown on coming to a place.
pub fn arrive(state: &mut State) {
    keep_selections_within(state);
    let open = state.open.as_ref();
    let pieces = open.is_some_and(|open| !open.list.pieces.is_empty());
    if state.place == Place::Bench && pieces && !state.bench.cautions_read {
        state.dialog = Some(Dialog::Cautions);
    }
    if state.place == Place::Log && state.log.edge.is_none() {
        let first = state.edge_in_log().map(|edge| edge.id);
        if let Some(first) = first {
            select(state, first);
        }
    }
}

/// Lists may have become shorter meanwhile: what is selected is what is shown.
pub fn keep_selections_within(state: &mut State) {
    let Some(open) = &state.open else { return };
    let last = |count: usize| count.saturating_sub(1);
    state.rack.keep_within(open.progress.rack().len());
    state.hips.edge = state.hips.edge.min(last(open.job().edges().len()));
    let edge = state.edge_in_hips();
    let pieces = edge.map_or(0, |edge| open.pieces_of(edge).len());
    state.hips.piece = state.hips.piece.min(last(pieces));
}

/// Shows a freshly opened job: where there is most to do.
pub fn to_opened(state: &mut State) {
    state.place = match &state.open {
        Some(open) if !open.list.pieces.is_empty() => Place::Hips,
        Some(_) => Place::Log,
        None => Place::Job,
    };
    // A piece begun is gone on with, else the first that is open comes next.
    state.bench.piece = state.open.as_ref().and_then(OpenJob::begun);
    let in_hand = state.bench.piece;
    let at = state.open.as_ref().and_then(|open| {
        let next = open.list.pieces.get(open.place_in_hand(in_hand)?)?;
        open.job().place_of(next.id.edge)
    });
    state.hips.edge = at.unwrap_or(0);
    arrive(state);
}

/// Takes a piece in hand; one out of its turn is planned as if cut next.
pub fn take_up(state: &mut State, piece: PieceId) {
    state.bench.piece = Some(piece);
    (state.bench.page, state.bench.shows_marks) = (0, false);
    if let Some(open) = state.open.as_mut() {
        open.take_first(Some(piece));
    }
}

/// Selects an edge in the Log, at the first of its readings that is missing.
pub fn select(state: &mut State, id: EdgeId) {
    let Some(job) = state.job() else { return };
    // Undone or deleted: another one, so that nothing is typed into its place.
    let first = || job.edges().first().map(|edge| &**edge);
    let Some(edge) = job.edge(id).or_else(first) else {
        state.log = LogView::default();
        return;
    };
    let (id, (course, end)) = (edge.id, first_missing(edge));
    state.log.edge = Some(id);
    state.log.course = course;
    state.log.end = end;
}

fn first_missing(edge: &Edge) -> (CourseNumber, End) {
    let courses = edge.courses().iter();
    courses
        .filter(|course| course.runs_out.is_none())
        .find_map(|course| {
            let missing = |end: &End| course.reading(*end).is_none();
            Some((course.number, End::BOTH.into_iter().find(missing)?))
        })
        .unwrap_or((edge.next_course(), End::Bottom))
}
