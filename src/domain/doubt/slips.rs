//! What a reading may have been before somebody slipped.
//!
//! Each slip is undone exactly, so a suggestion keeps the tape's own fraction.
//! A slip's size is a fact of the tape (common practice), not of the edge:
//! whether it fits what is seen is weighed in `suspects.rs`.

use super::{cause::Cause, fix::WrittenIn, given::Given};
use crate::domain::measure::{Length, NM_PER_INCH, NM_PER_MM};
use crate::domain::settings::Settings;
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

/// The slips of one size, whatever was read, each with by how much it makes a
/// reading too long. Nobody burns an inch on a metric tape, and ten is ten
/// centimetres or ten millimetres.
pub(super) fn of_fixed_size(unit: Unit) -> Vec<(Cause, Length, Rarity)> {
    use Cause::{FootAdded, FootDropped, InchShort, InchTooMuch, TenOff};
    use Rarity::{Common, Seldom};
    let (inch, mm) = (Length::from_inches, Length::from_mm);
    match unit {
        Unit::Inch => vec![
            (InchTooMuch, inch(1), Common),
            (InchShort, inch(-1), Seldom),
            (FootDropped, inch(-12), Common),
            (FootAdded, inch(12), Common),
            (TenOff, inch(-10), Common),
            (TenOff, inch(10), Common),
        ],
        Unit::Millimetre => vec![
            (TenOff, mm(-100), Common),
            (TenOff, mm(100), Common),
            (TenOff, mm(-10), Common),
            (TenOff, mm(10), Common),
        ],
    }
}

/// Every slip that may have ended in `read`.
pub(super) fn slips(read: Length, given: &Given<'_>) -> Vec<Slip> {
    use Cause::{AdjacentKey, Centimetres, DigitsExchanged, WrongSide};
    use Rarity::{Common, Seldom};
    let unit = given.settings.unit();
    let sized = of_fixed_size(unit).into_iter();
    let mut told: Vec<(Cause, Length, Rarity)> = sized
        .map(|(cause, by, rarity)| (cause, read - by, rarity))
        .collect();
    let (line, by) = given.other_line();
    told.push((line, read - by, Common));
    // A metric tape has a number every hundred millimetres.
    let (whole, mark) = match unit {
        Unit::Inch => (NM_PER_INCH, NM_PER_INCH),
        Unit::Millimetre => (NM_PER_MM, 100 * NM_PER_MM),
    };
    if unit == Unit::Inch {
        told.push((WrongSide, mirrored(read), Common));
    }
    told.push((WrongSide, beyond_mark(read, mark), Seldom));
    let exchanged = exchanged(read, whole).into_iter();
    told.extend(exchanged.map(|to| (DigitsExchanged, to, Common)));
    let adjacent = adjacent_keys(read, whole).into_iter();
    told.extend(adjacent.map(|to| (AdjacentKey, to, Seldom)));
    told.push((
        Centimetres,
        WrittenIn::Centimetres.meant(read, unit),
        Seldom,
    ));
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

/// `length` on the nearest mark of the job's tape, as a reading would be.
pub(super) fn on_a_division(length: Length, settings: &Settings) -> Length {
    let step = settings.division.step();
    let half = step.half();
    let up = length + half;
    up - up.modulo(step)
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

/// The whole units of `read` with one digit as its neighbour on the keys, beside
/// it in the row or above it in the block; the rest stays.
fn adjacent_keys(read: Length, unit: i64) -> Vec<Length> {
    let whole = read.nm() / unit;
    let mut typed = Vec::new();
    let mut place = 1;
    while place <= whole {
        let digit = whole / place % 10;
        let leads = whole / (10 * place) == 0;
        for key in 0..=9_i64 {
            let apart = (digit - key).abs();
            let beside = apart == 1 || apart == 9;
            let above = apart == 3 && digit.min(key) > 0 || apart == 2 && digit.min(key) == 0;
            if (beside || above) && !(leads && key == 0 && place > 1) {
                typed.push(read + Length::from_nm(unit * place * (key - digit)));
            }
        }
        place *= 10;
    }
    typed
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        doubt::Scatter,
        log::{Edge, EdgeId},
        measure::{Hand, Name},
        roof::EdgeKind,
        settings::Setting,
        tape::parse,
    };

    fn of(read: Length, unit: Unit) -> Vec<Slip> {
        let word = match unit {
            Unit::Inch => "in",
            Unit::Millimetre => "mm",
        };
        let settings = Setting::Units.set(&Settings::default(), word).unwrap();
        let name = Name::or("A", "A");
        let edge = Edge::new(EdgeId(1), name, EdgeKind::Hip, Hand::Left);
        let given = Given::of(&edge, &settings, Scatter::USUAL);
        slips(read, &given)
    }

    #[track_caller]
    fn check(read: &str, unit: Unit, cause: Cause, likely: &[&str]) {
        let found: Vec<Length> = of(parse(read, unit).unwrap(), unit)
            .into_iter()
            .filter(|slip| slip.cause == cause)
            .map(|slip| slip.likely)
            .collect();
        let expected: Vec<Length> = likely.iter().map(|l| parse(l, unit).unwrap()).collect();
        assert_eq!(found, expected, "{read}");
    }

    #[test]
    fn an_inch_too_much_comes_off_and_one_too_little_goes_on() {
        let (much, little) = (Cause::InchTooMuch, Cause::InchShort);
        check("12 7/8", Unit::Inch, much, &["11 7/8"]);
        check("12 7/8", Unit::Inch, little, &["13 7/8"]);
        check("7/8", Unit::Inch, much, &[]);
        check("7/8", Unit::Inch, little, &["1 7/8"]);
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
            let likely = of(Length::from_64ths(8), unit).into_iter();
            assert!(
                likely
                    .map(|slip| slip.likely)
                    .all(|likely| likely >= Length::ZERO)
            );
        }
    }
}
