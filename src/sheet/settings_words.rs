//! The settings that bear on a sheet, in the sentences of every readable form.

use super::rows::Rows;
use crate::domain::{
    log::{PanelsLie, ReadTo, TapeEnd},
    measure::Hand,
    roof::EdgeKind,
    settings::{Allowance, BenchOrder, LayingOrder, Settings, StackTurned},
    tape::{Unit, exact_with_unit},
};

/// The settings that bear on the sheet, each behind what it is about.
pub(super) fn settings(sheet: &Rows<'_>) -> Vec<(String, String)> {
    let settings = &sheet.job.settings;
    let unit = settings.unit();
    let fixed = |word: &str, words| (word.to_owned(), words);
    let here = |kind: &EdgeKind| sheet.edges.iter().any(|edge| edge.edge.kind == *kind);
    let legs = EdgeKind::ALL.into_iter().filter(here);
    let mut all = vec![
        fixed("readings", readings(settings, unit) + board_to_board(sheet)),
        fixed("panel", panel(settings, unit)),
    ];
    all.extend(legs.map(|kind| (format!("{}s", kind.word()), leg(settings, kind, unit))));
    all.push(fixed("bench", bench(settings)));
    all.push(fixed("figures", figures(settings)));
    all
}

/// What a `+` or `-` behind a figure means.
fn figures(settings: &Settings) -> String {
    format!(
        "to {} {}; + or -: a hair over or under, more than a quarter of that",
        settings.division.word(),
        settings.unit().word()
    )
}

/// How readings are taken in this job.
fn readings(settings: &Settings, unit: Unit) -> String {
    let to = match settings.panels_lie {
        PanelsLie::NotSaid => read_to(settings.read_to, settings, unit),
        lie => {
            let over = if lie == PanelsLie::OverLeft {
                "left"
            } else {
                "right"
            };
            let [left, right] = Hand::BOTH.map(|hand| {
                let to = lie.reads_to(hand).unwrap_or(settings.read_to);
                format!("{}-hand edges {}", hand.word(), read_to(to, settings, unit))
            });
            format!("looking up, each panel lies over its {over} neighbour: {left}, {right}")
        }
    };
    format!("{to}; {}", held(settings.tape_end))
}

/// That some courses are read otherwise, whatever is said of the tape's end.
fn board_to_board(sheet: &Rows<'_>) -> &'static str {
    let mut courses = sheet.edges.iter().flat_map(|edge| edge.edge.courses());
    if courses.any(|course| course.to.is_some()) {
        "; courses from board to board are read hard, the clearance of both edges taken off"
    } else {
        ""
    }
}

/// To what a reading goes.
pub(super) fn read_to(to: ReadTo, settings: &Settings, unit: Unit) -> String {
    match to {
        ReadTo::LapLine => "to the side-lap line".to_owned(),
        ReadTo::PanelEdge => format!(
            "to the edge of the last panel, so the side lap of {} is added",
            exact_with_unit(settings.side_lap, unit)
        ),
    }
}

/// How the tape's end is kept.
pub(super) const fn held(end: TapeEnd) -> &'static str {
    match end {
        TapeEnd::HeldOff => "tape end held off the board, so nothing is taken off",
        TapeEnd::Hard => "tape end hard against the board, so the clearance is taken off",
    }
}

/// The panel's sizes.
fn panel(settings: &Settings, unit: Unit) -> String {
    let say = |length| exact_with_unit(length, unit);
    format!(
        "{} wide, side lap {}, exposure {}, nose to back flange {}",
        say(settings.panel_width),
        say(settings.side_lap),
        say(settings.exposure),
        say(settings.panel_height())
    )
}

/// How pieces of `kind` are bent, and how far beyond the bend line they are cut.
fn leg(settings: &Settings, kind: EdgeKind, unit: Unit) -> String {
    let say = |length| exact_with_unit(length, unit);
    let of_kind = settings.kind(kind);
    let allowance = match of_kind.allowance {
        Allowance::Along(along) => {
            format!("add for the bend {}, along the nose", say(along))
        }
        Allowance::Standing(height) => {
            format!("leg {} high, square", say(height))
        }
    };
    let clearance = match settings.tape_end {
        TapeEnd::HeldOff => String::new(),
        TapeEnd::Hard => format!(", clearance {} taken off", say(of_kind.clearance)),
    };
    format!("bent {}, {allowance}{clearance}", kind.bend().word())
}

/// How the bench works.
fn bench(settings: &Settings) -> String {
    let order = match settings.bench_order {
        BenchOrder::CutFirst => "cut, then bend",
        BenchOrder::BendFirst => "bend, then cut",
    };
    let laid = match settings.laying {
        LayingOrder::RidgeDown => "from the ridge down",
        LayingOrder::EaveUp => "from the eave up",
    };
    let turned = match settings.stack_turned {
        StackTurned::No => "not turned over",
        StackTurned::Yes => "turned over",
    };
    format!(
        "blade at the {} end of the table; {order}; laid {laid}, stack {turned} on the way up",
        settings.blade.word()
    )
}
