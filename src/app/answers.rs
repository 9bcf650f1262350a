//! Keys in a dialog: choosing, typing a name, saying yes or going back.

use super::dialog::{Dialog, name_in};
use super::effect::Effect;
use super::field::Sense;
use super::history::Spot;
use super::message::{Direction, Press};
use super::open_job::Saved;
use super::screens::{bench, doubt, log, rack};
use super::state::{Place, State};
use crate::domain::edge::{EdgeId, EdgeKind};
use crate::domain::edge_detail::EdgeDetail;
use crate::domain::hand::Hand;
use crate::domain::name::{Name, cleaned};
use crate::domain::settings::Settings;
use std::path::{Path, PathBuf};

/// A key while `dialog` stands in front of the place.
pub fn pressed(state: &mut State, mut dialog: Dialog, press: Press) -> Vec<Effect> {
    match press {
        Press::Back => return closed(state, &dialog),
        Press::Type(c) if dialog.has_field() => dialog.push(c),
        Press::Erase => {
            if let Some(text) = dialog.text_mut() {
                text.pop();
            }
        }
        Press::Move(direction) => move_in(&mut dialog, direction, state),
        Press::Type(c) => return choose_by_digit(state, dialog, c),
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

fn closed(state: &mut State, dialog: &Dialog) -> Vec<Effect> {
    match dialog {
        Dialog::Cautions => state.bench.cautions_read = true,
        // Leave it as it was: the 0 goes again.
        Dialog::RunsOutAsk { edge, course, end } => {
            return log::take_out(state, *edge, *course, *end);
        }
        // Nothing was changed on the disk, and nothing will be.
        Dialog::OpenedOdd(_) => {
            state.open = None;
            state.place = Place::Job;
            // Nobody here works on it any more.
            return vec![Effect::LetGo];
        }
        _ => {}
    }
    Vec::new()
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
            Direction::Left => *hand = Some(Hand::Right),
            Direction::Right => *hand = Some(Hand::Left),
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
        Dialog::Doubt {
            edge,
            course,
            choice,
        } => {
            let doubt = state
                .open
                .as_ref()
                .and_then(|open| open.doubt_at(*edge, *course));
            let count = doubt.map_or(0, |doubt| doubt.suspects().count());
            *choice = super::screens::hips::moved(*choice, direction, count);
        }
        Dialog::Help { scroll } => {
            let rows = super::keymap::rows_for_help(state).len();
            *scroll = super::screens::hips::moved(*scroll, direction, rows);
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
/// right on it, for the ends of a course. A digit chooses and goes on.
fn choose_by_digit(state: &mut State, dialog: Dialog, c: char) -> Vec<Effect> {
    let chosen = match (dialog, c) {
        (Dialog::ChooseKind(_), '1') => Dialog::ChooseKind(EdgeKind::Hip),
        (Dialog::ChooseKind(_), '2') => Dialog::ChooseKind(EdgeKind::Valley),
        (Dialog::ChooseKind(_), '3') => Dialog::ChooseKind(EdgeKind::Rake),
        (Dialog::FoundWhole(_), '4') => Dialog::FoundWhole(Hand::Left),
        (Dialog::FoundWhole(_), '6') => Dialog::FoundWhole(Hand::Right),
        (Dialog::ChooseHand { edge, kind, .. }, '4' | '6') => {
            // The edge at the left end of its courses takes right-hand pieces.
            let hand = Some(if c == '4' { Hand::Right } else { Hand::Left });
            Dialog::ChooseHand { edge, kind, hand }
        }
        (Dialog::Correct(edge), '-' | '1') => {
            bench::ask_correction(state, edge, Sense::Shorter);
            return Vec::new();
        }
        (Dialog::Correct(edge), '+' | '2') => {
            bench::ask_correction(state, edge, Sense::Longer);
            return Vec::new();
        }
        (other, _) => {
            state.dialog = Some(other);
            return Vec::new();
        }
    };
    confirm(state, chosen)
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
            state.dialog = Some(Dialog::ChooseHand {
                edge: None,
                kind,
                hand: None,
            });
        }
        Dialog::ChooseHand {
            edge,
            kind,
            hand: Some(hand),
        } => return hand_chosen(state, edge, kind, hand),
        unchosen @ Dialog::ChooseHand { .. } => {
            let why = "4 if it is at the LEFT end of its courses, 6 if at the RIGHT end";
            stay(state, unchosen, why.to_owned());
        }
        waiting @ Dialog::Correct(_) => {
            let why = "- if the pieces came out too long, + if too short";
            stay(state, waiting, why.to_owned());
        }
        Dialog::NameNew {
            kind,
            hand,
            usual,
            text,
        } => {
            let name = Name::or(&text, &usual);
            return log::add_edge(state, kind, hand, name);
        }
        Dialog::Rename { edge, text } => match name_in(&text) {
            Ok(name) => return rename(state, edge, name),
            Err(error) => stay(state, Dialog::Rename { edge, text }, error),
        },
        Dialog::Details { edge, row, text } => return detail_typed(state, edge, row, text),
        leaving @ (Dialog::NewJob { .. } | Dialog::Duplicate { .. } | Dialog::OpenJob { .. })
            if !may_leave(state) =>
        {
            state.dialog = Some(leaving);
        }
        Dialog::NewJob { text } => match name_in(&text) {
            Ok(name) => return vec![Effect::new_job(name, settings_to_start_from(state))],
            Err(error) => stay(state, Dialog::NewJob { text }, error),
        },
        Dialog::Duplicate { text } => match name_in(&text) {
            Ok(name) => return duplicate(state, name),
            Err(error) => stay(state, Dialog::Duplicate { text }, error),
        },
        Dialog::Doubt {
            edge,
            course,
            choice,
        } => return doubt::take(state, edge, course, choice),
        Dialog::Find { text } => find(state, text),
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
        Dialog::WriteSheet { text } => return super::paper::path_typed(state, text),
        Dialog::SaveElsewhere { text } => return super::safekeeping::path_typed(state, text),
        Dialog::BringRack { choice, text } => match path_in(state, choice, &text) {
            Some(path) if is_open(state, &path) => {
                let why =
                    "that is this very job, expected another one: its offcuts lie here already";
                stay(state, Dialog::BringRack { choice, text }, why.to_owned());
            }
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

fn hand_chosen(state: &mut State, edge: Option<EdgeId>, kind: EdgeKind, hand: Hand) -> Vec<Effect> {
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
    log::edit(state, words, Spot::Edge(edge), |job| {
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

fn is_open(state: &State, path: &Path) -> bool {
    state.open.as_ref().is_some_and(|open| open.path == path)
}

/// Whether the open job may be left for another one: not while its last change
/// is not on the disk.
fn may_leave(state: &mut State) -> bool {
    let why = match state.open.as_ref().map(|open| &open.saved) {
        None | Some(Saved::Yes) => return true,
        Some(Saved::Underway) => "this job is still being saved: try again in a moment",
        Some(Saved::No(_)) => "this job is NOT SAVED: k saves it again, then go on",
    };
    state.complain(why);
    false
}

/// Takes the piece that was asked for in hand.
fn find(state: &mut State, text: String) {
    let found = state
        .open
        .as_ref()
        .and_then(|open| open.labels.find(open.job(), &open.list, &text));
    match found {
        Some(piece) => {
            bench::show(state, piece);
            super::update::arrive(state);
        }
        None => {
            let why = format!(
                "\"{}\" is no piece here, expected a label such as H2-5, a course such as 2-5, or a hip's name",
                cleaned(&text)
            );
            stay(state, Dialog::Find { text }, why);
        }
    }
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
