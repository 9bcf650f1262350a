//! Lengths against the published definitions and charts.

use bendmark::domain::measure::Length;
use bendmark::domain::tape::{Division, Unit, parse, print};

#[track_caller]
fn reads(input: &str, unit: Unit, nm: i64) {
    assert_eq!(parse(input, unit), Ok(Length::from_nm(nm)), "{input}");
}

/// NIST SP 811, Appendix B.8: 1 in = 2.54 E-02 m exactly; NIST Handbook 44,
/// Appendix C: 2.54 centimeters exactly (both read second-hand).
#[test]
fn an_inch_is_exactly_25_4_mm() {
    reads("1", Unit::Inch, 25_400_000);
    assert_eq!(
        parse("1 in", Unit::Millimetre),
        parse("25.4", Unit::Millimetre)
    );
    assert_eq!(parse("1000 in", Unit::Inch), parse("25.4 m", Unit::Inch));
}

/// The agreement of 1 July 1959 on the yard: 0.9144 m, hence a foot of 0.3048 m.
#[test]
fn a_foot_is_exactly_304_8_mm_and_three_are_a_yard() {
    reads("1'", Unit::Inch, 304_800_000);
    assert_eq!(parse("3'", Unit::Inch), parse("0.9144 m", Unit::Inch));
}

/// Decimal-equivalent charts of the 64ths, as published: inches to six places,
/// millimetres to four. The charts round ties either way (1/32 in is 0.79375 mm
/// and printed 0.7937), so the printed figure may be half its last place off.
const CHART: [(&str, &str, f64); 18] = [
    ("1/64", "0.015625", 0.3969),
    ("1/32", "0.03125", 0.7937),
    ("1/16", "0.0625", 1.5875),
    ("1/8", "0.125", 3.1750),
    ("3/16", "0.1875", 4.7625),
    ("1/4", "0.25", 6.3500),
    ("5/16", "0.3125", 7.9375),
    ("3/8", "0.375", 9.5250),
    ("7/16", "0.4375", 11.1125),
    ("1/2", "0.5", 12.7000),
    ("9/16", "0.5625", 14.2875),
    ("5/8", "0.625", 15.8750),
    ("11/16", "0.6875", 17.4625),
    ("3/4", "0.75", 19.0500),
    ("13/16", "0.8125", 20.6375),
    ("7/8", "0.875", 22.2250),
    ("15/16", "0.9375", 23.8125),
    ("1", "1.000", 25.4000),
];

#[test]
fn fractions_agree_with_the_published_chart() {
    for (fraction, decimal, mm) in CHART {
        let length = parse(fraction, Unit::Inch).unwrap();
        assert_eq!(parse(decimal, Unit::Inch), Ok(length), "{fraction}");
        assert!((length.mm() - mm).abs() <= 0.5e-4 + 1e-9, "{fraction}");
    }
}

/// The same charts: 15/32 in is printed 11.9063 in one, 11.9062 in another; the
/// exact figure lies in the midst.
#[test]
fn where_charts_differ_the_exact_figure_lies_between_them() {
    reads("15/32", Unit::Inch, 11_906_250);
}

/// Every 64th is a whole number of nanometres: 25.4 mm / 64 = 0.396875 mm.
#[test]
fn every_64th_up_to_an_inch_is_held_exactly() {
    for n in 1..64 {
        reads(&format!("{n}/64"), Unit::Inch, n * 396_875);
    }
}

/// A worked example of a home workshop's conversion table: 0.400 in is nearest
/// to 26/64 = 13/32 in. It lies 0.00625 in below, less than a quarter of 1/32,
/// so no sign follows.
#[test]
fn four_tenths_of_an_inch_is_nearest_to_13_32() {
    let length = parse("0.400", Unit::Inch).unwrap();
    assert_eq!(print(length, Division::ThirtySecondInch), "13/32");
}
