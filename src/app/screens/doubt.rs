//! What the cutter answers to a doubt in the Log.
//!
//! Nothing is ever changed by itself: a suggestion is taken by a key, what was
//! written stays struck through beside it, and undo brings it back.

use super::log::{self, selected};
use crate::app::dialog::Dialog;
use crate::app::effect::Effect;
use crate::app::history::Spot;
use crate::app::message::Press;
use crate::app::state::State;
use crate::domain::course::CourseNumber;
use crate::domain::doubt::{Doubt, DoubtedReading, Fix, SetAside};
use crate::domain::doubtful::{EdgeDoubt, place_words, suspect_words};
use crate::domain::edge::{Edge, EdgeId};

/// A key about the doubt at the selected course.
pub fn pressed(state: &mut State, press: Press) -> Vec<Effect> {
    let Some((edge, _)) = here(state) else {
        match press {
            Press::Explain => go_to_next(state),
            _ => state.complain("nothing is doubtful here: d goes to the next doubt"),
        }
        return Vec::new();
    };
    let course = state.log.course;
    match press {
        Press::TakeSuggestion => take(state, edge, course, 0),
        Press::Stands => stands(state, edge, course),
        _ => {
            state.dialog = Some(Dialog::Doubt {
                edge,
                course,
                choice: 0,
            });
            Vec::new()
        }
    }
}

/// Goes to the next course that is doubtful, in this edge or a later one.
fn go_to_next(state: &mut State) {
    let edge = selected(state).map(|edge| edge.id);
    let course = state.log.course;
    let Some(open) = &state.open else {
        return;
    };
    let at = |found: &EdgeDoubt| {
        (
            found.edge,
            found.doubt.course.unwrap_or(CourseNumber::FIRST),
        )
    };
    let after = |found: &&EdgeDoubt| Some(found.edge) == edge && at(found).1 > course;
    let elsewhere = |found: &&EdgeDoubt| Some(found.edge) != edge;
    let next = open
        .doubts
        .iter()
        .find(after)
        .or_else(|| open.doubts.iter().find(elsewhere))
        .or_else(|| open.doubts.first())
        .map(at);
    match next {
        Some((edge, course)) => {
            state.log.edge = Some(edge);
            state.log.focus = log::LogFocus::Courses;
            state.log.course = course;
        }
        None => state.say("nothing is doubtful in this job"),
    }
}

/// The doubt at the selected course.
#[must_use]
pub fn here(state: &State) -> Option<(EdgeId, &Doubt)> {
    let edge = selected(state)?.id;
    let doubt = state.open.as_ref()?.doubt_at(edge, state.log.course)?;
    Some((edge, doubt))
}

/// Takes one explanation of the doubt at a course.
pub fn take(state: &mut State, id: EdgeId, course: CourseNumber, choice: usize) -> Vec<Effect> {
    let Some(open) = &state.open else {
        return Vec::new();
    };
    let suspect = open
        .doubt_at(id, course)
        .and_then(|doubt| Some((doubt.clone(), doubt.suspects().nth(choice)?)));
    let Some(((doubt, suspect), edge)) = suspect.zip(open.job().edge(id)) else {
        return Vec::new();
    };
    let Some(fixed) = fixed(suspect.fix, edge) else {
        state.complain("nothing to put in its place: measure it again");
        return Vec::new();
    };
    let said = suspect_words(&suspect, open.job().settings.division);
    let place = place_words(&doubt, suspect.reading);
    let words = format!("{}: {place} as suggested, {said}", edge.name);
    let spot = spot(id, &doubt, course);
    let effects = log::edit(state, words.clone(), spot, |job| {
        job.edge_mut(id).is_some_and(|edge| {
            let differs = *edge != fixed;
            *edge = fixed;
            differs
        })
    });
    // On to where readings are still typed.
    log::select(state, id);
    state.say(words);
    effects
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

fn spot(edge: EdgeId, doubt: &Doubt, course: CourseNumber) -> Spot {
    use crate::domain::course::End;
    let end = match doubt.reading {
        DoubtedReading::Bottom => End::Bottom,
        DoubtedReading::Top | DoubtedReading::Placement | DoubtedReading::Edge => End::Top,
    };
    Spot::Reading(edge, doubt.course.unwrap_or(course), end)
}

/// "Measured again, it stands": the doubt is set aside until a figure changes.
fn stands(state: &mut State, id: EdgeId, course: CourseNumber) -> Vec<Effect> {
    let Some(open) = &state.open else {
        return Vec::new();
    };
    let Some((doubt, edge)) = open.doubt_at(id, course).zip(open.job().edge(id)) else {
        return Vec::new();
    };
    let set_aside = SetAside::of(doubt, edge);
    let place = place_words(doubt, doubt.reading);
    let words = format!("{}: {place} measured again, it stands", edge.name);
    let spot = spot(id, doubt, course);
    let effects = log::edit(state, words.clone(), spot, |job| {
        job.edge_mut(id).is_some_and(|edge| {
            edge.set_aside.push(set_aside);
            true
        })
    });
    log::select(state, id);
    state.say(words);
    effects
}
