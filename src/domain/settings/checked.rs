//! A job's settings, checked as a whole: the core can compute with them.

use super::{out_of_range::OutOfRange, raw::RawSettings, setting::Setting};
use crate::domain::{
    log::{Course, Edge, ReadTo, TapeEnd},
    measure::Length,
};
use std::ops::Deref;

/// A job's settings, checked: everything the core computes with is in range.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub struct Settings(RawSettings);

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
        Setting::ALL
            .into_iter()
            .try_for_each(|setting| setting.check(&raw))?;
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

    /// To what `edge` is read: its own exception, else what follows from the way
    /// the panels lie, else what the job says.
    pub fn reads_to(&self, edge: &Edge) -> ReadTo {
        let by_lap = || self.0.panels_lie.reads_to(edge.hand);
        edge.reads_to.or_else(by_lap).unwrap_or(self.0.read_to)
    }

    /// How the tape's end is held at `edge`.
    pub fn tape_end_at(&self, edge: &Edge) -> TapeEnd {
        edge.tape_end.unwrap_or(self.0.tape_end)
    }

    /// What is added to a raw reading of `edge` to get the finished width: `+ lap`
    /// if read to the panel's edge, `- clearance` if the tape's end was held hard
    /// (trade practice; the correction comes on top).
    pub fn added_to_reading(&self, edge: &Edge) -> Length {
        self.added(edge, self.reads_to(edge))
    }

    /// The same for one course, which may be read to a line of its own.
    pub fn added_to_course(&self, edge: &Edge, course: &Course) -> Length {
        let to = course.reads_to.unwrap_or_else(|| self.reads_to(edge));
        self.added(edge, to)
    }

    fn added(&self, edge: &Edge, to: ReadTo) -> Length {
        let lap = match to {
            ReadTo::LapLine => Length::ZERO,
            ReadTo::PanelEdge => self.0.side_lap,
        };
        let clearance = match self.tape_end_at(edge) {
            TapeEnd::HeldOff => Length::ZERO,
            TapeEnd::Hard => self.0.kind(edge.kind).clearance,
        };
        lap - clearance
    }
}
