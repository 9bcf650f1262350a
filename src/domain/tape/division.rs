//! The tape's finest mark, and the unit of a bare number.

use crate::domain::measure::Length;

/// What a bare number means.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Unit {
    /// Inches, with fractions.
    Inch,
    /// Millimetres, decimal.
    Millimetre,
}

impl Unit {
    /// `in` or `mm`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
        }
    }
}

/// The finest mark of the job's tape; it also settles the job's unit.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Division {
    /// 1/8 in.
    EighthInch,
    /// 1/16 in.
    SixteenthInch,
    /// 1/32 in.
    ThirtySecondInch,
    /// 1 mm.
    Millimetre,
    /// 0.5 mm.
    HalfMillimetre,
}

impl Division {
    /// Every division, inches first.
    pub const ALL: [Self; 5] = [
        Self::EighthInch,
        Self::SixteenthInch,
        Self::ThirtySecondInch,
        Self::Millimetre,
        Self::HalfMillimetre,
    ];

    /// How far apart two marks of the tape stand.
    pub const fn step(self) -> Length {
        match self {
            Self::EighthInch => Length::from_64ths(8),
            Self::SixteenthInch => Length::from_64ths(4),
            Self::ThirtySecondInch => Length::from_64ths(2),
            Self::Millimetre => Length::from_mm(1),
            Self::HalfMillimetre => Length::from_um(500),
        }
    }

    /// The unit of a bare number on this tape.
    pub const fn unit(self) -> Unit {
        match self {
            Self::EighthInch | Self::SixteenthInch | Self::ThirtySecondInch => Unit::Inch,
            Self::Millimetre | Self::HalfMillimetre => Unit::Millimetre,
        }
    }

    /// As it is written: `1/16`, `0.5`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::EighthInch => "1/8",
            Self::SixteenthInch => "1/16",
            Self::ThirtySecondInch => "1/32",
            Self::Millimetre => "1",
            Self::HalfMillimetre => "0.5",
        }
    }
}
