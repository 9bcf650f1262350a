//! Rack: the offcuts that wait, those found on site, those that are gone.

use crate::app::press::{Press, moved};
use crate::app::record::{offcut_gone, work};
use crate::app::state::{Choice, Prompt, Spot, State};
use crate::domain::{
    bench::{Fact, GoneBy},
    measure::{Hand, Length, Name},
    piece::Panel,
    settings::Settings,
    stock::{Offcut, OffcutNumber, RackOffcut},
    tape::{exact, exact_with_unit, parse_positive},
};

/// A key in Rack.
pub fn pressed(state: &mut State, press: Press) {
    let Some(open) = &state.open else {
        if !matches!(press, Press::Move(_)) {
            state.complain("no job is open: F6 makes or opens one");
        }
        return;
    };
    match press {
        Press::Move(direction) => {
            let count = open.progress.rack().len();
            state.rack.offcut = moved(state.rack.offcut, direction, count);
        }
        Press::Add => state.ask_choice(Choice::FoundWhole, None),
        Press::Bring => state.ask(Prompt::BringRack, ""),
        Press::Measure => ask_size(state),
        Press::Throw => selected_gone(state, GoneBy::Thrown),
        Press::Used => selected_gone(state, GoneBy::Used),
        _ => {}
    }
}

fn selected_gone(state: &mut State, by: GoneBy) {
    match state.offcut_on_rack() {
        Some(number) => offcut_gone(state, number, by),
        None => state.complain("no offcut lies on the rack: a adds one found on site"),
    }
}

/// Asks how wide the selected offcut is, and of which lot.
fn ask_size(state: &mut State) {
    let Some((open, number)) = state.open.as_ref().zip(state.offcut_on_rack()) else {
        state.complain("no offcut lies on the rack: a adds one found on site");
        return;
    };
    let unit = open.job().settings.unit();
    let laid = open.progress.laid(number);
    let widths = laid.map(|laid| laid.offcut.widths().map(|width| exact(width, unit)));
    let lot = laid.and_then(|laid| laid.lot.as_ref());
    let parts = widths.into_iter().flatten();
    let parts = parts.chain(lot.map(ToString::to_string));
    let text = parts.collect::<Vec<_>>().join("; ");
    state.ask(Prompt::OffcutWidths(number), text);
}

/// Takes an offcut as it was measured: `at nose; at back; lot`. Where no lot is named
/// it keeps its own.
///
/// # Errors
/// Why they are not taken, quoting what was typed.
pub fn measured(state: &mut State, offcut: OffcutNumber, text: &str) -> Result<(), String> {
    let open = state.open.as_ref().ok_or("no job is open")?;
    let settings = open.job().settings;
    let laid = open.progress.laid(offcut);
    let whole = laid.map_or(Hand::Left, |laid| laid.offcut.whole);
    let (found, lot) = found(&settings, whole, text)?;
    let [at_nose, at_back] = found.widths();
    let lot = lot.map(|typed| lot_meant(&lots(state), typed));
    let named = lot.as_ref();
    let of_lot = named.map_or_else(String::new, |lot| format!(", lot {lot}"));
    let words = format!("offcut {offcut} measured{of_lot}");
    let fact = Fact::Measured {
        offcut,
        at_nose,
        at_back,
        lot,
    };
    work(state, words.clone(), Spot::Rack, vec![fact]);
    state.say(words);
    Ok(())
}

/// Puts an offcut found on site on the rack, from what was typed for it:
/// `at nose; at back; lot`.
///
/// # Errors
/// Why it is not taken, quoting what was typed.
pub fn add_found(state: &mut State, whole: Hand, text: &str) -> Result<(), String> {
    let settings = state.job().ok_or("no job is open")?.settings;
    let (offcut, lot) = found(&settings, whole, text)?;
    let lot = lot.map(|typed| lot_meant(&lots(state), typed));
    add(state, std::iter::once((offcut, lot)));
    Ok(())
}

/// The colour lots of the job, each once, in the order of its edges.
fn lots(state: &State) -> Vec<Name> {
    let mut lots: Vec<Name> = Vec::new();
    let edges = state.job().map_or(&[][..], |job| job.edges());
    for lot in edges.iter().flat_map(|edge| edge.lots()).flatten() {
        if !lots.contains(lot) {
            lots.push(lot.clone());
        }
    }
    lots
}

/// Whether both widths were typed and the job has lots, of which none was named and
/// the offcut has none.
pub fn asks_lot(state: &State, what: &Prompt, text: &str) -> bool {
    let laid = |number| state.open.as_ref()?.progress.laid(number);
    if let Prompt::OffcutWidths(number) = what
        && laid(*number).is_some_and(|laid| laid.lot.is_some())
    {
        return false;
    }
    let parts = text.split(';').filter(|part| !part.trim().is_empty());
    !lots(state).is_empty() && parts.count() == 2 && !text.trim().ends_with(';')
}

/// `1 Slate 7, 2 Slate 9`, so that a number pad can name a lot.
pub fn numbered_lots(state: &State) -> String {
    let lots = lots(state);
    let numbered = (1..)
        .zip(&lots)
        .map(|(number, lot)| format!("{number} {lot}"));
    numbered.collect::<Vec<_>>().join(", ")
}

/// A lot's number in that list stands for its name, unless a lot is called so.
fn lot_meant(lots: &[Name], typed: Name) -> Name {
    if lots.contains(&typed) {
        return typed;
    }
    let number = typed.as_str().parse::<usize>().ok();
    let meant = number.and_then(|number| lots.get(number.checked_sub(1)?));
    meant.cloned().unwrap_or(typed)
}

fn found(settings: &Settings, whole: Hand, text: &str) -> Result<(Offcut, Option<Name>), String> {
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

/// Brings over what lies on another job's rack.
pub fn bring(state: &mut State, rack: Vec<RackOffcut>) {
    if rack.is_empty() {
        state.complain("nothing lies on that job's rack");
        return;
    }
    let offcuts = rack.into_iter().map(|offcut| (offcut.offcut, offcut.lot));
    add(state, offcuts);
}

fn add(state: &mut State, offcuts: impl Iterator<Item = (Offcut, Option<Name>)>) {
    let Some(open) = &state.open else { return };
    let first = open.progress.next_offcut();
    let facts = Fact::found_all(offcuts, first);
    let words = match facts.len() {
        1 => format!("offcut {first} found: write the number on it"),
        count => format!("{count} offcuts brought, numbered from {first} on"),
    };
    work(state, words.clone(), Spot::Rack, facts);
    if let Some(open) = &state.open {
        state.rack.offcut = open.progress.rack().len().saturating_sub(1);
    }
    state.say(words);
}
