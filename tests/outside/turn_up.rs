//! How high a turn-up stands, against a code of practice.
//!
//! Source: *NZ Metal Roof and Wall Cladding Code of Practice*, pressed metal
//! tiles, flashings: tiles are turned up at least 40 mm against a hip board;
//! the cap covers the turn-up by at least 35 mm. Valley installation (15.3.4):
//! the edge is bent down to at least 5 mm from the valley floor.

use bendmark::domain::{
    measure::Length,
    piece::{along, standing},
    settings::Settings,
    tape::{Division, Unit, parse, print},
};

/// The lean of a hip between equal slopes on a square corner: `cos θ`.
fn lean(rise_in_12: f64) -> f64 {
    (rise_in_12 / 12.0).atan().cos()
}

fn inches(text: &str) -> Length {
    parse(text, Unit::Inch).unwrap()
}

/// Common practice is 2 in along the edge; at 6 in 12 that is
/// `2 / sqrt(1 + 0.8) = 1.4907 in = 37.86 mm`, under the code's 40 mm.
#[test]
fn two_inches_along_the_edge_stand_short_of_40_mm_at_6_in_12() {
    let stands = standing(inches("2"), lean(6.0));
    assert!((stands.mm() / 25.4 - 1.49).abs() < 0.005, "{stands:?}");
    assert!((stands.mm() - 37.9).abs() < 0.05, "{stands:?}");
    assert!(stands < Settings::default().least_turn_up);
}

/// The code's 40 mm is 1.575 in.
#[test]
fn a_new_job_asks_for_the_codes_40_mm_which_1_9_16_misses_and_1_5_8_meets() {
    let least = Settings::default().least_turn_up;
    assert_eq!(least, Length::from_mm(40));
    assert!(inches("1 9/16") < least && least < inches("1 5/8"));
    // 39.6875 mm, and 41.275 mm.
    assert_eq!(inches("1 9/16").nm(), 39_687_500);
    assert_eq!(inches("1 5/8").nm(), 41_275_000);
}

/// The code's 35 mm is 1.378 in: 1 3/8 is 0.003 in short.
#[test]
fn the_caps_35_mm_print_as_1_3_8_though_that_is_a_little_short() {
    let cover = Length::from_mm(35);
    assert_eq!(print(cover, Division::SixteenthInch), "1 3/8");
    let short = (cover - inches("1 3/8")).mm() / 25.4;
    assert!((short - 0.003).abs() < 0.0005, "{short}");
}

/// `40 mm * sqrt(1.8) = 53.67 mm = 2.113 in`: 2 1/8 in along the edge will do.
#[test]
fn at_6_in_12_the_codes_40_mm_take_2_1_8_along_the_edge() {
    let needed = along(Length::from_mm(40), lean(6.0));
    assert!((needed.mm() - 40.0 * 1.8_f64.sqrt()).abs() < 1e-6);
    assert!(inches("2 1/16") < needed && needed < inches("2 1/8"));
    assert!(standing(inches("2 1/8"), lean(6.0)) >= Length::from_mm(40));
}

/// The least lean of any roof is 0 (a rake), where along and standing agree.
#[test]
fn on_a_square_edge_the_turn_up_stands_as_high_as_it_is_long() {
    assert_eq!(standing(inches("1 5/8"), 0.0), inches("1 5/8"));
    assert_eq!(along(inches("1 5/8"), 0.0), inches("1 5/8"));
}

/// Geometry by right triangles, on every printed rise: the leg is the height
/// of the triangle under the bend line whose hypotenuse is the allowance.
#[test]
fn standing_and_along_undo_each_other_on_every_rise() {
    for rise in 2..=18 {
        let lean = lean(f64::from(rise));
        let skew = lean.atan();
        let stands = standing(inches("2"), lean);
        assert!((stands.mm() - 50.8 * skew.cos()).abs() < 1e-6, "{rise}");
        // Two roundings to a nanometre, the second stretched by hypot < 1.5.
        assert!(
            (along(stands, lean) - inches("2")).nm().abs() <= 1,
            "{rise}"
        );
    }
}
