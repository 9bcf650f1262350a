//! How many new panels to carry up.
//!
//! Counts only; which piece comes from which panel is [`crate::domain::stock`]'s matter.

use crate::domain::{log::EdgeId, stock::Plan};
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
}

impl PanelsToCarry {
    /// The counts where a panel was opened so far for a piece of each of the
    /// edges `opened` (an edge once for each panel), and `plan` holds for the
    /// rest.
    pub fn of(opened: impl IntoIterator<Item = EdgeId>, plan: &Plan) -> Self {
        let mut by_edge = plan.new_by_edge();
        for edge in opened {
            *by_edge.entry(edge).or_default() += 1;
        }
        Self {
            whole_job: by_edge.values().sum(),
            by_edge,
            left: plan.new_panels(),
        }
    }
}
