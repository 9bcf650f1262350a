//! The table of single settings: label, option, choices, reading and printing.
//!
//! The Job screen, `bendmark new` and the docs are all made from this one
//! table, so that no setting can be missing in one of them. It changes a copy
//! of the settings and never anything else.

use super::carry::SparePerCent;
use super::edge::EdgeKind;
use super::hand::Hand;
use super::length::Length;
use super::name::cleaned;
use super::pace::Minutes;
use super::settings::{
    Allowance, BenchOrder, KindSettings, LayingOrder, OneKey, OutOfRange, RawSettings, ReadTo,
    Settings, StackTurned, TapeEnd, usual_tolerance,
};
use super::tape::{Division, TapeError, Unit, exact, parse_positive};
use std::fmt;

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

/// Why a setting was not taken.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum SettingError {
    /// Not a length.
    Length(&'static str, TapeError),
    /// Not one of the choices.
    Choice {
        /// The setting's label.
        what: &'static str,
        /// What was written, cleaned for showing.
        input: String,
        /// What may be written.
        choices: &'static [&'static str],
    },
    /// A division of the other unit.
    OtherUnit {
        /// The division that was asked for.
        division: Division,
        /// The job's unit.
        unit: Unit,
    },
    /// Not a number of minutes.
    Minutes(String),
    /// Not a whole number of per cent.
    PerCent(String),
    /// A figure out of range.
    Range(OutOfRange),
}

impl fmt::Display for SettingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(what, error) => write!(f, "{what}: {error}"),
            Self::Choice {
                what,
                input,
                choices,
            } => write!(
                f,
                "{what}: \"{input}\" is not one of the choices, expected {}",
                choices.join(" or ")
            ),
            Self::OtherUnit { division, unit } => write!(
                f,
                "division: \"{}\" does not go with units {}, expected {}",
                division.word(),
                unit.word(),
                match unit {
                    Unit::Inch => "1/8, 1/16 or 1/32",
                    Unit::Millimetre => "1 or 0.5",
                }
            ),
            Self::Minutes(input) => write!(
                f,
                "pause: \"{input}\" is no whole number of minutes, expected 1 to {LONGEST_PAUSE}"
            ),
            Self::PerCent(input) => write!(
                f,
                "carry more panels: \"{input}\" is no whole number of per cent, expected 0 to {}",
                SparePerCent::MOST
            ),
            Self::Range(error) => write!(f, "{error}"),
        }
    }
}

impl std::error::Error for SettingError {}

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
    #[must_use]
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
    #[must_use]
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
    #[must_use]
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
    #[must_use]
    pub const fn word_for_none(self) -> Option<&'static str> {
        match self {
            Self::PanelHeight => Some(AS_EXPOSURE),
            Self::Sliver => Some(AS_SIDE_LAP),
            Self::ValleyDepth => Some(NOT_KNOWN),
            _ => None,
        }
    }

    /// As it stands in `settings`, readable by [`Setting::set`]; empty for the
    /// one of a pair (along, as it stands) that is not in use.
    #[must_use]
    pub fn text(self, settings: &RawSettings) -> String {
        let unit = settings.unit();
        let length = |length| exact(length, unit);
        let or = |value: Option<Length>| {
            value.map_or_else(
                || self.word_for_none().unwrap_or_default().to_owned(),
                length,
            )
        };
        match self {
            Self::Units => unit.word().to_owned(),
            Self::Division => settings.division.word().to_owned(),
            Self::PanelWidth => length(settings.panel_width),
            Self::SideLap => length(settings.side_lap),
            Self::Exposure => length(settings.exposure),
            Self::PanelHeight => or(settings.panel_height),
            Self::ReadTo => self.chosen(settings.read_to == ReadTo::LapLine),
            Self::TapeEnd => self.chosen(settings.tape_end == TapeEnd::HeldOff),
            Self::Clearance(kind) => length(settings.kind(kind).clearance),
            Self::Along(kind) => match settings.kind(kind).allowance {
                Allowance::Along(along) => length(along),
                Allowance::Standing(_) => String::new(),
            },
            Self::Standing(kind) => match settings.kind(kind).allowance {
                Allowance::Along(_) => String::new(),
                Allowance::Standing(standing) => length(standing),
            },
            Self::ValleyDepth => or(settings.valley_depth),
            Self::LeastTurnUp => length(settings.least_turn_up),
            Self::RidgeTurnUp => length(settings.ridge_turn_up),
            Self::Sliver => or(settings.sliver),
            Self::Tolerance => length(settings.tolerance),
            Self::Spare => length(settings.spare),
            Self::CarryMore => settings.carry_more.get().to_string(),
            Self::Blade => self.chosen(settings.blade == Hand::Right),
            Self::Laying => self.chosen(settings.laying == LayingOrder::RidgeDown),
            Self::StackTurned => self.chosen(settings.stack_turned == StackTurned::No),
            Self::BenchOrder => self.chosen(settings.bench_order == BenchOrder::CutFirst),
            Self::OneKey => self.chosen(settings.one_key == OneKey::Step),
            Self::Pause => settings.pause.0.to_string(),
        }
    }

    fn chosen(self, first: bool) -> String {
        let at = usize::from(!first);
        self.choices()
            .get(at)
            .copied()
            .unwrap_or_default()
            .to_owned()
    }

    /// `settings` with this one set to what `input` says, checked as a whole.
    ///
    /// # Errors
    /// [`SettingError`], naming the setting, the input and what was wanted.
    pub fn set(self, settings: &Settings, input: &str) -> Result<Settings, SettingError> {
        let mut raw = **settings;
        self.write(&mut raw, input.trim())?;
        Settings::checked(raw).map_err(SettingError::Range)
    }

    /// The same on settings not yet checked, for many changes in one go.
    ///
    /// # Errors
    /// As [`Setting::set`], but for ranges.
    pub fn write(self, raw: &mut RawSettings, input: &str) -> Result<(), SettingError> {
        match self {
            Self::Units => {
                let before = raw.unit();
                raw.division = self.units(raw.division, input)?;
                if raw.tolerance == usual_tolerance(before) {
                    raw.tolerance = usual_tolerance(raw.unit());
                }
            }
            Self::Division => raw.division = self.division(raw.unit(), input)?,
            Self::PanelWidth => raw.panel_width = self.length(raw, input)?,
            Self::SideLap => raw.side_lap = self.length(raw, input)?,
            Self::Exposure => raw.exposure = self.length(raw, input)?,
            Self::PanelHeight => raw.panel_height = self.optional(raw, input)?,
            Self::ReadTo => raw.read_to = self.choose(input, ReadTo::LapLine, ReadTo::PanelEdge)?,
            Self::TapeEnd => raw.tape_end = self.choose(input, TapeEnd::HeldOff, TapeEnd::Hard)?,
            Self::Clearance(kind) => kind_mut(raw, kind).clearance = self.length(raw, input)?,
            Self::Along(kind) => {
                kind_mut(raw, kind).allowance = Allowance::Along(self.length(raw, input)?);
            }
            Self::Standing(kind) => {
                kind_mut(raw, kind).allowance = Allowance::Standing(self.length(raw, input)?);
            }
            Self::ValleyDepth => raw.valley_depth = self.optional(raw, input)?,
            Self::LeastTurnUp => raw.least_turn_up = self.length(raw, input)?,
            Self::RidgeTurnUp => raw.ridge_turn_up = self.length(raw, input)?,
            Self::Sliver => raw.sliver = self.optional(raw, input)?,
            Self::Tolerance => raw.tolerance = self.length(raw, input)?,
            Self::Spare => raw.spare = self.length(raw, input)?,
            Self::CarryMore => raw.carry_more = per_cent(input)?,
            Self::Blade => raw.blade = self.choose(input, Hand::Right, Hand::Left)?,
            Self::Laying => {
                raw.laying = self.choose(input, LayingOrder::RidgeDown, LayingOrder::EaveUp)?;
            }
            Self::StackTurned => {
                raw.stack_turned = self.choose(input, StackTurned::No, StackTurned::Yes)?;
            }
            Self::BenchOrder => {
                raw.bench_order =
                    self.choose(input, BenchOrder::CutFirst, BenchOrder::BendFirst)?;
            }
            Self::OneKey => raw.one_key = self.choose(input, OneKey::Step, OneKey::Piece)?,
            Self::Pause => raw.pause = minutes(input)?,
        }
        Ok(())
    }

    fn length(self, raw: &RawSettings, input: &str) -> Result<Length, SettingError> {
        parse_positive(input, raw.unit()).map_err(|error| SettingError::Length(self.label(), error))
    }

    fn optional(self, raw: &RawSettings, input: &str) -> Result<Option<Length>, SettingError> {
        if Some(input) == self.word_for_none() {
            return Ok(None);
        }
        self.length(raw, input).map(Some)
    }

    fn choose<T>(self, input: &str, first: T, second: T) -> Result<T, SettingError> {
        match self.choices() {
            [one, _] if *one == input => Ok(first),
            [_, two] if *two == input => Ok(second),
            _ => Err(self.no_choice(input)),
        }
    }

    fn no_choice(self, input: &str) -> SettingError {
        SettingError::Choice {
            what: self.label(),
            input: cleaned(input),
            choices: self.choices(),
        }
    }

    /// The division that goes with the unit; the present one if it does.
    fn units(self, now: Division, input: &str) -> Result<Division, SettingError> {
        let unit = self.choose(input, Unit::Inch, Unit::Millimetre)?;
        Ok(if now.unit() == unit {
            now
        } else {
            match unit {
                Unit::Inch => Division::SixteenthInch,
                Unit::Millimetre => Division::Millimetre,
            }
        })
    }

    fn division(self, unit: Unit, input: &str) -> Result<Division, SettingError> {
        let division = Division::ALL
            .into_iter()
            .find(|division| division.word() == input)
            .ok_or_else(|| self.no_choice(input))?;
        if division.unit() == unit {
            Ok(division)
        } else {
            Err(SettingError::OtherUnit { division, unit })
        }
    }
}

/// A day's work has no longer one.
const LONGEST_PAUSE: u32 = 480;

fn minutes(input: &str) -> Result<Minutes, SettingError> {
    let number = input.trim_end_matches("min").trim_end();
    number
        .parse()
        .ok()
        .filter(|minutes| (1..=LONGEST_PAUSE).contains(minutes))
        .map(Minutes)
        .ok_or_else(|| SettingError::Minutes(cleaned(input)))
}

fn per_cent(input: &str) -> Result<SparePerCent, SettingError> {
    let number = input.trim_end_matches('%').trim_end();
    number
        .parse()
        .ok()
        .and_then(SparePerCent::new)
        .ok_or_else(|| SettingError::PerCent(cleaned(input)))
}

fn kind_mut(raw: &mut RawSettings, kind: EdgeKind) -> &mut KindSettings {
    match kind {
        EdgeKind::Hip => &mut raw.hip,
        EdgeKind::Valley => &mut raw.valley,
        EdgeKind::Rake => &mut raw.rake,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_setting_reads_back_what_it_prints() {
        let settings = Settings::default();
        for setting in Setting::ALL {
            let text = setting.text(&settings);
            if text.is_empty() {
                continue;
            }
            assert_eq!(setting.set(&settings, &text), Ok(settings), "{setting:?}");
        }
    }

    #[test]
    fn every_choice_can_be_chosen() {
        for setting in Setting::ALL {
            if setting == Setting::Division {
                continue;
            }
            for choice in setting.choices() {
                let settings = setting.set(&Settings::default(), choice);
                assert_eq!(settings.map(|s| setting.text(&s)).as_deref(), Ok(*choice));
            }
        }
    }

    #[test]
    fn options_and_labels_are_unique() {
        for (at, one) in Setting::ALL.iter().enumerate() {
            for other in Setting::ALL.iter().skip(at + 1) {
                assert_ne!(one.option(), other.option());
                assert_ne!(one.label(), other.label());
            }
        }
    }

    #[track_caller]
    fn refuse(setting: Setting, input: &str, expected: &str) {
        let error = setting.set(&Settings::default(), input).map(|_| ());
        assert_eq!(error.map_err(|e| e.to_string()), Err(expected.to_owned()));
    }

    #[test]
    fn a_bad_setting_is_quoted_with_what_was_wanted() {
        refuse(
            Setting::PanelWidth,
            "4.8",
            "panel width of 4.8 in is out of range, expected 200 mm to 5000 mm",
        );
        refuse(
            Setting::SideLap,
            "25",
            "side lap of 25 in is out of range, expected 0 in to 24 in",
        );
        refuse(
            Setting::Blade,
            "middle",
            "blade end of the table: \"middle\" is not one of the choices, expected right or left",
        );
        refuse(
            Setting::Division,
            "0.5",
            "division: \"0.5\" does not go with units in, expected 1/8, 1/16 or 1/32",
        );
        refuse(
            Setting::Exposure,
            "abc",
            "exposure: \"abc\" is not a length, expected one such as 13 5/8, 13.625 or 346 mm",
        );
    }

    #[test]
    fn choosing_the_other_unit_takes_its_usual_division() {
        let mm = Setting::Units.set(&Settings::default(), "mm");
        let mm = mm.map(|s| (s.division, s.tolerance));
        assert_eq!(mm, Ok((Division::Millimetre, Length::from_mm(10))));
    }
}
