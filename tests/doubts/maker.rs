//! Makes hips, reads them with a tape, and slips.
//!
//! Written apart from the checker: it shares `Length` with it and nothing else,
//! neither its formulas nor its list of slips. The roof is even (one slope, a
//! square corner), so a course narrows by the exposure times the cosine of the
//! slope: the rafter tables' 12 over the common rafter's length per foot of run.

use crate::split_mix::SplitMix;
use bendmark::domain::measure::Length;

/// A small seeded generator, so that every run is the same.
pub(crate) struct Chance(SplitMix);

impl Chance {
    pub(crate) fn seeded(seed: u64) -> Self {
        let state = seed.wrapping_mul(0x2545_F491_4F6C_DD1D) ^ 0x9E37_79B9_7F4A_7C15;
        Self(SplitMix::at(state))
    }

    /// A whole number in `from..=to`.
    pub(crate) fn whole(&mut self, from: i64, to: i64) -> i64 {
        let span = (to - from + 1).cast_unsigned();
        from + (self.0.next() % span).cast_signed()
    }

    /// Evenly in `from..to`.
    pub(crate) fn even(&mut self, from: f64, to: f64) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "53 bits are left")]
        let unit = (self.0.next() >> 11) as f64 / (1_u64 << 53) as f64;
        from + unit * (to - from)
    }

    pub(crate) fn coin(&mut self) -> bool {
        self.0.next() & 1 == 0
    }
}

/// How the panels of one course stand against those of the next.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Joints {
    Random,
    Constant,
    Alternating,
}

impl Joints {
    pub(crate) const ALL: [Self; 3] = [Self::Random, Self::Constant, Self::Alternating];

    pub(crate) fn regular(self) -> bool {
        self != Self::Random
    }
}

/// A hip as it stands and as it was read: readings in sixteenths of an inch.
#[derive(Clone, Debug)]
pub(crate) struct Hip {
    pub(crate) rise_in_12: i64,
    /// Sixteenths.
    pub(crate) exposure: i64,
    /// Sixteenths.
    pub(crate) panel_width: i64,
    /// Sixteenths.
    pub(crate) side_lap: i64,
    /// Bottom and top of each course, from the eave.
    pub(crate) read: Vec<[i64; 2]>,
}

pub(crate) fn sixteenths(count: i64) -> Length {
    Length::from_64ths(4 * count)
}

#[expect(
    clippy::cast_precision_loss,
    reason = "sixteenths of an inch on a roof"
)]
fn inches(sixteenths: i64) -> f64 {
    sixteenths as f64 / 16.0
}

#[expect(clippy::cast_precision_loss, reason = "courses are few")]
fn float(whole: i64) -> f64 {
    whole as f64
}

/// What the tape shows: up to 1/16 in of noise, then the nearest sixteenth.
#[expect(clippy::cast_possible_truncation, reason = "sixteenths on a roof")]
fn read(gap: f64, chance: &mut Chance) -> i64 {
    ((gap + chance.even(-1.0 / 16.0, 1.0 / 16.0)) * 16.0).round() as i64
}

impl Hip {
    /// The same hip read once more by a careless tape: up to `noise` more, in
    /// sixteenths, either way in every reading.
    pub(crate) fn read_carelessly(&mut self, noise: i64, chance: &mut Chance) {
        for reading in self.read.iter_mut().flatten() {
            *reading = (*reading + chance.whole(-noise, noise)).max(0);
        }
    }

    /// A hip of 6 to 24 courses on a roof of 3 to 12 in 12; the gap beyond the
    /// last full panel is at least the side lap at its narrow end, and no
    /// other panel would fit.
    pub(crate) fn made(joints: Joints, chance: &mut Chance) -> Self {
        let rise = chance.whole(3, 12);
        Self::beside(rise, rise, joints, chance)
    }

    /// The same beside another slope: where the eaves meet at a square corner
    /// the hip runs in plan as the other rise to this one.
    pub(crate) fn beside(rise_in_12: i64, other: i64, joints: Joints, chance: &mut Chance) -> Self {
        let exposure = 16 * 12 + 4 * chance.whole(0, 16);
        let panel_width = 16 * chance.whole(40, 54);
        let side_lap = 16 * 2;
        let courses = chance.whole(6, 24);
        let rafter = float(rise_in_12).hypot(12.0);
        let step = inches(exposure) * 12.0 / rafter * float(rise_in_12) / float(other);
        let cover = inches(panel_width - side_lap);
        let foot = chance.even(500.0, 600.0);
        let shift = match chance.whole(0, 3) {
            0 => 0.0,
            1 => cover / 2.0,
            2 => cover / 3.0,
            _ => chance.even(0.0, cover),
        };
        let mut offset = chance.even(0.0, cover);
        let mut gaps = Vec::new();
        for course in 0..courses {
            let at_top = foot - step * float(course + 1);
            let lap = inches(side_lap);
            // No row of panels lies dead true: up to 1/8 in either way.
            let laid = offset + chance.even(-0.125, 0.125);
            let top = lap + (at_top - laid - lap).rem_euclid(cover);
            gaps.push([read(top + step, chance), read(top, chance)]);
            match joints {
                Joints::Random => offset = chance.even(0.0, cover),
                Joints::Constant => offset += shift,
                Joints::Alternating if course % 2 == 0 => offset += shift,
                Joints::Alternating => offset -= shift,
            }
        }
        Self {
            rise_in_12,
            exposure,
            panel_width,
            side_lap,
            read: gaps,
        }
    }

    /// The readings in the order the tape gives them going up.
    pub(crate) fn row(&self) -> Vec<i64> {
        self.read.iter().flatten().copied().collect()
    }
}

/// What goes wrong with one course's readings.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Slip {
    Swapped,
    InchBurned,
    FootDropped,
    FootAdded,
    TenOff,
    DigitsExchanged,
    WrongSide,
}

impl Slip {
    pub(crate) const ALL: [Self; 7] = [
        Self::Swapped,
        Self::InchBurned,
        Self::FootDropped,
        Self::FootAdded,
        Self::TenOff,
        Self::DigitsExchanged,
        Self::WrongSide,
    ];

    /// As the trade says it.
    pub(crate) fn words(self) -> &'static str {
        match self {
            Self::Swapped => "bottom and top swapped",
            Self::InchBurned => "an inch too much",
            Self::FootDropped => "a foot dropped",
            Self::FootAdded => "a foot added",
            Self::TenOff => "a wrong ten",
            Self::DigitsExchanged => "digits exchanged",
            Self::WrongSide => "fraction counted backwards",
        }
    }

    /// The course with this slip in its reading `end` (0 bottom, 1 top); `None`
    /// where it cannot happen there, or changes less than `least` sixteenths.
    pub(crate) fn happens(
        self,
        course: [i64; 2],
        end: usize,
        least: i64,
        chance: &mut Chance,
    ) -> Option<[i64; 2]> {
        let [bottom, top] = course;
        if self == Self::Swapped {
            return ((bottom - top).abs() >= least).then_some([top, bottom]);
        }
        let right = course[end];
        let (whole, part) = (right / 16, right % 16);
        let wrong = match self {
            Self::Swapped => return None,
            Self::InchBurned => right + 16,
            Self::FootDropped => right - 12 * 16,
            Self::FootAdded => right + 12 * 16,
            Self::TenOff if chance.coin() => right + 160,
            Self::TenOff => right - 160,
            Self::DigitsExchanged => {
                let (tens, ones) = (whole / 10, whole % 10);
                if !(1..=9).contains(&tens) || ones == 0 {
                    return None;
                }
                (ones * 10 + tens) * 16 + part
            }
            Self::WrongSide if part == 0 => return None,
            Self::WrongSide => whole * 16 + (16 - part),
        };
        if wrong < 0 || (wrong - right).abs() < least {
            return None;
        }
        let mut slipped = course;
        slipped[end] = wrong;
        Some(slipped)
    }
}

/// One slip made in a hip.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Made {
    pub(crate) slip: Slip,
    /// From 0 at the eave.
    pub(crate) course: usize,
    /// 0 bottom, 1 top; of a swap either.
    pub(crate) end: usize,
    /// The larger change of a reading, in sixteenths.
    pub(crate) size: i64,
}

/// Slips somewhere in the hip, as `slip` can happen there.
pub(crate) fn slip_somewhere(
    hip: &mut Hip,
    slip: Slip,
    least: i64,
    chance: &mut Chance,
) -> Option<Made> {
    for _ in 0..100 {
        let course = usize::try_from(chance.whole(0, 99)).ok()? % hip.read.len();
        let end = usize::from(chance.coin());
        if let Some(slipped) = slip.happens(hip.read[course], end, least, chance) {
            let before = std::mem::replace(&mut hip.read[course], slipped);
            let size = (before[0] - slipped[0])
                .abs()
                .max((before[1] - slipped[1]).abs());
            return Some(Made {
                slip,
                course,
                end,
                size,
            });
        }
    }
    None
}
