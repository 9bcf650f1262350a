//! The table of single settings: option, label, and what each is.
//!
//! The Job screen, `bendmark new` and the docs are all made from this one
//! table, so that no setting can be missing in one of them. It changes a copy
//! of the settings and never anything else.

use super::{
    out_of_range::OutOfRange,
    raw::{
        Allowance, BenchOrder, BenderFolds, LayingOrder, OneKey, RawSettings, SecondTrip,
        StackTurned,
    },
};
use crate::domain::log::{PanelsLie, ReadTo, TapeEnd};
use crate::domain::measure::{Hand, Length};
use crate::domain::roof::EdgeKind::{self, Hip, Rake, Valley};

/// One line of the Job screen and one option of `bendmark new`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Setting {
    Units,
    Division,
    PanelWidth,
    SideLap,
    Exposure,
    PanelHeight,
    PanelsLie,
    ReadTo,
    TapeEnd,
    /// Taken off a reading where the tape's end is held hard.
    Clearance(EdgeKind),
    /// The allowance along the panel's edge.
    Along(EdgeKind),
    /// The allowance as the leg must stand.
    Standing(EdgeKind),
    ValleyDepth,
    LeastTurnUp,
    RidgeTurnUp,
    Sliver,
    LeastFlat,
    Tolerance,
    Spare,
    CarryMore,
    Blade,
    Laying,
    StackTurned,
    SecondTrip,
    ShearOpens,
    BenderFolds,
    BenchOrder,
    OneKey,
    Pause,
}

/// A row of the table.
pub(super) struct Row {
    pub(super) option: &'static str,
    pub(super) label: &'static str,
    pub(super) form: Form,
}

/// What a setting is, how it is got and set.
pub(super) enum Form {
    Units,
    Division,
    /// One of a few words.
    Choice {
        words: &'static [&'static str],
        /// The same as people say them, in the same order.
        said: &'static [&'static str],
        get: fn(&RawSettings) -> &'static str,
        /// Whether the word is one of the choices, either way.
        set: fn(&mut RawSettings, &str) -> bool,
    },
    Length(LengthForm),
    PerCent,
    Minutes,
}

/// A setting that is a length.
pub(super) struct LengthForm {
    /// What it is called where it is out of range.
    pub(super) name: &'static str,
    pub(super) least: Length,
    pub(super) most: fn(&RawSettings) -> Length,
    /// The word that stands for "no length of its own", where there is one, and
    /// how people say it.
    pub(super) none: Option<(&'static str, &'static str)>,
    /// `None`: no length of its own, or the other of a pair is in use.
    pub(super) get: fn(&RawSettings) -> Option<Length>,
    pub(super) set: fn(&mut RawSettings, Option<Length>),
}

macro_rules! choice {
    ($field:ident, $($word:literal, $said:literal is $choice:path);+) => {
        Form::Choice {
            words: &[$($word),+],
            said: &[$($said),+],
            get: |raw| match raw.$field {
                $($choice => $word,)+
            },
            set: |raw, word| {
                raw.$field = match word {
                    $($word | $said => $choice,)+
                    _ => return false,
                };
                true
            },
        }
    };
}

/// A length that is always there.
macro_rules! length {
    ($name:literal, $raw:ident => $place:expr, $least:expr, $most:expr) => {
        Form::Length(LengthForm {
            name: $name,
            least: $least,
            most: $most,
            none: None,
            get: |$raw| Some($place),
            set: |$raw, length| $place = length.unwrap_or($place),
        })
    };
}

/// A length, or the word for none.
macro_rules! length_or {
    ($none:literal, $said:literal, $name:literal, $raw:ident => $place:expr, $least:expr, $most:expr) => {
        Form::Length(LengthForm {
            name: $name,
            least: $least,
            most: $most,
            none: Some(($none, $said)),
            get: |$raw| $place,
            set: |$raw, length| $place = length,
        })
    };
}

/// An allowance, measured one way or the other.
macro_rules! allowance {
    ($name:literal, $kind:ident, $how:path) => {
        Form::Length(LengthForm {
            name: $name,
            least: Length::ZERO,
            most: |_| mm(300),
            none: None,
            get: |raw| match raw.kinds[$kind].allowance {
                $how(length) => Some(length),
                _ => None,
            },
            set: |raw, length| {
                raw.kinds[$kind].allowance =
                    $how(length.unwrap_or(raw.kinds[$kind].allowance.length()))
            },
        })
    };
}

macro_rules! table {
    ($($setting:ident $(($kind:ident))?: $option:literal, $label:literal, $form:expr;)+) => {
        impl Setting {
            /// Every setting, as the Job screen lists them. Units come first, so
            /// that a bare number after them is read in the right one.
            pub const ALL: [Self; [$($option),+].len()] = [$(Self::$setting $(($kind))?),+];

            pub(super) const fn row(self) -> Row {
                match self {
                    $(Self::$setting $(($kind))? => Row { option: $option, label: $label, form: $form },)+
                }
            }
        }
    };
}

const fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

const NO: Length = Length::ZERO;

table! {
    Units: "units", "units", Form::Units;
    Division: "division", "tape division", Form::Division;
    PanelWidth: "panel-width", "panel width", length!("panel width", raw => raw.panel_width, mm(200), |_| mm(5_000));
    SideLap: "side-lap", "side lap", length!("side lap", raw => raw.side_lap, NO, |raw| raw.panel_width.half());
    Exposure: "exposure", "exposure", length!("exposure", raw => raw.exposure, mm(50), |_| mm(2_000));
    PanelHeight: "panel-height", "height, nose to back flange",
        length_or!("exposure", "as the exposure", "panel height", raw => raw.panel_height, mm(50), |_| mm(2_000));
    PanelsLie: "panels-lie", "looking up, panels lie over",
        choice!(panels_lie, "not-said", "not said" is PanelsLie::NotSaid;
            "left-neighbour", "their left neighbour" is PanelsLie::OverLeft;
            "right-neighbour", "their right neighbour" is PanelsLie::OverRight);
    ReadTo: "read-to", "readings go",
        choice!(read_to, "lap-line", "to the side-lap line" is ReadTo::LapLine;
            "panel-edge", "to the last panel's edge" is ReadTo::PanelEdge);
    TapeEnd: "tape-end", "tape end at the board",
        choice!(tape_end, "held-off", "held off" is TapeEnd::HeldOff; "hard", "hard against it" is TapeEnd::Hard);
    Along(Hip): "allowance", "hip: added for the bend, along the nose", allowance!("hip leg", Hip, Allowance::Along);
    Standing(Hip): "turn-up", "or: hip leg height, square", allowance!("hip leg", Hip, Allowance::Standing);
    Clearance(Hip): "clearance", "hip clearance, taken off if hard",
        length!("clearance", raw => raw.kinds[Hip].clearance, NO, |_| mm(100));
    Along(Valley): "valley-allowance", "valley: added for the bend, along the nose",
        allowance!("valley leg", Valley, Allowance::Along);
    Standing(Valley): "valley-turn-down", "or: valley leg height, square",
        allowance!("valley leg", Valley, Allowance::Standing);
    Clearance(Valley): "valley-clearance", "valley clearance, taken off if hard",
        length!("clearance", raw => raw.kinds[Valley].clearance, NO, |_| mm(100));
    ValleyDepth: "valley-depth", "depth, bend line to floor",
        length_or!("unknown", "not known", "valley depth", raw => raw.valley_depth, NO, |_| mm(500));
    Along(Rake): "rake-allowance", "rake: added for the bend, along the nose",
        allowance!("rake leg", Rake, Allowance::Along);
    Standing(Rake): "rake-turn-up", "or: rake leg height, square", allowance!("rake leg", Rake, Allowance::Standing);
    Clearance(Rake): "rake-clearance", "rake clearance, taken off if hard",
        length!("clearance", raw => raw.kinds[Rake].clearance, NO, |_| mm(100));
    LeastTurnUp: "least-turn-up", "least leg height, square", length!("least leg height", raw => raw.least_turn_up, NO, |_| mm(300));
    RidgeTurnUp: "ridge-turn-up", "ridge leg of a short course",
        length!("ridge leg", raw => raw.ridge_turn_up, NO, |_| mm(300));
    Sliver: "sliver", "a piece is too narrow below",
        length_or!("side-lap", "the side lap", "too narrow", raw => raw.sliver, NO, |raw| raw.panel_width);
    LeastFlat: "least-flat", "least flat between two bends",
        length_or!("unknown", "not known", "least flat", raw => raw.least_flat, NO, |raw| raw.panel_width);
    Tolerance: "tolerance", "a reading is doubted beyond", length!("tolerance", raw => raw.tolerance, mm(1), |_| mm(100));
    Spare: "spare", "left between two pieces", length!("spare", raw => raw.spare, NO, |_| mm(300));
    CarryMore: "carry-more", "carry more panels, per cent", Form::PerCent;
    Blade: "blade", "the blade's end of the table",
        choice!(blade, "right", "right end" is Hand::Right; "left", "left end" is Hand::Left);
    Laying: "laid-from", "pieces are laid",
        choice!(laying, "ridge", "from the ridge down" is LayingOrder::RidgeDown;
            "eave", "from the eave up" is LayingOrder::EaveUp);
    StackTurned: "stack-turned", "the stack arrives",
        choice!(stack_turned, "no", "as it was stacked" is StackTurned::No; "yes", "turned over" is StackTurned::Yes);
    SecondTrip: "second-trip", "the rest of a wide gap is cut",
        choice!(second_trip, "no", "with the others" is SecondTrip::No; "yes", "on a second trip" is SecondTrip::Yes);
    ShearOpens: "shear-opens", "the shear opens, one bite",
        length_or!("unknown", "not known", "shear opening", raw => raw.shear_opens, NO, |_| mm(1_000));
    BenderFolds: "bender-folds", "the bender folds",
        choice!(bender_folds, "both-ways", "both ways" is BenderFolds::BothWays; "up-only", "up only" is BenderFolds::UpOnly);
    BenchOrder: "bench-order", "at the bench",
        choice!(bench_order, "cut", "cut first" is BenchOrder::CutFirst; "bend", "bend first" is BenchOrder::BendFirst);
    OneKey: "one-key", "Enter does",
        choice!(one_key, "step", "one step at a time" is OneKey::Step; "piece", "a whole piece" is OneKey::Piece);
    Pause: "pause", "longer is a pause, minutes", Form::Minutes;
}

impl Setting {
    /// Its label on the Job screen.
    pub const fn label(self) -> &'static str {
        self.row().label
    }

    /// Its option of `bendmark new`, without the dashes.
    pub const fn option(self) -> &'static str {
        self.row().option
    }

    /// Whether it is in the range a panel and a bench can have.
    pub(super) fn check(self, settings: &RawSettings) -> Result<(), OutOfRange> {
        let Form::Length(form) = self.row().form else {
            return Ok(());
        };
        let (least, most) = (form.least, (form.most)(settings));
        match (form.get)(settings) {
            Some(value) if value < least || value > most => Err(OutOfRange {
                what: form.name,
                value,
                least,
                most,
                unit: settings.unit(),
            }),
            _ => Ok(()),
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
