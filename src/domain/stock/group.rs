//! The pieces and offcuts of one colour lot and one panel size: what can share
//! panels, planned by itself.
//!
//! Why a matching of the most pairs is the plan with the fewest panels stands
//! in [`crate::domain::stock`].

use super::{
    fit_graph::{BitSet, FitGraph},
    matching::Matching,
    pair::{Room, Taken},
    planned::{LeftToCut, WhyReleased},
    rack::RackOffcut,
    waiting::{Places, least_waiting},
};
use crate::domain::measure::{Hand, Length, Name};
use std::collections::{BTreeMap, HashMap};

/// One of the two that share a panel.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) enum Part {
    /// A piece left to cut, by its place in the cutting order from 0.
    Piece(usize),
    /// An offcut of the rack, by its place in the list.
    Rack(usize),
}

/// What is known of a part for the planning.
struct Member {
    part: Part,
    taken: Taken,
}

/// All of one lot and size.
pub(super) struct Group {
    room: Room,
    /// What keeps a left edge, in cutting order, the rack's first.
    rows: Vec<Member>,
    /// What keeps a right edge, likewise.
    columns: Vec<Member>,
}

/// How a group is cut.
pub(super) struct Solved {
    /// The parts that share a panel.
    pub pairs: Vec<(Part, Part)>,
    /// The offcuts whose promises are released, by place in the list.
    pub released: Vec<(usize, WhyReleased)>,
    /// The waiting of all pairs, the least there can be.
    pub waiting: usize,
}

/// What is left to cut and what lies on the rack, by lot and panel size.
pub(super) fn groups(left: &[LeftToCut], rack: &[RackOffcut], spare: Length) -> Vec<Group> {
    let mut groups: BTreeMap<(Option<&Name>, Length, Length), Group> = BTreeMap::new();
    // The rack's first: each side is in cutting order.
    for (at, offcut) in rack.iter().enumerate() {
        let panel = offcut.offcut.panel;
        let group = groups
            .entry((offcut.lot.as_ref(), panel.width, panel.height))
            .or_insert_with(|| Group::new(Room::new(panel.width, panel.height, spare)));
        let taken = offcut.offcut.taken(group.room);
        group.add(offcut.offcut.whole.other(), Part::Rack(at), taken);
    }
    for (at, piece) in left.iter().enumerate() {
        let panel = piece.spec.panel;
        let group = groups
            .entry((piece.lot.as_ref(), panel.width, panel.height))
            .or_insert_with(|| Group::new(Room::new(panel.width, panel.height, spare)));
        let taken = Taken::up_to(&piece.spec.cut(), group.room);
        group.add(piece.spec.hand, Part::Piece(at), taken);
    }
    groups.into_values().collect()
}

/// Where a part stands in the cutting order: 0 on the rack, 1 for what is next.
fn place(part: Part) -> usize {
    match part {
        Part::Piece(at) => at + 1,
        Part::Rack(_) => 0,
    }
}

impl Group {
    const fn new(room: Room) -> Self {
        Self {
            room,
            rows: Vec::new(),
            columns: Vec::new(),
        }
    }

    /// Puts in a part that keeps the edge `keeps` of its panel.
    fn add(&mut self, keeps: Hand, part: Part, taken: Taken) {
        let side = match keeps {
            Hand::Left => &mut self.rows,
            Hand::Right => &mut self.columns,
        };
        side.push(Member { part, taken });
    }

    /// The group's part of the plan.
    pub(super) fn solve(&self, left: &[LeftToCut], rack: &[RackOffcut]) -> Solved {
        let graph = self.graph();
        let places = Places {
            rows: self.rows.iter().map(|row| place(row.part)).collect(),
            columns: self.columns.iter().map(|col| place(col.part)).collect(),
        };
        let mut most = Matching::maximum(&graph);
        let mut open = BitSet::below(graph.columns());
        let released = self.keep_promises(left, rack, &graph, &mut most, &mut open);
        let best = least_waiting(&graph, &places, &most, &open);
        let parts = |(row, column): (usize, usize)| {
            Some((self.rows.get(row)?.part, self.columns.get(column)?.part))
        };
        Solved {
            pairs: best.pairs().filter_map(parts).collect(),
            released,
            waiting: best.pairs().map(|(r, c)| places.between(r, c)).sum(),
        }
    }

    fn graph(&self) -> FitGraph {
        FitGraph::of(&self.rows, &self.columns, |row, column| {
            let two_offcuts =
                matches!(row.part, Part::Rack(_)) && matches!(column.part, Part::Rack(_));
            !two_offcuts && row.taken.fits_beside(&column.taken, self.room)
        })
    }

    /// Pairs every promised offcut with its piece for which `most` need not
    /// lose a pair, the oldest promise first, and takes their columns out of
    /// `open`; those released come back.
    fn keep_promises(
        &self,
        left: &[LeftToCut],
        rack: &[RackOffcut],
        graph: &FitGraph,
        most: &mut Matching,
        open: &mut BitSet,
    ) -> Vec<(usize, WhyReleased)> {
        let mut released = Vec::new();
        let mut open_rows = BitSet::below(graph.rows());
        for promised in self.promises(left, rack) {
            let Promised { at, row, column } = promised;
            if !graph.fits(row, column) {
                released.push((at, WhyReleased::NoFit));
                continue;
            }
            if !open.has(column) || !open_rows.has(row) {
                released.push((at, WhyReleased::PromisedBefore));
                continue;
            }
            let Some((tried, still_open)) = with_pair(graph, most, open, row, column) else {
                released.push((at, WhyReleased::FewerPanels));
                continue;
            };
            open_rows.remove(row);
            (*most, *open) = (tried, still_open);
        }
        released
    }

    /// The promises within this group, the oldest first.
    fn promises(&self, left: &[LeftToCut], rack: &[RackOffcut]) -> Vec<Promised> {
        let places = |side: &[Member]| -> HashMap<_, usize> {
            let parts = side.iter().map(|member| member.part);
            parts.zip(0..).collect()
        };
        let (rows, columns) = (places(&self.rows), places(&self.columns));
        let pieces: HashMap<_, _> = left.iter().map(|piece| piece.id).zip(0..).collect();
        let mut promises: Vec<_> = rack
            .iter()
            .enumerate()
            .filter_map(|(at, offcut)| {
                let promise = offcut.promise?;
                let offcut_part = Part::Rack(at);
                let piece_part = Part::Piece(*pieces.get(&promise.piece)?);
                let pair = match offcut.offcut.whole {
                    Hand::Right => (rows.get(&offcut_part)?, columns.get(&piece_part)?),
                    Hand::Left => (rows.get(&piece_part)?, columns.get(&offcut_part)?),
                };
                let promised = Promised {
                    at,
                    row: *pair.0,
                    column: *pair.1,
                };
                Some(((promise.since, offcut.number), promised))
            })
            .collect();
        promises.sort_by_key(|(age, _)| *age);
        promises.into_iter().map(|(_, promised)| promised).collect()
    }
}

/// A matching as large as `most` that pairs `row` and `column`, and `open`
/// without that column; `None` where there is none. What is outside `open`
/// stays as it is.
fn with_pair(
    graph: &FitGraph,
    most: &Matching,
    open: &BitSet,
    row: usize,
    column: usize,
) -> Option<(Matching, BitSet)> {
    let mut tried = most.clone();
    let mut still_open = open.clone();
    tried.pair(row, column);
    still_open.remove(column);
    tried.grow(graph, still_open.clone());
    (tried.size() == most.size()).then_some((tried, still_open))
}

/// A promise as a pair of the graph.
struct Promised {
    /// The offcut's place in the list.
    at: usize,
    row: usize,
    column: usize,
}
