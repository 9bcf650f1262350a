//! Keys in a dialog: choosing, typing a name, saying yes or going back.

use super::dialog::{Dialog, name_in};
use super::effect::Effect;
use super::history::Spot;
use super::message::{Direction, Press};
use super::screens::{log, rack};
use super::state::{Place, State};
use crate::domain::edge::{EdgeId, EdgeKind};
use crate::domain::edge_detail::EdgeDetail;
use crate::domain::hand::Hand;
use crate::domain::name::Name;
use crate::domain::settings::Settings;
use std::path::PathBuf;

/// A key while `dialog` stands in front of the place.
pub fn pressed(state: &mut State, mut dialog: Dialog, press: Press) -> Vec<Effect> {
    match press {
        Press::Back => {
            closed(state, &dialog);
            // Nobody here works on it any more.
            let let_go = matches!(dialog, Dialog::OpenedOdd(_));
            return let_go.then_some(Effect::LetGo).into_iter().collect();
        }
        Press::Type(c) if dialog.has_field() => dialog.push(c),
        Press::Erase => {
            if let Some(text) = dialog.text_mut() {
                text.pop();
            }
        }
        Press::Move(direction) => move_in(&mut dialog, direction, state),
        Press::Type(c) => choose_by_digit(&mut dialog, c),
        Press::Yes => return yes(state, dialog),
        Press::RunsOut => {
            if let Dialog::RunsOutAsk { end, .. } = dialog {
                log::ask_runs_out(state, end);
                return Vec::new();
            }
        }
        Press::SaveAgain => return super::update::save(state),
        Press::SaveElsewhere => return super::safekeeping::ask_where(state),
        Press::OpenJob if dialog == Dialog::ChangedOutside => {
            return super::safekeeping::take_theirs(state);
        }
        Press::Confirm => return confirm(state, dialog),
        _ => {}
    }
    state.dialog = Some(dialog);
    Vec::new()
}

fn closed(state: &mut State, dialog: &Dialog) {
    match dialog {
        Dialog::Cautions => state.bench.cautions_read = true,
        Dialog::RunsOutAsk { .. } => log::go_to_next_reading(state),
        // Nothing was changed on the disk, and nothing will be.
        Dialog::OpenedOdd(_) => {
            state.open = None;
            state.place = Place::Job;
        }
        _ => {}
    }
}

fn move_in(dialog: &mut Dialog, direction: Direction, state: &State) {
    match dialog {
        Dialog::ChooseKind(kind) => *kind = neighbour(*kind, direction),
        Dialog::FoundWhole(hand) => match direction {
            Direction::Left => *hand = Hand::Left,
            Direction::Right => *hand = Hand::Right,
            _ => {}
        },
        Dialog::ChooseHand { hand, .. } => match direction {
            // The edge at the left end of its courses takes right-hand pieces.
            Direction::Left => *hand = Hand::Right,
            Direction::Right => *hand = Hand::Left,
            _ => {}
        },
        Dialog::OpenJob { choice, .. } | Dialog::BringRack { choice, .. } => {
            let count = state.preferences.recent.len();
            *choice = super::screens::hips::moved(*choice, direction, count);
        }
        Dialog::Details { row, text, .. } => {
            let to = super::screens::hips::moved(*row, direction, EdgeDetail::ALL.len());
            if to != *row {
                *row = to;
                *text = None;
            }
        }
        Dialog::Help { scroll } => {
            *scroll = super::screens::hips::moved(*scroll, direction, usize::MAX);
        }
        _ => {}
    }
}

fn neighbour(kind: EdgeKind, direction: Direction) -> EdgeKind {
    use EdgeKind::{Hip, Rake, Valley};
    let back = matches!(direction, Direction::Left | Direction::Up);
    match (kind, back) {
        (Hip, true) | (Valley, true) => Hip,
        (Hip, false) | (Rake, true) => Valley,
        (Valley, false) | (Rake, false) => Rake,
    }
}

/// By the number pad: 1, 2, 3 for the kinds; 4 and 6, which stand left and
/// right on it, for the ends of a course.
fn choose_by_digit(dialog: &mut Dialog, c: char) {
    match (dialog, c) {
        (Dialog::ChooseKind(kind), '1') => *kind = EdgeKind::Hip,
        (Dialog::ChooseKind(kind), '2') => *kind = EdgeKind::Valley,
        (Dialog::ChooseKind(kind), '3') => *kind = EdgeKind::Rake,
        (Dialog::FoundWhole(hand), '4') => *hand = Hand::Left,
        (Dialog::FoundWhole(hand), '6') => *hand = Hand::Right,
        (Dialog::ChooseHand { hand, .. }, '4') => *hand = Hand::Right,
        (Dialog::ChooseHand { hand, .. }, '6') => *hand = Hand::Left,
        _ => {}
    }
}

fn yes(state: &mut State, dialog: Dialog) -> Vec<Effect> {
    match dialog {
        Dialog::DeleteEdge(edge) => delete(state, edge),
        Dialog::QuitUnsaved => vec![Effect::Quit],
        Dialog::ChangedOutside => super::safekeeping::keep_ours(state),
        // From here on the file is as it is on the screen.
        Dialog::OpenedOdd(_) => super::update::save(state),
        other => {
            state.dialog = Some(other);
            Vec::new()
        }
    }
}

fn delete(state: &mut State, id: EdgeId) -> Vec<Effect> {
    let Some(open) = &state.open else {
        return Vec::new();
    };
    let words = format!("{} deleted", open.edge_name(id));
    let at = open.job().place_of(id).unwrap_or(0);
    let effects = log::edit(state, words.clone(), Spot::Edge(id), |job| {
        job.remove_edge(id).is_some()
    });
    let left = state.open.as_ref().and_then(|open| {
        let edges = open.job().edges();
        edges.get(at).or_else(|| edges.last()).map(|edge| edge.id)
    });
    state.log.edge = left;
    if let Some(left) = left {
        log::select(state, left);
    }
    state.log.focus = log::LogFocus::Edges;
    state.say(format!("{words}: u brings it back"));
    effects
}

fn confirm(state: &mut State, dialog: Dialog) -> Vec<Effect> {
    match dialog {
        Dialog::Help { .. } => {}
        Dialog::Cautions => state.bench.cautions_read = true,
        Dialog::RunsOutAsk { .. } => log::go_to_next_reading(state),
        Dialog::ChooseKind(kind) => {
            let hand = usual_hand(state);
            state.dialog = Some(Dialog::ChooseHand {
                edge: None,
                kind,
                hand,
            });
        }
        Dialog::ChooseHand { edge, kind, hand } => return hand_chosen(state, edge, kind, hand),
        Dialog::NameNew { kind, hand, text } => match name_in(&text) {
            Ok(name) => return log::add_edge(state, kind, hand, name),
            Err(error) => stay(state, Dialog::NameNew { kind, hand, text }, error),
        },
        Dialog::Rename { edge, text } => match name_in(&text) {
            Ok(name) => return rename(state, edge, name),
            Err(error) => stay(state, Dialog::Rename { edge, text }, error),
        },
        Dialog::Details { edge, row, text } => return detail_typed(state, edge, row, text),
        Dialog::NewJob { text } => match name_in(&text) {
            Ok(name) => return vec![Effect::new_job(name, settings_to_start_from(state))],
            Err(error) => stay(state, Dialog::NewJob { text }, error),
        },
        Dialog::Duplicate { text } => match name_in(&text) {
            Ok(name) => return duplicate(state, name),
            Err(error) => stay(state, Dialog::Duplicate { text }, error),
        },
        Dialog::FoundWhole(whole) => {
            let text = String::new();
            state.dialog = Some(Dialog::FoundWidths { whole, text });
        }
        Dialog::FoundWidths { whole, text } => match rack::found(state, whole, &text) {
            Ok((offcut, lot)) => return rack::add_found(state, offcut, lot),
            Err(error) => stay(state, Dialog::FoundWidths { whole, text }, error),
        },
        Dialog::OpenJob { choice, text } => match path_in(state, choice, &text) {
            Some(path) => return vec![Effect::OpenJob(path)],
            None => ask_for_path(state, Dialog::OpenJob { choice, text }),
        },
        Dialog::SaveElsewhere { text } => return super::safekeeping::path_typed(state, text),
        Dialog::BringRack { choice, text } => match path_in(state, choice, &text) {
            Some(path) => return vec![Effect::ReadRack(path)],
            None => ask_for_path(state, Dialog::BringRack { choice, text }),
        },
        // These want another key than the one that brought them up.
        waiting @ (Dialog::DeleteEdge(_)
        | Dialog::QuitUnsaved
        | Dialog::ChangedOutside
        | Dialog::OpenedOdd(_)) => {
            state.dialog = Some(waiting);
        }
    }
    Vec::new()
}

/// Shows a dialog once more, with what is wrong with the answer.
pub fn stay(state: &mut State, dialog: Dialog, error: String) {
    state.dialog = Some(dialog);
    state.complain(error);
}

/// A roof plane commonly has one edge of each hand: the next one's is the
/// other of the last one's.
fn usual_hand(state: &State) -> Hand {
    let last = state
        .open
        .as_ref()
        .and_then(|open| open.job().edges().last().map(|edge| edge.hand));
    last.map_or(Hand::Left, Hand::other)
}

fn hand_chosen(state: &mut State, edge: Option<EdgeId>, kind: EdgeKind, hand: Hand) -> Vec<Effect> {
    let Some(edge) = edge else {
        let text = usual_name(state, kind);
        state.dialog = Some(Dialog::NameNew { kind, hand, text });
        return Vec::new();
    };
    let name = state
        .open
        .as_ref()
        .map_or_else(String::new, |open| open.edge_name(edge).to_owned());
    let words = format!("{name}: {}-hand pieces", hand.word());
    log::edit(state, words, Spot::Edge(edge), |job| {
        let Some(edge) = job.edge_mut(edge) else {
            return false;
        };
        let changed = edge.hand != hand;
        edge.hand = hand;
        changed
    })
}

/// `Hip 3`, with the first number that is free.
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
    (1_u32..)
        .map(|number| format!("{word} {number}"))
        .find(|name| !taken(name))
        .unwrap_or_default()
}

fn rename(state: &mut State, edge: EdgeId, name: Name) -> Vec<Effect> {
    let words = format!("renamed to {name}");
    log::edit(state, words, Spot::Edge(edge), |job| {
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
fn detail_typed(state: &mut State, edge: EdgeId, row: usize, text: Option<String>) -> Vec<Effect> {
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
        effects = log::edit(state, words, Spot::Edge(edge), |job| {
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

/// A new job starts from the present one's settings: the same crew, the same
/// bench, mostly the same panel.
fn settings_to_start_from(state: &State) -> Settings {
    state
        .open
        .as_ref()
        .map_or_else(Settings::default, |open| open.job().settings)
}

fn duplicate(state: &State, name: Name) -> Vec<Effect> {
    let Some(open) = &state.open else {
        return Vec::new();
    };
    let mut job = open.job().clone();
    job.name = name.clone();
    vec![Effect::CreateJob {
        name,
        path: None,
        job: Box::new(job),
    }]
}

/// The path that was typed, or the recent one that is selected.
fn path_in(state: &State, choice: usize, text: &str) -> Option<PathBuf> {
    let typed = text.trim();
    if typed.is_empty() {
        state.preferences.recent.get(choice).cloned()
    } else {
        Some(PathBuf::from(typed))
    }
}

fn ask_for_path(state: &mut State, dialog: Dialog) {
    stay(state, dialog, "type the path of a job file".to_owned());
}

/// Where a freshly opened job is shown.
#[must_use]
pub fn first_place(state: &State) -> Place {
    match &state.open {
        Some(open) if !open.list.pieces.is_empty() => Place::Hips,
        Some(_) => Place::Log,
        None => Place::Job,
    }
}
