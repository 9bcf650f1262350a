//! Rack: the offcuts that wait, those found on site, those that are gone.

use crate::app::{
    effect::Effect,
    press::{Press, moved},
    state::{Dialog, Spot, State},
    update::save,
};
use crate::domain::{
    bench::{Fact, GoneBy},
    measure::{Hand, Length, Name},
    piece::Panel,
    stock::{Offcut, OffcutNumber, RackOffcut},
    tape::{exact_with_unit, parse_positive},
};

/// The selected offcut.
pub fn selected(state: &State) -> Option<OffcutNumber> {
    let rack = state.open.as_ref()?.progress.rack();
    rack.get(state.rack.offcut)
        .or_else(|| rack.last())
        .map(|offcut| offcut.number)
}

/// A key in Rack.
pub fn pressed(state: &mut State, press: Press) -> Vec<Effect> {
    match press {
        Press::Move(direction) => {
            let count = state
                .open
                .as_ref()
                .map_or(0, |open| open.progress.rack().len());
            state.rack.offcut = moved(state.rack.offcut, direction, count);
        }
        _ if state.open.is_none() => state.complain("no job is open: F6 makes or opens one"),
        Press::Add => state.dialog = Some(Dialog::FoundWhole(None)),
        Press::Bring => {
            let (choice, text) = (0, String::new());
            state.dialog = Some(Dialog::BringRack { choice, text });
        }
        Press::Throw => return selected_gone(state, GoneBy::Thrown),
        Press::Used => return selected_gone(state, GoneBy::Used),
        _ => {}
    }
    Vec::new()
}

fn selected_gone(state: &mut State, by: GoneBy) -> Vec<Effect> {
    match selected(state) {
        Some(number) => gone(state, number, by),
        None => {
            state.complain("no offcut lies on the rack: a adds one found on site");
            Vec::new()
        }
    }
}

/// Takes an offcut off the rack, and says what is planned instead.
pub fn gone(state: &mut State, offcut: OffcutNumber, by: GoneBy) -> Vec<Effect> {
    let now = state.now;
    let Some(open) = state.open.as_mut() else {
        return Vec::new();
    };
    let promised = open.list.plan.rack.get(&offcut).copied();
    let words = match by {
        GoneBy::Thrown => format!("offcut {offcut} thrown away"),
        GoneBy::Used => format!("offcut {offcut} used elsewhere"),
    };
    open.work(
        words.clone(),
        Spot::Rack,
        vec![Fact::Gone { offcut, by }],
        now,
    );
    let instead = promised.and_then(|piece| {
        let stock = open.piece(piece)?.stock;
        let label = open.labels.piece(piece);
        Some(format!("{label} now from {}", open.labels.stock(&stock)))
    });
    let count = open.progress.rack().len();
    state.rack.offcut = state.rack.offcut.min(count.saturating_sub(1));
    state.say(match instead {
        Some(instead) => format!("{words}: {instead}"),
        None => words,
    });
    save(state)
}

/// The widths typed for an offcut found on site: `at nose, at back`.
///
/// # Errors
/// Why they are not taken, quoting what was typed.
pub fn found(state: &State, whole: Hand, text: &str) -> Result<(Offcut, Option<Name>), String> {
    let settings = match &state.open {
        Some(open) => open.job().settings,
        None => return Err("no job is open".to_owned()),
    };
    let mut parts = text.split(';').map(str::trim);
    let mut width = |what: &str| {
        let text = parts.next().unwrap_or_default();
        let width = parse_positive(text, settings.unit())
            .map_err(|error| format!("width at the {what}: {error}"))?;
        if width > settings.panel_width {
            return Err(format!(
                "width at the {what}: \"{text}\" is over the panel's width, expected at most {}",
                exact_with_unit(settings.panel_width, settings.unit())
            ));
        }
        Ok(width)
    };
    let (at_nose, at_back) = (width("nose")?, width("back")?);
    if at_nose == Length::ZERO && at_back == Length::ZERO {
        return Err("both widths are 0: there is nothing to keep".to_owned());
    }
    let lot = parts.next().and_then(|lot| Name::new(lot).ok());
    if let Some(more) = parts.next() {
        return Err(format!(
            "\"{more}\" is one part too many, expected width; width; lot"
        ));
    }
    let panel = Panel {
        width: settings.panel_width,
        height: settings.panel_height(),
    };
    Ok((Offcut::found(whole, panel, at_nose, at_back), lot))
}

/// Puts an offcut found on site on the rack.
pub fn add_found(state: &mut State, offcut: Offcut, lot: Option<Name>) -> Vec<Effect> {
    let found = [(offcut, lot)];
    add(state, found.into_iter())
}

/// Brings over what lies on another job's rack.
pub fn bring(state: &mut State, rack: Vec<RackOffcut>) -> Vec<Effect> {
    if rack.is_empty() {
        state.complain("nothing lies on that job's rack");
        return Vec::new();
    }
    add(
        state,
        rack.into_iter().map(|offcut| (offcut.offcut, offcut.lot)),
    )
}

fn add(state: &mut State, offcuts: impl Iterator<Item = (Offcut, Option<Name>)>) -> Vec<Effect> {
    let now = state.now;
    let Some(open) = state.open.as_mut() else {
        return Vec::new();
    };
    let first = open.progress.next_offcut();
    let facts = Fact::found_all(offcuts, first);
    let words = match facts.len() {
        1 => format!("offcut {first} found: write the number on it"),
        count => format!("{count} offcuts brought, numbered from {first} on"),
    };
    open.work(words.clone(), Spot::Rack, facts, now);
    state.rack.offcut = open.progress.rack().len().saturating_sub(1);
    state.say(words);
    save(state)
}
