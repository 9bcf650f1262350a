//! Worked examples: one course, one line or one reading too many.

use crate::worked::check_alone;
use crate::worked::{CLEAN, REGULAR, hip, inches, none, number, the_one, unknown, with};
use bendmark::domain::doubt::{Basis, Cause, DoubtedReading, Fix, basis};
use bendmark::domain::log::{End, SetAside};
use bendmark::domain::settings::Settings;

#[test]
fn a_clean_hip_is_not_doubted() {
    none(&hip(&CLEAN), unknown());
    assert_eq!(basis(&hip(&CLEAN), &Settings::default()), Basis::Own);
}

#[test]
fn an_inch_burned_at_the_top_is_told_with_the_bottom_as_the_other() {
    let doubt = the_one(&with(4, "21.625 12.875"), unknown());
    assert_eq!(doubt.course, Some(number(4)));
    assert_eq!(doubt.reading, DoubtedReading::Top);
    assert_eq!(doubt.off, inches("1"));
    assert_eq!(doubt.likely, inches("11 7/8"));
    assert_eq!(doubt.cause, Cause::InchTooMuch);
    let other = doubt.others.first().unwrap();
    assert_eq!(other.reading, DoubtedReading::Bottom);
    assert_eq!(other.likely, inches("22 5/8"));
    assert_eq!(other.cause, Cause::InchShort);
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
        end: End::Top,
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
    let doubt = the_one(&hip(&courses), unknown());
    assert_eq!(
        (doubt.course, doubt.reading),
        (Some(number(4)), DoubtedReading::Both)
    );
    assert_eq!(
        (doubt.likely, doubt.cause),
        (inches("49.25"), Cause::InchTooMuch)
    );
    assert_eq!(doubt.basis, Basis::Joints);
    // One key puts both right.
    assert_eq!(doubt.fix.taken(&hip(&courses)), Some(hip(&REGULAR)));
    none(&with(4, "22.625 12.875"), unknown());
}

/// Course 3's top is missing: its reading and all later ones may stand one place
/// off. Measured again they do not, and course 4 widens on a hip.
#[test]
fn once_nothing_was_left_out_the_courses_above_are_judged() {
    let edge = hip(&["30 18", "41 29", "25 36", "24 47", "35 -"]);
    let settings = Settings::default();
    let first = check_alone(&edge, &settings, &[]);
    let shift = first.last().unwrap();
    assert!(matches!(
        shift.fix,
        Fix::MakeRoom { .. } | Fix::StrikeOut { .. }
    ));
    let answers: Vec<_> = first
        .iter()
        .map(|doubt| SetAside::of(doubt, &edge))
        .collect();
    let then = check_alone(&edge, &settings, &answers);
    let courses: Vec<_> = then.iter().map(|doubt| doubt.course).collect();
    assert!(courses.contains(&Some(number(4))), "{then:?}");
}

#[test]
fn a_course_that_leans_twice_as_much_as_it_should_may_be_two() {
    // Its top was read at the line of the course above.
    let doubt = the_one(&with(4, "21.625 2.125"), unknown());
    assert_eq!(doubt.course, Some(number(4)));
    let two = doubt
        .suspects()
        .find(|suspect| suspect.cause == Cause::CourseForgotten);
    let two = two.unwrap();
    assert_eq!(
        (two.reading, two.likely),
        (DoubtedReading::Top, inches("11 7/8"))
    );
    assert_eq!(two.fix, Fix::MeasureAgain);
}

#[test]
fn a_course_forgotten_in_an_alternating_bond_is_told_with_its_place() {
    // 9 3/4 a course and joints of 16 and -16 in turn; the fifth of nine is not
    // read, and the four above it are numbered one less.
    let up: Vec<String> = (0..9)
        .map(|course| {
            let stagger = if course % 2 == 0 { 0.0 } else { 16.0 };
            // To the last full panel, whichever that is.
            let bottom = 12.0 + (110.0 - 9.75 * f64::from(course) - stagger) % 46.0;
            format!("{bottom} {}", bottom - 9.75)
        })
        .collect();
    let whole: Vec<&str> = up.iter().map(String::as_str).collect();
    none(&hip(&whole), unknown());
    let mut short = whole;
    short.remove(4);
    let doubt = the_one(&hip(&short), unknown());
    assert_eq!(doubt.cause, Cause::CourseForgotten);
    assert_eq!(doubt.fix, Fix::CourseBetween { below: number(4) });
}
