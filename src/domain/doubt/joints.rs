//! The bond: how the joints of a course stand against those of the next one.
//!
//! `(top i - bottom i+1) mod C` is how far the panels of course `i + 1` stand
//! out beyond those of course `i`. In a regular bond it is the same at every
//! course line, or `+d` and `-d` in turn; a bond is found in the log, never
//! taken for granted. All of it happens on a circle of circumference `C`, the
//! cover, because a reading ends at the last full panel, whichever that is.

use crate::domain::{log::CourseNumber, measure::Length};

/// How the joints follow one another.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Pattern {
    /// The same at every course line.
    Constant,
    /// `+shift` above the courses of even number, `-shift` above the odd ones.
    Alternating,
}

/// A regular bond.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Bond {
    pub pattern: Pattern,
    /// `(top - bottom above) mod C`, in `0..C`.
    pub shift: Length,
}

/// Joints this far apart still count as one: 1/2 in, four readings' worth of
/// a tape held and read to 1/16 in, and the drift of a course line.
pub(super) const ONE_JOINT: Length = Length::from_64ths(32);

/// Fewer joints that agree make no bond.
const FEWEST_JOINTS: usize = 3;

impl Bond {
    /// Panels of all courses in line.
    pub const STRAIGHT: Self = Self {
        pattern: Pattern::Constant,
        shift: Length::ZERO,
    };

    /// The bond that more than half of `joints` agree on, at least three; each
    /// comes with the number of the course below it, modulo `cover`.
    pub fn found(
        joints: impl Iterator<Item = (CourseNumber, Length)>,
        cover: Length,
    ) -> Option<Self> {
        let joints: Vec<(CourseNumber, Length)> = joints.collect();
        let fits = |pattern| {
            let signed = joints
                .iter()
                .map(|(below, joint)| turned(pattern, *below, *joint).modulo(cover))
                .collect();
            densest(signed, Some(cover)).map(|cluster| (cluster, pattern))
        };
        // Of two that fit as well the last is taken, the simpler one.
        let patterns = [Pattern::Alternating, Pattern::Constant].into_iter();
        let best = patterns.filter_map(fits);
        let (cluster, pattern) = best.max_by_key(|(cluster, _)| cluster.count)?;
        (cluster.count >= FEWEST_JOINTS && 2 * cluster.count > joints.len()).then(|| Self {
            pattern,
            shift: cluster.centre.modulo(cover),
        })
    }

    /// What the joint above the course `below` should be, in `0..C`.
    pub fn joint_above(self, below: CourseNumber, cover: Length) -> Length {
        turned(self.pattern, below, self.shift).modulo(cover)
    }

    /// How far `joint`, above the course `below`, is off: at most `C / 2`.
    pub fn off(self, below: CourseNumber, joint: Length, cover: Length) -> Length {
        around(joint - self.joint_above(below, cover), cover)
    }
}

fn turned(pattern: Pattern, below: CourseNumber, joint: Length) -> Length {
    match pattern {
        Pattern::Alternating if !below.get().is_multiple_of(2) => -joint,
        Pattern::Alternating | Pattern::Constant => joint,
    }
}

/// `length` brought to `-C/2..=C/2` on the circle.
pub(super) fn around(length: Length, cover: Length) -> Length {
    let rest = length.modulo(cover);
    if rest + rest > cover {
        rest - cover
    } else {
        rest
    }
}

/// Where most of some lengths lie together.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Cluster {
    pub(super) count: usize,
    pub(super) centre: Length,
}

/// The most lengths within [`ONE_JOINT`] of each other.
pub(super) fn densest(lengths: Vec<Length>, circle: Option<Length>) -> Option<Cluster> {
    densest_within(lengths, circle, ONE_JOINT)
}

/// The most lengths `within` so much of each other; on a circle, where one is
/// given, with the lengths in `0..C`.
pub(super) fn densest_within(
    mut lengths: Vec<Length>,
    circle: Option<Length>,
    within: Length,
) -> Option<Cluster> {
    lengths.sort_unstable();
    let once = lengths.len();
    if let Some(cover) = circle {
        lengths.extend_from_within(..);
        for length in lengths.iter_mut().skip(once) {
            *length = *length + cover;
        }
    }
    let mut best: Option<(usize, usize)> = None;
    let mut end = 0;
    for (start, first) in lengths.iter().enumerate().take(once) {
        while lengths.get(end).is_some_and(|l| *l - *first <= within) {
            end += 1;
        }
        let count = (end - start).min(once);
        if best.is_none_or(|(most, _)| count > most) {
            best = Some((count, start));
        }
    }
    let (count, start) = best?;
    let sum: Length = lengths.iter().skip(start).take(count).copied().sum();
    let under = Length::from_nm(i64::try_from(count).ok()?);
    Some(Cluster {
        count,
        centre: sum.scaled(Length::from_nm(1), under),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const COVER: Length = Length::from_inches(46);

    fn found(inches: &[i64]) -> Option<Bond> {
        let joints = inches.iter().zip(1..).map(|(joint, number)| {
            let joint = Length::from_inches(*joint).modulo(COVER);
            (CourseNumber::new(number).unwrap(), joint)
        });
        Bond::found(joints, COVER)
    }

    #[test]
    fn a_constant_bond_is_found_around_the_circles_end() {
        let bond = found(&[0, 46, -46, 7, 0]).unwrap();
        assert_eq!(bond, Bond::STRAIGHT);
    }

    #[test]
    fn an_alternating_bond_is_found() {
        let bond = found(&[-16, 16, -16, 30 + 16, -16]).unwrap();
        assert_eq!(bond.pattern, Pattern::Alternating);
        assert_eq!(bond.shift, Length::from_inches(16));
        let below = CourseNumber::new(4).unwrap();
        assert_eq!(
            bond.off(below, Length::ZERO, COVER),
            Length::from_inches(-16)
        );
    }

    #[test]
    fn joints_of_every_sort_make_no_bond() {
        assert_eq!(found(&[3, 40, 22, 11, 31, 7]), None);
        assert_eq!(found(&[5, 5]), None);
    }

    #[test]
    fn joints_that_half_agree_make_no_bond() {
        assert_eq!(found(&[5, 5, 5, 11, 31, 22]), None);
    }
}
