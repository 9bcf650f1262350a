//! Among the matchings of the most pairs, one whose offcuts wait least.
//!
//! A pair waits as long as pieces are cut between its two: the distance of
//! their places in the cutting order, less one. What lies on the rack stands
//! just before the first place.
//!
//! [`least_waiting`] is exact. By Dulmage and Mendelsohn (1958) three blocks
//! share no pair in any matching of the most pairs: what a path from a free row
//! can reach, what a path to a free column can come from, and the rest. In the
//! first every column is paired in all such matchings, in the second every row,
//! in the rest both. So each block asks for the cheapest way to give every
//! member of one side a partner, which [`super::assignment`] answers, and the
//! three answers together are a cheapest matching of the most pairs.
//!
//! [`little_waiting`] is a good guess for jobs too large for that: near pairs
//! first, then as many more as there can be, then exchanges of two pairs for as
//! long as one helps. It never loses a pair.

use super::assignment::Costs;
use super::fit_graph::{BitSet, FitGraph};
use super::matching::Matching;

/// Where the rows and columns stand in the cutting order: 1 for what is cut
/// next, 0 for what lies on the rack.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Places {
    /// Of each row, rising.
    pub rows: Vec<usize>,
    /// Of each column, rising.
    pub columns: Vec<usize>,
}

impl Places {
    /// How many pieces are cut between `row` and `column`.
    #[must_use]
    pub fn between(&self, row: usize, column: usize) -> usize {
        let at = |places: &[usize], at| places.get(at).copied().unwrap_or_default();
        at(&self.rows, row)
            .abs_diff(at(&self.columns, column))
            .saturating_sub(1)
    }

    fn turned(&self) -> Self {
        Self {
            rows: self.columns.clone(),
            columns: self.rows.clone(),
        }
    }
}

/// A matching of the most pairs with the least waiting in all, given one of
/// the most pairs; only columns in `open`, and the rows not paired with one
/// outside it, are paired anew.
#[must_use]
pub fn least_waiting(
    graph: &FitGraph,
    places: &Places,
    most: &Matching,
    open: &BitSet,
) -> Matching {
    let mut found = most.clone();
    for block in blocks(graph, most, open) {
        let pairs = block.cheapest(graph, places);
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

impl Block {
    fn cheapest(&self, graph: &FitGraph, places: &Places) -> Option<Vec<(usize, usize)>> {
        let cost = |row, column| {
            let fits = graph.fits(row, column);
            fits.then(|| i64::try_from(places.between(row, column)).unwrap_or(i64::MAX / 64))
        };
        let place = |list: &[usize], at: usize| list.get(at).copied().unwrap_or_default();
        if self.rows.len() <= self.columns.len() {
            let of_row = Costs::of(&self.rows, &self.columns, cost).cheapest()?;
            let columns = of_row.iter().map(|at| place(&self.columns, *at));
            Some(self.rows.iter().copied().zip(columns).collect())
        } else {
            let turned = |column, row| cost(row, column);
            let of_column = Costs::of(&self.columns, &self.rows, turned).cheapest()?;
            let rows = of_column.iter().map(|at| place(&self.rows, *at));
            Some(rows.zip(self.columns.iter().copied()).collect())
        }
    }
}

/// The three blocks, without what is held outside `open`.
fn blocks(graph: &FitGraph, most: &Matching, open: &BitSet) -> [Block; 3] {
    let free_for = |row: usize| most.column_of(row).is_none_or(|column| open.has(column));
    let mut open_rows = BitSet::below(graph.rows());
    for row in (0..graph.rows()).filter(|row| !free_for(*row)) {
        open_rows.remove(row);
    }
    let columns_reached = most.unreached(graph, open.clone());
    let rows_reached = most.turned().unreached(&graph.turned(), open_rows.clone());
    let mut blocks = <[Block; 3]>::default();
    let [from_rows, from_columns, rest] = &mut blocks;
    for row in (0..graph.rows()).filter(|row| open_rows.has(*row)) {
        let from_free_row = most
            .column_of(row)
            .is_none_or(|column| !columns_reached.has(column));
        if from_free_row {
            from_rows.rows.push(row);
        } else if rows_reached.has(row) {
            rest.rows.push(row);
        } else {
            from_columns.rows.push(row);
        }
    }
    for column in (0..graph.columns()).filter(|column| open.has(*column)) {
        let to_free_column = most.row_of(column).is_none_or(|row| !rows_reached.has(row));
        if to_free_column {
            from_columns.columns.push(column);
        } else if columns_reached.has(column) {
            rest.columns.push(column);
        } else {
            from_rows.columns.push(column);
        }
    }
    blocks
}

/// A matching of the most pairs that waits little, given one of the most pairs;
/// `open` as in [`least_waiting`]. Not always the least.
#[must_use]
pub fn little_waiting(
    graph: &FitGraph,
    places: &Places,
    most: &Matching,
    open: &BitSet,
) -> Matching {
    let mut found = most.clone();
    for (row, column) in most.pairs() {
        if open.has(column) {
            found.part(row);
        }
    }
    pair_near_first(graph, places, open, &mut found);
    found.grow(graph, open.clone());
    let (turned_graph, turned_places) = (graph.turned(), places.turned());
    for _ in 0..PASSES {
        let helped = exchange(graph, places, open, &mut found);
        let mut turned = found.turned();
        let mut open_rows = BitSet::below(graph.rows());
        for (row, column) in found.pairs() {
            if !open.has(column) {
                open_rows.remove(row);
            }
        }
        let helped_too = exchange(&turned_graph, &turned_places, &open_rows, &mut turned);
        found = turned.turned();
        if !helped && !helped_too {
            break;
        }
    }
    found
}

/// Rounds of exchanges; hardly any job helps itself to more than a few.
const PASSES: usize = 12;

/// Pairs what stands nearest in the cutting order, then what stands one place
/// further apart, and so on.
fn pair_near_first(graph: &FitGraph, places: &Places, open: &BitSet, found: &mut Matching) {
    let last = places.rows.iter().chain(&places.columns).max().copied();
    let last = last.unwrap_or_default();
    let mut columns_at = vec![Vec::new(); last + 1];
    for (column, place) in places.columns.iter().enumerate() {
        if let Some(columns) = columns_at.get_mut(*place).filter(|_| open.has(column)) {
            columns.push(column);
        }
    }
    let mut rows: Vec<_> = places.rows.iter().copied().enumerate().collect();
    for apart in 1..=last {
        rows.retain(|(row, _)| found.column_of(*row).is_none());
        for (row, place) in &rows {
            let near = [place.checked_sub(apart), place.checked_add(apart)];
            let column = near
                .into_iter()
                .flatten()
                .filter_map(|place| columns_at.get(place))
                .flatten()
                .find(|column| found.row_of(**column).is_none() && graph.fits(*row, **column));
            if let Some(column) = column {
                found.pair(*row, *column);
            }
        }
    }
}

/// Gives each paired row a nearer column where that shortens the waiting: one
/// that is free, or one of a pair that changes columns with it.
fn exchange(graph: &FitGraph, places: &Places, open: &BitSet, found: &mut Matching) -> bool {
    let mut helped = false;
    for row in 0..graph.rows() {
        let Some(now) = found.column_of(row).filter(|column| open.has(*column)) else {
            continue;
        };
        if let Some(column) = nearer(graph, places, open, found, row, now) {
            let other = found.row_of(column);
            found.part(row);
            found.pair(row, column);
            if let Some(other) = other {
                found.pair(other, now);
            }
            helped = true;
        }
    }
    helped
}

/// The column whose exchange for `now` saves `row` and its present partner the
/// most.
fn nearer(
    graph: &FitGraph,
    places: &Places,
    open: &BitSet,
    found: &Matching,
    row: usize,
    now: usize,
) -> Option<usize> {
    let waits = places.between(row, now);
    let place = places.rows.get(row).copied().unwrap_or_default();
    let from = places.columns.partition_point(|at| at + waits < place);
    let to = places.columns.partition_point(|at| *at <= place + waits);
    let saved = |column: usize| {
        if column == now || !open.has(column) || !graph.fits(row, column) {
            return None;
        }
        let Some(other) = found.row_of(column) else {
            return waits.checked_sub(places.between(row, column));
        };
        let before = waits + places.between(other, column);
        let after = places.between(row, column) + places.between(other, now);
        before.checked_sub(after).filter(|_| graph.fits(other, now))
    };
    (from..to)
        .filter_map(|column| Some((saved(column).filter(|saved| *saved > 0)?, column)))
        .max()
        .map(|(_, column)| column)
}
