//! The pieces and offcuts of one colour lot and one panel width: what can share
//! panels, planned by itself.
//!
//! Why a maximum matching is the plan with the fewest panels is shown at the
//! head of `plan.rs`.

use super::{
    fit_graph::{BitSet, FitGraph},
    matching::Matching,
    pair::{Share, SharedPanel},
    planned::{LeftToCut, WhyReleased},
    rack::RackOffcut,
    waiting::{Places, least_waiting},
};
use crate::domain::{
    measure::{Hand, Length, Name, SkewLine},
    piece::Panel,
};
use foldhash::HashMap;
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// One of the two that share a panel.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) enum Partner {
    /// A piece left to cut, by its place in the cutting order from 0.
    Piece(usize),
    /// An offcut of the rack, by its place in the list.
    Rack(usize),
}

/// A partner with what it takes of the panel.
struct Member {
    partner: Partner,
    /// Up to its own height.
    share: Share,
    panel: SharedPanel,
    line: SkewLine,
    /// It comes from what is higher, too.
    is_cut_across: bool,
}

/// All of one lot and width.
#[derive(Default)]
pub(super) struct Group {
    /// What keeps a left edge, in cutting order, the rack's first.
    rows: Vec<Member>,
    /// What keeps a right edge, likewise.
    columns: Vec<Member>,
}

/// How a group is cut.
pub(super) struct Solved {
    /// Those that share a panel.
    pub pairs: Vec<(Partner, Partner)>,
    /// The offcuts whose promises are released, by place in the list.
    pub released: Vec<(usize, WhyReleased)>,
}

/// What is left to cut and what lies on the rack, by lot and panel width.
pub(super) fn groups(left: &[LeftToCut], rack: &[RackOffcut], spare: Length) -> Vec<Group> {
    let mut groups: BTreeMap<(Option<&Name>, Length), Group> = BTreeMap::new();
    let offcuts = (0..).zip(rack).map(|(at, RackOffcut { offcut, lot, .. })| {
        let (keeps, line) = (offcut.whole.other(), offcut.taken_up_to());
        let member = Member::of(Partner::Rack(at), line, offcut.panel, spare, false);
        (lot, offcut.panel, keeps, member)
    });
    let pieces = (0..).zip(left).map(|(at, LeftToCut { spec, lot, .. })| {
        let (blank, is_cut_across) = (spec.blank(), spec.across.is_some());
        let member = Member::of(Partner::Piece(at), spec.cut(), blank, spare, is_cut_across);
        (lot, blank, spec.hand, member)
    });
    // The rack's first: each side is in cutting order.
    for (lot, panel, keeps, member) in offcuts.chain(pieces) {
        let group = groups.entry((lot.as_ref(), panel.width)).or_default();
        let side = match keeps {
            Hand::Left => &mut group.rows,
            Hand::Right => &mut group.columns,
        };
        side.push(member);
    }
    groups.into_values().collect()
}

impl Member {
    fn of(
        partner: Partner,
        line: SkewLine,
        panel: Panel,
        spare: Length,
        is_cut_across: bool,
    ) -> Self {
        let panel = SharedPanel::new(panel.width, panel.height, spare);
        Self {
            partner,
            share: Share::up_to(&line, panel),
            panel,
            line,
            is_cut_across,
        }
    }

    /// Whether `later`, whole on the other edge and of another height, comes out
    /// of what this one leaves of its panel.
    fn leaves_room_for(&self, later: &Self) -> bool {
        later.is_cut_across
            && self.panel.is_higher_than(later.panel)
            && Share::up_to(&self.line, later.panel).fits_beside(&later.share, later.panel)
    }
}

/// Where a partner stands in the cutting order: 0 on the rack, 1 for what is
/// next.
fn place(partner: Partner) -> usize {
    match partner {
        Partner::Piece(at) => at + 1,
        Partner::Rack(_) => 0,
    }
}

impl Group {
    /// How the group is cut from the fewest panels.
    pub(super) fn solve(&self, left: &[LeftToCut], rack: &[RackOffcut]) -> Solved {
        let graph = self.graph();
        let places = Places {
            rows: self.rows.iter().map(|row| place(row.partner)).collect(),
            columns: self.columns.iter().map(|col| place(col.partner)).collect(),
        };
        let mut most = Matching::maximum(&graph);
        let mut open = BitSet::below(graph.columns());
        let released = self.keep_promises(left, rack, &graph, &mut most, &mut open);
        let best = least_waiting(&graph, &places, &most, &open);
        let partners = |(row, column): (usize, usize)| {
            Some((
                self.rows.get(row)?.partner,
                self.columns.get(column)?.partner,
            ))
        };
        Solved {
            pairs: best.pairs().filter_map(partners).collect(),
            released,
        }
    }

    /// How many panels two of it can share at most.
    pub(super) fn most_pairs(&self) -> usize {
        Matching::maximum(&self.graph()).size()
    }

    fn graph(&self) -> FitGraph {
        let mut rows = self.rows.iter().map(|row| row.panel);
        let panel = rows.next();
        let is_one_panel = rows.all(|other| Some(other) == panel)
            && self
                .columns
                .iter()
                .all(|column| Some(column.panel) == panel);
        // On one panel the cutting order is nothing to what fits.
        let alike = |row: &Member| {
            let is_offcut = matches!(row.partner, Partner::Rack(_));
            is_one_panel.then_some((row.share, is_offcut))
        };
        FitGraph::with_alike(&self.rows, &self.columns, alike, |row, column| {
            if row.panel == column.panel {
                // Most pairs: either may be cut first.
                let two_offcuts = matches!(row.partner, Partner::Rack(_))
                    && matches!(column.partner, Partner::Rack(_));
                return !two_offcuts && row.share.fits_beside(&column.share, row.panel);
            }
            match place(row.partner).cmp(&place(column.partner)) {
                Ordering::Less => row.leaves_room_for(column),
                Ordering::Greater => column.leaves_room_for(row),
                // Two offcuts.
                Ordering::Equal => false,
            }
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
            let partners = side.iter().map(|member| member.partner);
            partners.zip(0..).collect()
        };
        let (rows, columns) = (places(&self.rows), places(&self.columns));
        let pieces: HashMap<_, _> = left.iter().map(|piece| piece.id).zip(0..).collect();
        let mut promises: Vec<_> = rack
            .iter()
            .enumerate()
            .filter_map(|(at, offcut)| {
                let promise = offcut.promise?;
                let offcut_part = Partner::Rack(at);
                let piece_part = Partner::Piece(*pieces.get(&promise.piece)?);
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
