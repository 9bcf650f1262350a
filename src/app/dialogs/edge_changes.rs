//! What is done to a whole edge: added, named, given its hand and its details,
//! deleted. What its readings are is the Log's.

use super::answers::stay;
use crate::app::effect::Effect;
use crate::app::screens::log::{edit, select};
use crate::app::state::{Dialog, LogFocus, Spot, State};
use crate::domain::log::{EdgeDetail, EdgeId};
use crate::domain::measure::{Hand, Name};
use crate::domain::roof::EdgeKind;

/// Adds an edge and selects it.
pub fn add(state: &mut State, kind: EdgeKind, hand: Hand, name: Name) -> Vec<Effect> {
    let Some(next) = state
        .open
        .as_ref()
        .map(|open| EdgeId(open.job().next_edge()))
    else {
        return Vec::new();
    };
    let words = format!("{name} added");
    let effects = edit(state, words, Spot::Edge(next), |job| {
        job.add_edge(name, kind, hand);
        true
    });
    select(state, next);
    state.log.focus = LogFocus::Courses;
    effects
}

/// Gives an edge the hand that was chosen; a new one is asked for its name.
pub fn hand_chosen(
    state: &mut State,
    edge: Option<EdgeId>,
    kind: EdgeKind,
    hand: Hand,
) -> Vec<Effect> {
    let Some(edge) = edge else {
        let usual = usual_name(state, kind);
        state.dialog = Some(Dialog::NameNew {
            kind,
            hand,
            usual,
            text: String::new(),
        });
        return Vec::new();
    };
    let name = state
        .open
        .as_ref()
        .map_or_else(String::new, |open| open.edge_name(edge).to_owned());
    let words = format!("{name}: {}-hand pieces", hand.word());
    edit(state, words, Spot::Edge(edge), |job| {
        let Some(edge) = job.edge_mut(edge) else {
            return false;
        };
        let changed = edge.hand != hand;
        edge.hand = hand;
        changed
    })
}

/// `Hip 3`, with the number its label will have, or the next that is free.
fn usual_name(state: &State, kind: EdgeKind) -> String {
    let word = match kind {
        EdgeKind::Hip => "Hip",
        EdgeKind::Valley => "Valley",
        EdgeKind::Rake => "Rake",
    };
    let taken = |name: &str| {
        state.open.as_ref().is_some_and(|open| {
            open.job()
                .edges()
                .iter()
                .any(|edge| edge.name.as_str() == name)
        })
    };
    let first = state.open.as_ref().map_or(1, |open| open.job().next_edge());
    (first..)
        .map(|number| format!("{word} {number}"))
        .find(|name| !taken(name))
        .unwrap_or_default()
}

/// Gives an edge another name.
pub fn rename(state: &mut State, edge: EdgeId, name: Name) -> Vec<Effect> {
    let words = format!("renamed to {name}");
    edit(state, words, Spot::Edge(edge), |job| {
        let Some(edge) = job.edge_mut(edge) else {
            return false;
        };
        let changed = edge.name != name;
        edge.name = name;
        changed
    })
}

/// Takes what was typed for one detail and goes on to the next; the list
/// closes behind the last.
pub fn detail_typed(
    state: &mut State,
    edge: EdgeId,
    row: usize,
    text: Option<String>,
) -> Vec<Effect> {
    let Some((open, detail)) = state.open.as_ref().zip(EdgeDetail::ALL.get(row)) else {
        return Vec::new();
    };
    let mut effects = Vec::new();
    if let Some(text) = text {
        let Some(mut changed) = open.job().edge(edge).cloned() else {
            return Vec::new();
        };
        if let Err(why) = detail.set(&mut changed, &text) {
            let text = Some(text);
            stay(state, Dialog::Details { edge, row, text }, why);
            return Vec::new();
        }
        let said = detail.text(&changed);
        let words = format!("{}: {} {said}", changed.name, detail.label());
        effects = edit(state, words, Spot::Edge(edge), |job| {
            job.edge_mut(edge).is_some_and(|edge| {
                let differs = *edge != changed;
                *edge = changed;
                differs
            })
        });
    }
    if row + 1 < EdgeDetail::ALL.len() {
        let (row, text) = (row + 1, None);
        state.dialog = Some(Dialog::Details { edge, row, text });
    }
    effects
}

/// Deletes an edge; the next one is selected.
pub fn delete(state: &mut State, id: EdgeId) -> Vec<Effect> {
    let Some(open) = &state.open else {
        return Vec::new();
    };
    let words = format!("{} deleted", open.edge_name(id));
    let at = open.job().place_of(id).unwrap_or(0);
    let effects = edit(state, words.clone(), Spot::Edge(id), |job| {
        job.remove_edge(id).is_some()
    });
    let left = state.open.as_ref().and_then(|open| {
        let edges = open.job().edges();
        edges.get(at).or_else(|| edges.last()).map(|edge| edge.id)
    });
    state.log.edge = left;
    if let Some(left) = left {
        select(state, left);
    }
    state.log.focus = LogFocus::Edges;
    state.say(format!("{words}: u brings it back"));
    effects
}
