//! What is known of an edge besides its readings.

use super::{
    cause::Cause,
    scatter::{Scatter, USUAL_MM},
};
use crate::domain::log::{Edge, ReadTo};
use crate::domain::measure::Length;
use crate::domain::roof::{EdgeKind, RoofLine, Trend};
use crate::domain::settings::Settings;

/// The edge's kind, the roof beside it and the job's settings.
#[derive(Clone, Copy)]
pub(super) struct Given<'a> {
    pub(super) kind: EdgeKind,
    pub(super) roof: RoofLine,
    pub(super) settings: &'a Settings,
    /// What makes a raw reading a finished width.
    pub(super) added: Length,
    /// The line it is read to.
    pub(super) read_to: ReadTo,
    /// How the job's tape reads.
    pub(super) scatter: Scatter,
}

impl<'a> Given<'a> {
    /// What is known of `edge`.
    pub(super) fn of(edge: &Edge, settings: &'a Settings, scatter: Scatter) -> Self {
        Self {
            kind: edge.kind,
            roof: edge.roof,
            settings,
            added: settings.added_to_reading(edge),
            read_to: settings.reads_to(edge),
            scatter,
        }
    }

    /// Two steps nearer than this are the same to the tape: the tolerance, or so
    /// much as one in a hundred readings of a rough tape is off.
    pub(super) fn near(&self) -> Length {
        // Readings one place off scatter more than any tape.
        let rough = self.scatter.mm().min(1.3 * USUAL_MM);
        let rough = Length::rounded_from_mm(2.5 * rough);
        self.settings.tolerance.max(rough)
    }

    /// Whether a gap whose narrow end has this finished width is one that the panels
    /// leave: the last full one reaches one side lap past its side-lap line, and
    /// another one would be laid if it fitted (common practice).
    pub(super) fn panels_leave(&self, narrow: Length) -> bool {
        let settings = self.settings;
        let lies = narrow + settings.tolerance >= settings.side_lap;
        lies && narrow < settings.panel_width + settings.tolerance
    }

    /// The slip of reading to the other one of the two lines, and by how much that
    /// makes a reading too long.
    pub(super) fn other_line(&self) -> (Cause, Length) {
        match self.read_to {
            ReadTo::LapLine => (Cause::PanelEdge, -self.settings.side_lap),
            ReadTo::PanelEdge => (Cause::LapLine, self.settings.side_lap),
        }
    }

    /// How much a course narrows over a full exposure, by the roof's slopes.
    pub(super) fn roof_step(&self) -> Option<Length> {
        let lean = self.roof.lean(self.kind)?;
        Some(Length::rounded_from_mm(self.settings.exposure.mm() * lean))
    }

    /// Whether a step goes the way such an edge goes, if that is known.
    pub(super) fn fits_trend(&self, step: Length) -> bool {
        self.along_trend(step)
            .is_none_or(|along| along > Length::ZERO)
    }

    /// Whether a step goes the way such an edge cannot go, by more than the
    /// tolerance.
    pub(super) fn against_trend(&self, step: Length) -> bool {
        self.along_trend(step)
            .is_some_and(|along| along < -self.settings.tolerance)
    }

    /// Below zero where the step goes the other way.
    fn along_trend(&self, step: Length) -> Option<Length> {
        Some(match self.roof.trend(self.kind)? {
            Trend::Narrows => step,
            Trend::Widens => -step,
        })
    }
}
