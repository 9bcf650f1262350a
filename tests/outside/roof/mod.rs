//! The roof's angles and the outlier rule against published figures.
//!
//! Each check names its document. *Printed* figures are held to the digits
//! printed; what a book rounds coarsely is held to its own rounding, said
//! beside it. Figures "from memory" say so.

mod outliers;
mod rafter_table;
mod unequal;

use bendmark::domain::roof::{RoofLine, Slope};

/// A roof of `rise` in 12 on both sides of a square corner.
fn even(rise: &str) -> RoofLine {
    RoofLine::even(slope(rise))
}

fn slope(text: &str) -> Slope {
    Slope::parse(text).unwrap()
}

#[track_caller]
fn near(found: f64, printed: f64, within: f64, what: &str) {
    assert!(
        (found - printed).abs() <= within,
        "{what}: found {found}, printed {printed}"
    );
}
