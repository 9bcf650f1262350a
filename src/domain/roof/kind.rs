//! The kinds of edges: hips, valleys and rakes.

/// What sort of roof edge it is.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum EdgeKind {
    /// The outer ridge between two roof planes; bent up against the hip board.
    Hip,
    /// The inner trough between two roof planes; bent down.
    Valley,
    /// The sloping end of a gable; square, bent up.
    Rake,
}

impl EdgeKind {
    /// Every kind.
    pub const ALL: [Self; 3] = [Self::Hip, Self::Valley, Self::Rake];

    /// `hip`, `valley` or `rake`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Hip => "hip",
            Self::Valley => "valley",
            Self::Rake => "rake",
        }
    }

    /// The first letter, for labels written on a piece.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::Hip => "H",
            Self::Valley => "V",
            Self::Rake => "R",
        }
    }

    /// Which way the leg beyond the bend line goes.
    pub const fn bend(self) -> Bend {
        match self {
            Self::Hip | Self::Rake => Bend::Up,
            Self::Valley => Bend::Down,
        }
    }
}

/// Which way a piece is bent.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Bend {
    /// A turn-up, against the hip board or the rake.
    Up,
    /// A turn-down, into the valley.
    Down,
}

impl Bend {
    /// `up` or `down`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Up => "up",
            Self::Down => "down",
        }
    }

    /// `turn-up` or `turn-down`.
    pub const fn leg(self) -> &'static str {
        match self {
            Self::Up => "turn-up",
            Self::Down => "turn-down",
        }
    }
}
