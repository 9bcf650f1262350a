//! Among the matchings of the most pairs, one whose offcuts wait least.
//!
//! A pair waits as long as pieces are cut between its two: the distance of
//! their places in the cutting order, less one. What lies on the rack stands
//! just before the first place.
//!
//! By Dulmage and Mendelsohn (1958) three blocks share no pair in any matching
//! of the most pairs: what a path from a free row can reach, what a path to a
//! free column can come from, and the rest. In the first every column is paired
//! in all such matchings, in the second every row, in the rest both. So each
//! block asks for the cheapest way to give every member of one side a partner,
//! which `assignment.rs` answers, and the three answers together are a
//! cheapest matching of the most pairs.

use super::{
    assignment::{Offer, cheapest},
    fit_graph::{BitSet, FitGraph},
    matching::Matching,
};

/// Where the rows and columns stand in the cutting order: 1 for what is cut
/// next, 0 for what lies on the rack.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(super) struct Places {
    /// Of each row, rising.
    pub rows: Vec<usize>,
    /// Of each column, rising.
    pub columns: Vec<usize>,
}

fn place(places: &[usize], at: usize) -> usize {
    places.get(at).copied().unwrap_or_default()
}

/// How many places lie between two.
const fn waits(one: usize, other: usize) -> usize {
    one.abs_diff(other).saturating_sub(1)
}

/// A matching of the most pairs with the least waiting in all, given one of
/// the most pairs; only columns in `open`, and the rows not paired with one
/// outside it, are paired anew.
pub(super) fn least_waiting(
    graph: &FitGraph,
    places: &Places,
    most: &Matching,
    open: &BitSet,
) -> Matching {
    let turned = (graph.turned(), most.turned());
    let by_row = OneSide {
        graph,
        most,
        places: [&places.rows, &places.columns],
    };
    let by_column = OneSide {
        graph: &turned.0,
        most: &turned.1,
        places: [&places.columns, &places.rows],
    };
    let mut found = most.clone();
    for Block { rows, columns } in blocks(&by_row, &by_column, open) {
        let pairs = if rows.len() <= columns.len() {
            by_row.cheapest(&rows, &columns)
        } else {
            let turned = by_column.cheapest(&columns, &rows);
            turned.map(|pairs| pairs.into_iter().map(|(c, r)| (r, c)).collect())
        };
        // Every block has such pairs, or `most` was not of the most pairs.
        for (row, column) in pairs.unwrap_or_default() {
            found.pair(row, column);
        }
    }
    found
}

/// Rows and columns that are paired among themselves only.
#[derive(Default)]
struct Block {
    rows: Vec<usize>,
    columns: Vec<usize>,
}

/// The three blocks, without what is held outside `open`.
fn blocks(by_row: &OneSide<'_>, by_column: &OneSide<'_>, open: &BitSet) -> [Block; 3] {
    let (graph, most) = (by_row.graph, by_row.most);
    let mut open_rows = BitSet::below(graph.rows());
    for (row, _) in most.pairs().filter(|(_, column)| !open.has(*column)) {
        open_rows.remove(row);
    }
    let from_row = most.unreached(graph, open.clone());
    let from_column = by_column.most.unreached(by_column.graph, open_rows.clone());
    let mut blocks = <[Block; 3]>::default();
    let [reached, reaching, rest] = &mut blocks;
    for row in (0..graph.rows()).filter(|row| open_rows.has(*row)) {
        let column = most.column_of(row);
        if column.is_none_or(|column| !from_row.has(column)) {
            reached.rows.push(row);
        } else if !from_column.has(row) {
            reaching.rows.push(row);
        } else {
            rest.rows.push(row);
        }
    }
    for column in (0..graph.columns()).filter(|column| open.has(*column)) {
        let row = most.row_of(column);
        if row.is_none_or(|row| !from_column.has(row)) {
            reaching.columns.push(column);
        } else if !from_row.has(column) {
            reached.columns.push(column);
        } else {
            rest.columns.push(column);
        }
    }
    blocks
}

/// The graph as seen from one side: its rows are those that need a partner.
struct OneSide<'a> {
    graph: &'a FitGraph,
    most: &'a Matching,
    /// Of the rows, and of the columns.
    places: [&'a [usize]; 2],
}

impl OneSide<'_> {
    /// A partner of `targets` for each of `sources`, with the least waiting.
    fn cheapest(&self, sources: &[usize], targets: &[usize]) -> Option<Vec<(usize, usize)>> {
        let mut target_at = vec![None; self.graph.columns()];
        for (at, target) in targets.iter().enumerate() {
            *target_at.get_mut(*target)? = Some(at);
        }
        let offers: Vec<_> = sources
            .iter()
            .map(|source| self.offers(*source, &target_at))
            .collect();
        let found = cheapest(&offers, targets.len())?;
        let pairs = sources.iter().zip(found);
        pairs
            .map(|(source, at)| Some((*source, *targets.get(at)?)))
            .collect()
    }

    /// What fits `source`, the nearest first.
    fn offers(&self, source: usize, target_at: &[Option<usize>]) -> Vec<Offer> {
        let [mine, others] = self.places;
        let from = place(mine, source);
        let offer = |column: usize| {
            let target = target_at.get(column).copied().flatten()?;
            let cost = waits(from, place(others, column));
            Some(Offer { cost, target })
        };
        // Columns stand in cutting order: both walks lead away from the source.
        let next = others.partition_point(|place| *place < from);
        let fitting = self.graph.row(source);
        let mut before = fitting.below(next).filter_map(offer).peekable();
        let mut after = fitting.from(next).filter_map(offer).peekable();
        std::iter::from_fn(|| match (before.peek(), after.peek()) {
            (Some(one), Some(other)) if other.cost < one.cost => after.next(),
            (Some(_), _) => before.next(),
            (None, _) => after.next(),
        })
        .collect()
    }
}
