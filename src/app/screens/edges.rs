//! What is done to a whole edge: added, named, given its hand and its details,
//! deleted. What its readings are is asked and taken elsewhere.

use crate::app::go::select;
use crate::app::press::Press;
use crate::app::record::{edit, edit_edge, edit_much};
use crate::app::state::{Choice, Dialog, LogFocus, Prompt, Question, Spot, State};
use crate::domain::{
    cutting::{Job, Shift, lacks_lot},
    log::{Edge, EdgeDetail, EdgeId, End},
    measure::{Hand, Name},
    roof::EdgeKind,
    settings::Settings,
};
use std::sync::Arc;

/// Asks what is added.
pub fn ask_for_new(state: &mut State) {
    if state.open.is_some() {
        state.ask_choice(Choice::Kind, Some(0));
    } else {
        state.complain("no job is open: F6 makes or opens one");
    }
}

/// Asks for another name, hand or details of the selected edge, or whether to
/// delete it.
pub fn ask_about(state: &mut State, press: Press) {
    let Some((open, edge)) = state.open.as_ref().zip(state.edge_in_log()) else {
        state.complain("no hip yet: a adds one");
        return;
    };
    let (id, kind, hand) = (edge.id, edge.kind, edge.hand);
    let text = edge.name.to_string();
    let marked = open.marked_of(id);
    if press == Press::ChangeHand && marked > 0 {
        let hand = hand.word().to_uppercase();
        state.complain(format!(
            "{text}: {marked} of its pieces are marked {hand}-hand already; add another edge for the other hand"
        ));
        return;
    }
    state.log.edge = Some(id);
    state.dialog = Some(match press {
        Press::Rename => Dialog::prompt(Prompt::Rename(id), text),
        Press::Details => details(id, 0),
        Press::ChangeHand => Dialog::Choice {
            what: Choice::Hand {
                edge: Some(id),
                kind,
            },
            row: Hand::BOTH.iter().position(|side| *side == hand),
        },
        _ => Dialog::Question(Question::DeleteEdge(id)),
    });
}

/// Gives an edge the hand that was chosen, or adds one under its usual name.
pub fn hand_chosen(state: &mut State, edge: Option<EdgeId>, kind: EdgeKind, hand: Hand) {
    let Some(open) = &state.open else { return };
    let Some(edge) = edge else {
        add(state, kind, hand);
        return;
    };
    let said = open
        .job()
        .edge(edge)
        .filter(|edge| edge.hand != hand)
        .map(|edge| turned_words(edge, hand, &open.job().settings));
    let words = format!("{}: {}-hand pieces", open.edge_name(edge), hand.word());
    edit_edge(state, edge, words, Spot::Edge(edge), |edge| {
        edge.hand = hand;
    });
    if let Some(said) = said {
        state.say(said);
    }
}

/// What it means that an edge is of this hand now: where the job says how its panels
/// lie, the hand says what its readings go to.
fn turned_words(edge: &Edge, hand: Hand, settings: &Settings) -> String {
    let (now, was) = (hand.word().to_uppercase(), edge.hand.word());
    let turned = format!("{}: {now} hand now, was {was}", edge.name);
    let mut after = edge.clone();
    after.hand = hand;
    let [before, after] = [edge, &after].map(|edge| settings.reads_to(edge));
    // A course beside a struck line is read to that, whatever its hand.
    let courses = edge.courses().iter();
    let courses = courses.filter(|course| course.to.is_none() && course.reads_to.is_none());
    let read = courses.flat_map(|course| End::BOTH.map(|end| course.reading(end)));
    let are = match read.flatten().count() {
        0 => String::new(),
        _ if before == after => String::new(),
        1 => format!(
            "; its reading is {} now, was {}",
            after.said(),
            before.said()
        ),
        count => format!(
            "; its {count} readings are {} now, were {}",
            after.said(),
            before.said()
        ),
    };
    format!("{turned}{are}; u takes it back")
}

/// `Hip 3`, with the number its label will have, or the next that is free.
fn usual_name(job: &Job, kind: EdgeKind) -> Name {
    let is_free = |name: &String| !job.edges().iter().any(|edge| edge.name.as_str() == name);
    let mut names = (job.next_numbers()[kind]..).map(|number| format!("{} {number}", kind.title()));
    Name::or(&names.find(is_free).unwrap_or_default(), kind.title())
}

/// Adds an edge and selects it; its name is changed where another is wanted.
fn add(state: &mut State, kind: EdgeKind, hand: Hand) {
    let Some(job) = state.job() else { return };
    let (next, name) = (EdgeId(job.next_edge()), usual_name(job, kind));
    let words = format!("{name} added");
    let mut like = None;
    edit(state, words.clone(), Spot::Edge(next), |job| {
        let last = job.edges().last().cloned();
        let new = job.add_edge(name, kind, hand);
        like = last.and_then(|last| say_as_last(job, &last, new));
    });
    select(state, next);
    state.log.focus = LogFocus::Courses;
    let words = like.unwrap_or(words);
    let added = state.job().zip(state.edge_in_log());
    let lot = match added.is_some_and(|(job, edge)| lacks_lot(job, edge)) {
        true => "; NO LOT said, others have one: s",
        false => "",
    };
    state.say(format!("{words}; n names it{lot}"));
}

/// Most of a roof is alike: a new edge has the last one's slopes and lot, and
/// its plane where that has no edge of this hand yet. Says so in words.
fn say_as_last(job: &mut Job, last: &Edge, new: EdgeId) -> Option<String> {
    let hand = job.edge(new)?.hand;
    let of_plane = |edge: &&Arc<Edge>| edge.plane == last.plane && edge.id != new;
    let mut others = job.edges().iter().filter(of_plane);
    let plane = last.plane.clone();
    let plane = plane.filter(|_| others.all(|edge| edge.hand != hand));
    let edge = job.edge_mut(new)?;
    (edge.roof.slope, edge.roof.other) = (last.roof.slope, last.roof.other);
    (edge.plane, edge.lot) = (plane, last.lot.clone());
    edge.later_lots.clone_from(&last.later_lots);
    let slope = edge.roof.slope.map(|slope| slope.to_string());
    let plane = edge
        .plane
        .as_ref()
        .map(|plane| format!("roof side {plane}"));
    let lot = EdgeDetail::Lot.text(edge);
    let lot = (!lot.is_empty()).then(|| format!("lot {lot}"));
    let said: Vec<String> = [slope, plane, lot].into_iter().flatten().collect();
    let (name, said) = (&edge.name, said.join(", "));
    (!said.is_empty()).then(|| format!("{name} added like {}: {said}; s changes that", last.name))
}

/// Gives an edge another name.
pub fn rename(state: &mut State, edge: EdgeId, name: Name) {
    let words = format!("renamed to {name}");
    edit_edge(state, edge, words, Spot::Edge(edge), |edge| {
        edge.name = name;
    });
}

/// Moves the selected edge in the cutting order.
pub fn shift(state: &mut State, shift: Shift) {
    let Some(edge) = state.edge_in_log() else {
        return;
    };
    let id = edge.id;
    let way = match shift {
        Shift::Earlier => "earlier",
        Shift::Later => "later",
    };
    let words = format!("{} cut {way}", edge.name);
    edit(state, words, Spot::Edge(id), |job| {
        job.shift_edge(id, shift);
    });
}

const fn details(edge: EdgeId, row: usize) -> Dialog {
    let text = None;
    Dialog::Details { edge, row, text }
}

/// Takes what was typed for one detail and goes on to the next; the list
/// closes behind the last.
pub fn detail_typed(state: &mut State, id: EdgeId, row: usize, text: Option<String>) {
    let edge = state.job().and_then(|job| job.edge(id));
    let of = edge.map_or(&[][..], |edge| EdgeDetail::of(edge.kind));
    let Some((edge, detail)) = edge.zip(of.get(row)) else {
        return;
    };
    if let Some(text) = text {
        let mut changed = edge.clone();
        let taken = detail.chosen(&text);
        if let Err(why) = taken.and_then(|text| detail.set(&mut changed, &text)) {
            let (edge, text) = (id, Some(text));
            state.stay(Dialog::Details { edge, row, text }, why);
            return;
        }
        let said = detail.said(&changed);
        let words = format!("{}: {} {said}", changed.name, detail.label());
        edit_edge(state, id, words, Spot::Edge(id), |edge| *edge = changed);
    }
    if row + 1 < of.len() {
        state.dialog = Some(details(id, row + 1));
    }
}

/// Deletes an edge; the next one is selected.
pub fn delete(state: &mut State, id: EdgeId) {
    let Some(open) = &state.open else { return };
    let words = format!("{} deleted", open.edge_name(id));
    let at = open.job().place_of(id).unwrap_or(0);
    edit_much(state, words.clone(), Spot::Edge(id), |job| {
        job.remove_edge(id);
    });
    let edges = state.job().map_or(&[][..], |job| job.edges());
    let next = edges.get(at).or(edges.last()).map(|edge| edge.id);
    state.log.edge = next;
    if let Some(next) = next {
        select(state, next);
    }
    state.log.focus = LogFocus::Edges;
    state.say(format!("{words}: u brings it back"));
}
