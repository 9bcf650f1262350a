//! The offcuts that lie on the rack.
//!
//! One has a number the cutter writes on it, the colour lot it inherited, and
//! perhaps a promise: the piece it is kept for. What becomes of it is planned
//! in `plan.rs`.

use super::offcut::Offcut;
use crate::domain::{measure::Name, piece::PieceId};
use std::fmt;

/// What is written on an offcut; counted 1 upward, never used twice in a job.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct OffcutNumber(pub u32);

impl fmt::Display for OffcutNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.0, f)
    }
}

/// An offcut on the rack.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct RackOffcut {
    pub number: OffcutNumber,
    pub offcut: Offcut,
    /// The colour lot of its panel; those without one are a lot of their own.
    pub lot: Option<Name>,
    pub promise: Option<Promise>,
}

/// A promise that an offcut is kept for a piece.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Promise {
    pub piece: PieceId,
    /// When it was made: a count that rises with every promise, so that the
    /// highest is the newest.
    pub since: u32,
}
