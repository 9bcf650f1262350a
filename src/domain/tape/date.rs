//! Dates that a spreadsheet makes of what was typed: `5/8` becomes `5-Aug` or
//! `8-May`, as the day stands first or the month, and `5/32` becomes `May-32`.
//!
//! It knows dates as spreadsheets write them; it is asked only of texts that
//! are no length.

/// The two numbers, day or short year and month, of a date; `None` of any other
/// text. Months go by their names or how these begin, in English, German,
/// French, Spanish and Italian (from memory).
pub fn numbers_of_date(text: &str) -> Option<[u8; 2]> {
    let text = without_time(text.trim()).to_lowercase();
    let parts: Vec<&str> = text
        .split(['-', '/', '.', ',', ' '])
        .filter(|part| !part.is_empty())
        .collect();
    match *parts.as_slice() {
        [one, two] => named(one, two).or_else(|| named(two, one)),
        [year, one, two] if year.len() == 4 => {
            year_in(year)?;
            Some([day_in(one)?, day_in(two)?])
        }
        [one, two, year] if year_in(year).is_some() => {
            let by_name = named(one, two).or_else(|| named(two, one));
            by_name.or_else(|| all_digits(&text, one, two, year))
        }
        _ => None,
    }
}

/// Of `numbers` the fraction that a tape has; only one way round can be one.
pub(super) fn tape_fraction([one, two]: [u8; 2]) -> Option<[u8; 2]> {
    let is = |over: u8, under: u8| over < under && [2, 4, 8, 16, 32, 64].contains(&under);
    match (is(one, two), is(two, one)) {
        (true, _) => Some([one, two]),
        (_, true) => Some([two, one]),
        _ => None,
    }
}

/// A time of the day behind it does not count.
fn without_time(text: &str) -> &str {
    match text.split_once([' ', 'T']) {
        Some((date, time)) if time.contains(':') => date,
        _ => text,
    }
}

/// A number, of a day or a year, and the name of a month.
fn named(number: &str, month: &str) -> Option<[u8; 2]> {
    let month = month_in(month)?;
    let number = match number.len() {
        4 => year_in(number)?,
        _ => digits(number)?,
    };
    Some([number, month])
}

/// Figures alone: two digits of the year are a date only where no inches are
/// written that way.
fn all_digits(text: &str, one: &str, two: &str, year: &str) -> Option<[u8; 2]> {
    let blank = text.contains(' ');
    let sure = year.len() == 4 || (!text.contains('-') && !blank);
    sure.then_some([day_in(one)?, day_in(two)?])
}

/// The last two digits of a year of two or four.
fn year_in(text: &str) -> Option<u8> {
    match text.len() {
        2 => digits(text),
        4 => text
            .strip_prefix("19")
            .or_else(|| text.strip_prefix("20"))
            .and_then(digits),
        _ => None,
    }
}

fn day_in(text: &str) -> Option<u8> {
    digits(text).filter(|day| (1..=31).contains(day))
}

fn digits(text: &str) -> Option<u8> {
    let short = text.len() <= 2 && text.bytes().all(|byte| byte.is_ascii_digit());
    text.parse().ok().filter(|_| short)
}

/// The month whose name begins with `text`, of three letters at least.
fn month_in(text: &str) -> Option<u8> {
    const MONTHS: [&[&str]; 12] = [
        &["january", "januar", "janvier", "enero", "gennaio"],
        &["february", "februar", "février", "fevrier", "febrero"],
        &["march", "märz", "mrz", "mars", "marzo"],
        &["april", "avril", "abril"],
        &["may", "mai", "mayo", "maggio"],
        &["june", "juni", "juin", "giugno"],
        &["july", "juli", "juillet", "julio", "luglio"],
        &["august", "août", "aout", "agosto"],
        &["september", "septembre", "settembre"],
        &["october", "oktober", "octobre", "octubre", "ottobre"],
        &["november"],
        &[
            "december",
            "dezember",
            "décembre",
            "decembre",
            "diciembre",
            "dicembre",
        ],
    ];
    if text.chars().count() < 3 {
        return None;
    }
    let begins = |names: &[&str]| names.iter().any(|name| name.starts_with(text));
    let at = MONTHS.iter().position(|names| begins(names))?;
    u8::try_from(at + 1).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: Option<[u8; 2]>) {
        assert_eq!(
            numbers_of_date(text).and_then(tape_fraction),
            expected,
            "{text}"
        );
    }

    #[test]
    fn a_date_gives_back_the_fraction_it_was_made_of() {
        for text in [
            "5-Aug",
            "05-Aug",
            "8-May",
            "08-May",
            "5. Aug",
            "08. Mai",
            "8 mai",
            "2026-05-08",
            "2026-05-08 00:00:00",
            "2026-05-08T00:00:00",
            "5/8/2026",
            "05/08/26",
            "08.05.2026",
            "5.8.26",
            "May 8, 2026",
            "8-May-26",
        ] {
            check(text, Some([5, 8]));
        }
        check("May-32", Some([5, 32]));
        check("Jul-64", Some([7, 64]));
        check("11/1/1964", None);
        check("16-Nov", Some([11, 16]));
        check("01.02.2026", Some([1, 2]));
    }

    #[test]
    fn what_is_no_date_or_no_fraction_gives_none() {
        for text in [
            "8-Aug",
            "5-Jul",
            "13 5/8",
            "13-5/8",
            "5/8/2",
            "13 5 8",
            "13-5-8",
            "32-5-81",
            "1.219.50",
            "x",
            "",
            "5 in",
            "Mayflower 3",
            "marble 5",
            "40/5/2026",
        ] {
            check(text, None);
        }
        assert_eq!(numbers_of_date("12-Jun"), Some([12, 6]));
    }
}
