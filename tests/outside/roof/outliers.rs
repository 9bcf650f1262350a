//! The outlier rule against published worked examples and an outside crate.

use bendmark::domain::{
    doubt::{Scatter, mad, stands_out_beyond},
    measure::Length,
    piece::median,
    settings::Settings,
};
use proptest::prelude::*;
use statrs::distribution::{ContinuousCDF, Normal};
use statrs::statistics::{Data, Median};

/// Values as lengths, one to the millimetre.
fn lengths(values: &[f64]) -> Vec<Length> {
    values
        .iter()
        .map(|value| Length::rounded_from_mm(*value))
        .collect()
}

/// Median, MAD, and the values that stand out from the median.
fn judged(values: &[f64]) -> (f64, f64, Vec<f64>) {
    let lengths = lengths(values);
    let middle = median(&mut lengths.clone()).unwrap();
    let mad = mad(lengths.clone(), middle).unwrap();
    let beyond = stands_out_beyond(mad);
    let out = lengths.iter().filter(|l| (**l - middle).abs() > beyond);
    (middle.mm(), mad.mm(), out.map(|l| l.mm()).collect())
}

#[track_caller]
fn check(values: &[f64], middle: f64, mad: f64, out: &[f64]) {
    assert_eq!(judged(values), (middle, mad, out.to_vec()));
}

#[test]
fn the_manuals_examples_agree() {
    // R manual, stats::mad: mad(c(1:9), constant = 1) is 2, and the same for
    // c(1:8, 100). There 100 stands out (0.6745 * 95 / 2 = 32.04), by the rule
    // of NIST/SEMATECH e-Handbook 1.3.5.17.
    let nine: Vec<f64> = (1..=9).map(f64::from).collect();
    check(&nine, 5.0, 2.0, &[]);
    let mut wild = nine;
    wild[8] = 100.0;
    check(&wild, 5.0, 2.0, &[100.0]);
    // The same manual's example values; MAD worked out: 2.5.
    check(&[1.0, 2.0, 3.0, 5.0, 7.0, 8.0], 4.0, 2.5, &[]);
    // R help, September 2007: mad(1:5) is 1.4826, with constant 1 it is 1.
    check(&[1.0, 2.0, 3.0, 4.0, 5.0], 3.0, 1.0, &[]);
}

#[test]
fn the_common_worked_example_agrees() {
    // 1 1 2 2 4 6 9: median 2, deviations 1 1 0 0 2 4 7, MAD 1; 1.48258 as a
    // manual page for MAD of a wavelet package prints it scaled. M(9) = 4.72
    // stands out, M(6) = 2.70 does not.
    check(&[1.0, 1.0, 2.0, 2.0, 4.0, 6.0, 9.0], 2.0, 1.0, &[9.0]);
}

#[test]
fn of_twenty_values_the_two_wild_ones_stand_out() {
    // Example of a single-MAD outlier function's manual: 52 and 90 of these.
    let values = [
        1.0, 2.0, 3.0, 3.0, 4.0, 4.0, 4.0, 5.0, 5.5, 6.0, 6.0, 6.5, 7.0, 7.0, 7.5, 8.0, 9.0, 12.0,
        52.0, 90.0,
    ];
    check(&values, 6.0, 2.0, &[52.0, 90.0]);
}

#[test]
fn the_scaled_mad_of_leys_and_others_agrees() {
    // Leys et al. 2013, J. Exp. Soc. Psych. 49:764: 1 3 3 6 8 10 10 1000 (the
    // data from memory): median 7, MAD 3.5, scaled 5.1891.
    let values = [1.0, 3.0, 3.0, 6.0, 8.0, 10.0, 10.0, 1000.0];
    check(&values, 7.0, 3.5, &[1000.0]);
    assert_eq!(stands_out_beyond(Length::from_mm(1)).mm(), 5.1891);
}

#[test]
fn three_standard_deviations_could_never_doubt_one_of_ten() {
    // NIST/SEMATECH e-Handbook 1.3.5.17: |z| is at most (n - 1) / sqrt n, 2.85
    // for ten values; the MAD finds the one there.
    let mut values = [10.0; 10];
    values[4] = 10.5;
    values[9] = 1000.0;
    let most = 9.0 / 10.0_f64.sqrt();
    assert!((most - 2.85).abs() < 0.005);
    // More than half agree, so the MAD is zero: everything else stands out,
    // which is why the cut-off has its floor.
    check(&values, 10.0, 0.0, &[10.5, 1000.0]);
    let settings = Settings::default();
    let cut_off = Scatter::of_job(std::iter::empty(), &settings).cut_off(&settings);
    assert!(cut_off > settings.tolerance, "{cut_off:?}");
}

#[test]
fn the_constant_is_that_of_the_normal_distribution() {
    let quartile = Normal::new(0.0, 1.0).unwrap().inverse_cdf(0.75);
    assert!((1.0 / quartile - 1.4826).abs() < 5e-6);
    assert!((quartile - 0.6745).abs() < 5e-5);
    assert!((3.5 / quartile - stands_out_beyond(Length::from_mm(1)).mm()).abs() < 1e-4);
}

fn outside(values: &[f64]) -> (f64, f64) {
    let middle = Data::new(values.to_vec()).median();
    let apart: Vec<f64> = values.iter().map(|v| (v - middle).abs()).collect();
    (middle, Data::new(apart).median())
}

proptest! {
    #[test]
    fn prop_median_and_mad_agree_with_an_outside_crate(
        sixteenths in proptest::collection::vec(-2_000_i32..2_000, 1..60)
    ) {
        let values: Vec<f64> = sixteenths.iter().map(|s| f64::from(*s) / 16.0 * 25.4).collect();
        let (middle, mad) = outside(&values);
        let (own_middle, own_mad, own_out) = judged(&values);
        // Whole nanometres: half a one in the median, another in the MAD.
        prop_assert!((middle - own_middle).abs() < 1.1e-6);
        prop_assert!((mad - own_mad).abs() < 2.1e-6);
        let beyond = 3.5 * 1.4826 * mad;
        for value in values {
            let apart = (value - middle).abs();
            if (apart - beyond).abs() > 2e-5 {
                let is_out = own_out.iter().any(|out| (out - value).abs() < 1e-6);
                prop_assert_eq!(apart > beyond, is_out);
            }
        }
    }
}
