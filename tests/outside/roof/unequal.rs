//! Unequal slopes, and corners that are not square. A valley and a hip of the
//! same two slopes share these figures.

use super::{near, slope};
use bendmark::domain::roof::{Corner, EdgeKind, RoofLine};

fn roof(this: &str, other: &str, corner: &str) -> RoofLine {
    RoofLine {
        slope: Some(slope(this)),
        other: Some(slope(other)),
        corner: Corner::parse(corner).unwrap(),
    }
}

/// Figures of one side, as far as the document prints them: plan angle, angle
/// from the up-slope line (of the bench: from square), backing, the edge's own
/// pitch.
struct Printed {
    plan: Option<f64>,
    skew: Option<f64>,
    backing: Option<f64>,
    pitch: Option<f64>,
}

#[track_caller]
fn check(what: &str, roof: RoofLine, printed: &Printed, within: f64) {
    let kind = EdgeKind::Hip;
    let found = [
        (roof.plan_deg(), printed.plan),
        (roof.skew_deg(kind), printed.skew),
        (roof.backing_deg(), printed.backing),
        (
            roof.bend_deg(kind),
            printed.backing.map(|backing| 90.0 - backing),
        ),
        (roof.edge_pitch_deg(), printed.pitch),
        (roof.skew_deg(EdgeKind::Valley), printed.skew),
    ];
    for (found, printed) in found {
        if let Some(printed) = printed {
            near(found.unwrap(), printed, within, what);
        }
    }
}

/// Five decimals, as printed.
const FIVE: f64 = 6e-6;

#[test]
fn twelve_and_eight_agree() {
    // "Irregular valley roof", of a set of pages on framing mathematics; the
    // angle from the course line is 43.31386 and 60.98286 there.
    let side = |plan, skew, backing| Printed {
        plan: Some(plan),
        skew: Some(skew),
        backing: Some(backing),
        pitch: Some(29.01714),
    };
    let steep = roof("12", "8", "90");
    check("12 side", steep, &side(33.69007, 46.68614, 36.03989), FIVE);
    check(
        "8 side",
        steep.exchanged(),
        &side(56.30993, 29.01714, 17.92021),
        FIVE,
    );
    let jack = |roof: RoofLine| 16.0 / roof.lean(EdgeKind::Hip).unwrap();
    // Printed 15.08495 by a chain of rounded figures; 15.08494 unrounded.
    near(jack(steep), 15.08495, 1.1e-5, "jacks of the 12 side");
    near(
        jack(steep.exchanged()),
        28.84441,
        FIVE,
        "jacks of the 8 side",
    );
}

#[test]
fn fourteen_and_eight_agree() {
    // "Irregular roof", same pages; the angles from the course line are
    // 41.28481 and 64.57091, jack differences per 16 in 1.17074 and 2.80432 ft.
    let steep = roof("14", "8", "90");
    let side = |plan, from_course: f64| Printed {
        plan: Some(plan),
        skew: Some(90.0 - from_course),
        backing: None,
        pitch: Some(30.063493),
    };
    check("14 side", steep, &side(29.744881, 41.28481), FIVE);
    check(
        "8 side",
        steep.exchanged(),
        &side(60.255119, 64.57091),
        FIVE,
    );
    let jack = |roof: RoofLine| 16.0 / 12.0 / roof.lean(EdgeKind::Hip).unwrap();
    near(jack(steep), 1.17074, FIVE, "jacks of the 14 side");
    near(
        jack(steep.exchanged()),
        2.80432,
        FIVE,
        "jacks of the 8 side",
    );
    // Run 37/2 ft of the 8 side: hip run 21.30740 ft, hip length 24.61943 ft.
    let run = 18.5 / steep.exchanged().plan_deg().unwrap().to_radians().sin();
    near(run, 21.30740, FIVE, "hip run");
    let pitch = steep.edge_pitch_deg().unwrap().to_radians();
    near(run / pitch.cos(), 24.61943, FIVE, "hip length");
}

#[test]
fn a_corner_of_135_degrees_agrees() {
    // Same page: 14 in 12 beside 9.933052 in 12 (39.616406 degrees); slopes
    // are held to five decimals here, which leaves 2e-5 degrees.
    let side = |plan| Printed {
        plan: Some(plan),
        skew: None,
        backing: None,
        pitch: Some(39.616244),
    };
    let roof = roof("14", "9.93305", "135");
    check("14 side", roof, &side(45.194221), 2e-5);
    check("9.93 side", roof.exchanged(), &side(89.805779), 2e-5);
    near(
        roof.other.unwrap().degrees(),
        39.616406,
        1e-5,
        "the other slope",
    );
}

#[test]
fn eleven_and_ten_agree() {
    // "Jack compound calculations", same pages; the complement of the hip's
    // pitch is 58.34132.
    let side = |plan, skew, backing| Printed {
        plan: Some(plan),
        skew: Some(skew),
        backing: Some(backing),
        pitch: Some(90.0 - 58.34132),
    };
    let low = roof("10", "11", "90");
    check("10 side", low, &side(47.72631, 34.92979, 25.50784), FIVE);
    check(
        "11 side",
        low.exchanged(),
        &side(42.27369, 39.03754, 29.99972),
        FIVE,
    );
}

#[test]
fn ten_and_three_agree() {
    // "Valley intercepts beam", same pages; from the course line 73.77275, the
    // complement of the valley's pitch 76.53371.
    let printed = Printed {
        plan: Some(73.30076),
        skew: Some(90.0 - 73.77275),
        backing: Some(3.99630),
        pitch: Some(90.0 - 76.53371),
    };
    check("3 side", roof("3", "10", "90"), &printed, FIVE);
}

#[test]
fn eight_and_six_agree() {
    // A builder's blog of August 2014.
    let side = |plan, skew, backing| Printed {
        plan: Some(plan),
        skew: Some(skew),
        backing: Some(backing),
        pitch: Some(21.80141),
    };
    let steep = roof("8", "6", "90");
    check("8 side", steep, &side(36.86990, 47.96889, 26.34404), FIVE);
    check(
        "6 side",
        steep.exchanged(),
        &side(53.13010, 33.85451, 15.56481),
        FIVE,
    );
}

#[test]
fn worked_examples_of_old_books_agree() {
    // Hodgson, The ABC of the Steel Square, "An unequal pitch", figs 60-62: a
    // building 18 by 28 ft, rise 9; side cuts "14 on the tongue and the length
    // of the short common rafter on the blade", "9 ... and the long common".
    // The rule is printed, the angles are worked out from it.
    let side_cut =
        |tongue: f64, run: f64, rise: f64| (tongue / run.hypot(rise)).atan().to_degrees();
    let skew = |roof: RoofLine| roof.skew_deg(EdgeKind::Hip).unwrap();
    // Runs 9 and 14: 12 in 12 and 108/14 in 12, held to five decimals.
    let one = roof("12", "7.71429", "90");
    near(
        skew(one),
        side_cut(14.0, 9.0, 9.0),
        1e-4,
        "Hodgson A, short side",
    );
    near(
        skew(one.exchanged()),
        side_cut(9.0, 14.0, 9.0),
        1e-4,
        "Hodgson A, long side",
    );
    near(skew(one), 47.7249, 1e-4, "Hodgson A, worked");
    near(skew(one.exchanged()), 28.4026, 1e-4, "Hodgson A, worked");
    // The same, figs 86-90: runs 12 and 16, rise 10, hip run 20.
    let two = roof("10", "7.5", "90");
    near(
        12.0 / two.plan_deg().unwrap().to_radians().sin(),
        20.0,
        1e-9,
        "Hodgson B, hip run",
    );
    near(skew(two), 45.6876, 5e-5, "Hodgson B, 12 side");
    near(skew(two.exchanged()), 32.4563, 5e-5, "Hodgson B, 16 side");
    // Griffith, Carpentry, uneven pitches, fig. 88: minor roof 10 in 12, run
    // 6, major 8 in 12; plan diagonal 9.60 ft, tan B .800, 38 deg 40 min; jack
    // of the minor roof 7 1/2 with the minor rafter. Truncated there.
    let three = roof("10", "8", "90");
    let plan = three.plan_deg().unwrap();
    near(plan.to_radians().tan(), 0.8, 1e-9, "Griffith, tan B");
    near(plan, 38.0 + 40.0 / 60.0, 0.5 / 60.0, "Griffith, B");
    near(
        6.0 / plan.to_radians().sin(),
        9.60,
        0.01,
        "Griffith, diagonal",
    );
    near(skew(three), side_cut(7.5, 6.0, 5.0), 1e-9, "Griffith, jack");
}
