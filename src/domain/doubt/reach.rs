//! An edge's log made ready for judging: what each course reaches over, and
//! the joints at the course lines.
//!
//! Raw readings only: laps, clearance and the edge's correction move both
//! readings of a course alike and so cannot make one of them wrong.

use super::joints::Bond;
use crate::domain::log::Reading;
use crate::domain::log::{Course, CourseNumber, Edge, End};
use crate::domain::measure::Length;
use crate::domain::settings::Settings;

/// One course as far as it can be judged.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Reach {
    pub(super) number: CourseNumber,
    pub(super) bottom: Option<Length>,
    pub(super) top: Option<Length>,
    /// How much the course narrows over `height`; `None` while it is not read.
    pub(super) step: Option<Length>,
    /// The part of the slope that the readings span: the exposure, a short
    /// course's own height, or how far a line that runs out was followed.
    pub(super) height: Length,
}

impl Reach {
    pub(super) fn of(course: &Course, exposure: Length) -> Self {
        let length = |reading: Option<Reading>| reading.map(Reading::length);
        let (bottom, top) = (length(course.bottom), length(course.top));
        let own = length(course.height).unwrap_or(exposure);
        let (step, height) = match (bottom, top, length(course.runs_out)) {
            (Some(bottom), Some(top), _) => (Some(bottom - top), own),
            (Some(bottom), None, Some(at)) => (Some(bottom), at),
            (None, Some(top), Some(at)) => (Some(-top), own - at),
            _ => (None, own),
        };
        Self {
            number: course.number,
            bottom,
            top,
            step: step.filter(|_| height > Length::ZERO),
            height,
        }
    }

    /// Its reading at `end`.
    pub(super) const fn reading(&self, end: End) -> Option<Length> {
        match end {
            End::Bottom => self.bottom,
            End::Top => self.top,
        }
    }

    /// How far the course is off a line that narrows by `step` per exposure;
    /// judged over the course's own height, so that a tape's error counts no
    /// more in a short course than in a full one.
    pub(super) fn off(&self, step: Length, exposure: Length) -> Option<Length> {
        self.step
            .map(|own| own - step.scaled(self.height, exposure))
    }
}

/// `length` as it counts in a step `b - t`: at the bottom for it, at the top
/// against it. So too, how much too long the reading at `end` is if it alone
/// puts its course that much off the line.
pub(super) fn signed(end: End, length: Length) -> Length {
    match end {
        End::Bottom => length,
        End::Top => -length,
    }
}

/// The courses of `edge`; one read from board to board says nothing of this edge
/// alone.
pub(super) fn reaches_of(edge: &Edge, settings: &Settings) -> Vec<Reach> {
    let alone = edge.courses().iter().filter(|course| course.to.is_none());
    let reaches = alone.map(|course| Reach::of(course, settings.exposure));
    reaches.collect()
}

/// A whole edge, ready for judging.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct EdgeLog {
    pub(super) reaches: Vec<Reach>,
    /// `joints[i]` is `(top i - bottom i+1) mod C`, where the course above
    /// `reaches[i]` is the next in number and both readings are there.
    pub(super) joints: Vec<Option<Length>>,
    pub(super) bond: Option<Bond>,
    /// The circle the joints lie on.
    pub(super) cover: Length,
}

impl EdgeLog {
    /// The log of `edge` as it was written.
    pub(super) fn of(edge: &Edge, settings: &Settings) -> Self {
        let reaches = reaches_of(edge, settings);
        let cover = settings.cover();
        // A line struck for two pieces is no joint of the bond.
        let struck = |number| {
            let course = edge.course(number);
            course.is_some_and(|course| course.reads_to.is_some())
        };
        let joints = reaches.iter().zip(reaches.iter().skip(1));
        let joints = joints.map(|(below, above)| {
            let in_bond = !struck(below.number) && !struck(above.number);
            let adjoining = in_bond && below.number.next() == above.number;
            let joint = below.top? - above.bottom?;
            adjoining.then(|| joint.modulo(cover))
        });
        let joints = joints.collect();
        Self::with_bond(reaches, joints, cover)
    }

    fn with_bond(reaches: Vec<Reach>, joints: Vec<Option<Length>>, cover: Length) -> Self {
        let known = reaches
            .iter()
            .zip(&joints)
            .filter_map(|(reach, joint)| Some((reach.number, (*joint)?)));
        let bond = Bond::found(known, cover);
        Self {
            reaches,
            joints,
            bond,
            cover,
        }
    }

    /// The courses below the one at `at`, with the bond they alone are in.
    pub(super) fn before(&self, at: usize) -> Self {
        let reaches = self.reaches.iter().take(at).copied().collect();
        let joints = self.joints.iter().take(at.saturating_sub(1)).copied();
        Self::with_bond(reaches, joints.collect(), self.cover)
    }

    /// The log as it were with one more course above `reaches[at]`, and the bond
    /// it then is in.
    pub(super) fn with_room_above(&self, at: usize) -> Self {
        let mut reaches = self.reaches.clone();
        for reach in reaches.iter_mut().skip(at + 1) {
            reach.number = reach.number.next();
        }
        let mut joints = self.joints.clone();
        if let Some(joint) = joints.get_mut(at) {
            *joint = None;
        }
        Self::with_bond(reaches, joints, self.cover)
    }

    /// How far the joint above `reaches[at]` is off the bond, where both are
    /// known; on the circle, so at most half a cover either way.
    pub(super) fn joint_off(&self, at: usize) -> Option<Length> {
        let bond = self.bond?;
        let joint = (*self.joints.get(at)?)?;
        let below = self.reaches.get(at)?.number;
        Some(bond.off(below, joint, self.cover))
    }
}
