//! A job's settings as somebody wrote them: any figure may stand in them.

use super::{minutes::Minutes, spare_per_cent::SparePerCent};
use crate::domain::log::{PanelsLie, ReadTo, TapeEnd};
use crate::domain::measure::{Hand, Length};
use crate::domain::roof::{ByKind, EdgeKind};
use crate::domain::tape::{Division, Unit};

/// How the leg beyond the bend line is measured.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Allowance {
    /// So much along the panel's edge, whatever the lean.
    Along(Length),
    /// So much as it stands, square to the bend line.
    Standing(Length),
}

impl Allowance {
    /// The figure, whichever way it is measured.
    pub const fn length(self) -> Length {
        match self {
            Self::Along(length) | Self::Standing(length) => length,
        }
    }
}

/// Which courses of an edge are laid first.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum LayingOrder {
    /// From the ridge down.
    RidgeDown,
    /// From the eave up.
    EaveUp,
}

/// Whether the stack of pieces is turned over on its way up to the roof.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum StackTurned {
    /// It arrives as it was stacked: last in, first off.
    No,
    /// It arrives upside down: first in, first off.
    Yes,
}

/// Which is done first at the bench.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum BenchOrder {
    /// Cut, then bend.
    CutFirst,
    /// Bend, then cut.
    BendFirst,
}

/// What one press of the key for "done" moves on.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum OneKey {
    /// One step: mark, cut, bend or stack.
    Step,
    /// The whole piece.
    Piece,
}

/// Whether the pieces of a wide course beyond its first wait until those before
/// them are laid.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum SecondTrip {
    /// They are cut with the others, on the cover.
    #[default]
    No,
    /// They are cut last, to the gap as it is read over the laid pieces.
    Yes,
}

/// Which ways the bender folds.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum BenderFolds {
    #[default]
    BothWays,
    /// Upward only: for a valley the panel is turned over side for side.
    UpOnly,
}

/// What differs between hips, valleys and rakes.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct KindSettings {
    /// How far beyond the bend line the piece is cut.
    pub allowance: Allowance,
    /// Taken off each reading where the tape's end is held hard.
    pub clearance: Length,
}

/// A job's settings as somebody wrote them, not yet checked.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct RawSettings {
    /// The tape's finest mark; it settles the unit.
    pub division: Division,
    /// Overall width `W` of a panel.
    pub panel_width: Length,
    /// How much of a panel its neighbour covers.
    pub side_lap: Length,
    /// Height of a course up the slope, `E`.
    pub exposure: Length,
    /// From nose to back flange, `Hp`; as the exposure where `None`.
    pub panel_height: Option<Length>,
    /// Over which neighbour each panel lies.
    pub panels_lie: PanelsLie,
    /// Where a reading ends on the field's side, while that is not said.
    pub read_to: ReadTo,
    /// How the tape's end is held at the edge.
    pub tape_end: TapeEnd,
    pub kinds: ByKind<KindSettings>,
    /// From a valley's bend line down to its floor, where it is known.
    pub valley_depth: Option<Length>,
    /// How high the leg of a hip or rake should at least stand, square.
    pub least_turn_up: Length,
    /// What a short course keeps beyond its height for the ridge.
    pub ridge_turn_up: Length,
    /// A piece narrower than this is pointed out; as the side lap where `None`.
    pub sliver: Option<Length>,
    /// A piece cut at both ends that is narrower than this between its two bends
    /// is bent by hand there, where it is known.
    pub least_flat: Option<Length>,
    /// A reading is doubted only beyond this much off the edge's line.
    pub tolerance: Length,
    /// What is left between two pieces of one panel.
    pub spare: Length,
    /// How many panels more than needed are carried.
    pub carry_more: SparePerCent,
    /// The end of the table at which the blade stands.
    pub blade: Hand,
    /// Which courses are laid first.
    pub laying: LayingOrder,
    /// Whether the stack is turned over on the way up.
    pub stack_turned: StackTurned,
    /// Whether wide courses are finished on a second trip.
    pub second_trip: SecondTrip,
    /// A cut no longer than this is made in one bite, where it is known.
    pub shear_opens: Option<Length>,
    /// Which ways the bender folds.
    pub bender_folds: BenderFolds,
    /// Which of cut and bend comes first.
    pub bench_order: BenchOrder,
    /// What one key press moves on.
    pub one_key: OneKey,
    /// A longer time between two pieces is a pause and no measure of the pace.
    pub pause: Minutes,
}

impl Default for RawSettings {
    fn default() -> Self {
        Self::usual(Unit::Inch)
    }
}

impl RawSettings {
    /// A new job's in that unit: common practice, in millimetres as round as in
    /// inches, and not the figures of any one panel.
    pub(super) fn usual(unit: Unit) -> Self {
        let length = |in_64ths, mm| match unit {
            Unit::Inch => Length::from_64ths(in_64ths),
            Unit::Millimetre => Length::from_mm(mm),
        };
        let usual_kind = KindSettings {
            allowance: Allowance::Along(length(2 * 64, 50)),
            clearance: length(16, 6),
        };
        Self {
            division: match unit {
                Unit::Inch => Division::SixteenthInch,
                Unit::Millimetre => Division::Millimetre,
            },
            panel_width: length(48 * 64, 1_220),
            side_lap: length(2 * 64, 50),
            exposure: length(14 * 64, 356),
            panel_height: None,
            panels_lie: PanelsLie::NotSaid,
            read_to: ReadTo::LapLine,
            tape_end: TapeEnd::HeldOff,
            kinds: ByKind::of(|_| usual_kind),
            valley_depth: None,
            // The code of practice in docs/formulas.md asks 40 mm of a leg bent up.
            least_turn_up: Length::from_mm(40),
            ridge_turn_up: Length::ZERO,
            sliver: None,
            least_flat: None,
            // From simulated hips: docs/doubts.md.
            tolerance: length(24, 10),
            spare: Length::ZERO,
            carry_more: SparePerCent::default(),
            blade: Hand::Right,
            laying: LayingOrder::RidgeDown,
            stack_turned: StackTurned::No,
            second_trip: SecondTrip::No,
            shear_opens: None,
            bender_folds: BenderFolds::BothWays,
            bench_order: BenchOrder::CutFirst,
            one_key: OneKey::Step,
            pause: Minutes(20),
        }
    }

    /// The settings of one kind of edge.
    pub fn kind(&self, kind: EdgeKind) -> KindSettings {
        self.kinds[kind]
    }

    /// The unit of a bare number.
    pub const fn unit(&self) -> Unit {
        self.division.unit()
    }
}
