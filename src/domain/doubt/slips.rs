//! What a reading may have been before somebody slipped.
//!
//! Each slip is undone exactly, so a suggestion keeps the tape's own fraction.
//! A slip's size is a fact of the tape (common practice), not of the edge:
//! whether it fits what is seen is weighed in `suspects.rs`.

use super::cause::Cause;
use crate::domain::measure::{Length, NM_PER_INCH, NM_PER_MM};
use crate::domain::tape::Unit;

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
    let mut slips = Vec::with_capacity(12);
    let add = |cause, likely, rarity| {
        if likely >= Length::ZERO && likely != read {
            slips.push(Slip {
                cause,
                likely,
                rarity,
            });
        }
    };
    match unit {
        Unit::Inch => of_inches(read, add),
        Unit::Millimetre => of_millimetres(read, add),
    }
    slips
}

fn of_inches(read: Length, mut add: impl FnMut(Cause, Length, Rarity)) {
    let inches = Length::from_inches;
    add(Cause::InchBurned, read - inches(1), Rarity::Common);
    add(Cause::InchBurned, read + inches(1), Rarity::Seldom);
    add(Cause::FootDropped, read + inches(12), Rarity::Common);
    add(Cause::FootAdded, read - inches(12), Rarity::Common);
    add(Cause::TenOff, read + inches(10), Rarity::Common);
    add(Cause::TenOff, read - inches(10), Rarity::Common);
    add(Cause::WrongSide, mirrored(read), Rarity::Common);
    let beyond = beyond_mark(read, NM_PER_INCH);
    add(Cause::WrongSide, beyond, Rarity::Seldom);
    exchanged(read, NM_PER_INCH, |to| {
        add(Cause::DigitsExchanged, to, Rarity::Common);
    });
}

/// On a metric tape ten is ten centimetres or ten millimetres, nobody burns an
/// inch, and a mark has a number every hundred millimetres.
fn of_millimetres(read: Length, mut add: impl FnMut(Cause, Length, Rarity)) {
    for ten in [Length::from_mm(100), Length::from_mm(10)] {
        add(Cause::TenOff, read + ten, Rarity::Common);
        add(Cause::TenOff, read - ten, Rarity::Common);
    }
    let beyond = beyond_mark(read, 100 * NM_PER_MM);
    add(Cause::WrongSide, beyond, Rarity::Seldom);
    exchanged(read, NM_PER_MM, |to| {
        add(Cause::DigitsExchanged, to, Rarity::Common);
    });
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
    let over = read.modulo(Length::from_nm(every));
    if over + over == Length::from_nm(every) {
        read
    } else if over + over > Length::from_nm(every) {
        read + (Length::from_nm(every) - over) + (Length::from_nm(every) - over)
    } else {
        read - over - over
    }
}

/// The whole units of `read` with two neighbouring digits exchanged; the rest
/// stays. Nobody writes a leading zero, so none arises.
fn exchanged(read: Length, unit: i64, mut each: impl FnMut(Length)) {
    let whole = read.nm() / unit;
    let mut place = 1;
    while place <= whole / 10 {
        let (high, low) = (whole / (10 * place) % 10, whole / place % 10);
        let leads = whole / (100 * place) == 0;
        if high != low && !(leads && low == 0) {
            each(read + Length::from_nm(unit * 9 * place * (low - high)));
        }
        place *= 10;
    }
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
