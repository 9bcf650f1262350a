//! What stands in one setting, and setting it to what was written.

use super::{
    checked::Settings,
    error::SettingError,
    minutes::Minutes,
    raw::{Allowance, RawSettings},
    said::{ALONG, SQUARE},
    setting::{Form, Setting},
    spare_per_cent::SparePerCent,
};
use crate::domain::measure::cleaned;
use crate::domain::tape::{Division, Unit, exact, parse_positive};

const UNITS: &[&str] = &["in", "mm"];
const DIVISIONS: &[&str] = &["1/8", "1/16", "1/32", "1", "0.5"];

impl Setting {
    /// What may be written where the setting is a choice; empty for a length.
    pub fn choices(self) -> Vec<&'static str> {
        match self.row().form {
            Form::Units => UNITS.to_vec(),
            Form::Division => DIVISIONS.to_vec(),
            Form::Choice { words, .. } => words.to_vec(),
            Form::Length(_) | Form::PerCent | Form::Minutes => Vec::new(),
        }
    }

    /// The word that stands for "no length of its own", where there is one.
    pub const fn word_for_none(self) -> Option<&'static str> {
        match self.row().form {
            Form::Length(length) => match length.none {
                Some((word, _)) => Some(word),
                None => None,
            },
            _ => None,
        }
    }

    /// Of the two ways to give a leg the one in use; any other setting is itself.
    pub fn in_use(self, settings: &RawSettings) -> Self {
        match self {
            Self::Along(kind) | Self::Standing(kind) => match settings.kind(kind).allowance {
                Allowance::Along(_) => Self::Along(kind),
                Allowance::Standing(_) => Self::Standing(kind),
            },
            other => other,
        }
    }

    /// The settings after the choice that stands: the next one that goes with
    /// the others, or the leg's figure measured the other way. Nothing where
    /// there is no choice.
    pub fn turned(self, settings: &Settings) -> Option<Settings> {
        if let Self::Along(kind) | Self::Standing(kind) = self {
            let mut raw = **settings;
            raw.kinds[kind].allowance = match raw.kinds[kind].allowance {
                Allowance::Along(length) => Allowance::Standing(length),
                Allowance::Standing(length) => Allowance::Along(length),
            };
            return Settings::checked(raw).ok();
        }
        let choices = self.choices();
        let now = self.text(settings);
        let at = choices.iter().position(|choice| *choice == now)?;
        let mut others = choices.iter().cycle().skip(at + 1).take(choices.len());
        others.find_map(|choice| self.set(settings, choice).ok())
    }

    /// As it stands in `settings`, readable by [`Setting::set`]; empty for the
    /// one of a pair (along, as it stands) that is not in use.
    pub fn text(self, settings: &RawSettings) -> String {
        match self.row().form {
            Form::Units => settings.unit().word().to_owned(),
            Form::Division => settings.division.word().to_owned(),
            Form::Choice { get, .. } => get(settings).to_owned(),
            Form::Length(form) => match (form.get)(settings) {
                Some(length) => exact(length, settings.unit()),
                None => form.none.map_or("", |(word, _)| word).to_owned(),
            },
            Form::PerCent => settings.carry_more.get().to_string(),
            Form::Minutes => settings.pause.0.to_string(),
        }
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
        // What stands on the screen changes nothing, rounded or not.
        if input == self.said(raw) || input == self.said_with_unit(raw) {
            return Ok(());
        }
        match self.row().form {
            Form::Units => self.write_units(raw, input)?,
            Form::Division => raw.division = self.division(raw.unit(), input)?,
            Form::Choice { set, .. } if set(raw, input) => {}
            Form::Choice { .. } => return Err(self.no_choice(input)),
            Form::Length(form)
                if form
                    .none
                    .is_some_and(|(word, said)| [word, said].contains(&input)) =>
            {
                (form.set)(raw, None);
            }
            Form::Length(form) => {
                let (way, text) = self.way(input);
                let length = parse_positive(text, raw.unit())
                    .map_err(|error| SettingError::Length(self.label(), error))?;
                match way.row().form {
                    Form::Length(other) => (other.set)(raw, Some(length)),
                    _ => (form.set)(raw, Some(length)),
                }
            }
            Form::PerCent => raw.carry_more = per_cent(input)?,
            Form::Minutes => raw.pause = minutes(input)?,
        }
        Ok(())
    }

    /// Which way to give a leg `input` says behind its figure, and the figure.
    fn way(self, input: &str) -> (Self, &str) {
        let (Self::Along(kind) | Self::Standing(kind)) = self else {
            return (self, input);
        };
        if let Some(text) = input.strip_suffix(ALONG) {
            (Self::Along(kind), text)
        } else if let Some(text) = input.strip_suffix(SQUARE) {
            (Self::Standing(kind), text)
        } else {
            (self, input)
        }
    }

    fn no_choice(self, input: &str) -> SettingError {
        SettingError::Choice {
            what: self.label(),
            input: cleaned(input),
            choices: self.choices(),
        }
    }

    /// The division stays where it goes with the unit. With another unit every
    /// length that is a new job's in the unit before becomes a new job's in this.
    fn write_units(self, raw: &mut RawSettings, input: &str) -> Result<(), SettingError> {
        let before = raw.unit();
        let unit = match input {
            "in" | "inches" => Unit::Inch,
            "mm" | "millimetres" => Unit::Millimetre,
            _ => return Err(self.no_choice(input)),
        };
        if unit == before {
            return Ok(());
        }
        let [was, usual] = [before, unit].map(RawSettings::usual);
        raw.division = usual.division;
        for setting in Self::ALL {
            if let Form::Length(form) = setting.row().form
                && let (Some(was), Some(usual)) = ((form.get)(&was), (form.get)(&usual))
                && (form.get)(raw) == Some(was)
            {
                (form.set)(raw, Some(usual));
            }
        }
        Ok(())
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

fn minutes(input: &str) -> Result<Minutes, SettingError> {
    let number = input.trim_end_matches("min").trim_end();
    number
        .parse()
        .ok()
        .filter(|minutes| (1..=Minutes::LONGEST_PAUSE).contains(minutes))
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::measure::Length;

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
                assert_eq!(settings.map(|s| setting.text(&s)).as_deref(), Ok(choice));
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
            "panel width of 4.8 in is out of range, expected 7 7/8 in to 196 13/16 in",
        );
        refuse(
            Setting::SideLap,
            "25",
            "side lap of 25 in is out of range, expected 0 in to 24 in",
        );
        refuse(
            Setting::Blade,
            "middle",
            "the blade's end of the table: \"middle\" is not one of the choices, expected right or left",
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
    fn choosing_the_other_unit_takes_its_usual_division_and_lengths_nobody_set() {
        let inches = Setting::SideLap.set(&Settings::default(), "3").unwrap();
        let mm = Setting::Units.set(&inches, "mm").unwrap();
        assert_eq!(mm.division, Division::Millimetre);
        let lengths = [mm.panel_width, mm.exposure, mm.tolerance];
        assert_eq!(lengths, [1_220, 356, 10].map(Length::from_mm));
        let hip = mm.kind(crate::domain::roof::EdgeKind::Hip);
        assert_eq!(hip.allowance, Allowance::Along(Length::from_mm(50)));
        assert_eq!(hip.clearance, Length::from_mm(6));
        assert_eq!(mm.side_lap, Length::from_inches(3));
        assert_eq!(mm.least_turn_up, Length::from_mm(40));
        assert_eq!(Setting::Units.set(&mm, "in"), Ok(inches));
    }
}
