//! How many new panels to carry up.
//!
//! Counts only; which piece comes from which panel is [`super::plan`]'s matter.

use super::edge::EdgeId;
use super::plan::Plan;
use std::collections::BTreeMap;

/// How much more to carry than is needed, in whole per cent, up to 100.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub struct SparePerCent(u8);

impl SparePerCent {
    /// The most: twice what is needed.
    pub const MOST: u8 = 100;

    /// `per_cent` more, where that is in `0..=100`.
    #[must_use]
    pub const fn new(per_cent: u8) -> Option<Self> {
        if per_cent <= Self::MOST {
            Some(Self(per_cent))
        } else {
            None
        }
    }

    /// In per cent.
    #[must_use]
    pub const fn get(self) -> u8 {
        self.0
    }

    /// So many panels with the spare, part of a panel counting as one.
    #[must_use]
    pub fn on(self, panels: usize) -> usize {
        panels + (panels * usize::from(self.0)).div_ceil(100)
    }
}

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
    #[must_use]
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
    use super::*;

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
