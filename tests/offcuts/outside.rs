//! The outside answer: which parts share a panel is decided by the `geo` crate
//! on polygons, and how many pairs there are at most by the `petgraph` crate.
//! Nothing of the project's own test or matching is used.

use crate::random_job::blank;
use bendmark::domain::measure::{Hand, Length, Name, SkewLine};
use bendmark::domain::piece::{Panel, PieceId};
use bendmark::domain::stock::{LeftToCut, RackOffcut};
use geo::{Coord, Intersects, LineString, Polygon, Translate};
use petgraph::algo::maximum_matching;
use petgraph::graph::{NodeIndex, UnGraph};

/// A part of a panel: a piece left to cut, or what an offcut of the rack lacks.
pub(crate) struct Part<'a> {
    pub(crate) id: Option<PieceId>,
    lot: Option<&'a Name>,
    /// As high as it is.
    panel: Panel,
    /// A panel is cut across for it, so it may come from a higher one.
    across: bool,
    keeps: Hand,
    /// On the panel seen face up, `x` from its left edge, in nanometres.
    outline: Option<Polygon<f64>>,
    /// How far, and on which side, it reaches.
    wide: f64,
}

/// Parts nearer than this touch. On the grid of the random jobs an overlap is
/// over 500 nm deep: a quarter inch by the product of two denominators.
const TOUCH: f64 = 50.0;

#[expect(clippy::cast_precision_loss, reason = "whole nanometres below 2^53")]
fn nm(length: Length) -> f64 {
    length.nm() as f64
}

/// The panel on the whole edge's side of a line, by walking round its corners. It
/// ends just under its top: what begins at the top only touches it.
fn outline(line: &SkewLine, panel: Panel, keeps: Hand) -> Option<Polygon<f64>> {
    let (width, height) = (nm(panel.width), nm(panel.height) - TOUCH);
    let (nose, run) = (nm(line.at_nose), nm(line.at_rise) - nm(line.at_nose));
    let rise = nm(line.rise);
    let beyond = |p: Coord<f64>| p.x - (nose + run * p.y / rise);
    let panel = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    let panel = panel.map(|(x, y)| Coord { x, y });
    let mut corners = Vec::new();
    for (at, p) in panel.into_iter().enumerate() {
        let q = panel[(at + 1) % 4];
        let (from, to) = (beyond(p), beyond(q));
        if from <= 0.0 {
            corners.push(p);
        }
        if (from < 0.0 && to > 0.0) || (from > 0.0 && to < 0.0) {
            let part = from / (from - to);
            corners.push(Coord {
                x: p.x + (q.x - p.x) * part,
                y: p.y + (q.y - p.y) * part,
            });
        }
    }
    let seen = |p: &Coord<f64>| match keeps {
        Hand::Left => *p,
        Hand::Right => Coord {
            x: width - p.x,
            y: p.y,
        },
    };
    let wide = corners.iter().any(|p| p.x > TOUCH);
    (corners.len() > 2 && wide).then(|| {
        Polygon::new(
            LineString::new(corners.iter().map(seen).collect()),
            Vec::new(),
        )
    })
}

impl<'a> Part<'a> {
    pub(crate) fn piece(piece: &'a LeftToCut) -> Self {
        let (spec, panel) = (&piece.spec, blank(&piece.spec));
        let cut = SkewLine {
            at_nose: spec.bend.at_nose + spec.allowance,
            at_rise: spec.bend.at_rise + spec.allowance,
            rise: spec.bend.rise,
        };
        let part = Self::new(Some(piece.id), piece.lot.as_ref(), panel, spec.hand, &cut);
        Self {
            across: spec.across.is_some(),
            ..part
        }
    }

    pub(crate) fn lacking(offcut: &'a RackOffcut) -> Self {
        let (panel, limit) = (offcut.offcut.panel, offcut.offcut.limit);
        let gone = SkewLine {
            at_nose: panel.width - limit.at_nose,
            at_rise: panel.width - limit.at_rise,
            rise: limit.rise,
        };
        let keeps = offcut.offcut.whole.other();
        Self::new(None, offcut.lot.as_ref(), panel, keeps, &gone)
    }

    fn new(
        id: Option<PieceId>,
        lot: Option<&'a Name>,
        panel: Panel,
        keeps: Hand,
        line: &SkewLine,
    ) -> Self {
        let top = nm(line.at_nose)
            + (nm(line.at_rise) - nm(line.at_nose)) * nm(panel.height) / nm(line.rise);
        Self {
            id,
            lot,
            panel,
            across: false,
            keeps,
            outline: outline(line, panel, keeps),
            wide: nm(line.at_nose).max(top),
        }
    }

    /// Whether both can lie on one panel, the left one moved `spare` toward
    /// the right one, where `other` is cut after this one: what is cut across for
    /// it may be higher before, and is not lower.
    pub(crate) fn beside(&self, other: &Self, spare: Length) -> bool {
        let cut_across = other.across && self.panel.height > other.panel.height;
        let may = self.keeps != other.keeps
            && self.panel.width == other.panel.width
            && (self.panel.height == other.panel.height || cut_across)
            && self.lot == other.lot
            && (self.id.is_some() || other.id.is_some());
        if !may {
            return false;
        }
        if self.wide.max(0.0) + other.wide.max(0.0) + nm(spare) <= nm(self.panel.width) {
            // Their bounding boxes lie apart.
            return true;
        }
        let (left, right) = match self.keeps {
            Hand::Left => (self, other),
            Hand::Right => (other, self),
        };
        let (Some(left), Some(right)) = (&left.outline, &right.outline) else {
            return true;
        };
        !left.translate(nm(spare) - TOUCH, 0.0).intersects(right)
    }
}

/// All parts of a job, the rack's first.
pub(crate) fn parts<'a>(left: &'a [LeftToCut], rack: &'a [RackOffcut]) -> Vec<Part<'a>> {
    let rack = rack.iter().map(Part::lacking);
    rack.chain(left.iter().map(Part::piece)).collect()
}

/// The explicit graph of which parts share a panel.
pub(crate) fn graph(parts: &[Part<'_>], spare: Length) -> UnGraph<(), ()> {
    let mut graph = UnGraph::with_capacity(parts.len(), 0);
    let nodes: Vec<NodeIndex> = parts.iter().map(|_| graph.add_node(())).collect();
    for (at, one) in parts.iter().enumerate() {
        for (other_at, other) in parts.iter().enumerate().skip(at + 1) {
            if one.beside(other, spare) {
                graph.add_edge(nodes[at], nodes[other_at], ());
            }
        }
    }
    graph
}

/// The most pairs in that graph.
pub(crate) fn most_pairs(left: &[LeftToCut], rack: &[RackOffcut], spare: Length) -> usize {
    maximum_matching(&graph(&parts(left, rack), spare))
        .edges()
        .count()
}

/// The same where some pieces may be taken from either side: one node each,
/// joined to whatever fits it from one side or the other.
pub(crate) fn most_pairs_either_way(
    left: &[LeftToCut],
    from_other_side: &[LeftToCut],
    rack: &[RackOffcut],
    spare: Length,
) -> usize {
    let usual = parts(left, rack);
    let other: Vec<Part<'_>> = from_other_side.iter().map(Part::piece).collect();
    let mut graph = graph(&usual, spare);
    let node = |id: Option<PieceId>| {
        let at = usual.iter().position(|part| part.id == id);
        NodeIndex::new(at.unwrap())
    };
    let mut join = |one: &Part<'_>, with: NodeIndex, part: &Part<'_>| {
        let (first, then) = match node(one.id) < with {
            true => (one, part),
            false => (part, one),
        };
        if first.beside(then, spare) {
            graph.add_edge(node(one.id), with, ());
        }
    };
    for (at, one) in other.iter().enumerate() {
        for (with, part) in usual.iter().enumerate() {
            if part.id != one.id {
                join(one, NodeIndex::new(with), part);
            }
        }
        for two in &other[at + 1..] {
            join(one, node(two.id), two);
        }
    }
    maximum_matching(&graph).edges().count()
}

/// What opening a panel only where no offcut at hand fits comes to, in cutting
/// order: every offcut is kept, and the first that fits is taken.
pub(crate) fn first_fit(left: &[LeftToCut], rack: &[RackOffcut], spare: Length) -> usize {
    let mut waiting: Vec<Part<'_>> = rack.iter().map(Part::lacking).collect();
    let mut opened = 0;
    for piece in left {
        let piece = Part::piece(piece);
        match waiting
            .iter()
            .position(|offcut| offcut.beside(&piece, spare))
        {
            Some(at) => drop(waiting.remove(at)),
            None => {
                opened += 1;
                waiting.push(piece);
            }
        }
    }
    opened
}
