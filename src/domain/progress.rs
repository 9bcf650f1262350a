//! How far each piece has come, derived from the bench's facts.
//!
//! It remembers nothing of its own: the same facts always give the same
//! progress. Pieces nobody has touched are not in it.

use super::edge::EdgeId;
use super::event::{BenchEvent, Fact, Stock};
use super::length::Length;
use super::marks::Marks;
use super::piece::{PieceId, PieceSpec};
use super::settings::BenchOrder;
use std::collections::{BTreeSet, HashMap};

/// What is to be done next with a piece.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Stage {
    /// Nothing is done yet.
    ToMark,
    /// It is to be cut.
    ToCut,
    /// It is to be bent.
    ToBend,
    /// It is to be labelled and stacked.
    ToStack,
    /// All is done.
    Stacked,
}

impl Stage {
    /// Every stage, from the first on.
    pub const ALL: [Self; 5] = [
        Self::ToMark,
        Self::ToCut,
        Self::ToBend,
        Self::ToStack,
        Self::Stacked,
    ];

    /// `to mark`, `to cut`, `to bend`, `to stack` or `stacked`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::ToMark => "to mark",
            Self::ToCut => "to cut",
            Self::ToBend => "to bend",
            Self::ToStack => "to stack",
            Self::Stacked => "stacked",
        }
    }
}

/// What has been done with one piece.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Done {
    /// Its figures as they were marked.
    pub spec: PieceSpec,
    /// What it is cut from.
    pub stock: Stock,
    /// Whether it was cut.
    pub cut: bool,
    /// Whether it was bent.
    pub bent: bool,
    /// Whether it was stacked.
    pub stacked: bool,
}

impl Done {
    /// What is to be done next, where `order` says whether cutting or bending
    /// comes first. What a piece does not need (a full panel is neither cut
    /// nor bent) is passed over.
    #[must_use]
    pub fn stage(&self, order: BenchOrder) -> Stage {
        if self.stacked {
            return Stage::Stacked;
        }
        let needs = Needs::of(&self.spec);
        let cut = (needs.cut && !self.cut).then_some(Stage::ToCut);
        let bend = (needs.bend && !self.bent).then_some(Stage::ToBend);
        let next = match order {
            BenchOrder::CutFirst => cut.or(bend),
            BenchOrder::BendFirst => bend.or(cut),
        };
        next.unwrap_or(Stage::ToStack)
    }
}

/// Which of cut and bend a piece needs at all.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Needs {
    /// Its cut line crosses the panel.
    pub cut: bool,
    /// Its bend line crosses the panel.
    pub bend: bool,
}

impl Needs {
    /// What the piece `spec` needs.
    #[must_use]
    pub fn of(spec: &PieceSpec) -> Self {
        let marks = Marks::of(spec);
        Self {
            cut: marks.cut.is_some(),
            bend: marks.bend.is_some(),
        }
    }
}

/// The stages a piece goes through, in order, `Stacked` last.
#[must_use]
pub fn stages(spec: &PieceSpec, order: BenchOrder) -> Vec<Stage> {
    let needs = Needs::of(spec);
    let middle = match order {
        BenchOrder::CutFirst => [(needs.cut, Stage::ToCut), (needs.bend, Stage::ToBend)],
        BenchOrder::BendFirst => [(needs.bend, Stage::ToBend), (needs.cut, Stage::ToCut)],
    };
    let middle = middle
        .into_iter()
        .filter_map(|(needed, stage)| needed.then_some(stage));
    std::iter::once(Stage::ToMark)
        .chain(middle)
        .chain([Stage::ToStack, Stage::Stacked])
        .collect()
}

/// Everything that follows from the bench's facts.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Progress {
    done: HashMap<PieceId, Done>,
    corrections: HashMap<EdgeId, Length>,
    panels: BTreeSet<u32>,
}

impl Progress {
    /// What `events` amount to. A fact about a piece that was never marked
    /// says nothing and is passed over.
    #[must_use]
    pub fn of(events: &[BenchEvent]) -> Self {
        let mut progress = Self::default();
        for event in events {
            progress.take(&event.fact);
        }
        progress
    }

    fn take(&mut self, fact: &Fact) {
        match fact {
            Fact::Marked { piece, spec, stock } => {
                self.panels.insert(stock.panel());
                self.done.insert(
                    *piece,
                    Done {
                        spec: **spec,
                        stock: *stock,
                        cut: false,
                        bent: false,
                        stacked: false,
                    },
                );
            }
            Fact::Cut(piece) => self.change(*piece, |done| done.cut = true),
            Fact::Bent(piece) => self.change(*piece, |done| done.bent = true),
            Fact::Stacked(piece) => self.change(*piece, |done| done.stacked = true),
            Fact::Corrected { edge, by } => {
                let correction = self.corrections.entry(*edge).or_default();
                *correction = *correction + *by;
            }
        }
    }

    fn change(&mut self, piece: PieceId, change: impl FnOnce(&mut Done)) {
        if let Some(done) = self.done.get_mut(&piece) {
            change(done);
        }
    }

    /// What has been done with `piece`; `None` while it is still to mark.
    #[must_use]
    pub fn done(&self, piece: PieceId) -> Option<&Done> {
        self.done.get(&piece)
    }

    /// Every piece that has been marked, in no particular order.
    pub fn marked(&self) -> impl Iterator<Item = (PieceId, &Done)> {
        self.done.iter().map(|(piece, done)| (*piece, done))
    }

    /// How much longer the pieces of `edge` not yet marked are made.
    #[must_use]
    pub fn correction(&self, edge: EdgeId) -> Length {
        self.corrections.get(&edge).copied().unwrap_or_default()
    }

    /// The numbers of the panels opened so far.
    #[must_use]
    pub const fn panels(&self) -> &BTreeSet<u32> {
        &self.panels
    }
}
