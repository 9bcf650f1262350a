//! What a reading may have been before somebody slipped.
//!
//! Each slip is undone exactly, so a suggestion keeps the tape's own fraction.
//! A slip's size is a fact of the tape (common practice), not of the edge:
//! whether it fits what is seen is weighed in `suspects.rs`.

use super::cause::Cause;
use crate::domain::measure::{Length, NM_PER_INCH, NM_PER_MM};
use crate::domain::tape::Unit;
use std::cmp::Ordering;

/// A slip that would have turned `likely` into what was read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Slip {
    pub(super) cause: Cause,
    pub(super) likely: Length,
    pub(super) rarity: Rarity,
}

/// How seldom a slip happens beside the others.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Rarity {
    Common,
    /// The same slip the other way round: taken off what was never put on.
    Seldom,
}

/// Every slip that may have ended in `read`.
pub(super) fn slips(read: Length, unit: Unit) -> Vec<Slip> {
    use Cause::{DigitsExchanged, FootAdded, FootDropped, InchBurned, TenOff, WrongSide};
    use Rarity::{Common, Seldom};
    let inches = Length::from_inches;
    // Nobody burns an inch on a metric tape, ten is ten centimetres or ten
    // millimetres, and a mark has a number every hundred millimetres.
    let (mut told, whole, mark) = match unit {
        Unit::Inch => (
            vec![
                (InchBurned, read - inches(1), Common),
                (InchBurned, read + inches(1), Seldom),
                (FootDropped, read + inches(12), Common),
                (FootAdded, read - inches(12), Common),
                (TenOff, read + inches(10), Common),
                (TenOff, read - inches(10), Common),
                (WrongSide, mirrored(read), Common),
            ],
            NM_PER_INCH,
            NM_PER_INCH,
        ),
        Unit::Millimetre => (
            vec![
                (TenOff, read + Length::from_mm(100), Common),
                (TenOff, read - Length::from_mm(100), Common),
                (TenOff, read + Length::from_mm(10), Common),
                (TenOff, read - Length::from_mm(10), Common),
            ],
            NM_PER_MM,
            100 * NM_PER_MM,
        ),
    };
    told.push((WrongSide, beyond_mark(read, mark), Seldom));
    let exchanged = exchanged(read, whole).into_iter();
    told.extend(exchanged.map(|to| (DigitsExchanged, to, Common)));
    told.retain(|(_, likely, _)| *likely >= Length::ZERO && *likely != read);
    let slip = |(cause, likely, rarity)| Slip {
        cause,
        likely,
        rarity,
    };
    told.into_iter().map(slip).collect()
}

/// The fraction counted from the other end of its inch: 12 1/8 for 12 7/8.
fn mirrored(read: Length) -> Length {
    let over = read.modulo(Length::from_nm(NM_PER_INCH));
    if over == Length::ZERO {
        return read;
    }
    read - over - over + Length::from_nm(NM_PER_INCH)
}

/// As far beyond the nearest whole mark as it lies before it, or the reverse:
/// 13 3/8 for 12 5/8, with a mark every `every` nanometres.
fn beyond_mark(read: Length, every: i64) -> Length {
    let every = Length::from_nm(every);
    let over = read.modulo(every);
    match (over + over).cmp(&every) {
        Ordering::Less => read - over - over,
        Ordering::Equal => read,
        Ordering::Greater => read + (every - over) + (every - over),
    }
}

/// The whole units of `read` with two neighbouring digits exchanged; the rest
/// stays. Nobody writes a leading zero, so none arises.
fn exchanged(read: Length, unit: i64) -> Vec<Length> {
    let whole = read.nm() / unit;
    let mut exchanged = Vec::new();
    let mut place = 1;
    while place <= whole / 10 {
        let (high, low) = (whole / (10 * place) % 10, whole / place % 10);
        let leads = whole / (100 * place) == 0;
        if high != low && !(leads && low == 0) {
            exchanged.push(read + Length::from_nm(unit * 9 * place * (low - high)));
        }
        place *= 10;
    }
    exchanged
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::tape::parse;

    #[track_caller]
    fn check(read: &str, unit: Unit, cause: Cause, likely: &[&str]) {
        let found: Vec<Length> = slips(parse(read, unit).unwrap(), unit)
            .into_iter()
            .filter(|slip| slip.cause == cause)
            .map(|slip| slip.likely)
            .collect();
        let expected: Vec<Length> = likely.iter().map(|l| parse(l, unit).unwrap()).collect();
        assert_eq!(found, expected, "{read}");
    }

    #[test]
    fn an_inch_burned_is_taken_off_first() {
        check(
            "12 7/8",
            Unit::Inch,
            Cause::InchBurned,
            &["11 7/8", "13 7/8"],
        );
        check("7/8", Unit::Inch, Cause::InchBurned, &["1 7/8"]);
    }

    #[test]
    fn digits_are_exchanged_in_the_whole_number_only() {
        check("21 3/8", Unit::Inch, Cause::DigitsExchanged, &["12 3/8"]);
        check("22 3/8", Unit::Inch, Cause::DigitsExchanged, &[]);
        check("20", Unit::Inch, Cause::DigitsExchanged, &[]);
        check(
            "346",
            Unit::Millimetre,
            Cause::DigitsExchanged,
            &["364", "436"],
        );
        check("5 3/8", Unit::Inch, Cause::DigitsExchanged, &[]);
    }

    #[test]
    fn a_fraction_may_be_read_from_either_side_of_the_mark() {
        check(
            "12 1/8",
            Unit::Inch,
            Cause::WrongSide,
            &["12 7/8", "11 7/8"],
        );
        check("12 1/2", Unit::Inch, Cause::WrongSide, &[]);
        check("12", Unit::Inch, Cause::WrongSide, &[]);
        check("420", Unit::Millimetre, Cause::WrongSide, &["380"]);
    }

    #[test]
    fn no_likely_reading_is_below_zero() {
        for unit in [Unit::Inch, Unit::Millimetre] {
            let slips = slips(Length::from_64ths(8), unit);
            assert!(slips.iter().all(|slip| slip.likely >= Length::ZERO));
        }
    }
}
