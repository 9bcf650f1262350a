//! How the panel lies at the shear: which part stays on the table, which way
//! the nose points.
//!
//! Common practice: the larger part of what is cut lies on the table, the
//! smaller one drops off beyond the blade. Seen face up with the
//! nose toward you, the larger part is on the hand's side if it is the
//! kept piece, else on the other side; the nose points toward you if
//! that side is the one away from the blade, else the panel is turned end for
//! end. It knows nothing of marks or steps.

use crate::domain::measure::{Area, Hand};

/// One of the two parts of a cut.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Part {
    /// The piece.
    Kept,
    /// What is left of the stock.
    Offcut,
}

impl Part {
    /// `kept` or `offcut`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Kept => "kept",
            Self::Offcut => "offcut",
        }
    }
}

/// Which way the nose points at the shear.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Nose {
    /// Toward the person cutting.
    Toward,
    /// Away: the panel is turned end for end.
    Away,
}

impl Nose {
    /// `toward` or `away`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Toward => "toward",
            Self::Away => "away",
        }
    }
}

/// How the panel lies for the cut.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Lie {
    /// The part that stays on the table.
    pub on_table: Part,
    /// Which way the nose points.
    pub nose: Nose,
}

impl Lie {
    /// The lie for a piece of `hand` with `kept` to keep and `left` left of
    /// the stock it is cut from, at a table whose blade stands at the `blade`
    /// end. Equal parts: the kept piece stays on the table.
    pub fn of(kept: Area, left: Area, hand: Hand, blade: Hand) -> Self {
        let on_table = if kept >= left {
            Part::Kept
        } else {
            Part::Offcut
        };
        let side = match on_table {
            Part::Kept => hand,
            Part::Offcut => hand.other(),
        };
        let nose = if side == blade {
            Nose::Away
        } else {
            Nose::Toward
        };
        Self { on_table, nose }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::measure::{Length, Polygon};

    fn area(mm: i64) -> Area {
        Polygon::rectangle(Length::from_mm(mm), Length::from_mm(1)).area()
    }

    #[track_caller]
    fn check(kept: i64, left: i64, hand: Hand, blade: Hand, part: Part, nose: Nose) {
        let expected = Lie {
            on_table: part,
            nose,
        };
        assert_eq!(Lie::of(area(kept), area(left), hand, blade), expected);
    }

    #[test]
    fn the_larger_part_lies_on_the_table_away_from_the_blade() {
        use Hand::{Left, Right};
        use Nose::{Away, Toward};
        use Part::{Kept, Offcut};
        check(2, 1, Left, Right, Kept, Toward);
        check(1, 2, Left, Right, Offcut, Away);
        check(2, 1, Right, Right, Kept, Away);
        check(1, 2, Right, Right, Offcut, Toward);
        check(2, 1, Left, Left, Kept, Away);
        check(1, 2, Left, Left, Offcut, Toward);
        check(2, 1, Right, Left, Kept, Toward);
        check(1, 2, Right, Left, Offcut, Away);
    }

    #[test]
    fn of_equal_parts_the_kept_piece_stays_on_the_table() {
        check(1, 1, Hand::Left, Hand::Right, Part::Kept, Nose::Toward);
    }
}
