//! How steep a roof plane is.
//!
//! A [`Slope`] keeps what was written, a rise in 12, degrees or per cent, in
//! whole hundred-thousandths; angles are worked out from it in `f64`. What the
//! slopes make of a hip is in [`crate::domain::roof`].

use super::angle_number::{AngleError, ONE, degrees_cut_off, of_parts, parse_parts, text_of};
use crate::domain::tape::plain;
use std::fmt;

/// How a slope was written.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum SlopeForm {
    /// So much rise in a run of 12.
    RiseIn12,
    /// Degrees from level.
    Degrees,
    /// Rise in a run of 100.
    PerCent,
}

/// How steep a roof plane is: above level and under 85 degrees.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Slope {
    form: SlopeForm,
    /// Hundred-thousandths of what `form` says; 1/32 is held exactly.
    parts: i64,
}

/// No roof plane that panels are laid on is this steep; the formulas lose
/// their sense toward the vertical.
const STEEPEST_DEG: f64 = 85.0;

const SHAPE: &str = "is not a slope, expected one such as 6, 6 in 12, 26.57 deg or 50 %";
const NOTHING: &str = "nothing was typed, expected a slope such as 6, 6 in 12, 26.57 deg or 50 %";
const RANGE: &str = "is no roof's slope, expected more than 0 and less than 85 degrees";

impl Slope {
    /// A slope of `parts` hundred-thousandths of what `form` says.
    ///
    /// # Errors
    /// [`AngleError`] where it is level, or 85 degrees and more.
    pub fn new(form: SlopeForm, parts: i64) -> Result<Self, AngleError> {
        let slope = Self { form, parts };
        if parts > 0 && slope.degrees() < STEEPEST_DEG {
            Ok(slope)
        } else {
            Err(AngleError::of(&slope.to_string(), RANGE))
        }
    }

    /// The slope that `input` says: `6`, `4 1/2`, `6/12`, `6 in 12`, `6:12`,
    /// `26.57 deg`, `50 %`; a bare number is a rise in 12.
    ///
    /// # Errors
    /// [`AngleError`] with the input and what was expected.
    pub fn parse(input: &str) -> Result<Self, AngleError> {
        let text = plain(input).trim().to_lowercase().replace(',', ".");
        if text.is_empty() {
            return Err(AngleError::nothing_typed(NOTHING));
        }
        let (form, number) = split_form(&text);
        let parts = parse_parts(number.trim(), form == SlopeForm::RiseIn12)
            .map_err(|trouble| trouble.about(input, SHAPE))?;
        Self::new(form, parts).map_err(|_| AngleError::of(input, RANGE))
    }

    /// How it was written.
    pub const fn form(self) -> SlopeForm {
        self.form
    }

    /// Hundred-thousandths of what the form says.
    pub const fn parts(self) -> i64 {
        self.parts
    }

    /// Rise over run, `tan θ`.
    pub fn tan(self) -> f64 {
        let value = of_parts(self.parts);
        match self.form {
            SlopeForm::RiseIn12 => value / 12.0,
            SlopeForm::Degrees => value.to_radians().tan(),
            SlopeForm::PerCent => value / 100.0,
        }
    }

    /// Degrees from level.
    pub fn degrees(self) -> f64 {
        match self.form {
            SlopeForm::Degrees => of_parts(self.parts),
            SlopeForm::RiseIn12 | SlopeForm::PerCent => self.tan().atan().to_degrees(),
        }
    }

    /// What the model code says of slopes under 3 in 12, for one that is;
    /// a reminder with its edition, never a verdict.
    ///
    /// IRC 2021, R905.4.2: metal roof shingles not below 3 in 12 (25 per cent);
    /// R905.10.2 (1) sets the same for lapped panels without sealant. Read
    /// second-hand; editions and local codes differ.
    pub fn low_slope_reminder(self) -> Option<&'static str> {
        let low = match self.form {
            SlopeForm::RiseIn12 => self.parts < 3 * ONE,
            SlopeForm::PerCent => self.parts < 25 * ONE,
            SlopeForm::Degrees => self.tan() < 0.25,
        };
        low.then_some(LOW_SLOPE)
    }
}

/// What is said of a slope under 3 in 12.
const LOW_SLOPE: &str = "under 3 in 12: a model code (IRC 2021, R905.4.2) sets that as the least \
                         slope for unsealed metal shingles; see the local code and the panel \
                         maker's instructions";

impl fmt::Display for Slope {
    /// As [`Slope::parse`] reads it back: `6 in 12`, `26.57 deg`, `50 %`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = text_of(self.parts);
        match self.form {
            SlopeForm::RiseIn12 => write!(f, "{number} in 12"),
            SlopeForm::Degrees => write!(f, "{number} deg"),
            SlopeForm::PerCent => write!(f, "{number} %"),
        }
    }
}

fn split_form(text: &str) -> (SlopeForm, &str) {
    if let Some(number) = degrees_cut_off(text) {
        return (SlopeForm::Degrees, number);
    }
    if let Some(number) = text.strip_suffix('%') {
        return (SlopeForm::PerCent, number);
    }
    let rise = text
        .strip_suffix("12")
        .map(str::trim_end)
        .and_then(|rest| {
            rest.strip_suffix("in")
                .or_else(|| rest.strip_suffix(['/', ':']))
        })
        .filter(|rest| !rest.trim().is_empty());
    (SlopeForm::RiseIn12, rise.unwrap_or(text))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn check(input: &str, form: SlopeForm, parts: i64) {
        assert_eq!(Slope::parse(input), Ok(Slope { form, parts }), "{input}");
    }

    #[track_caller]
    fn refuse(input: &str, expected: &str) {
        match Slope::parse(input) {
            Ok(slope) => panic!("{input} was read as {slope}"),
            Err(error) => assert_eq!(error.to_string(), expected),
        }
    }

    #[test]
    fn a_slope_is_kept_as_it_was_written() {
        for input in ["6", "6/12", "6 in 12", "6:12", "6 / 12", "6.0", " 6IN12 "] {
            check(input, SlopeForm::RiseIn12, 600_000);
        }
        check("4 1/2", SlopeForm::RiseIn12, 450_000);
        check("4-1/2 in 12", SlopeForm::RiseIn12, 450_000);
        check("4,5/12", SlopeForm::RiseIn12, 450_000);
        check("12", SlopeForm::RiseIn12, 1_200_000);
        check("12/12", SlopeForm::RiseIn12, 1_200_000);
        check("26.57 deg", SlopeForm::Degrees, 2_657_000);
        check("45\u{b0}", SlopeForm::Degrees, 4_500_000);
        check("50 %", SlopeForm::PerCent, 5_000_000);
        check("33,3%", SlopeForm::PerCent, 3_330_000);
    }

    #[test]
    fn what_is_no_slope_is_quoted_with_what_was_wanted() {
        let shape = |s: &str| {
            format!("\"{s}\" is not a slope, expected one such as 6, 6 in 12, 26.57 deg or 50 %")
        };
        refuse(
            "",
            "nothing was typed, expected a slope such as 6, 6 in 12, 26.57 deg or 50 %",
        );
        for input in [
            "steep", "1/2", "6/10", "-6", "6 in", "in 12", "5 5/7", ".", "1e3",
        ] {
            refuse(input, &shape(input));
        }
        refuse(
            "0",
            "\"0\" is no roof's slope, expected more than 0 and less than 85 degrees",
        );
        refuse(
            "85 deg",
            "\"85 deg\" is no roof's slope, expected more than 0 and less than 85 degrees",
        );
        refuse(
            "99999999999999999999",
            "\"99999999999999999999\" is no roof's slope, expected more than 0 and less than 85 degrees",
        );
        refuse(
            "26.565051 deg",
            "\"26.565051 deg\" has more decimals than are kept, expected at most 5",
        );
    }

    #[test]
    fn only_a_slope_under_3_in_12_brings_the_reminder() {
        for low in ["2", "2 15/16", "24.9 %", "14.03 deg"] {
            let words = Slope::parse(low).unwrap().low_slope_reminder();
            assert!(
                words.is_some_and(|words| words.contains("IRC 2021, R905.4.2")),
                "{low}"
            );
        }
        for enough in ["3", "25 %", "14.04 deg", "12"] {
            assert_eq!(
                Slope::parse(enough).unwrap().low_slope_reminder(),
                None,
                "{enough}"
            );
        }
    }

    proptest! {
        #[test]
        fn prop_a_slope_reads_back_as_printed(parts in 1_i64..8_400_000, form in 0..3_usize) {
            let form = [SlopeForm::RiseIn12, SlopeForm::Degrees, SlopeForm::PerCent][form];
            let slope = Slope::new(form, parts).unwrap();
            prop_assert_eq!(Slope::parse(&slope.to_string()), Ok(slope));
            prop_assert!((slope.degrees().to_radians().tan() - slope.tan()).abs() < 1e-9);
        }

        #[test]
        fn prop_any_text_is_read_or_refused(text in "[-0-9 /.,:%indeg]{0,12}") {
            let _ = Slope::parse(&text);
        }
    }
}
