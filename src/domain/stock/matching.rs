//! Maximum matchings: as many pairs as possible, no part in two of them.
//!
//! Berge (1957): a matching is maximum exactly if no path leads from a free row
//! to a free column by edges that are, in turn, outside and inside it. Such a
//! path is searched for from every free row, breadth first, 64 columns at a time.
//! What a failed search has seen can be left out of all later ones: its rows
//! reach only its own columns, none of which is free, and no later path can
//! enter it and come out again. So all failed searches together look at each
//! row once. Own code, because no library at hand takes rows of bits, a set of
//! columns to leave alone, or a matching to begin from.

use super::fit_graph::{BitSet, FitGraph};

/// Pairs of a row and a column, each in one pair at most.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Matching {
    column_of: Vec<Option<usize>>,
    row_of: Vec<Option<usize>>,
    size: usize,
}

impl Matching {
    /// A matching of nothing in `graph`.
    pub fn empty(graph: &FitGraph) -> Self {
        Self {
            column_of: vec![None; graph.rows()],
            row_of: vec![None; graph.columns()],
            size: 0,
        }
    }

    /// A matching of the most pairs in `graph`.
    pub fn maximum(graph: &FitGraph) -> Self {
        let mut matching = Self::empty(graph);
        matching.grow(graph, BitSet::below(graph.columns()));
        matching
    }

    /// How many pairs.
    pub const fn size(&self) -> usize {
        self.size
    }

    /// The column paired with `row`.
    pub fn column_of(&self, row: usize) -> Option<usize> {
        self.column_of.get(row).copied().flatten()
    }

    /// The row paired with `column`.
    pub fn row_of(&self, column: usize) -> Option<usize> {
        self.row_of.get(column).copied().flatten()
    }

    /// All pairs of a row and a column, by row.
    pub fn pairs(&self) -> impl Iterator<Item = (usize, usize)> + '_ {
        (0..)
            .zip(&self.column_of)
            .filter_map(|(row, column)| column.map(|column| (row, column)))
    }

    /// Pairs `row` with `column`, parting both from what they had.
    pub fn pair(&mut self, row: usize, column: usize) {
        self.part(row);
        if let Some(before) = self.row_of(column) {
            self.part(before);
        }
        if let (Some(mine), Some(other)) =
            (self.column_of.get_mut(row), self.row_of.get_mut(column))
        {
            *mine = Some(column);
            *other = Some(row);
            self.size += 1;
        }
    }

    /// Parts the pair of `row`, if it is in one.
    fn part(&mut self, row: usize) {
        let column = self.column_of.get_mut(row).and_then(Option::take);
        if let Some(other) = column.and_then(|column| self.row_of.get_mut(column)) {
            *other = None;
            self.size -= 1;
        }
    }

    /// The same pairs with rows for columns.
    pub fn turned(&self) -> Self {
        Self {
            column_of: self.row_of.clone(),
            row_of: self.column_of.clone(),
            size: self.size,
        }
    }

    /// The columns of `open` that no path from a free row can reach.
    pub fn unreached(&self, graph: &FitGraph, open: BitSet) -> BitSet {
        let mut search = Search::new(self, open);
        for row in 0..graph.rows() {
            if self.column_of(row).is_none() {
                search.from(row, graph, self);
            }
        }
        search.unseen
    }

    /// Adds pairs until there can be no more without touching columns outside
    /// `open`. Rows and columns that are paired stay so, if in other pairs.
    pub fn grow(&mut self, graph: &FitGraph, open: BitSet) {
        let mut search = Search::new(self, open);
        for row in 0..graph.rows() {
            if self.column_of(row).is_none()
                && let Some(column) = search.from(row, graph, self)
            {
                search.flip(column, self);
            }
        }
    }
}

/// A breadth-first search for a path from a free row to a free column.
struct Search {
    /// Columns not yet seen, now or in an earlier failed search.
    unseen: BitSet,
    /// Those of them that are in no pair.
    free: BitSet,
    /// The row from which each column was seen first.
    seen_from: Vec<usize>,
    rows: Vec<usize>,
    seen: Vec<usize>,
}

impl Search {
    fn new(matching: &Matching, open: BitSet) -> Self {
        let mut free = open.clone();
        for (_, column) in matching.pairs() {
            free.remove(column);
        }
        Self {
            unseen: open,
            free,
            seen_from: vec![0; matching.row_of.len()],
            rows: Vec::new(),
            seen: Vec::new(),
        }
    }

    /// The free column at the end of a path from `start`, if there is one.
    fn from(&mut self, start: usize, graph: &FitGraph, matching: &Matching) -> Option<usize> {
        self.rows.clear();
        self.rows.push(start);
        self.seen.clear();
        let mut next = 0;
        while let Some(row) = self.rows.get(next).copied() {
            next += 1;
            if let Some(column) = graph.row(row).first_in(&self.free) {
                self.came(column, row);
                return Some(column);
            }
            let mut new = std::mem::take(&mut self.seen);
            let before = new.len();
            self.unseen.take(graph.row(row), |column| new.push(column));
            for column in new.iter().skip(before).copied() {
                self.came(column, row);
                self.rows.extend(matching.row_of(column));
            }
            self.seen = new;
        }
        None
    }

    fn came(&mut self, column: usize, row: usize) {
        if let Some(place) = self.seen_from.get_mut(column) {
            *place = row;
        }
    }

    /// Turns every pair of the path that ends at the free column `end` into
    /// the one before it, and makes what was seen visible again.
    fn flip(&mut self, end: usize, matching: &mut Matching) {
        self.free.remove(end);
        let mut column = Some(end);
        while let Some(at) = column {
            let row = self.seen_from.get(at).copied().unwrap_or_default();
            column = matching.column_of(row);
            matching.pair(row, at);
        }
        for column in self.seen.drain(..) {
            self.unseen.insert(column);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn graph(rows: usize, columns: usize, edges: &[(usize, usize)]) -> FitGraph {
        let rows: Vec<_> = (0..rows).collect();
        let columns: Vec<_> = (0..columns).collect();
        FitGraph::of(&rows, &columns, |row, column| {
            edges.contains(&(*row, *column))
        })
    }

    #[test]
    fn a_first_pair_that_stands_in_the_way_is_turned() {
        // The greedy first pair 0-0 would leave row 1 without one.
        let matching = Matching::maximum(&graph(2, 2, &[(0, 0), (0, 1), (1, 0)]));
        assert_eq!(matching.pairs().collect::<Vec<_>>(), [(0, 1), (1, 0)]);
    }

    #[test]
    fn a_long_path_is_turned_as_a_whole() {
        let edges: Vec<_> = (0..100)
            .flat_map(|at| [(at, at), (at, at + 1)])
            .chain([(100, 0)])
            .collect();
        assert_eq!(Matching::maximum(&graph(101, 101, &edges)).size(), 101);
    }

    #[test]
    fn columns_left_alone_stay_alone() {
        let graph = graph(2, 2, &[(0, 0), (0, 1), (1, 0)]);
        let mut matching = Matching::empty(&graph);
        let mut open = BitSet::below(2);
        open.remove(1);
        matching.grow(&graph, open);
        assert_eq!(matching.size(), 1);
        assert_eq!(matching.row_of(1), None);
    }

    #[test]
    fn nothing_at_all_matches_nothing() {
        assert_eq!(Matching::maximum(&graph(0, 0, &[])).size(), 0);
        assert_eq!(Matching::maximum(&graph(3, 0, &[])).size(), 0);
        assert_eq!(Matching::maximum(&graph(0, 3, &[])).size(), 0);
    }
}
