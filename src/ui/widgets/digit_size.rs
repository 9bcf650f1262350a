//! How large figures have to be drawn to be read from two metres.
//!
//! A full-height terminal on a 13.3 in screen (16:9) gets its rows from 165.6
//! mm. A figure of half blocks is 3.5 rows high, one of whole cells 7 rows. ISO
//! 9241-303 asks for characters of 16 arcminutes and prefers 20 to 22; at two
//! metres half blocks have 22 up to 45 rows.
//!
//! ```text
//!   rows of the screen      24   30   40   45   50   55
//!   half blocks, arcmin     41   33   25   22   20   18
//!   whole cells, arcmin     83   66   50   44   40   36
//! ```

use super::digits::{DotSize, width};

/// From this many rows on, half blocks would have 25 arcminutes, and one digit in
/// fifty would be misread in the sun by somebody who sees half as sharp as he
/// should (`tests/screens/eye/font.rs`).
const LARGE_FROM: u16 = 40;

/// The size of figures on a screen of `rows` rows: at least 30 arcminutes at 24,
/// 30, 40 and 50.
pub const fn of_figures(rows: u16) -> DotSize {
    if rows < LARGE_FROM {
        DotSize::Half
    } else {
        DotSize::Whole
    }
}

/// The size of words beside them: as high, and a column a dot.
pub const fn of_words(rows: u16) -> DotSize {
    if rows < LARGE_FROM {
        DotSize::Half
    } else {
        DotSize::Narrow
    }
}

/// The larger size in which every one of `figures`, drawn below each other with
/// a blank row between, fits `columns` by `rows`; half blocks where only those
/// fit.
pub fn that_fits(figures: &[&str], columns: u16, rows: u16) -> DotSize {
    let count = u16::try_from(figures.len()).unwrap_or(u16::MAX);
    let size = DotSize::Whole;
    let high = count.saturating_mul(size.rows() + 1).saturating_sub(1);
    let wide = figures.iter().map(|figure| width(figure, size)).max();
    if high <= rows && wide.unwrap_or(0) <= columns {
        size
    } else {
        DotSize::Half
    }
}
