//! Worked examples: what stands beside a reading while it is typed, and after.

use crate::worked::{
    CLEAN, REGULAR, beside, check_alone, doubts, hip, inches, none, number, slope, the_one,
    unknown, with,
};
use bendmark::domain::{
    doubt::{
        Bond, Cause, DoubtedReading, EdgeLine, Expected, Fix, expected_reading, expected_readings,
    },
    log::{Edge, End, SetAside},
    measure::Length,
    settings::Settings,
};

#[test]
fn what_was_set_aside_stays_so_until_the_figures_change() {
    let wrong = with(4, "21.625 12.875");
    let doubt = the_one(&wrong, unknown());
    let settings = Settings::default();
    let stands = [SetAside::of(&doubt, &wrong)];
    assert_eq!(check_alone(&wrong, &settings, &stands), []);
    let other = with(4, "21.625 13.875");
    assert_eq!(check_alone(&other, &settings, &stands).len(), 1);
    let swapped = Fix::SwapColumns.taken(&hip(&CLEAN)).unwrap();
    let edge_stands = [SetAside::of(&the_one(&swapped, unknown()), &swapped)];
    assert_eq!(check_alone(&swapped, &settings, &edge_stands), []);
}

#[test]
fn a_doubt_stands_as_soon_as_the_course_is_typed() {
    let roof = slope("6");
    for typed in ["30 18.5", "30 5.5"] {
        assert_eq!(doubts(&hip(&[typed]), roof).len(), 1, "{typed}");
    }
    none(&hip(&["30"]), roof);
    none(&hip(&["30 17.5", "41"]), roof);
}

#[test]
fn the_expected_top_stands_beside_the_field() {
    let settings = Settings::default();
    let top = |edge: &Edge, roof, at| {
        expected_reading(&beside(edge, roof), &settings, number(at), End::Top)
            .map(|l| (l.mm() / 25.4 * 100.0).round() / 100.0)
    };
    assert_eq!(top(&hip(&["30"]), slope("6"), 1), Some(17.48));
    assert_eq!(top(&hip(&["30"]), unknown(), 1), None);
    assert_eq!(top(&with(4, "21.625"), unknown(), 4), Some(11.88));
}

#[test]
fn an_expected_top_does_not_lean_on_a_bottom_that_is_doubted_itself() {
    let settings = Settings::default();
    let (bottom, top) = REGULAR[3].split_once(' ').unwrap();
    let long = format!("{} {top}", bottom.parse::<f64>().unwrap() + 1.0);
    let mut courses = REGULAR;
    courses[3] = &long;
    let edge = hip(&courses);
    let doubt = the_one(&edge, unknown());
    assert_eq!(doubt.reading, DoubtedReading::Bottom);
    // From the top below it and the bond instead.
    let expected = expected_reading(&edge, &settings, number(4), End::Top);
    assert!((expected.unwrap() - inches(top)).abs() <= inches("0.125"));
}

#[test]
fn in_a_regular_bond_the_bottom_is_expected_too() {
    let settings = Settings::default();
    let mut courses = REGULAR;
    courses[6] = "- -";
    let edge = hip(&courses);
    let bottom = expected_reading(&edge, &settings, number(7), End::Bottom);
    assert_eq!(bottom, Some(inches("18")));
    assert_eq!(
        expected_reading(&with(7, "- -"), &settings, number(7), End::Bottom),
        None
    );
}

#[test]
fn from_a_slope_a_bond_and_one_reading_the_rest_is_expected() {
    let settings = Settings::default();
    let edge = beside(&hip(&["- -", "30 -"]), slope("6"));
    let line = EdgeLine::of(&edge, &settings).unwrap();
    let rest = expected_readings(&edge, &settings, number(3), Some(Bond::STRAIGHT));
    let top = inches("30") - line.step;
    let expected = |number, bottom: Length| Expected {
        number,
        bottom: Some(bottom),
        top: Some(bottom - line.step),
    };
    // In a straight bond the top of a course is the bottom of the next one;
    // 17.48 leaves room for a top of 4.96, 42.52 for 30.
    let all = [
        expected(number(1), inches("30") + line.step),
        expected(number(2), inches("30")),
        expected(number(3), top),
    ];
    assert_eq!(rest, all);
    let open = expected_readings(&edge, &settings, number(3), None);
    assert_eq!(open[1], all[1]);
    assert_eq!((open[0].bottom, open[2].top), (None, None));
}

#[test]
fn every_cause_has_the_words_of_the_sheet() {
    let causes = [
        Cause::Swapped,
        Cause::InchTooMuch,
        Cause::InchShort,
        Cause::FootDropped,
        Cause::FootAdded,
        Cause::TenOff,
        Cause::DigitsExchanged,
        Cause::WrongSide,
        Cause::PlacementOff,
        Cause::LeftOutOrTwice,
        Cause::SlopesExchanged,
        Cause::WrongKind,
        Cause::CourseForgotten,
        Cause::PanelEdge,
        Cause::LapLine,
        Cause::CoursesExchanged,
        Cause::AdjacentKey,
        Cause::Centimetres,
        Cause::FromTheRidge,
        Cause::AnotherPanelFits,
        Cause::OtherUnit,
        Cause::Unknown,
    ];
    let words = causes.map(Cause::words);
    let expected = "bottom and top swapped, an inch too much, an inch short, a foot dropped, \
                    a foot added, a wrong ten, digits exchanged, fraction counted backwards, one hold of the tape off, \
                    left out or written twice, slopes exchanged, wrong kind, a course forgotten, \
                    read to the panel's edge, read to the lap line, courses exchanged, adjacent key, \
                    centimetres, written from the ridge down, another panel fits, other unit, \
                    cause not clear";
    assert_eq!(words.join(", "), expected);
}
