//! Worked examples of doubts: the default panel (W 48, lap 2, so C 46, E 14).

use super::expected::{Expected, expected_bottom, expected_readings, expected_top};
use super::joints::Bond;
use super::*;
use crate::domain::course::Course;
use crate::domain::edge::{EdgeId, EdgeKind};
use crate::domain::hand::Hand;
use crate::domain::name::Name;
use crate::domain::setting::Setting;
use crate::domain::slope::{Corner, Slope};
use crate::domain::tape::{Unit, parse};
use proptest::prelude::*;

fn inches(text: &str) -> Length {
    parse(text, Unit::Inch).unwrap()
}

fn number(number: u32) -> CourseNumber {
    CourseNumber::new(number).unwrap()
}

fn read(text: &str) -> Option<Reading> {
    (text != "-").then(|| Reading::new(inches(text)).unwrap())
}

/// An edge from lines of `bottom top [runs-out [height]]`, `-` for not read.
fn edge(kind: EdgeKind, courses: &[&str]) -> Edge {
    let mut edge = Edge::new(EdgeId(1), Name::or("North", "?"), kind, Hand::Left);
    for (line, at) in courses.iter().zip(1..) {
        let mut words = line.split(' ').chain(std::iter::repeat("-"));
        let mut next = || read(words.next().unwrap());
        edge.put(Course {
            number: number(at),
            bottom: next(),
            top: next(),
            runs_out: next(),
            height: next(),
        });
    }
    edge
}

fn hip(courses: &[&str]) -> Edge {
    edge(EdgeKind::Hip, courses)
}

fn unknown() -> RoofLine {
    RoofLine::default()
}

fn slope(text: &str) -> RoofLine {
    RoofLine::even(Slope::parse(text).unwrap())
}

fn doubts(edge: &Edge, roof: RoofLine) -> Vec<Doubt> {
    check(edge, &roof, &Settings::default(), &[])
}

#[track_caller]
fn the_one(edge: &Edge, roof: RoofLine) -> Doubt {
    let doubts = doubts(edge, roof);
    assert_eq!(doubts.len(), 1, "{doubts:#?}");
    doubts.into_iter().next().unwrap()
}

#[track_caller]
fn none(edge: &Edge, roof: RoofLine) {
    assert_eq!(doubts(edge, roof), []);
}

/// A hip that narrows by 9 3/4 a course, with joints of every sort; course 4
/// should read 21 5/8 over 11 7/8.
const CLEAN: [&str; 7] = [
    "34.5 24.75",
    "17.125 7.375",
    "52 42.25",
    "21.625 11.875",
    "45.25 35.5",
    "30.125 20.375",
    "14.75 5",
];

fn with(at: usize, course: &'static str) -> Edge {
    let mut courses = CLEAN;
    courses[at - 1] = course;
    hip(&courses)
}

#[test]
fn a_clean_hip_is_not_doubted() {
    none(&hip(&CLEAN), unknown());
    assert_eq!(
        basis(&hip(&CLEAN), &unknown(), &Settings::default()),
        Basis::Own
    );
}

#[test]
fn an_inch_burned_at_the_top_is_told_with_the_bottom_as_the_other() {
    let doubt = the_one(&with(4, "21.625 12.875"), unknown());
    assert_eq!(doubt.course, Some(number(4)));
    assert_eq!(doubt.reading, DoubtedReading::Top);
    assert_eq!(doubt.off, inches("1"));
    assert_eq!(doubt.likely, inches("11 7/8"));
    assert_eq!(doubt.cause, Cause::InchBurned);
    let other = doubt.others.first().unwrap();
    assert_eq!(other.reading, DoubtedReading::Bottom);
    assert_eq!(other.likely, inches("22 5/8"));
    assert_eq!(other.cause, Cause::InchBurned);
}

#[test]
fn digits_exchanged_are_put_back() {
    let doubt = the_one(&with(4, "12.625 11.875"), unknown());
    assert_eq!(doubt.reading, DoubtedReading::Bottom);
    assert_eq!(doubt.likely, inches("21 5/8"));
    assert_eq!(doubt.cause, Cause::DigitsExchanged);
    assert_eq!(doubt.off, inches("-9"));
}

#[test]
fn a_swapped_course_is_told_for_both_readings() {
    let doubt = the_one(&with(4, "11.875 21.625"), unknown());
    assert_eq!(
        (doubt.reading, doubt.cause),
        (DoubtedReading::Bottom, Cause::Swapped)
    );
    assert_eq!(doubt.likely, inches("21 5/8"));
    let other = doubt.others.first().unwrap();
    assert_eq!(
        (other.reading, other.cause),
        (DoubtedReading::Top, Cause::Swapped)
    );
    assert_eq!(other.likely, inches("11 7/8"));
    let fixed = doubt.fix.taken(&with(4, "11.875 21.625")).unwrap();
    assert_eq!(fixed, hip(&CLEAN));
}

#[test]
fn the_fraction_from_the_wrong_side_of_the_mark_is_told() {
    let doubt = the_one(&with(4, "21.625 11.125"), unknown());
    assert_eq!(
        (doubt.reading, doubt.cause),
        (DoubtedReading::Top, Cause::WrongSide)
    );
    assert_eq!(doubt.likely, inches("11 7/8"));
}

#[test]
fn what_no_slip_explains_is_told_to_a_division() {
    let doubt = the_one(&with(4, "26.375 11.875"), unknown());
    assert_eq!(doubt.cause, Cause::Unknown);
    assert!(doubt.suspects().any(|s| s.likely == inches("21 5/8")));
    assert_eq!(doubt.off, inches("4.75"));
}

#[test]
fn one_placement_off_is_one_doubt_about_the_line() {
    let mut courses = CLEAN;
    courses[3] = "21.625 15.125";
    courses[4] = "48.5 35.5";
    let doubt = the_one(&hip(&courses), unknown());
    assert_eq!(doubt.course, Some(number(4)));
    assert_eq!(
        (doubt.reading, doubt.cause),
        (DoubtedReading::Placement, Cause::PlacementOff)
    );
    assert_eq!(
        (doubt.off, doubt.likely),
        (inches("3.25"), inches("11 7/8"))
    );
    assert!(doubt.touches(number(5)) && !doubt.touches(number(3)));
    assert_eq!(doubt.fix.taken(&hip(&courses)), Some(hip(&CLEAN)));
}

#[test]
fn a_reading_left_out_is_one_doubt_where_it_happened() {
    // The top of course 2 is missing: from there on all stand one place off.
    let courses = [
        "34.5 24.75",
        "17.125 52",
        "42.25 21.625",
        "11.875 45.25",
        "35.5 30.125",
        "20.375 14.75",
        "5",
    ];
    let doubt = the_one(&hip(&courses), unknown());
    assert_eq!(
        (doubt.course, doubt.cause),
        (Some(number(2)), Cause::LeftOutOrTwice)
    );
    let room = Fix::MakeRoom {
        course: number(2),
        end: crate::domain::course::End::Top,
    };
    assert_eq!((doubt.reading, doubt.fix), (DoubtedReading::Top, room));
    assert_eq!(doubt.likely, inches("7 3/8"));
    let fixed = room.taken(&hip(&courses)).unwrap();
    assert_eq!(fixed, with(2, "17.125"));
    none(&fixed, unknown());
}

#[test]
fn a_reading_written_twice_is_struck_out() {
    let courses = [
        "34.5 24.75",
        "17.125 7.375",
        "7.375 52",
        "42.25 21.625",
        "11.875 45.25",
        "35.5 30.125",
        "20.375 14.75",
        "5",
    ];
    let doubt = the_one(&hip(&courses), unknown());
    assert_eq!(
        (doubt.course, doubt.cause),
        (Some(number(3)), Cause::LeftOutOrTwice)
    );
    assert_eq!(
        (doubt.reading, doubt.likely),
        (DoubtedReading::Bottom, inches("52"))
    );
    assert_eq!(doubt.fix.taken(&hip(&courses)), Some(hip(&CLEAN)));
}

/// Joints of 16 in at every course line, 9 3/4 a course: 24 3/4 less 16 is
/// 8 3/4, and so on, a cover of 46 more where the last full panel is another.
const REGULAR: [&str; 7] = [
    "34.5 24.75",
    "54.75 45",
    "29 19.25",
    "49.25 39.5",
    "23.5 13.75",
    "43.75 34",
    "18 8.25",
];

#[test]
fn a_regular_bond_tells_which_reading_is_wrong() {
    none(&hip(&REGULAR), unknown());
    for (at, course, reading) in [
        (4, "50.625 39.5", DoubtedReading::Bottom),
        (4, "49.25 38.125", DoubtedReading::Top),
        (1, "35.875 24.75", DoubtedReading::Bottom),
        (7, "18 6.875", DoubtedReading::Top),
    ] {
        let mut courses = REGULAR;
        courses[at - 1] = course;
        let doubt = the_one(&hip(&courses), unknown());
        assert_eq!(doubt.reading, reading, "{course}");
    }
}

#[test]
fn the_same_slip_in_both_readings_shows_only_in_a_regular_bond() {
    let mut courses = REGULAR;
    courses[3] = "50.25 40.5";
    let both = doubts(&hip(&courses), unknown());
    let told: Vec<_> = both
        .iter()
        .map(|d| (d.reading, d.likely, d.cause))
        .collect();
    let expected = [
        (DoubtedReading::Bottom, inches("49.25"), Cause::InchBurned),
        (DoubtedReading::Top, inches("39.5"), Cause::InchBurned),
    ];
    assert_eq!(told, expected);
    none(&with(4, "22.625 12.875"), unknown());
}

#[test]
fn columns_swapped_are_one_doubt_about_the_edge() {
    let swapped = Fix::SwapColumns.taken(&hip(&CLEAN)).unwrap();
    let doubt = the_one(&swapped, unknown());
    assert_eq!((doubt.course, doubt.reading), (None, DoubtedReading::Edge));
    assert_eq!(doubt.cause, Cause::Swapped);
    assert_eq!((doubt.off, doubt.likely), (inches("-19.5"), inches("9.75")));
    assert_eq!(doubt.others.first().unwrap().cause, Cause::WrongKind);
}

#[test]
fn a_hip_may_widen_in_a_wide_corner() {
    // 6 in 12 beside 12 in 12 at 135 degrees: -0.262 of 14, 3.67 a course.
    let roof = RoofLine {
        slope: Slope::parse("6").ok(),
        other: Slope::parse("12").ok(),
        corner: Corner::parse("135").unwrap(),
    };
    let edge = hip(&[
        "9 12.6875",
        "20 23.6875",
        "5 8.6875",
        "14 17.6875",
        "31 34.6875",
    ]);
    none(&edge, roof);
    assert_eq!(the_one(&edge, slope("6")).reading, DoubtedReading::Edge);
}

#[test]
fn a_slope_that_does_not_fit_is_told_with_the_other_sides() {
    // cos of 12 in 12 times 12/8, of 14: 14.85 a course.
    let edge = hip(&[
        "30 15.125",
        "41 26.125",
        "22 7.125",
        "39 24.125",
        "18 3.125",
    ]);
    let given = |this, other| RoofLine {
        slope: Slope::parse(this).ok(),
        other: Slope::parse(other).ok(),
        corner: Corner::SQUARE,
    };
    none(&edge, given("12", "8"));
    let doubt = the_one(&edge, given("8", "12"));
    assert_eq!(
        (doubt.reading, doubt.cause),
        (DoubtedReading::Edge, Cause::SlopesExchanged)
    );
    assert_eq!(the_one(&edge, slope("8")).cause, Cause::Unknown);
}

#[test]
fn a_valley_widens_and_a_rake_stays() {
    let valley = edge(
        EdgeKind::Valley,
        &["5 17.5", "9 21.5", "14 26.5", "6 18.5", "30 42.5"],
    );
    none(&valley, unknown());
    none(&valley, slope("6"));
    let rake = edge(EdgeKind::Rake, &["20 20", "31 31.0625", "12 12.0625"]);
    none(&rake, unknown());
    assert_eq!(
        the_one(&edge(EdgeKind::Rake, &["20 20", "31 32"]), unknown()).cause,
        Cause::InchBurned
    );
    let as_hip = hip(&["5 17.5", "9 21.5", "14 26.5", "6 18.5", "30 42.5"]);
    let causes: Vec<Cause> = the_one(&as_hip, slope("6"))
        .suspects()
        .map(|s| s.cause)
        .collect();
    assert_eq!(causes, [Cause::Swapped, Cause::WrongKind]);
}

#[test]
fn too_few_courses_are_judged_by_the_roof_alone() {
    // 6 in 12: 14 times 0.8944 is 12.52 a course.
    let edge = hip(&["30 17.5", "41.75 28.25", "22.25 9.75"]);
    let doubt = the_one(&edge, slope("6"));
    assert_eq!((doubt.course, doubt.basis), (Some(number(2)), Basis::Roof));
    assert_eq!(doubt.cause, Cause::InchBurned);
    none(&edge, unknown());
    let settings = Settings::default();
    assert_eq!(basis(&edge, &unknown(), &settings), Basis::Kind);
    let wide = RoofLine {
        corner: Corner::parse("135").unwrap(),
        ..unknown()
    };
    assert_eq!(basis(&edge, &wide, &settings), Basis::Nothing);
}

#[test]
fn too_few_courses_that_agree_with_each_other_are_one_doubt() {
    let edge = hip(&["17.5 30", "28.25 40.75", "9.75 22.25"]);
    for roof in [slope("6"), unknown()] {
        let doubt = the_one(&edge, roof);
        assert_eq!(
            (doubt.reading, doubt.cause),
            (DoubtedReading::Edge, Cause::Swapped)
        );
    }
    let one = hip(&["17.5 30"]);
    assert_eq!(the_one(&one, slope("6")).cause, Cause::Swapped);
    assert_eq!(the_one(&one, unknown()).course, Some(number(1)));
}

#[test]
fn a_short_course_is_judged_over_its_own_height() {
    // 9 3/4 over 14 is 2.786 over 4.
    let mut courses = CLEAN.to_vec();
    courses.push("8.75 5.9375 - 4");
    none(&hip(&courses), unknown());
    courses[7] = "8.75 6.9375 - 4";
    let doubt = the_one(&hip(&courses), unknown());
    assert_eq!(
        (doubt.course, doubt.cause),
        (Some(number(8)), Cause::InchBurned)
    );
}

#[test]
fn a_line_that_runs_out_is_judged_as_far_as_it_was_followed() {
    // 5 in of gap at 9 3/4 over 14: runs out 7.18 up.
    let mut courses = CLEAN.to_vec();
    courses.push("5 - 7.1875");
    none(&hip(&courses), unknown());
    courses[7] = "5 - 9.5";
    let doubt = the_one(&hip(&courses), unknown());
    assert_eq!(
        (doubt.course, doubt.reading),
        (Some(number(8)), DoubtedReading::Bottom)
    );
}

#[test]
fn a_millimetre_job_has_its_own_slips() {
    let settings = Setting::Units.set(&Settings::default(), "mm").unwrap();
    let courses = ["876 mm", "435", "1320", "549", "1149"];
    let mut edge = hip(&[]);
    for (bottom, at) in courses.iter().zip(1..) {
        let bottom = parse(bottom, Unit::Millimetre).unwrap();
        let top = bottom - Length::from_mm(248);
        edge.put(Course {
            bottom: Reading::new(bottom).ok(),
            top: Reading::new(top).ok(),
            ..Course::unread(number(at))
        });
    }
    assert_eq!(check(&edge, &unknown(), &settings, &[]), []);
    // 549 read as 594; and the same with a hundred too many.
    for (wrong, cause) in [(594, Cause::DigitsExchanged), (649, Cause::TenOff)] {
        let mut edge = edge.clone();
        let course = edge.course(number(4)).unwrap();
        edge.put(Course {
            bottom: Reading::new(Length::from_mm(wrong)).ok(),
            ..*course
        });
        let doubts = check(&edge, &unknown(), &settings, &[]);
        assert_eq!(doubts.len(), 1);
        assert_eq!(
            (doubts[0].likely, doubts[0].cause),
            (Length::from_mm(549), cause)
        );
    }
}

#[test]
fn what_was_set_aside_stays_so_until_the_figures_change() {
    let wrong = with(4, "21.625 12.875");
    let doubt = the_one(&wrong, unknown());
    let settings = Settings::default();
    let stands = [SetAside::of(&doubt, &wrong)];
    assert_eq!(check(&wrong, &unknown(), &settings, &stands), []);
    let other = with(4, "21.625 13.875");
    assert_eq!(check(&other, &unknown(), &settings, &stands).len(), 1);
    let swapped = Fix::SwapColumns.taken(&hip(&CLEAN)).unwrap();
    let edge_stands = [SetAside::of(&the_one(&swapped, unknown()), &swapped)];
    assert_eq!(check(&swapped, &unknown(), &settings, &edge_stands), []);
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
        expected_top(edge, &roof, &settings, number(at))
            .map(|l| (l.mm() / 25.4 * 100.0).round() / 100.0)
    };
    assert_eq!(top(&hip(&["30"]), slope("6"), 1), Some(17.48));
    assert_eq!(top(&hip(&["30"]), unknown(), 1), None);
    assert_eq!(top(&with(4, "21.625"), unknown(), 4), Some(11.88));
}

#[test]
fn in_a_regular_bond_the_bottom_is_expected_too() {
    let settings = Settings::default();
    let mut courses = REGULAR;
    courses[6] = "- -";
    let edge = hip(&courses);
    let bottom = expected_bottom(&edge, &unknown(), &settings, number(7));
    assert_eq!(bottom, Some(inches("18")));
    assert_eq!(
        expected_bottom(&with(7, "- -"), &unknown(), &settings, number(7)),
        None
    );
}

#[test]
fn from_a_slope_a_bond_and_one_reading_the_rest_is_expected() {
    let settings = Settings::default();
    let edge = hip(&["- -", "30 -"]);
    let line = Line::of(&edge, &slope("6"), &settings).unwrap();
    let rest = expected_readings(
        &edge,
        &slope("6"),
        &settings,
        number(3),
        Some(Bond::STRAIGHT),
    );
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
    let open = expected_readings(&edge, &slope("6"), &settings, number(3), None);
    assert_eq!(open[1], all[1]);
    assert_eq!((open[0].bottom, open[2].top), (None, None));
}

#[test]
fn every_cause_has_the_words_of_the_sheet() {
    let words: Vec<&str> = Cause::ALL.iter().map(|cause| cause.words()).collect();
    let expected = "bottom and top swapped, an inch burned, a foot dropped, a foot added, \
                    ten off, digits exchanged, wrong side of the mark, placement off, \
                    left out or written twice, slopes exchanged, wrong kind, unknown";
    assert_eq!(words.join(", "), expected);
}

fn any_reading() -> impl Strategy<Value = Option<Reading>> {
    prop_oneof![
        1 => Just(None),
        6 => (0_i64..64 * 60).prop_map(|n| Reading::new(Length::from_64ths(n)).ok()),
        1 => (0_i64..=100_000_000_000).prop_map(|n| Reading::new(Length::from_nm(n)).ok()),
    ]
}

fn any_edge() -> impl Strategy<Value = Edge> {
    let course = (
        1_u32..40,
        any_reading(),
        any_reading(),
        any_reading(),
        any_reading(),
        0..6,
    );
    let kind = proptest::sample::select(EdgeKind::ALL.to_vec());
    (kind, proptest::collection::vec(course, 0..30)).prop_map(|(kind, courses)| {
        let mut edge = edge(kind, &[]);
        for (at, bottom, top, runs_out, height, sort) in courses {
            edge.put(Course {
                number: number(at),
                bottom,
                top,
                runs_out: runs_out.filter(|_| sort == 0),
                height: height.filter(|_| sort == 1),
            });
        }
        edge
    })
}

fn any_roof() -> impl Strategy<Value = RoofLine> {
    let slope = || {
        proptest::option::of(1_i64..=30)
            .prop_map(|rise| rise.and_then(|rise| Slope::parse(&rise.to_string()).ok()))
    };
    (slope(), slope(), 15_i64..=165).prop_map(|(slope, other, corner)| RoofLine {
        slope,
        other,
        corner: Corner::new(corner * 100_000).unwrap(),
    })
}

proptest! {
    #[test]
    fn prop_any_log_can_be_checked_and_every_suggestion_tried(edge in any_edge(), roof in any_roof()) {
        let settings = Settings::default();
        let doubts = check(&edge, &roof, &settings, &[]);
        let courses: Vec<_> = doubts.iter().map(|doubt| doubt.course).collect();
        prop_assert!(courses.is_sorted());
        for doubt in &doubts {
            for suspect in doubt.suspects() {
                let fixed = suspect.fix.taken(&edge);
                prop_assert!(fixed.is_none_or(|fixed| fixed != edge) || doubt.reading == DoubtedReading::Edge);
            }
        }
        let answers: Vec<_> = doubts.iter().map(|doubt| SetAside::of(doubt, &edge)).collect();
        prop_assert_eq!(check(&edge, &roof, &settings, &answers), []);
        for at in 1..40 {
            let _ = expected_top(&edge, &roof, &settings, number(at));
            let _ = expected_bottom(&edge, &roof, &settings, number(at));
        }
        let _ = expected_readings(&edge, &roof, &settings, number(40), None);
    }

    #[test]
    fn prop_the_hand_cannot_be_told_from_the_readings(edge in any_edge(), roof in any_roof()) {
        let mut mirrored = edge.clone();
        mirrored.hand = edge.hand.other();
        let settings = Settings::default();
        let one = check(&edge, &roof, &settings, &[]);
        prop_assert_eq!(one, check(&mirrored, &roof, &settings, &[]));
    }

    #[test]
    fn prop_taking_the_right_suggestion_ends_the_doubt(
        at in 0_usize..7, end in 0_usize..2, by in prop_oneof![Just(16_i64), Just(192), Just(160)]
    ) {
        let clean = hip(&CLEAN);
        let mut wrong = clean.clone();
        let course = clean.course(number(u32::try_from(at + 1).unwrap())).unwrap();
        let end = crate::domain::course::End::BOTH[end];
        let too_long = course.reading(end).unwrap().length() + Length::from_64ths(4 * by);
        wrong.put(course.with(end, Reading::new(too_long).ok()));
        let doubt = the_one(&wrong, unknown());
        let right = doubt.suspects().take(2).find_map(|suspect| suspect.fix.taken(&wrong).filter(|fixed| *fixed == clean));
        prop_assert_eq!(right, Some(clean));
    }
}
