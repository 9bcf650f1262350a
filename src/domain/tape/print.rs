//! Printing a length: to the nearest division, or exactly.

use super::division::{Division, Unit};
use crate::domain::measure::{Length, NM_PER_INCH, NM_PER_MM};

/// `length` as the tape shows it, without the unit: `13 5/8`, `346`.
///
/// Goes to the nearest division, a tie to the smaller; `+` or `-` follows
/// where the exact figure lies more than a quarter division above or below
/// what is printed.
pub fn print(length: Length, division: Division) -> String {
    let step = division.step().nm();
    let floor = length.nm().div_euclid(step);
    let over = length.nm().rem_euclid(step);
    let (count, off) = if over * 2 > step {
        (floor + 1, over - step)
    } else {
        (floor, over)
    };
    let mark = if off * 4 > step {
        "+"
    } else if off * 4 < -step {
        "-"
    } else {
        ""
    };
    count_of_divisions(count, division) + mark
}

/// [`print()`] with the unit behind it: `13 5/8 in`, `346 mm`.
pub fn print_with_unit(length: Length, division: Division) -> String {
    format!("{} {}", print(length, division), division.unit().word())
}

fn count_of_divisions(count: i64, division: Division) -> String {
    let sign = if count < 0 { "-" } else { "" };
    let count = count.unsigned_abs();
    match division {
        Division::EighthInch => whole_and_fraction(sign, count, 8),
        Division::SixteenthInch => whole_and_fraction(sign, count, 16),
        Division::ThirtySecondInch => whole_and_fraction(sign, count, 32),
        Division::Millimetre => format!("{sign}{count}"),
        Division::HalfMillimetre if count.is_multiple_of(2) => format!("{sign}{}", count / 2),
        Division::HalfMillimetre => format!("{sign}{}.5", count / 2),
    }
}

fn whole_and_fraction(sign: &str, count: u64, under: u64) -> String {
    let whole = count / under;
    let mut over = count % under;
    let mut under = under;
    while over > 0 && over.is_multiple_of(2) {
        over /= 2;
        under /= 2;
    }
    // A sheet prints tens of thousands of them: no format string is read for each.
    let mut text = sign.to_owned();
    if whole > 0 || over == 0 {
        text += &whole.to_string();
    }
    if whole > 0 && over > 0 {
        text.push(' ');
    }
    if over > 0 {
        text.extend([over.to_string().as_str(), "/", under.to_string().as_str()]);
    }
    text
}

/// `length` so that [`crate::domain::tape::parse`] gives it back to the nanometre, with its unit
/// only where that is not `unit`: `13 5/8`, `13.66`, `346.25`.
pub fn exact(length: Length, unit: Unit) -> String {
    let sign = if length < Length::ZERO { "-" } else { "" };
    let nm = length.nm().unsigned_abs();
    let sixty_fourth = Length::from_64ths(1).nm().unsigned_abs();
    match unit {
        Unit::Inch if nm.is_multiple_of(sixty_fourth) => {
            whole_and_fraction(sign, nm / sixty_fourth, 64)
        }
        // One hundred-thousandth of an inch is 254 nm; what is no multiple of
        // that has no exact decimal that short, so it is written in mm.
        Unit::Inch if nm.is_multiple_of(254) => {
            let inches = NM_PER_INCH.unsigned_abs();
            let text = format!("{}.{:05}", nm / inches, (nm % inches) / 254);
            format!("{sign}{}", text.trim_end_matches('0').trim_end_matches('.'))
        }
        Unit::Inch => format!("{sign}{} mm", exact_mm(nm)),
        Unit::Millimetre => format!("{sign}{}", exact_mm(nm)),
    }
}

/// [`exact`] with the unit always behind it.
pub fn exact_with_unit(length: Length, unit: Unit) -> String {
    let text = exact(length, unit);
    if text.ends_with("mm") {
        text
    } else {
        format!("{text} {}", unit.word())
    }
}

fn exact_mm(nm: u64) -> String {
    let mm = NM_PER_MM.unsigned_abs();
    let text = format!("{}.{:06}", nm / mm, nm % mm);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::tape::parse;
    use proptest::prelude::*;

    #[track_caller]
    fn prints(nm: i64, division: Division, expected: &str) {
        assert_eq!(print(Length::from_nm(nm), division), expected);
    }

    #[test]
    fn a_length_prints_to_the_nearest_division() {
        prints(346_075_000, Division::SixteenthInch, "13 5/8");
        prints(346_075_000, Division::EighthInch, "13 5/8");
        prints(15_875_000, Division::ThirtySecondInch, "5/8");
        prints(0, Division::EighthInch, "0");
        prints(304_800_000, Division::SixteenthInch, "12");
        prints(346_000_000, Division::Millimetre, "346");
        prints(346_500_000, Division::HalfMillimetre, "346.5");
        prints(-12_700_000, Division::SixteenthInch, "-1/2");
    }

    #[test]
    fn a_tie_goes_to_the_smaller_and_says_so() {
        // 1/32 in lies in the midst between 0 and 1/16.
        prints(793_750, Division::SixteenthInch, "0+");
        prints(793_751, Division::SixteenthInch, "1/16-");
        prints(346_500_000, Division::Millimetre, "346+");
    }

    #[test]
    fn a_sign_follows_only_beyond_a_quarter_division() {
        prints(346_250_000, Division::Millimetre, "346");
        prints(346_250_001, Division::Millimetre, "346+");
        prints(345_750_000, Division::Millimetre, "346");
        prints(345_749_999, Division::Millimetre, "346-");
    }

    fn any_division() -> impl Strategy<Value = Division> {
        proptest::sample::select(Division::ALL.to_vec())
    }

    proptest! {
        #[test]
        fn prop_what_lies_on_a_division_reads_back_as_printed(
            division in any_division(), count in -31_000_i64..=31_000
        ) {
            let length = division.step().times(count);
            prop_assert_eq!(parse(&print(length, division), division.unit()), Ok(length));
        }

        #[test]
        fn prop_exact_text_reads_back_to_the_nanometre(
            nm in -100_000_000_000_i64..=100_000_000_000, inch in any::<bool>()
        ) {
            let unit = if inch { Unit::Inch } else { Unit::Millimetre };
            let length = Length::from_nm(nm);
            prop_assert_eq!(parse(&exact(length, unit), unit), Ok(length));
        }

        #[test]
        fn prop_printing_is_never_more_than_half_a_division_off(
            division in any_division(), nm in 0_i64..=100_000_000_000
        ) {
            let text = print(Length::from_nm(nm), division);
            let read = parse(text.trim_end_matches(['+', '-']), division.unit()).map(Length::nm);
            let off = nm - read.unwrap_or(i64::MAX / 2);
            let step = division.step().nm();
            prop_assert!(2 * off.abs() <= step);
            prop_assert!(2 * off != -step, "a tie goes to the smaller");
            prop_assert_eq!(text.ends_with('+'), 4 * off > step);
            prop_assert_eq!(text.ends_with('-'), 4 * off < -step);
        }
    }
}
