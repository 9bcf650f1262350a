//! What one step of a piece is read in: a page for each line, and before them one
//! for cutting the stock across.

use crate::domain::bench::Stage;
use crate::domain::cutting::CutPiece;
use crate::domain::measure::Length;
use crate::domain::piece::{LineAt, Marks};

/// One page of a step.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum BenchPage {
    /// The stock is cut across first, so far up from the nose.
    Across(Length),
    /// The marks, the cut or the bend of one line.
    Line(LineAt),
}

/// The pages of the step that is next for `piece`, in the order of the work.
pub fn pages_of(piece: &CutPiece) -> Vec<BenchPage> {
    let lines = || {
        let marks = Marks::of(&piece.spec);
        let lines = marks.lines().map(|line| BenchPage::Line(line.at));
        lines.collect::<Vec<_>>()
    };
    match piece.stage {
        Stage::ToMark => across(piece).into_iter().chain(lines()).collect(),
        Stage::ToBend => lines(),
        Stage::ToCut => {
            let cut = piece.cut_now().map_or(LineAt::Far, |cut| cut.line);
            vec![BenchPage::Line(cut)]
        }
        Stage::ToStack | Stage::Stacked => vec![BenchPage::Line(LineAt::Far)],
    }
}

/// Where its stock is cut across, if anything is left to cut there.
fn across(piece: &CutPiece) -> Option<BenchPage> {
    let spec = &piece.spec;
    let offcut = piece.stock.offcut();
    let is_due = offcut.is_none_or(|offcut| offcut.is_cut_across_for(spec));
    spec.across.filter(|_| is_due).map(BenchPage::Across)
}
