//! What stands in one setting, and setting it to what was written.

use super::{
    checked::{
        Allowance, BenchOrder, KindSettings, LayingOrder, OneKey, RawSettings, ReadTo, Settings,
        StackTurned, TapeEnd, usual_tolerance,
    },
    error::{LONGEST_PAUSE, SettingError},
    minutes::Minutes,
    setting::Setting,
    spare_per_cent::SparePerCent,
};
use crate::domain::measure::{Hand, Length, cleaned};
use crate::domain::roof::EdgeKind;
use crate::domain::tape::{Division, Unit, exact, parse_positive};

impl Setting {
    /// As it stands in `settings`, readable by [`Setting::set`]; empty for the
    /// one of a pair (along, as it stands) that is not in use.
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
