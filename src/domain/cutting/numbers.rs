//! The numbers by which edges are called: `H2` is the second hip, `V1` the first
//! valley.
//!
//! A job that was begun before kinds were counted apart has edges without a
//! number of their own: they stay called by their ids, as what is written on
//! steel says. A number is given once for each kind an edge has been and never
//! used again, not after the edge was deleted either.

use crate::domain::{
    log::{Edge, EdgeId},
    roof::{ByKind, EdgeKind},
};
use std::{
    collections::{HashMap, HashSet},
    sync::Arc,
};

/// That an edge is the `number`th of its kind, counted from 1.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct EdgeNumber {
    pub edge: EdgeId,
    pub kind: EdgeKind,
    pub number: u32,
}

/// The numbers of a job's edges, in the order in which they were given.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct EdgeNumbers(Arc<Vec<EdgeNumber>>);

impl EdgeNumbers {
    /// These, of which none may be there twice; see [`EdgeNumbers::twice`].
    pub fn of(rows: Vec<EdgeNumber>) -> Self {
        Self(Arc::new(rows))
    }

    /// The first row by which an edge has two numbers of a kind, or a number of a
    /// kind two edges.
    pub fn twice(rows: &[EdgeNumber]) -> Option<EdgeNumber> {
        let (mut edges, mut numbers) = (HashSet::new(), HashSet::new());
        let mut rows = rows.iter().copied();
        rows.find(|row| {
            let new_edge = edges.insert((row.edge, row.kind));
            !numbers.insert((row.kind, row.number)) || !new_edge
        })
    }

    /// One a kind that an edge has been, in the order in which they were given.
    pub fn rows(&self) -> &[EdgeNumber] {
        &self.0
    }

    /// How many of these `other` begins with, too.
    pub(super) fn alike(&self, other: &Self) -> usize {
        let both = self.0.iter().zip(other.rows());
        both.take_while(|(one, other)| one == other).count()
    }

    pub(super) fn give(&mut self, row: EdgeNumber) {
        Arc::make_mut(&mut self.0).push(row);
    }

    /// Those that `edges` lack as the kinds they are now: one that was of another
    /// kind `before` is called by a number of its new one.
    pub(super) fn give_new_kinds(&mut self, edges: &[Arc<Edge>], before: &[Arc<Edge>], ids: u32) {
        let was: HashMap<EdgeId, EdgeKind> = before.iter().map(|was| (was.id, was.kind)).collect();
        for now in edges {
            let (edge, kind) = (now.id, now.kind);
            let Some(was) = was.get(&edge).copied().filter(|was| *was != kind) else {
                continue;
            };
            let rows = || self.0.iter().filter(|row| row.edge == edge);
            if rows().any(|row| row.kind == kind) {
                continue;
            }
            let number = self.next(edges, before, ids)[kind];
            // What was cut bears the number it had.
            let had = EdgeNumber {
                edge,
                kind: was,
                number: edge.0,
            };
            let had = rows().next().is_none().then_some(had);
            for row in had.into_iter().chain([EdgeNumber { edge, kind, number }]) {
                self.give(row);
            }
        }
    }

    /// The number that the next edge of each kind gets, where these are the job's
    /// edges and were its edges `before`, and ids below `ids` were given out.
    pub(super) fn next(&self, edges: &[Arc<Edge>], before: &[Arc<Edge>], ids: u32) -> ByKind<u32> {
        let mut last = ByKind::of(|_| 0);
        let mut rise = |kind: EdgeKind, number: u32| last[kind] = number.max(last[kind]);
        for row in self.rows() {
            rise(row.kind, row.number);
        }
        let numbered: HashSet<EdgeId> = self.0.iter().map(|row| row.edge).collect();
        let mut without: HashSet<EdgeId> = HashSet::new();
        for edge in edges.iter().chain(before) {
            if !numbered.contains(&edge.id) {
                without.insert(edge.id);
                rise(edge.kind, edge.id.0);
            }
        }
        // Of what kind a deleted edge was, nobody knows any more.
        let known = |id: &EdgeId| numbered.contains(id) || without.contains(id);
        let gone = (1..ids).rev().map(EdgeId).find(|id| !known(id));
        if let Some(gone) = gone {
            for kind in EdgeKind::ALL {
                rise(kind, gone.0);
            }
        }
        ByKind::of(|kind| last[kind].saturating_add(1))
    }
}
