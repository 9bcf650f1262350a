//! What the shear answers to a doubt in the Log.
//!
//! Nothing is ever changed by itself: a suggestion is taken by a key, what was
//! written stays struck through beside it, and undo brings it back.

use super::courses;
use crate::app::go::{self, select};
use crate::app::press::Press;
use crate::app::record::edit_edge;
use crate::app::state::{Choice, Dialog, OpenJob, ReadingAt, Spot, State};
use crate::domain::cutting::{EdgeDoubt, place_words, suspect_words};
use crate::domain::doubt::{Doubt, DoubtedReading, Fix};
use crate::domain::log::{CourseNumber, Edge, EdgeId, End, SetAside};

/// A key about the doubt at the selected course.
pub fn pressed(state: &mut State, press: Press) {
    let course = state.log.course;
    let edge = state.doubt_in_log().map(|(edge, _)| edge);
    match (edge, press) {
        (Some(edge), Press::TakeSuggestion) => take_first(state, edge, course),
        (Some(edge), Press::MeasuredAgain) => stands(state, edge, course),
        (Some(edge), _) => {
            let row = (!is_even(state, edge, course)).then_some(0);
            state.ask_choice(Choice::Doubt { edge, course }, row);
        }
        (None, Press::Explain) => go_to_next(state),
        (None, _) => state.complain("nothing is doubtful here: d goes to the next doubt"),
    }
}

/// Goes to the next reading that is doubtful: the one that was told of what was
/// just read; else up this edge and on through the later ones, then from the
/// first edge on; past one that is likelier at the other edge of its roof side,
/// until that is answered. Going to another edge is said: the keys change that one.
fn go_to_next(state: &mut State) {
    let told = state.log.told.take();
    let Some(open) = &state.open else { return };
    let course_of = |found: &EdgeDoubt| found.doubt.course.unwrap_or(CourseNumber::FIRST);
    let at = |edge, course| (open.job().place_of(edge), course);
    let here = state
        .edge_in_log()
        .map(|edge| at(edge.id, state.log.course));
    let beyond = |found: &&EdgeDoubt| Some(at(found.edge, course_of(found))) > here;
    let likelier_there = |found: &&EdgeDoubt| {
        let or_at = found.doubt.or_at.as_ref();
        or_at.is_some_and(|or_at| or_at.likelier)
    };
    let asked_first = || open.doubts.iter().filter(|found| !likelier_there(found));
    let is_told = |found: &&EdgeDoubt| {
        told.is_some_and(|told| (told.edge, told.course) == (found.edge, course_of(found)))
    };
    let next = open.doubts.iter().find(is_told);
    let next = next.or_else(|| asked_first().find(beyond));
    let next = next.or_else(|| asked_first().next());
    let Some(next) = next.or(open.doubts.first()) else {
        state.say("nothing is doubtful in this job");
        return;
    };
    let from = state.edge_in_log().map(|edge| edge.id);
    let goes_on = from.is_some_and(|from| from != next.edge).then(|| {
        let (label, name) = (open.labels.edge(next.edge), open.edge_name(next.edge));
        format!("now at {label} {name}: the doubt here")
    });
    let spot = spot(next.edge, &next.doubt, CourseNumber::FIRST);
    go::to(state, spot);
    if let Some(words) = goes_on {
        state.say(words);
    }
}

/// The reading that a doubt seen at `course` is about first.
fn spot(edge: EdgeId, doubt: &Doubt, course: CourseNumber) -> Spot {
    let end = match doubt.reading {
        DoubtedReading::Bottom | DoubtedReading::Both => End::Bottom,
        DoubtedReading::Top | DoubtedReading::Placement | DoubtedReading::Edge => End::Top,
    };
    let course = doubt.course.unwrap_or(course);
    Spot::Reading(ReadingAt { edge, course, end })
}

/// Whether nothing speaks for the first explanation more than for the second.
pub fn is_even(state: &State, id: EdgeId, course: CourseNumber) -> bool {
    found(state, id, course).is_some_and(|(_, doubt, _)| doubt.is_even)
}

/// Takes the likeliest explanation of the doubt at a course; where two are as likely,
/// it is asked which.
pub fn take_first(state: &mut State, edge: EdgeId, course: CourseNumber) {
    if !is_even(state, edge, course) {
        take(state, edge, course, 0);
        return;
    }
    let what = Choice::Doubt { edge, course };
    let why = "f takes neither: nothing tells which of the two readings is wrong, so measure both again, then choose";
    state.stay(Dialog::Choice { what, row: None }, why.to_owned());
}

/// Takes one explanation of the doubt at a course.
pub fn take(state: &mut State, id: EdgeId, course: CourseNumber, choice: usize) {
    let Some((open, doubt, edge)) = found(state, id, course) else {
        return;
    };
    let Some(suspect) = doubt.suspects().nth(choice) else {
        return;
    };
    if let Fix::CourseBetween { below } = suspect.fix {
        courses::put_in(state, id, below.next());
        return;
    }
    let Some(fixed) = fixed(suspect.fix, edge) else {
        state.complain("nothing to put in its place: measure it again, or put in a course that was never read below it (+)");
        return;
    };
    let said = suspect_words(&suspect, open.job().settings.division);
    let place = place_words(doubt, suspect.reading);
    let words = format!("{}: {place} as suggested, {said}", edge.name);
    let spot = spot(id, doubt, course);
    answer(state, id, words, spot, |edge| *edge = fixed);
}

/// The doubt seen at a course, with its edge.
fn found(state: &State, id: EdgeId, course: CourseNumber) -> Option<(&OpenJob, &Doubt, &Edge)> {
    let open = state.open.as_ref()?;
    Some((open, open.doubt_at(id, course)?, open.job().edge(id)?))
}

/// The edge with the suggestion taken, what was written struck through.
fn fixed(fix: Fix, edge: &Edge) -> Option<Edge> {
    if fix == Fix::ExchangeSlopes {
        let mut fixed = edge.clone();
        fixed.roof = fixed.roof.exchanged();
        return Some(fixed);
    }
    fix.taken(edge).map(|fixed| fixed.with_struck(edge))
}

/// "Measured again, it stands": the doubt is set aside until a figure changes.
pub fn stands(state: &mut State, id: EdgeId, course: CourseNumber) {
    let Some((_, doubt, edge)) = found(state, id, course) else {
        return;
    };
    let set_aside = SetAside::of(doubt, edge);
    let place = place_words(doubt, doubt.reading);
    let words = format!("{}: {place} measured again, it stands", edge.name);
    let spot = spot(id, doubt, course);
    answer(state, id, words, spot, |edge| {
        edge.set_aside.push(set_aside);
    });
}

fn answer(
    state: &mut State,
    id: EdgeId,
    words: String,
    spot: Spot,
    change: impl FnOnce(&mut Edge),
) {
    edit_edge(state, id, words.clone(), spot, change);
    // On to where readings are still typed.
    select(state, id);
    state.say(words);
}
