//! Even slopes, square corner: the framing square's rafter table and the old
//! books that explain it.

use super::{even, near};
use bendmark::domain::roof::EdgeKind;

const HIP: EdgeKind = EdgeKind::Hip;

fn lean(rise: u32) -> f64 {
    even(&rise.to_string()).lean(HIP).unwrap()
}

fn skew(rise: u32) -> f64 {
    even(&rise.to_string()).skew_deg(HIP).unwrap()
}

/// The common rafter's length per foot of run: the lean is 12 over it.
fn common(rise: u32) -> f64 {
    12.0 / lean(rise)
}

/// The hip's length per foot of common run, from the pitch of the hip.
fn hip(rise: u32) -> f64 {
    let pitch = even(&rise.to_string()).edge_pitch_deg().unwrap();
    12.0 * 2_f64.sqrt() / pitch.to_radians().cos()
}

/// How much longer each next jack rafter is, spaced `apart`.
fn jack(rise: u32, apart: f64) -> f64 {
    apart / lean(rise)
}

/// "How To Make A Common Rafter For Any Width Structure", step 4: the square's
/// first line, length of common rafter per foot of run, rises 2 to 18.
const COMMON: [f64; 17] = [
    12.17, 12.37, 12.65, 13.00, 13.42, 13.89, 14.42, 15.00, 15.62, 16.28, 16.97, 17.69, 18.44,
    19.21, 20.00, 20.81, 21.63,
];

#[test]
fn the_lean_gives_the_printed_common_rafters() {
    for (rise, printed) in (2..).zip(COMMON) {
        near(common(rise), printed, 0.005, &format!("rise {rise}"));
    }
}

#[test]
fn the_skew_is_twelve_on_the_tongue_and_the_common_rafter_on_the_blade() {
    // Griffith, Carpentry, section 28, with the lengths printed above; the
    // lengths' two decimals leave 0.011 degrees at worst.
    for (rise, printed) in (2..).zip(COMMON) {
        let expected = (12.0_f64 / printed).atan().to_degrees();
        near(skew(rise), expected, 0.02, &format!("rise {rise}"));
    }
}

#[test]
fn a_carpenters_copy_of_the_table_agrees() {
    // "Tables 1: Rafter Table", a carpenter's copy of the square: common (12.16 at rise 2 is
    // truncated), hip, jacks at 16 and 24 in. Its jacks are to the nearest
    // 1/8, at rises 2 and 5 to 1/16. Three slips of that copy are left out:
    // 24 in at rises 4, 7 and 11. Row 9 is missing.
    let table: [(u32, f64, f64, f64, Option<f64>); 10] = [
        (2, 12.16, 17.09, 16.25, Some(24.3125)),
        (3, 12.37, 17.23, 16.5, Some(24.75)),
        (4, 12.65, 17.44, 16.875, None),
        (5, 13.00, 17.69, 17.3125, Some(26.0)),
        (6, 13.42, 18.00, 17.875, Some(26.875)),
        (7, 13.89, 18.36, 18.5, None),
        (8, 14.42, 18.76, 19.25, Some(28.875)),
        (10, 15.62, 19.70, 20.875, Some(31.25)),
        (11, 16.28, 20.22, 21.75, None),
        (12, 16.97, 20.78, 22.625, Some(34.0)),
    ];
    for (rise, common_printed, hip_printed, at_16, at_24) in table {
        let what = format!("rise {rise}");
        let within = if rise == 2 { 0.01 } else { 0.005 };
        near(common(rise), common_printed, within, &what);
        near(hip(rise), hip_printed, 0.005, &what);
        let rounding = if rise == 2 || rise == 5 {
            1.0 / 32.0
        } else {
            1.0 / 16.0
        };
        near(jack(rise, 16.0), at_16, rounding, &what);
        if let Some(at_24) = at_24 {
            near(jack(rise, 24.0), at_24, rounding, &what);
        }
    }
    // The same page's second version, hip plumb cut in degrees: the hip's own
    // pitch. It works with 17 for 16.97 (13.2 at rise 4 for 13.26).
    for (rise, degrees) in [("2", 6.7), ("3", 10.0), ("4", 13.2)] {
        near(even(rise).edge_pitch_deg().unwrap(), degrees, 0.07, rise);
    }
}

#[test]
fn hips_beyond_the_copy_agree_with_the_square_from_memory() {
    // From memory: the square's second line, rises 13 to 18.
    for (rise, printed) in (13..).zip([21.38, 22.00, 22.65, 23.32, 24.02, 24.74]) {
        near(hip(rise), printed, 0.005, &format!("rise {rise}"));
    }
}

#[test]
#[expect(clippy::approx_constant, reason = "a table's figure, to its digits")]
fn skews_agree_with_the_computed_table() {
    // Computed apart from this program: angle from the up-slope line, its
    // complement, and the cosine of the slope, rises 2 to 18.
    let table: [(f64, f64, f64); 17] = [
        (44.6076, 45.3924, 0.98639),
        (44.1317, 45.8683, 0.97014),
        (43.4915, 46.5085, 0.94868),
        (42.7094, 47.2906, 0.92308),
        (41.8103, 48.1897, 0.89443),
        (40.8198, 49.1802, 0.86378),
        (39.7622, 50.2378, 0.83205),
        (38.6598, 51.3402, 0.80000),
        (37.5322, 52.4678, 0.76822),
        (36.3959, 53.6041, 0.73715),
        (35.2644, 54.7356, 0.70711),
        (34.1483, 55.8517, 0.67828),
        (33.0557, 56.9443, 0.65079),
        (31.9928, 58.0072, 0.62470),
        (30.9638, 59.0362, 0.60000),
        (29.9713, 60.0287, 0.57668),
        (29.0171, 60.9829, 0.55470),
    ];
    for (rise, (alpha, beta, cosine)) in (2..).zip(table) {
        let what = format!("rise {rise}");
        near(skew(rise), alpha, 5e-5, &what);
        near(90.0 - skew(rise), beta, 5e-5, &what);
        near(lean(rise), cosine, 5e-6, &what);
    }
}

#[test]
fn side_cuts_of_jacks_agree_with_the_square_from_memory() {
    // From memory, but for rise 8 (NAVEDTRA 14044, fig. 2-41: 10): the side
    // cut of jacks to use with 12, within 1/32 of the exact value.
    let sixteenths = [
        189, 186, 182, 177, 172, 166, 160, 154, 148, 142, 136, 130, 125, 120, 115, 111, 107,
    ];
    for (rise, side_cut) in (2..).zip(sixteenths) {
        let printed = f64::from(side_cut) / 16.0;
        near(12.0 * lean(rise), printed, 0.0315, &format!("rise {rise}"));
    }
}

#[test]
fn single_figures_of_old_books_and_manuals_agree() {
    // Hodgson, The ABC of the Steel Square and Its Uses: 8 rise, "12 and 10"
    // gives the cut of sheathing and shingles in valley or hip.
    near(
        skew(8),
        (10.0_f64 / 12.0).atan().to_degrees(),
        0.05,
        "Hodgson, 8",
    );
    // NAVEDTRA 14044 (Builder): 8 rise, 12 : 14.42 :: 16 : 19.23.
    near(common(8), 14.42, 0.005, "NAVEDTRA, common 8");
    near(jack(8, 16.0), 19.23, 0.005, "NAVEDTRA, jack 8");
    // The same: bridge measure 18.76; a run of 21.21 ft, length 23.45 ft.
    near(hip(8), 18.76, 0.005, "NAVEDTRA, hip 8");
    near(
        15.0 * hip(8) / 12.0,
        23.45,
        0.005,
        "NAVEDTRA, hip of 15 ft run",
    );
    // The same, fig. 2-17: 7 rise, 13.89 x 8 ft = 111 1/8 in.
    near(8.0 * common(7), 111.125, 1.0 / 32.0, "NAVEDTRA, common 7");
    // US Army subcourse EN0069A, figs 2-14 to 2-17: 16 and 13 rise; 10 ft 4 in
    // of run at 13 rise, 182.79 in (truncated there).
    near(common(16), 20.00, 0.005, "EN0069A, 16");
    near(common(13), 17.69, 0.005, "EN0069A, 13");
    near(common(13) * 31.0 / 3.0, 182.79, 0.03, "EN0069A, 10 ft 4 in");
    // Cyclopedia of Carpentry & Building, "Hips Part 2", figs 24-25: 9 rise,
    // jack 12 and 15, hip 17 and 19 1/4 (to the nearest 1/8 or so).
    near(common(9), 15.0, 1e-9, "Cyclopedia, jack 9");
    near(hip(9), 19.25, 1.0 / 16.0, "Cyclopedia, hip 9");
    // Hodgson: 10 rise, jack 12 and 15 5/8, hip 17 and 19 3/4 (coarse).
    near(common(10), 15.625, 1.0 / 32.0, "Hodgson, jack 10");
    near(hip(10), 19.75, 1.0 / 16.0, "Hodgson, hip 10");
    // Radford's Cyclopedia of Construction, vol. 3: 15 7/12, a scale in
    // twelfths; 6 rise, hip 18, 11 1/4 ft of run in 16 ft and a fraction.
    near(
        common(10),
        15.0 + 7.0 / 12.0,
        1.0 / 24.0,
        "Radford, jack 10",
    );
    near(hip(6), 18.0, 1e-9, "Radford, hip 6");
    // Griffith, Carpentry, App. IV: 12 rise, 16.97, 20.78; 12 1/2 ft of run is
    // 17 ft 8 1/8 in.
    near(common(12), 16.97, 0.005, "Griffith, common 12");
    near(hip(12), 20.78, 0.005, "Griffith, hip 12");
    near(
        12.5 * common(12),
        212.125,
        1.0 / 32.0,
        "Griffith, 12 1/2 ft",
    );
    // Audels Carpenters and Builders Guide, vol. 3, figs 1,993-4: 10 rise,
    // jack difference 20.83 at 16 in; 26 at 20 in (to the inch).
    near(jack(10, 16.0), 20.83, 0.005, "Audels, 16 in");
    near(jack(10, 20.0), 26.0, 0.05, "Audels, 20 in");
}

#[test]
fn at_12_in_12_the_angle_from_square_is_not_its_complement() {
    // tan = cos of the slope belongs to the angle from the up-slope line, the
    // bench's angle from square. Its complement is 19.5 degrees off at 12 in
    // 12, but only 1.7 at 3 in 12, where mixing them up would go unseen.
    near(skew(12), 35.2644, 5e-5, "from square");
    near((90.0 - skew(12)) - skew(12), 19.5, 0.05, "mixed up at 12");
    near((90.0 - skew(3)) - skew(3), 1.7, 0.05, "mixed up at 3");
    near(
        lean(12),
        0.5_f64.sqrt(),
        1e-12,
        "a course narrows by less than its height",
    );
}
