//! Left and right.
//!
//! The hand of a piece is the side of the **piece** that stays whole, seen face
//! up with the nose toward you; hence the side the tape is pulled from. It is
//! not the side of the roof: seen from the eave looking up, an edge whose panels
//! lie to its **left** takes **left**-hand pieces, and their **left** end stays whole.
//!
//! ```text
//!            seen from the eave looking up
//!
//!     right-hand pieces          left-hand pieces
//!        /|======|=====    =====|======|\
//!       / |======|=====    =====|======| \
//!      /  whole ->  field  field  <- whole \
//!     ============ eave ====================
//! ```

/// The side of a piece that stays whole.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Hand {
    /// The left side stays whole; the tape is pulled from the left.
    Left,
    /// The right side stays whole; the tape is pulled from the right.
    Right,
}

impl Hand {
    /// Both, left first.
    pub const BOTH: [Self; 2] = [Self::Left, Self::Right];

    /// The other side.
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    /// `left` or `right`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }

    /// `L` or `R`, for labels written on a piece.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::Left => "L",
            Self::Right => "R",
        }
    }
}
