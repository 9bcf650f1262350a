//! How many new panels to carry up.
//!
//! Counts only; which piece comes from which panel is [`crate::domain::stock`]'s matter.

use super::job::Job;
use crate::domain::{bench::OpenedPanel, log::EdgeId, measure::Name, piece::PieceId, stock::Plan};
use std::collections::BTreeMap;

/// New panels to open, already opened or still to open.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct PanelsToCarry {
    /// For the whole job: those opened so far, spoiled ones among them, and
    /// those still to open.
    pub whole_job: usize,
    /// The same, at each edge.
    pub by_edge: BTreeMap<EdgeId, usize>,
    /// For what is left to cut.
    pub left: usize,
    /// The same, at each edge.
    pub left_by_edge: BTreeMap<EdgeId, usize>,
    /// The pieces that still open one.
    opening: Vec<PieceId>,
    /// The lots that opened panels came from.
    opened_lots: Vec<Option<Name>>,
}

/// New panels of one colour lot.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LotPanels {
    /// `None` for edges whose lot was not named.
    pub lot: Option<Name>,
    pub left: usize,
    pub whole_job: usize,
}

impl PanelsToCarry {
    /// The counts where `opened` are the panels opened so far, and `plan` holds
    /// for the rest.
    pub fn of<'a>(opened: impl IntoIterator<Item = &'a OpenedPanel>, plan: &Plan) -> Self {
        let left_by_edge = plan.new_by_edge();
        let mut by_edge = left_by_edge.clone();
        let mut opened_lots = Vec::new();
        for panel in opened {
            *by_edge.entry(panel.edge).or_default() += 1;
            opened_lots.push(panel.lot.clone());
        }
        Self {
            whole_job: by_edge.values().sum(),
            by_edge,
            left: plan.new_panels(),
            left_by_edge,
            opening: plan.opening().collect(),
            opened_lots,
        }
    }

    /// How many were opened so far.
    pub const fn opened(&self) -> usize {
        self.whole_job.saturating_sub(self.left)
    }

    /// The same by colour lot, in the order of the job's edges; nothing where no
    /// edge of `job` has a lot. An opened panel counts for the lot it came from,
    /// whatever the log says now.
    pub fn by_lot(&self, job: &Job) -> Vec<LotPanels> {
        let mut lots: Vec<LotPanels> = Vec::new();
        let named = job.edges().iter().flat_map(|edge| edge.lots());
        for lot in named {
            count(&mut lots, lot, 0, 0);
        }
        for piece in &self.opening {
            let edge = job.edge(piece.edge);
            let lot = edge.and_then(|edge| edge.lot_of(piece.course));
            count(&mut lots, lot, 1, 1);
        }
        for lot in &self.opened_lots {
            count(&mut lots, lot.as_ref(), 0, 1);
        }
        lots.retain(|panels| panels.whole_job > 0);
        match lots.iter().any(|panels| panels.lot.is_some()) {
            true => lots,
            false => Vec::new(),
        }
    }
}

/// Counts panels of `lot`, left to open and in all.
fn count(lots: &mut Vec<LotPanels>, lot: Option<&Name>, left: usize, whole_job: usize) {
    if let Some(panels) = lots.iter_mut().find(|panels| panels.lot.as_ref() == lot) {
        panels.left += left;
        panels.whole_job += whole_job;
    } else {
        lots.push(LotPanels {
            lot: lot.cloned(),
            left,
            whole_job,
        });
    }
}
