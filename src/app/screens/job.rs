//! Job: make, open or duplicate a job; change its settings.

use crate::app::effect::Effect;
use crate::app::press::{Direction, Press, moved};
use crate::app::record::edit;
use crate::app::state::{Field, OpenJob, Prompt, Purpose, Spot, State};
use crate::domain::bench::Stage;
use crate::domain::piece::{PieceId, PieceSpec};
use crate::domain::settings::{Group, RawSettings, Setting, Settings};
use std::collections::HashSet;

const NO_JOB: &str = "no job is open: n makes one, o opens one";

/// A key in Job.
pub fn pressed(state: &mut State, press: Press) {
    match press {
        Press::Move(direction) => {
            state.job_view.setting = beside(state.job_view.setting, direction);
        }
        Press::NewJob => state.ask(Prompt::NewJob, ""),
        Press::OpenJob => state.ask(Prompt::OpenJob, ""),
        Press::Duplicate => match state.job().map(|job| format!("{} again", job.name)) {
            Some(name) => state.ask(Prompt::Duplicate, name),
            None => state.complain(NO_JOB),
        },
        Press::ListKept => ask_kept(state),
        Press::Confirm => change(state),
        Press::Type(c) => start(state, Some(c)),
        _ => {}
    }
}

/// Asks for the list of states that are kept.
pub fn ask_kept(state: &mut State) {
    let Some(open) = &state.open else {
        state.complain(NO_JOB);
        return;
    };
    let (path, job) = (open.path.clone(), open.to_save().job);
    state.order(Effect::ListKept(path, job));
}

/// Takes the next choice of the selected setting, or asks for its figure.
fn change(state: &mut State) {
    let Some((job, setting)) = state.job().zip(state.setting()) else {
        state.complain(NO_JOB);
        return;
    };
    match setting.turned(&job.settings) {
        Some(settings) if setting == Setting::Units => turn_units(state, settings),
        Some(settings) => accept(state, setting, settings),
        None => start(state, None),
    }
}

/// Turns the units: with them the lengths nobody set, as long as nothing was read
/// or done by them.
fn turn_units(state: &mut State, turned: Settings) {
    let Some(job) = state.job() else { return };
    let is_begun = job.readings() > 0 || !job.events().is_empty();
    let as_they_are = RawSettings {
        division: turned.division,
        ..*job.settings
    };
    let kept = Settings::checked(as_they_are).unwrap_or(turned);
    if is_begun || kept == turned {
        accept(state, Setting::Units, kept);
        return;
    }
    accept(state, Setting::Units, turned);
    let units = Setting::Units.said(&turned);
    state.say(format!(
        "{units}: panel, laps, legs and other lengths that were not set are a new job's in {units} now; u takes it back"
    ));
}

/// The setting that an arrow goes to: up and down the lines, in the column of
/// the same kind of edge; sideways in a line, else to the next group.
fn beside(setting: Setting, direction: Direction) -> Setting {
    let lines = Group::ALL.map(Group::lines).concat();
    let place = lines
        .iter()
        .position(|line| line.settings.contains(&setting));
    let Some((at, line)) = place.and_then(|at| Some((at, lines.get(at)?))) else {
        return setting;
    };
    let in_line = line.settings.iter().position(|other| *other == setting);
    let first_of = |group: usize| {
        let group = Group::ALL.get(group)?;
        lines.iter().position(|line| line.group == *group)
    };
    let group = Group::ALL.iter().position(|group| *group == line.group);
    let (to, column) = match (direction, in_line, group) {
        (Direction::Left, Some(column), _) if column > 0 => (Some(at), Some(column - 1)),
        (Direction::Right, Some(column), _) if column + 1 < line.settings.len() => {
            (Some(at), Some(column + 1))
        }
        (Direction::Left, _, Some(group)) => (group.checked_sub(1).and_then(first_of), None),
        (Direction::Right, _, Some(group)) => (first_of(group + 1), None),
        _ => (Some(moved(at, direction, lines.len())), None),
    };
    let Some(line) = to.and_then(|to| lines.get(to)) else {
        return setting;
    };
    let same_kind = line
        .settings
        .iter()
        .find(|other| other.kind() == setting.kind());
    let chosen = match column {
        Some(column) => line.settings.get(column),
        None => same_kind.or(line.settings.first()),
    };
    chosen.copied().unwrap_or(setting)
}

fn start(state: &mut State, first: Option<char>) {
    let Some(setting) = state.setting().filter(|_| state.open.is_some()) else {
        return;
    };
    if setting.choices().is_empty() {
        state.field = Some(Field::new(Purpose::Setting(setting), first));
    } else {
        let label = setting.label();
        state.complain(format!("{label}: no figure goes here; Enter changes it"));
    }
}

/// Takes a figure that was typed, and goes on to the next line as the Log does.
pub fn typed(state: &mut State, setting: Setting, settings: Settings) {
    accept(state, setting, settings);
    state.job_view.setting = beside(state.job_view.setting, Direction::Down);
}

/// Takes a setting that was understood.
fn accept(state: &mut State, setting: Setting, settings: Settings) {
    let words = format!("{}: {}", setting.name(), setting.said_with_unit(&settings));
    let before = Asked::of(state.open.as_ref());
    let changed = edit(state, words.clone(), Spot::Setting(setting), |job| {
        job.settings = settings;
    });
    if !changed {
        return;
    }
    let after = Asked::of(state.open.as_ref());
    let moved = before.to_mark.symmetric_difference(&after.to_mark);
    let moved: HashSet<PieceId> = moved.map(|(piece, _)| *piece).collect();
    let misfits = after.misfits.difference(&before.misfits).count();
    let moved = match moved.len() {
        0 => None,
        1 => Some("1 piece's marks change".to_owned()),
        count => Some(format!("{count} pieces' marks change")),
    };
    let misfits = match misfits {
        0 => None,
        1 => Some("1 marked no longer fits".to_owned()),
        count => Some(format!("{count} marked no longer fit")),
    };
    let follows: Vec<String> = moved.into_iter().chain(misfits).collect();
    let follows = follows.join(", ");
    state.say(match (follows.is_empty(), setting) {
        (true, _) => words,
        // One row: how the panels lap is drawn above it.
        (false, Setting::PanelsLie) => format!("{}; {follows}", setting.said(&settings)),
        (false, _) => format!("{words}; {follows}; u takes it back"),
    });
}

/// What the log and the settings ask of the steel.
struct Asked {
    /// The figures of all pieces that are not marked yet.
    to_mark: HashSet<(PieceId, PieceSpec)>,
    /// Marked ones that no longer fit.
    misfits: HashSet<PieceId>,
}

impl Asked {
    fn of(open: Option<&OpenJob>) -> Self {
        let pieces = open.into_iter().flat_map(|open| &open.list.pieces);
        let to_mark = pieces.filter(|piece| piece.stage == Stage::ToMark);
        let misfits = open.into_iter().flat_map(|open| open.list.misfits());
        Self {
            to_mark: to_mark.map(|piece| (piece.id, piece.spec)).collect(),
            misfits: misfits.map(|(piece, _)| piece.id).collect(),
        }
    }
}
