//! What stands in one setting as people say it: on the screen, in a sentence.
//!
//! [`Setting::set`] takes the same words. It changes nothing.

use super::{
    raw::{Allowance, RawSettings},
    setting::{Form, Setting},
};
use crate::domain::measure::Length;
use crate::domain::tape::{Division, Unit, exact, exact_with_unit, print, print_with_unit};

const UNITS_SAID: &[&str] = &["inches", "millimetres"];

impl Setting {
    /// [`Setting::word_for_none`] as people say it.
    pub const fn said_for_none(self) -> Option<&'static str> {
        match self.row().form {
            Form::Length(length) => match length.none {
                Some((_, said)) => Some(said),
                None => None,
            },
            _ => None,
        }
    }

    /// [`Setting::choices`] as people say them, in the same order.
    pub fn said_choices(self) -> Vec<&'static str> {
        match self.row().form {
            Form::Units => UNITS_SAID.to_vec(),
            Form::Choice { said, .. } => said.to_vec(),
            _ => self.choices(),
        }
    }

    /// What stands in `settings` as people say it, and as it may be typed: the
    /// bare figure where the unit is said beside it. The same for both ways to
    /// give a leg, as only one of them is in use.
    pub fn said(self, settings: &RawSettings) -> String {
        self.in_words(settings, |length| figure(length, settings.division))
    }

    /// [`Setting::said`] where it stands alone, with its unit.
    pub fn said_with_unit(self, settings: &RawSettings) -> String {
        let unit = settings.unit();
        let text = self.in_words(settings, |length| {
            figure_with_unit(length, settings.division)
        });
        match self.row().form {
            Form::Division => format!("{text} {}", unit.word()),
            Form::PerCent => format!("{text} %"),
            Form::Minutes => format!("{text} min"),
            _ => text,
        }
    }

    fn in_words(self, settings: &RawSettings, figure: impl Fn(Length) -> String) -> String {
        let text = self.text(settings);
        let choices = self.choices();
        let choice = choices.iter().position(|choice| *choice == text);
        if let Some(said) = choice.and_then(|at| self.said_choices().get(at).copied()) {
            return said.to_owned();
        }
        if let Self::Along(kind) | Self::Standing(kind) = self {
            return match settings.kind(kind).allowance {
                Allowance::Along(length) => format!("{}{ALONG}", figure(length)),
                Allowance::Standing(length) => format!("{}{SQUARE}", figure(length)),
            };
        }
        match self.row().form {
            Form::Length(form) => match ((form.get)(settings), form.none) {
                (Some(length), _) => figure(length),
                (None, none) => none.map_or("", |(_, said)| said).to_owned(),
            },
            _ => text,
        }
    }
}

/// Behind a leg's figure: which way it is measured.
pub(super) const ALONG: &str = " along";
pub(super) const SQUARE: &str = " square";

/// A figure of a setting, without the job's unit: in an inch job in inches, and
/// beside them exactly what it was given as where inches only come near it.
fn figure(length: Length, division: Division) -> String {
    let text = exact(length, division.unit());
    match text.ends_with("mm") {
        true => format!("{} ({text})", print(length, division)),
        false => text,
    }
}

/// [`figure`] with the unit behind it.
fn figure_with_unit(length: Length, division: Division) -> String {
    let text = exact_with_unit(length, division.unit());
    match text.ends_with("mm") && division.unit() == Unit::Inch {
        true => format!("{} ({text})", print_with_unit(length, division)),
        false => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{roof::EdgeKind, settings::Settings};

    #[test]
    fn what_stands_on_the_screen_may_be_typed() {
        let mm = Setting::Units.set(&Settings::default(), "mm").unwrap();
        for settings in [Settings::default(), mm] {
            for setting in Setting::ALL {
                for text in [setting.said(&settings), setting.said_with_unit(&settings)] {
                    assert_eq!(
                        setting.set(&settings, &text),
                        Ok(settings),
                        "{setting:?} {text}"
                    );
                }
                let said = setting.said_choices();
                assert_eq!(said.len(), setting.choices().len());
                for (said, word) in said.into_iter().zip(setting.choices()) {
                    assert_eq!(setting.set(&settings, said), setting.set(&settings, word));
                }
                if let Some((said, word)) = setting.said_for_none().zip(setting.word_for_none()) {
                    assert_eq!(setting.set(&settings, said), setting.set(&settings, word));
                }
            }
        }
    }

    #[test]
    fn a_leg_says_behind_its_figure_how_it_is_measured() {
        let [along, square] = [
            Setting::Along(EdgeKind::Hip),
            Setting::Standing(EdgeKind::Hip),
        ];
        let settings = Settings::default();
        let now = square.set(&settings, "1 1/2 square").unwrap();
        assert_eq!(Ok(now), along.set(&settings, "1 1/2 square"));
        assert_eq!([along.said(&now), square.said(&now)], ["1 1/2 square"; 2]);
        assert_eq!(along.in_use(&now), square);
        assert_eq!(along.said(&along.turned(&now).unwrap()), "1 1/2 along");
        assert_eq!(along.text(&along.set(&now, "1 3/4").unwrap()), "1 3/4");
    }

    #[test]
    fn an_inch_job_shows_inches_and_what_was_given_beside_them() {
        let settings = Settings::default();
        assert_eq!(Setting::LeastTurnUp.said(&settings), "1 9/16 (40 mm)");
        assert_eq!(
            Setting::LeastTurnUp.said_with_unit(&settings),
            "1 9/16 in (40 mm)"
        );
    }
}
