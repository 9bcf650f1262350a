//! A job's settings: the panel, how the tape is held, how the bench works.
//!
//! [`RawSettings`] may hold anything; [`Settings`] has been checked as a whole
//! and can be computed with. The table of single settings, with their labels
//! and options, is in [`crate::domain::settings`].

use super::{minutes::Minutes, spare_per_cent::SparePerCent};
use crate::domain::measure::{Hand, Length};
use crate::domain::roof::EdgeKind;
use crate::domain::tape::{Division, Unit, exact_with_unit};
use std::fmt;
use std::ops::Deref;

/// Where a reading ends on the field's side.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum ReadTo {
    /// The side-lap line on the last full panel.
    LapLine,
    /// The edge of the last full panel; the side lap is added.
    PanelEdge,
}

/// How the tape's end is held at the hip board.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum TapeEnd {
    /// Off the board by the clearance; the reading already has it.
    HeldOff,
    /// Hard against the board; the bench takes the clearance off.
    Hard,
}

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
    /// Where a reading ends on the field's side.
    pub read_to: ReadTo,
    /// How the tape's end is held at the edge.
    pub tape_end: TapeEnd,
    /// Hips.
    pub hip: KindSettings,
    /// Valleys.
    pub valley: KindSettings,
    /// From a valley's bend line down to its floor, where it is known.
    pub valley_depth: Option<Length>,
    /// Rakes.
    pub rake: KindSettings,
    /// The turn-up a hip or rake should at least stand.
    pub least_turn_up: Length,
    /// What a short course keeps beyond its height for the ridge.
    pub ridge_turn_up: Length,
    /// A piece narrower than this is pointed out; as the side lap where `None`.
    pub sliver: Option<Length>,
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
    /// Which of cut and bend comes first.
    pub bench_order: BenchOrder,
    /// What one key press moves on.
    pub one_key: OneKey,
    /// A longer time between two pieces is a pause and no measure of the pace.
    pub pause: Minutes,
}

/// A job's settings, checked: everything the core computes with is in range.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub struct Settings(RawSettings);

/// A figure out of its range, with what was wanted.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct OutOfRange {
    /// The setting's label.
    pub what: &'static str,
    /// What it was set to.
    pub value: Length,
    /// The least it may be.
    pub least: Length,
    /// The most it may be.
    pub most: Length,
    /// The unit to say it in.
    pub unit: Unit,
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let say = |length| exact_with_unit(length, self.unit);
        write!(
            f,
            "{} of {} is out of range, expected {} to {}",
            self.what,
            say(self.value),
            say(self.least),
            say(self.most)
        )
    }
}

impl std::error::Error for OutOfRange {}

/// How far off the edge's line a new job lets a reading be: 3/8 in or 10 mm
/// (from simulated hips: docs/doubts.md).
pub(super) const fn usual_tolerance(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::from_64ths(24),
        Unit::Millimetre => Length::from_mm(10),
    }
}

impl Default for RawSettings {
    /// A new job: common practice, and not the figures of any one panel.
    fn default() -> Self {
        let two_inches_along = KindSettings {
            allowance: Allowance::Along(Length::from_inches(2)),
            clearance: Length::from_64ths(16),
        };
        Self {
            division: Division::SixteenthInch,
            panel_width: Length::from_inches(48),
            side_lap: Length::from_inches(2),
            exposure: Length::from_inches(14),
            panel_height: None,
            read_to: ReadTo::LapLine,
            tape_end: TapeEnd::HeldOff,
            hip: two_inches_along,
            valley: two_inches_along,
            valley_depth: None,
            rake: two_inches_along,
            // The code of practice in docs/formulas.md asks 40 mm of turn-ups.
            least_turn_up: Length::from_mm(40),
            ridge_turn_up: Length::ZERO,
            sliver: None,
            tolerance: usual_tolerance(Unit::Inch),
            spare: Length::ZERO,
            carry_more: SparePerCent::default(),
            blade: Hand::Right,
            laying: LayingOrder::RidgeDown,
            stack_turned: StackTurned::No,
            bench_order: BenchOrder::CutFirst,
            one_key: OneKey::Step,
            pause: Minutes(20),
        }
    }
}

impl RawSettings {
    /// The settings of one kind of edge.
    pub const fn kind(&self, kind: EdgeKind) -> KindSettings {
        match kind {
            EdgeKind::Hip => self.hip,
            EdgeKind::Valley => self.valley,
            EdgeKind::Rake => self.rake,
        }
    }

    /// The unit of a bare number.
    pub const fn unit(&self) -> Unit {
        self.division.unit()
    }
}

impl Deref for Settings {
    type Target = RawSettings;
    fn deref(&self) -> &RawSettings {
        &self.0
    }
}

impl Settings {
    /// `raw`, where every figure is in a range a panel and a bench can have.
    ///
    /// The ranges are generous; they keep typing slips out (a width of 4.8 in)
    /// and the core's arithmetic free of special cases (a cover above zero).
    ///
    /// # Errors
    /// [`OutOfRange`], naming the first figure that is not.
    pub fn checked(raw: RawSettings) -> Result<Self, OutOfRange> {
        let unit = raw.unit();
        let within = |what, value, least, most| {
            if value < least || value > most {
                Err(OutOfRange {
                    what,
                    value,
                    least,
                    most,
                    unit,
                })
            } else {
                Ok(())
            }
        };
        let mm = Length::from_mm;
        within("panel width", raw.panel_width, mm(200), mm(5_000))?;
        let half = raw
            .panel_width
            .scaled(Length::from_nm(1), Length::from_nm(2));
        within("side lap", raw.side_lap, Length::ZERO, half)?;
        within("exposure", raw.exposure, mm(50), mm(2_000))?;
        if let Some(height) = raw.panel_height {
            within("panel height", height, mm(50), mm(2_000))?;
        }
        for (what, kind) in [
            ("hip turn-up", raw.hip),
            ("valley turn-down", raw.valley),
            ("rake turn-up", raw.rake),
        ] {
            within(what, kind.allowance.length(), Length::ZERO, mm(300))?;
            within("clearance", kind.clearance, Length::ZERO, mm(100))?;
        }
        if let Some(depth) = raw.valley_depth {
            within("valley depth", depth, Length::ZERO, mm(500))?;
        }
        within("least turn-up", raw.least_turn_up, Length::ZERO, mm(300))?;
        within("ridge turn-up", raw.ridge_turn_up, Length::ZERO, mm(300))?;
        within("spare", raw.spare, Length::ZERO, mm(300))?;
        if let Some(sliver) = raw.sliver {
            within("sliver", sliver, Length::ZERO, raw.panel_width)?;
        }
        within("tolerance", raw.tolerance, mm(1), mm(100))?;
        Ok(Self(raw))
    }

    /// How much of a panel shows beside its neighbour: `C = W - side lap`.
    pub fn cover(&self) -> Length {
        self.0.panel_width - self.0.side_lap
    }

    /// From nose to back flange, `Hp`.
    pub fn panel_height(&self) -> Length {
        self.0.panel_height.unwrap_or(self.0.exposure)
    }

    /// A piece narrower than this is pointed out.
    pub fn sliver(&self) -> Length {
        self.0.sliver.unwrap_or(self.0.side_lap)
    }

    /// What is added to a raw reading of an edge of `kind` to get the finished
    /// width: `+ lap` if read to the panel's edge, `- clearance` if the tape's
    /// end was held hard (trade practice; the correction comes on top).
    pub fn added_to_reading(&self, kind: EdgeKind) -> Length {
        let lap = match self.0.read_to {
            ReadTo::LapLine => Length::ZERO,
            ReadTo::PanelEdge => self.0.side_lap,
        };
        let clearance = match self.0.tape_end {
            TapeEnd::HeldOff => Length::ZERO,
            TapeEnd::Hard => self.0.kind(kind).clearance,
        };
        lap - clearance
    }
}
