//! In what groups and lines the settings are shown, and what each moves.
//!
//! The Job screen is made from it. A new setting has no group before one is
//! written here. It sets nothing.

use super::setting::Setting;
use crate::domain::roof::EdgeKind;

/// Settings that are looked over together.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Group {
    Panel,
    Readings,
    /// What hips, valleys and rakes have each of their own, and their legs.
    Edges,
    Bench,
    Carrying,
}

/// One line of a group: a setting, or the same thing of several kinds of edges.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Line {
    pub group: Group,
    pub label: &'static str,
    pub settings: Vec<Setting>,
}

impl Group {
    /// Every one, as they follow each other.
    pub const ALL: [Self; 5] = [
        Self::Panel,
        Self::Readings,
        Self::Edges,
        Self::Bench,
        Self::Carrying,
    ];

    /// What it is called.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Panel => "PANEL",
            Self::Readings => "READINGS",
            Self::Edges => "OF EACH KIND",
            Self::Bench => "BENCH",
            Self::Carrying => "OFFCUTS AND CARRYING",
        }
    }

    /// Its lines, as they follow each other.
    pub fn lines(self) -> Vec<Line> {
        let mut lines: Vec<Line> = Vec::new();
        for setting in Setting::ALL {
            if setting.group() != self || matches!(setting, Setting::Standing(_)) {
                continue;
            }
            let label = setting.line();
            match lines.iter_mut().find(|line| line.label == label) {
                Some(line) => line.settings.push(setting),
                None => lines.push(Line {
                    group: self,
                    label,
                    settings: vec![setting],
                }),
            }
        }
        lines
    }
}

impl Setting {
    /// Where it is looked for.
    pub const fn group(self) -> Group {
        match self {
            Self::Units
            | Self::Division
            | Self::PanelWidth
            | Self::SideLap
            | Self::Exposure
            | Self::PanelHeight
            | Self::PanelsLie => Group::Panel,
            Self::ReadTo | Self::TapeEnd | Self::Tolerance | Self::Sliver => Group::Readings,
            Self::Clearance(_)
            | Self::Along(_)
            | Self::Standing(_)
            | Self::ValleyDepth
            | Self::LeastTurnUp
            | Self::RidgeTurnUp
            | Self::LeastFlat => Group::Edges,
            Self::Blade
            | Self::ShearOpens
            | Self::BenderFolds
            | Self::BenchOrder
            | Self::OneKey
            | Self::Pause => Group::Bench,
            Self::Spare | Self::CarryMore | Self::Laying | Self::StackTurned | Self::SecondTrip => {
                Group::Carrying
            }
        }
    }

    /// The kind of edge it is for, where it is not for all.
    pub const fn kind(self) -> Option<EdgeKind> {
        match self {
            Self::Along(kind) | Self::Standing(kind) | Self::Clearance(kind) => Some(kind),
            Self::ValleyDepth => Some(EdgeKind::Valley),
            _ => None,
        }
    }

    /// The label of its line.
    pub const fn line(self) -> &'static str {
        match self {
            Self::Along(_) | Self::Standing(_) => "leg, along nose or square",
            Self::Clearance(_) => "clearance, taken off if hard",
            _ => self.label(),
        }
    }

    /// What it is called in a sentence, with its kind.
    pub fn name(self) -> String {
        match self {
            Self::Along(kind) | Self::Standing(kind) => format!("{} leg", kind.word()),
            Self::Clearance(kind) => format!("{} clearance", kind.word()),
            other => other.label().to_owned(),
        }
    }

    /// What changes with it.
    pub const fn moves(self) -> &'static str {
        match self {
            Self::Units => "in what a bare number is read; readings stay what they are",
            Self::Division => "to what marks figures are rounded on screen and sheet",
            Self::PanelWidth => "how wide a piece can be, and what a panel has left over",
            Self::SideLap => "how much of a panel shows: the widths of all pieces",
            Self::Exposure => "how high a course is: the lean of every line",
            Self::PanelHeight => "how far a line runs on to the back: the figures there",
            Self::PanelsLie => "to what each edge is read: whether the side lap is added",
            Self::ReadTo => "whether the side lap is added, where the laps do not say it",
            Self::TapeEnd => "whether the clearance is taken off every reading",
            Self::Tolerance => "which readings are doubted; no figure of a piece",
            Self::Sliver => "which pieces are pointed out as too narrow; no figure",
            Self::Along(_) | Self::Standing(_) => "how far beyond the bend line a piece is cut",
            Self::Clearance(_) => "every piece whose reading was taken hard at the board",
            Self::ValleyDepth => "which valley legs are pointed out as too long; no figure",
            Self::LeastTurnUp => "which legs are pointed out as too low; no figure",
            Self::RidgeTurnUp => "how far beyond its height a short course is cut",
            Self::LeastFlat => "which pieces bent at both ends are pointed out; no figure",
            Self::Blade => "how the panel lies at the shear, what stays on the table",
            Self::ShearOpens => "where a cut stops: a shorter one has one bite and no stop",
            Self::BenderFolds => "how a valley is bent: down, or turned over and up",
            Self::BenchOrder => "which step comes first, and how the panel lies then",
            Self::OneKey => "how far Enter goes on at the Bench",
            Self::Pause => "how long without a step is a pause and no work: the time left",
            Self::Spare => "what a saw or a bad edge takes between two pieces of a panel",
            Self::CarryMore => "how many panels the sheet says to carry",
            Self::Laying => "in what order pieces are cut, so that the first is on top",
            Self::StackTurned => "in what order pieces are cut, so that the first is on top",
            Self::SecondTrip => "which pieces are cut last, to what is read over the laid ones",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_setting_stands_on_one_line_and_the_two_ways_of_a_leg_on_the_same() {
        let lines = Group::ALL.map(Group::lines).concat();
        let shown: Vec<Setting> = lines.into_iter().flat_map(|line| line.settings).collect();
        assert_eq!(shown.len(), shown.iter().collect::<HashSet<_>>().len());
        for setting in Setting::ALL {
            match setting {
                Setting::Standing(kind) => assert!(shown.contains(&Setting::Along(kind))),
                other => assert!(shown.contains(&other), "{other:?}"),
            }
        }
    }
}
