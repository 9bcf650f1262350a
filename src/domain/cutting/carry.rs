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

#[cfg(test)]
mod tests {
    use crate::domain::settings::SparePerCent;

    #[test]
    fn part_of_a_spare_panel_counts_as_one() {
        let spare = |per_cent| SparePerCent::new(per_cent).unwrap();
        assert_eq!(spare(0).on(41), 41);
        assert_eq!(spare(10).on(40), 44);
        assert_eq!(spare(10).on(41), 46);
        assert_eq!(spare(1).on(1), 2);
        assert_eq!(spare(5).on(0), 0);
        assert_eq!(spare(100).on(7), 14);
        assert_eq!(SparePerCent::new(101), None);
    }
}
