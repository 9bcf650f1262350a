//! The stages a piece goes through at the bench.

use crate::domain::piece::{Marks, PieceSpec};
use crate::domain::settings::BenchOrder;

/// What is to be done next with a piece.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Stage {
    ToMark,
    ToCut,
    ToBend,
    /// It is to be labelled and stacked.
    ToStack,
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
    pub fn of(spec: &PieceSpec) -> Self {
        let marks = Marks::of(spec);
        Self {
            cut: marks.cut.is_some(),
            bend: marks.bend.is_some(),
        }
    }
}

/// The stages a piece goes through, in order, `Stacked` last.
pub fn stages(spec: &PieceSpec, order: BenchOrder) -> Vec<Stage> {
    let needs = Needs::of(spec);
    let (cut, bend) = ((needs.cut, Stage::ToCut), (needs.bend, Stage::ToBend));
    let middle = match order {
        BenchOrder::CutFirst => [cut, bend],
        BenchOrder::BendFirst => [bend, cut],
    };
    let middle = middle
        .into_iter()
        .filter_map(|(needed, stage)| needed.then_some(stage));
    std::iter::once(Stage::ToMark)
        .chain(middle)
        .chain([Stage::ToStack, Stage::Stacked])
        .collect()
}
