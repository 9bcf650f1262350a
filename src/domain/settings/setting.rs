//! The table of single settings: label, option, choices, reading and printing.
//!
//! The Job screen, `bendmark new` and the docs are all made from this one
//! table, so that no setting can be missing in one of them. It changes a copy
//! of the settings and never anything else.

use crate::domain::roof::EdgeKind;

/// One line of the Job screen and one option of `bendmark new`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Setting {
    /// Inches or millimetres.
    Units,
    /// The tape's finest mark.
    Division,
    /// Overall panel width.
    PanelWidth,
    /// Side lap.
    SideLap,
    /// Exposure.
    Exposure,
    /// From nose to back flange.
    PanelHeight,
    /// Where a reading ends on the field's side.
    ReadTo,
    /// How the tape's end is held.
    TapeEnd,
    /// Clearance of a kind of edge.
    Clearance(EdgeKind),
    /// Allowance along the panel's edge.
    Along(EdgeKind),
    /// Allowance as the leg must stand.
    Standing(EdgeKind),
    /// Depth of the valley.
    ValleyDepth,
    /// Least turn-up that should stand.
    LeastTurnUp,
    /// What a short course keeps for the ridge.
    RidgeTurnUp,
    /// Narrower pieces are pointed out.
    Sliver,
    /// How far off the edge's line a reading may be.
    Tolerance,
    /// What is left between two pieces of one panel.
    Spare,
    /// How many panels more than needed are carried.
    CarryMore,
    /// The blade's end of the table.
    Blade,
    /// Which courses are laid first.
    Laying,
    /// Whether the stack is turned over.
    StackTurned,
    /// Cut or bend first.
    BenchOrder,
    /// What one key press moves on.
    OneKey,
    /// How long a pause is.
    Pause,
}

const DIVISIONS: &[&str] = &["1/8", "1/16", "1/32", "1", "0.5"];
/// Written for a length that follows another one.
const AS_EXPOSURE: &str = "exposure";
const AS_SIDE_LAP: &str = "side-lap";
const NOT_KNOWN: &str = "unknown";

impl Setting {
    /// Every setting, as the Job screen lists them. Units come first, so that
    /// a bare number after them is read in the right one.
    pub const ALL: [Self; 30] = [
        Self::Units,
        Self::Division,
        Self::PanelWidth,
        Self::SideLap,
        Self::Exposure,
        Self::PanelHeight,
        Self::ReadTo,
        Self::TapeEnd,
        Self::Along(EdgeKind::Hip),
        Self::Standing(EdgeKind::Hip),
        Self::Clearance(EdgeKind::Hip),
        Self::Along(EdgeKind::Valley),
        Self::Standing(EdgeKind::Valley),
        Self::Clearance(EdgeKind::Valley),
        Self::ValleyDepth,
        Self::Along(EdgeKind::Rake),
        Self::Standing(EdgeKind::Rake),
        Self::Clearance(EdgeKind::Rake),
        Self::LeastTurnUp,
        Self::RidgeTurnUp,
        Self::Sliver,
        Self::Tolerance,
        Self::Spare,
        Self::CarryMore,
        Self::Blade,
        Self::Laying,
        Self::StackTurned,
        Self::BenchOrder,
        Self::OneKey,
        Self::Pause,
    ];

    /// Its label on the Job screen.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Units => "units",
            Self::Division => "tape division",
            Self::PanelWidth => "panel width",
            Self::SideLap => "side lap",
            Self::Exposure => "exposure",
            Self::PanelHeight => "panel height, nose to back flange",
            Self::ReadTo => "readings go to",
            Self::TapeEnd => "tape end at the board",
            Self::Clearance(EdgeKind::Hip) => "hip clearance, taken off if hard",
            Self::Clearance(EdgeKind::Valley) => "valley clearance, taken off if hard",
            Self::Clearance(EdgeKind::Rake) => "rake clearance, taken off if hard",
            Self::Along(EdgeKind::Hip) => "hip allowance, along the edge",
            Self::Along(EdgeKind::Valley) => "valley allowance, along the edge",
            Self::Along(EdgeKind::Rake) => "rake allowance, along the edge",
            Self::Standing(EdgeKind::Hip) => "or: hip turn-up as it stands",
            Self::Standing(EdgeKind::Valley) => "or: valley turn-down as it stands",
            Self::Standing(EdgeKind::Rake) => "or: rake turn-up as it stands",
            Self::ValleyDepth => "valley depth, bend line to floor",
            Self::LeastTurnUp => "least turn-up as it stands",
            Self::RidgeTurnUp => "ridge turn-up of a short course",
            Self::Sliver => "point out pieces narrower than",
            Self::Tolerance => "doubt a reading off by more than",
            Self::Spare => "spare between two pieces of a panel",
            Self::CarryMore => "carry more panels, per cent",
            Self::Blade => "blade end of the table",
            Self::Laying => "pieces are laid",
            Self::StackTurned => "stack is turned over",
            Self::BenchOrder => "at the bench, first",
            Self::OneKey => "one key does a",
            Self::Pause => "a pause is over, minutes",
        }
    }

    /// Its option of `bendmark new`, without the dashes.
    pub const fn option(self) -> &'static str {
        match self {
            Self::Units => "units",
            Self::Division => "division",
            Self::PanelWidth => "panel-width",
            Self::SideLap => "side-lap",
            Self::Exposure => "exposure",
            Self::PanelHeight => "panel-height",
            Self::ReadTo => "read-to",
            Self::TapeEnd => "tape-end",
            Self::Clearance(EdgeKind::Hip) => "clearance",
            Self::Clearance(EdgeKind::Valley) => "valley-clearance",
            Self::Clearance(EdgeKind::Rake) => "rake-clearance",
            Self::Along(EdgeKind::Hip) => "allowance",
            Self::Along(EdgeKind::Valley) => "valley-allowance",
            Self::Along(EdgeKind::Rake) => "rake-allowance",
            Self::Standing(EdgeKind::Hip) => "turn-up",
            Self::Standing(EdgeKind::Valley) => "valley-turn-down",
            Self::Standing(EdgeKind::Rake) => "rake-turn-up",
            Self::ValleyDepth => "valley-depth",
            Self::LeastTurnUp => "least-turn-up",
            Self::RidgeTurnUp => "ridge-turn-up",
            Self::Sliver => "sliver",
            Self::Tolerance => "tolerance",
            Self::Spare => "spare",
            Self::CarryMore => "carry-more",
            Self::Blade => "blade",
            Self::Laying => "laid-from",
            Self::StackTurned => "stack-turned",
            Self::BenchOrder => "bench-order",
            Self::OneKey => "one-key",
            Self::Pause => "pause",
        }
    }

    /// What may be written where the setting is a choice; empty for a length.
    pub const fn choices(self) -> &'static [&'static str] {
        match self {
            Self::Units => &["in", "mm"],
            Self::Division => DIVISIONS,
            Self::ReadTo => &["lap-line", "panel-edge"],
            Self::TapeEnd => &["held-off", "hard"],
            Self::Blade => &["right", "left"],
            Self::Laying => &["ridge", "eave"],
            Self::StackTurned => &["no", "yes"],
            Self::BenchOrder => &["cut", "bend"],
            Self::OneKey => &["step", "piece"],
            _ => &[],
        }
    }

    /// The word that stands for "no length of its own", where there is one.
    pub const fn word_for_none(self) -> Option<&'static str> {
        match self {
            Self::PanelHeight => Some(AS_EXPOSURE),
            Self::Sliver => Some(AS_SIDE_LAP),
            Self::ValleyDepth => Some(NOT_KNOWN),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn options_and_labels_are_unique() {
        for (at, one) in Setting::ALL.iter().enumerate() {
            for other in Setting::ALL.iter().skip(at + 1) {
                assert_ne!(one.option(), other.option());
                assert_ne!(one.label(), other.label());
            }
        }
    }
}
