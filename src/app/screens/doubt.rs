//! What the cutter answers to a doubt in the Log.
//!
//! Nothing is ever changed by itself: a suggestion is taken by a key, what was
//! written stays struck through beside it, and undo brings it back.

use super::log::{self, selected};
use crate::app::effect::Effect;
use crate::app::press::Press;
use crate::app::state::{Dialog, LogFocus, Spot, State};
use crate::domain::cutting::{EdgeDoubt, place_words, suspect_words};
use crate::domain::doubt::{Doubt, DoubtedReading, Fix};
use crate::domain::log::{CourseNumber, Edge, EdgeId, End, SetAside};

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

/// Goes to the next reading that is doubtful, up this edge and on through the
/// later ones, then from the first edge on.
fn go_to_next(state: &mut State) {
    let Some(open) = &state.open else {
        return;
    };
    let course_of = |found: &EdgeDoubt| found.doubt.course.unwrap_or(CourseNumber::FIRST);
    let at = |edge, course| (open.job().place_of(edge), course);
    let here = selected(state).map(|edge| at(edge.id, state.log.course));
    let beyond = |found: &&EdgeDoubt| Some(at(found.edge, course_of(found))) > here;
    let next = open.doubts.iter().find(beyond).or(open.doubts.first());
    match next.map(|found| (found.edge, course_of(found), end_of(&found.doubt))) {
        Some((edge, course, end)) => {
            state.log.edge = Some(edge);
            state.log.focus = LogFocus::Courses;
            state.log.course = course;
            state.log.end = end;
        }
        None => state.say("nothing is doubtful in this job"),
    }
}

/// Which of a course's readings a doubt is about first.
fn end_of(doubt: &Doubt) -> End {
    match doubt.reading {
        DoubtedReading::Bottom => End::Bottom,
        DoubtedReading::Top | DoubtedReading::Placement | DoubtedReading::Edge => End::Top,
    }
}

/// The doubt at the selected course.
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
    Spot::Reading(edge, doubt.course.unwrap_or(course), end_of(doubt))
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
