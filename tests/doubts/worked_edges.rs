//! Worked examples: whole edges, few courses, and courses out of the ordinary.

use crate::worked::{
    CLEAN, beside, check_alone, edge, hip, inches, none, number, slope, the_one, unknown,
};
use bendmark::domain::{
    doubt::{Basis, Cause, DoubtedReading, Fix, basis},
    log::{Course, Reading},
    measure::{Hand, Length, Name},
    roof::{Corner, EdgeKind, RoofLine, Slope},
    settings::{Setting, Settings},
    tape::{Unit, parse},
};

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
        Cause::InchTooMuch
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
    assert_eq!(doubt.cause, Cause::InchTooMuch);
    none(&edge, unknown());
    let settings = Settings::default();
    assert_eq!(basis(&edge, &settings), Basis::Kind);
    let wide = RoofLine {
        corner: Corner::parse("135").unwrap(),
        ..unknown()
    };
    assert_eq!(basis(&beside(&edge, wide), &settings), Basis::Nothing);
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
        (Some(number(8)), Cause::InchTooMuch)
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
    assert_eq!(check_alone(&edge, &settings, &[]), []);
    // 549 read as 594; and the same with a hundred too many.
    for (wrong, cause) in [(594, Cause::DigitsExchanged), (649, Cause::TenOff)] {
        let mut edge = edge.clone();
        let course = edge.course(number(4)).unwrap();
        edge.put(Course {
            bottom: Reading::new(Length::from_mm(wrong)).ok(),
            ..*course
        });
        let doubts = check_alone(&edge, &settings, &[]);
        assert_eq!(doubts.len(), 1);
        assert_eq!(
            (doubts[0].likely, doubts[0].cause),
            (Length::from_mm(549), cause)
        );
    }
}

/// Two ends of one plane, 12 1/2 a course each, worked by hand: left and right
/// gaps add up to 400 less 25 a course, modulo the cover of 46, in no bond.
#[test]
fn both_readings_a_foot_short_are_told_by_the_other_end_of_the_course() {
    use bendmark::domain::cutting::{Job, doubts_of};
    let left = [37, 31, 25, 42, 36, 30, 47, 41, 35];
    let mut job = Job::new(Name::or("East Row", "?"), Settings::default());
    let ends = [("East", Hand::Left), ("West", Hand::Right)];
    for (name, hand) in ends {
        let id = job.add_edge(Name::or(name, "?"), EdgeKind::Hip, hand);
        let end = job.edge_mut(id).unwrap();
        end.plane = Name::new("South").ok();
        for (gap, at) in left.iter().zip(1_i64..) {
            let other = 14 + (400 - 25 * at - gap).rem_euclid(46);
            let bottom = Length::from_inches(if hand == Hand::Left { *gap } else { other });
            let number = number(u32::try_from(at).unwrap());
            end.put(Course {
                bottom: Reading::new(bottom).ok(),
                top: Reading::new(bottom - inches("12.5")).ok(),
                ..Course::unread(number)
            });
        }
    }
    assert_eq!(doubts_of(&job), []);
    let west = job.edges()[1].clone();
    let slip = Fix::Both {
        first: number(4),
        last: number(4),
        by: inches("12"),
    };
    *job.edge_mut(west.id).unwrap() = slip.taken(&west).unwrap();
    let doubts = doubts_of(&job);
    let told = doubts.iter().find(|found| found.edge == west.id).unwrap();
    assert_eq!(told.doubt.cause, Cause::FootDropped);
    assert_eq!(told.doubt.basis, Basis::OtherEnd { rows: 9 });
    let mended = told.doubt.fix.taken(&job.edges()[1]).unwrap();
    assert_eq!(mended.courses(), west.courses());
}
