//! Reading a length that was typed: exact, or refused with what was wanted.
//!
//! Over 400 lines: half of them are its tests, a row a text.

use super::{
    date::{numbers_of_date, tape_fraction},
    division::Unit,
    signs::plain,
    trouble::{TapeError, TapeTrouble},
};
use crate::domain::measure::{Length, NM_PER_INCH, NM_PER_MM, cleaned};
use std::borrow::Cow;

/// The length that `input` says; a bare number is in `unit`.
///
/// Inches: `13 5/8`, `13-5/8`, `13+5/8`, `13.5/8`, `5/8`, `13.625`, `13,625`,
/// `1' 1 5/8"`. With a unit: `346mm`, `34.6 cm`, `1.2 m`, `13 in`, `1 ft`.
/// A minus sign before it makes it negative; the sign is read apart from the
/// whole part, so `-1/2` and `-0 1/2` are both half an inch below zero. Signs
/// that spreadsheets write, such as `13½` and blanks that do not break, are read
/// as the plain ones.
///
/// # Errors
/// [`TapeError`] with the input and what was expected; nothing is guessed and
/// nothing is rounded.
pub fn parse(input: &str, unit: Unit) -> Result<Length, TapeError> {
    read(input, unit).map_err(|reason| TapeError {
        input: cleaned(input),
        reason: known_better(input, reason),
    })
}

/// The same for a length that cannot be below zero.
///
/// # Errors
/// As [`parse`], and for anything below zero.
pub fn parse_positive(input: &str, unit: Unit) -> Result<Length, TapeError> {
    let length = parse(input, unit)?;
    if length < Length::ZERO || input.trim_start().starts_with('-') {
        return Err(TapeError {
            input: cleaned(input),
            reason: TapeTrouble::Negative,
        });
    }
    Ok(length)
}

/// A text of no length's shape may be a date that was one.
fn known_better(input: &str, reason: TapeTrouble) -> TapeTrouble {
    let other_shape = matches!(
        reason,
        TapeTrouble::Shape(_) | TapeTrouble::FractionOfMillimetres
    );
    match numbers_of_date(input).filter(|_| other_shape) {
        Some(numbers) => TapeTrouble::Date {
            of: tape_fraction(numbers),
        },
        None => reason,
    }
}

fn read(input: &str, unit: Unit) -> Result<Length, TapeTrouble> {
    let text = plain(input);
    let text = text.trim();
    if text.is_empty() {
        return Err(TapeTrouble::Empty);
    }
    // Ten thousand rows are read in one go, and few have either.
    let text = if text.contains(|c: char| c == ',' || c.is_ascii_uppercase()) {
        if parts_thousands(text, unit) {
            return Err(TapeTrouble::CommaBeforeThree);
        }
        Cow::Owned(text.to_ascii_lowercase().replace(',', "."))
    } else {
        Cow::Borrowed(text)
    };
    let (negative, body) = match text.strip_prefix('-') {
        Some(rest) => (true, rest.trim_start()),
        None => (false, &*text),
    };
    let magnitude = read_magnitude(body, unit)?;
    if magnitude > Length::LONGEST {
        return Err(TapeTrouble::TooLong);
    }
    Ok(if negative { -magnitude } else { magnitude })
}

/// Whether a comma stands before three digits in millimetres: no tape shows
/// thousandths of one, so most likely thousands were parted.
fn parts_thousands(text: &str, unit: Unit) -> bool {
    let Some((_, after)) = text.split_once(',') else {
        return false;
    };
    let digits = after.chars().take_while(char::is_ascii_digit).count();
    let named = after
        .get(digits..)
        .unwrap_or_default()
        .trim()
        .to_ascii_lowercase();
    digits == 3 && (named == "mm" || named.is_empty() && unit == Unit::Millimetre)
}

fn read_magnitude(body: &str, unit: Unit) -> Result<Length, TapeTrouble> {
    if let Some((feet, rest)) = split_feet(body) {
        return read_feet(feet, rest, unit);
    }
    for (suffix, nm_per_unit) in [
        ("mm", NM_PER_MM),
        ("cm", 10 * NM_PER_MM),
        ("m", 1_000 * NM_PER_MM),
    ] {
        if let Some(number) = body.strip_suffix(suffix) {
            return decimal(number.trim_end(), nm_per_unit, unit);
        }
    }
    for suffix in ["\"", "in"] {
        if let Some(number) = body.strip_suffix(suffix) {
            return inches(number.trim_end(), unit);
        }
    }
    match unit {
        Unit::Inch => inches(body, unit),
        Unit::Millimetre if body.contains('/') => Err(TapeTrouble::FractionOfMillimetres),
        Unit::Millimetre => decimal(body, NM_PER_MM, unit),
    }
}

fn split_feet(body: &str) -> Option<(&str, &str)> {
    body.split_once('\'').or_else(|| body.split_once("ft"))
}

fn read_feet(feet: &str, rest: &str, unit: Unit) -> Result<Length, TapeTrouble> {
    let feet = decimal(feet.trim_end(), 12 * NM_PER_INCH, unit)?;
    let rest = rest.trim_start_matches([' ', '-', '+']);
    let rest = rest
        .strip_suffix('"')
        .or_else(|| rest.strip_suffix("in"))
        .unwrap_or(rest)
        .trim_end();
    if rest.is_empty() {
        return Ok(feet);
    }
    let inches = inches(rest, unit)?;
    if inches >= Length::from_inches(12) {
        return Err(TapeTrouble::InchesBesideFeet);
    }
    Ok(feet + inches)
}

/// Whole inches, decimals of an inch, a fraction, or a whole number and a
/// fraction parted by a blank, `-`, `+` or `.`.
fn inches(text: &str, unit: Unit) -> Result<Length, TapeTrouble> {
    let Some((left, under)) = text.split_once('/') else {
        return decimal(text, NM_PER_INCH, unit);
    };
    let left = left.trim_end();
    let (whole, over) = match left.rfind([' ', '-', '+', '.']) {
        Some(at) => {
            let (whole, over) = left.split_at(at);
            (
                digits(whole.trim_end_matches(' '), unit)?,
                over.get(1..).unwrap_or(""),
            )
        }
        None => (0, left),
    };
    let over = digits(over, unit)?;
    let under = digits(under.trim_start(), unit)?;
    if under == 0 {
        return Err(TapeTrouble::NothingUnder);
    }
    if over >= under {
        return Err(TapeTrouble::FractionTooLarge);
    }
    if ![2, 4, 8, 16, 32, 64].contains(&under) {
        return Err(TapeTrouble::NotATapeFraction);
    }
    Ok(Length::from_inches(whole) + Length::from_64ths(over * (64 / under)))
}

fn digits(text: &str, unit: Unit) -> Result<i64, TapeTrouble> {
    if text.is_empty() || !text.bytes().all(|b| b.is_ascii_digit()) {
        return Err(TapeTrouble::Shape(unit));
    }
    // Any number too large for this is beyond 100 m in every unit.
    match text.trim_start_matches('0') {
        "" => Ok(0),
        number if number.len() > 12 => Err(TapeTrouble::TooLong),
        number => number.parse().map_err(|_| TapeTrouble::Shape(unit)),
    }
}

/// A decimal number of units, each `nm_per_unit` long, held exactly.
fn decimal(text: &str, nm_per_unit: i64, unit: Unit) -> Result<Length, TapeTrouble> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    if whole.is_empty() && part.is_empty() {
        return Err(TapeTrouble::Shape(unit));
    }
    let number = |text: &str| match text {
        "" => Ok(0),
        text => digits(text, unit),
    };
    let whole = number(whole)?;
    let part = part.trim_end_matches('0');
    let places = u32::try_from(part.len()).unwrap_or(u32::MAX);
    if places > 12 && part.bytes().all(|b| b.is_ascii_digit()) {
        return Err(TapeTrouble::NotExact);
    }
    let part = number(part)?;
    let scaled = i128::from(part) * i128::from(nm_per_unit);
    let under = 10_i128.pow(places.min(12));
    if scaled % under != 0 {
        return Err(TapeTrouble::NotExact);
    }
    let nm = i128::from(whole) * i128::from(nm_per_unit) + scaled / under;
    i64::try_from(nm)
        .map(Length::from_nm)
        .map_err(|_| TapeTrouble::TooLong)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn check(input: &str, unit: Unit, nm: i64) {
        assert_eq!(parse(input, unit), Ok(Length::from_nm(nm)), "{input}");
    }

    #[track_caller]
    fn refuse(input: &str, unit: Unit, expected: &str) {
        match parse_positive(input, unit) {
            Ok(length) => panic!("{input} was read as {length:?}"),
            Err(error) => assert_eq!(error.to_string(), expected),
        }
    }

    #[test]
    fn every_way_of_writing_thirteen_and_five_eighths_reads_the_same() {
        for input in [
            "13 5/8",
            "13-5/8",
            "13+5/8",
            "13.5/8",
            "13,5/8",
            "13.625",
            "13,625",
            "13.6250000",
            "1' 1 5/8\"",
            "1'1-5/8\"",
            "1ft 1 5/8 in",
            "  13  5/8 ",
            "13 5/8\"",
            "13 5 / 8 in",
            "346.075mm",
            "34.6075 cm",
            "0.346075 m",
        ] {
            check(input, Unit::Inch, 346_075_000);
        }
    }

    #[test]
    fn lengths_read_in_the_unit_they_name_or_the_jobs() {
        check("5/8", Unit::Inch, 15_875_000);
        check("0", Unit::Inch, 0);
        check(".5", Unit::Inch, 12_700_000);
        check("5.", Unit::Inch, 127_000_000);
        check("346", Unit::Millimetre, 346_000_000);
        check("346,5", Unit::Millimetre, 346_500_000);
        check("1,625", Unit::Inch, 41_275_000);
        check("1,219 m", Unit::Millimetre, 1_219_000_000);
        check("13 5/8 in", Unit::Millimetre, 346_075_000);
        check("1'", Unit::Millimetre, 304_800_000);
        check("0.3333", Unit::Inch, 8_465_820);
    }

    #[test]
    fn a_fraction_of_one_letter_and_blanks_that_do_not_break_read_as_the_plain_ones() {
        for input in [
            "13\u{bd}",
            "13 \u{bd}",
            "13\u{a0}1/2",
            "13\u{202f}1\u{2044}2",
            "13.5\u{a0}",
            "\u{a0}13,5",
            "1\u{2032} 1\u{bd}\u{2033}",
            "1\u{2019}1\u{bd}\u{201d}",
            "13-\u{bd}",
        ] {
            check(input, Unit::Inch, 342_900_000);
        }
        for (input, nm) in [
            ("\u{bc}", 6_350_000),
            ("\u{215d}", 15_875_000),
            ("-\u{be}", -19_050_000),
        ] {
            check(input, Unit::Inch, nm);
        }
        check("346,5\u{202f}mm", Unit::Inch, 346_500_000);
        refuse(
            "13\u{2153}",
            Unit::Inch,
            "\"13\u{2153}\" has a fraction no tape shows exactly, expected halves, 4ths, 8ths, 16ths, 32nds or 64ths",
        );
    }

    #[test]
    fn a_date_that_a_spreadsheet_made_is_named_with_what_was_typed() {
        let made = |date: &str, of: &str| {
            format!(
                "\"{date}\": the spreadsheet made a date of {of}, expected it as text: set its cells to text and write it again"
            )
        };
        for unit in [Unit::Inch, Unit::Millimetre] {
            for date in ["5-Aug", "08-May", "5. Aug", "2026-05-08", "5/8/2026"] {
                refuse(date, unit, &made(date, "5/8"));
            }
            refuse("May-32", unit, &made("May-32", "5/32"));
            refuse("5-Jul", unit, &made("5-Jul", "what was typed"));
        }
    }

    #[test]
    fn the_sign_is_read_apart_from_the_whole_part() {
        check("-1/2", Unit::Inch, -12_700_000);
        check("-0 1/2", Unit::Inch, -12_700_000);
        check("-1 1/2", Unit::Inch, -38_100_000);
        check("- 1-1/2", Unit::Inch, -38_100_000);
    }

    #[test]
    // Over 60 lines: a row a text.
    fn what_is_no_length_is_quoted_with_what_was_wanted() {
        let shape = |s: &str| {
            format!("\"{s}\" is not a length, expected one such as 13 5/8, 13.625 or 346 mm")
        };
        refuse(
            "",
            Unit::Inch,
            "nothing was typed, expected a length such as 13 5/8",
        );
        refuse(
            "  ",
            Unit::Inch,
            "nothing was typed, expected a length such as 13 5/8",
        );
        refuse(
            "13 5/0",
            Unit::Inch,
            "\"13 5/0\" has a fraction over 0, expected a tape fraction such as 5/8",
        );
        refuse(
            "13 5/7",
            Unit::Inch,
            "\"13 5/7\" has a fraction no tape shows exactly, expected halves, 4ths, 8ths, 16ths, 32nds or 64ths",
        );
        refuse(
            "1/128",
            Unit::Inch,
            "\"1/128\" has a fraction no tape shows exactly, expected halves, 4ths, 8ths, 16ths, 32nds or 64ths",
        );
        refuse(
            "13 9/8",
            Unit::Inch,
            "\"13 9/8\" has a fraction of 1 or more, expected one below 1 such as 5/8",
        );
        refuse("--5", Unit::Inch, &shape("--5"));
        refuse("1e5", Unit::Inch, &shape("1e5"));
        refuse("nan", Unit::Inch, &shape("nan"));
        refuse("5..5", Unit::Inch, &shape("5..5"));
        refuse("5/8/2", Unit::Inch, &shape("5/8/2"));
        refuse("13 5", Unit::Inch, &shape("13 5"));
        refuse(".", Unit::Inch, &shape("."));
        refuse(
            "-5",
            Unit::Inch,
            "\"-5\" is below zero, expected zero or more",
        );
        refuse(
            "-0",
            Unit::Inch,
            "\"-0\" is below zero, expected zero or more",
        );
        refuse(
            "101 m",
            Unit::Inch,
            "\"101 m\" is over 100 m, expected at most 100 m",
        );
        refuse(
            "99999999999999999999",
            Unit::Inch,
            "\"99999999999999999999\" is over 100 m, expected at most 100 m",
        );
        refuse(
            "1' 12",
            Unit::Inch,
            "\"1' 12\" has 12 inches or more beside feet, expected fewer than 12",
        );
        refuse(
            "0.333333",
            Unit::Inch,
            "\"0.333333\" has more decimals than can be held exactly, expected at most 5 of an inch or 6 of a millimetre",
        );
        refuse(
            "5/8",
            Unit::Millimetre,
            "\"5/8\" has a fraction but this job reads millimetres, expected 346.5 or 13 5/8 in",
        );
        for thousands in ["1,219", "1,219mm"] {
            refuse(
                thousands,
                Unit::Millimetre,
                &format!("\"{thousands}\" may be thousands or thousandths, expected 1219 or 1.219"),
            );
        }
        refuse(
            "34x",
            Unit::Millimetre,
            "\"34x\" is not a length, expected one such as 346, 346.5 or 13 5/8 in",
        );
    }

    proptest! {
        #[test]
        fn prop_no_text_makes_parsing_fail_in_another_way(text in "\\PC{0,12}") {
            let _ = parse(&text, Unit::Inch);
            let _ = parse(&text, Unit::Millimetre);
        }

        #[test]
        fn prop_tape_like_text_is_read_or_refused(text in "[-0-9 /.,'\"+mcinft]{0,12}") {
            if let Ok(length) = parse(&text, Unit::Inch) {
                prop_assert!(length.abs() <= Length::LONGEST);
            }
        }
    }
}
