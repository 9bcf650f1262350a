//! A change of the job, and the order to save it.

use super::effect::{Effect, ToSave};
use super::state::{OnDisk, OpenJob, Spot, State};
use crate::domain::bench::{Fact, GoneBy};
use crate::domain::cutting::Job;
use crate::domain::log::{Edge, EdgeId};
use crate::domain::stock::OffcutNumber;
use std::sync::Arc;

/// Orders the job to be saved as it now is.
pub fn save(state: &mut State) {
    save_over(state, None);
}

/// The same; what it was `before` is kept as a version first.
pub fn save_over(state: &mut State, before: Option<Arc<Job>>) {
    let Some(open) = &mut state.open else { return };
    if let Some(why) = open.read_only.clone() {
        state.complain(why);
        return;
    }
    open.saved = OnDisk::Underway;
    let to_save = ToSave {
        before,
        ..open.to_save()
    };
    state.order(Effect::SaveJob(to_save));
}

/// Changes the job on paper; false where that comes to what it was.
pub fn edit(state: &mut State, words: String, spot: Spot, change: impl FnOnce(&mut Job)) -> bool {
    let open = state.open.as_mut();
    let changed = open.is_some_and(|open| open.edit(words, spot, change));
    if changed {
        save(state);
    }
    changed
}

/// The same where much is taken away or put in at once: what was there before is
/// kept as a version.
pub fn edit_much(
    state: &mut State,
    words: String,
    spot: Spot,
    change: impl FnOnce(&mut Job),
) -> bool {
    kept_before(state, |open| open.edit(words, spot, change))
}

/// Changes what numbers stand for, on paper and in the facts.
pub fn renumber(
    state: &mut State,
    words: String,
    spot: Spot,
    change: impl FnOnce(&mut Job),
) -> bool {
    kept_before(state, |open| open.renumber(words, spot, change))
}

/// Saves a change, and keeps what was there before it as a version.
fn kept_before(state: &mut State, change: impl FnOnce(&mut OpenJob) -> bool) -> bool {
    let Some(open) = &mut state.open else {
        return false;
    };
    let before = open.to_save().job;
    let changed = change(open);
    if changed {
        save_over(state, Some(before));
    }
    changed
}

/// Changes one edge on paper.
pub fn edit_edge(
    state: &mut State,
    edge: EdgeId,
    words: String,
    spot: Spot,
    change: impl FnOnce(&mut Edge),
) {
    edit(state, words, spot, |job| {
        if let Some(edge) = job.edge_mut(edge) {
            change(edge);
        }
    });
}

/// Writes down the facts of one key press at the bench.
pub fn work(state: &mut State, words: String, spot: Spot, facts: Vec<Fact>) {
    let now = state.now;
    if let Some(open) = state.open.as_mut() {
        open.work(words, spot, facts, now);
        save(state);
    }
}

/// Takes an offcut off the rack, and says what is planned instead.
pub fn offcut_gone(state: &mut State, offcut: OffcutNumber, by: GoneBy) {
    let plan = state.open.as_ref().map(|open| &open.list.plan);
    let promised = plan.and_then(|plan| plan.rack.get(&offcut).copied());
    let words = match by {
        GoneBy::Thrown => format!("offcut {offcut} thrown away"),
        GoneBy::Used => format!("offcut {offcut} used elsewhere"),
    };
    let fact = Fact::Gone { offcut, by };
    work(state, words.clone(), Spot::Rack, vec![fact]);
    let Some(open) = &state.open else { return };
    state.rack.keep_within(open.progress.rack().len());
    let instead = promised.and_then(|piece| {
        let stock = open.piece(piece)?.stock;
        let label = open.labels.piece(piece);
        Some(format!("{label} now from {}", open.labels.stock(&stock)))
    });
    state.say(match instead {
        Some(instead) => format!("{words}: {instead}"),
        None => words,
    });
}
