//! How many new panels to carry up.
//!
//! Counts only; which piece comes from which panel is [`crate::domain::stock`]'s matter.

use super::job::Job;
use crate::domain::{log::EdgeId, measure::Name, stock::Plan};
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
    /// The counts where a panel was opened so far for a piece of each of the
    /// edges `opened` (an edge once for each panel), and `plan` holds for the
    /// rest.
    pub fn of(opened: impl IntoIterator<Item = EdgeId>, plan: &Plan) -> Self {
        let left_by_edge = plan.new_by_edge();
        let mut by_edge = left_by_edge.clone();
        for edge in opened {
            *by_edge.entry(edge).or_default() += 1;
        }
        Self {
            whole_job: by_edge.values().sum(),
            by_edge,
            left: plan.new_panels(),
            left_by_edge,
        }
    }

    /// How many were opened so far.
    pub const fn opened(&self) -> usize {
        self.whole_job.saturating_sub(self.left)
    }

    /// The same by the colour lot of the edges, in their order; nothing where no
    /// edge of `job` has a lot. What was opened for an edge counts for the lot it
    /// has now.
    pub fn by_lot(&self, job: &Job) -> Vec<LotPanels> {
        let mut lots: Vec<LotPanels> = Vec::new();
        for edge in job.edges() {
            let known = lots.iter().position(|panels| panels.lot == edge.lot);
            let at = known.unwrap_or_else(|| {
                lots.push(LotPanels {
                    lot: edge.lot.clone(),
                    left: 0,
                    whole_job: 0,
                });
                lots.len() - 1
            });
            let of = |counts: &BTreeMap<EdgeId, usize>| counts.get(&edge.id).copied().unwrap_or(0);
            if let Some(panels) = lots.get_mut(at) {
                panels.left += of(&self.left_by_edge);
                panels.whole_job += of(&self.by_edge);
            }
        }
        lots.retain(|panels| panels.whole_job > 0);
        match lots.iter().any(|panels| panels.lot.is_some()) {
            true => lots,
            false => Vec::new(),
        }
    }
}
