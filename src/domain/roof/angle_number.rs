//! Numbers of slopes and angles, kept in whole hundred-thousandths: reading,
//! printing. What they mean is the slope's and the corner's.

use crate::domain::measure::cleaned;
use std::fmt;

/// Hundred-thousandths in one.
pub(super) const ONE: i64 = 100_000;

/// Why a text is no slope or corner, in words that quote it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct AngleError {
    /// What was typed; none where nothing was.
    input: Option<String>,
    /// What it is not, and what was expected.
    why: &'static str,
}

impl AngleError {
    pub(super) fn of(input: &str, why: &'static str) -> Self {
        let input = Some(cleaned(input));
        Self { input, why }
    }

    pub(super) const fn nothing_typed(why: &'static str) -> Self {
        Self { input: None, why }
    }
}

impl fmt::Display for AngleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.input {
            Some(input) => write!(f, "\"{input}\" {}", self.why),
            None => f.write_str(self.why),
        }
    }
}

impl std::error::Error for AngleError {}

/// Why a text is not read as a number: it is none, or it is finer than is kept.
pub(super) enum NumberTrouble {
    Shape,
    NotExact,
}

impl NumberTrouble {
    /// The error for `input`, which should have been a `shape`.
    pub(super) fn about(self, input: &str, shape: &'static str) -> AngleError {
        let why = match self {
            Self::Shape => shape,
            Self::NotExact => "has more decimals than are kept, expected at most 5",
        };
        AngleError::of(input, why)
    }
}

/// What stands before the word or sign for degrees, where one does.
pub(super) fn degrees_cut_off(text: &str) -> Option<&str> {
    ["degrees", "deg", "\u{b0}"]
        .iter()
        .find_map(|unit| text.strip_suffix(unit))
}

/// A number in hundred-thousandths: `6`, `26.57`, and with `fractions` `4 1/2`.
pub(super) fn parse_parts(text: &str, fractions: bool) -> Result<i64, NumberTrouble> {
    match text.rsplit_once([' ', '-', '+']) {
        Some((whole, fraction)) if fractions && fraction.contains('/') => {
            Ok(decimal_parts(whole.trim_end())? + fraction_parts(fraction)?)
        }
        _ => decimal_parts(text),
    }
}

fn decimal_parts(text: &str) -> Result<i64, NumberTrouble> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    if (whole.is_empty() && part.is_empty()) || !digits(whole) || !digits(part) {
        return Err(NumberTrouble::Shape);
    }
    let part = part.trim_end_matches('0');
    if part.len() > 5 {
        return Err(NumberTrouble::NotExact);
    }
    // Nine digits are beyond every range there is.
    let whole = whole.trim_start_matches('0');
    if whole.len() > 9 {
        return Ok(i64::MAX / 2);
    }
    format!("{whole}{part:0<5}")
        .parse()
        .map_err(|_| NumberTrouble::Shape)
}

fn fraction_parts(text: &str) -> Result<i64, NumberTrouble> {
    let (over, under) = text.split_once('/').ok_or(NumberTrouble::Shape)?;
    let over: i64 = over.trim().parse().map_err(|_| NumberTrouble::Shape)?;
    let under: i64 = under.trim().parse().map_err(|_| NumberTrouble::Shape)?;
    if ![2, 4, 8, 16, 32].contains(&under) || !(0..under).contains(&over) {
        return Err(NumberTrouble::Shape);
    }
    Ok(over * (ONE / under))
}

/// In ones.
pub(super) fn of_parts(parts: i64) -> f64 {
    #[expect(
        clippy::cast_precision_loss,
        reason = "a checked slope or angle is far below 2^53 parts"
    )]
    let parts = parts as f64;
    parts / 1e5
}

const PARTS: u64 = ONE.unsigned_abs();

/// In ones, as short as it can be written: `26.57`.
pub(super) fn text_of(parts: i64) -> String {
    let sign = if parts < 0 { "-" } else { "" };
    let (whole, part) = (parts.unsigned_abs() / PARTS, parts.unsigned_abs() % PARTS);
    let text = format!("{sign}{whole}.{part:05}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_below_zero_keeps_its_sign() {
        assert_eq!(text_of(-50_000), "-0.5");
        assert_eq!(text_of(-150_000), "-1.5");
        assert_eq!(text_of(2_657_000), "26.57");
        assert_eq!(text_of(0), "0");
    }
}
