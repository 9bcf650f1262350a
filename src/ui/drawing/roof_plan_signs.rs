//! The signs of a course in the plan of the roof: how far its pieces have come, and
//! what is to be looked at. None is told by colour.

use crate::domain::{bench::Stage, piece::PieceId};
use crate::picture::{
    roof_plan::{Holds, PlanCourse, PlanEdge, ReadingMark},
    staircase::letter,
};
use crate::ui::theme::Theme;
use std::collections::BTreeSet;

/// The signs of a course that have a word in the row of words only where they
/// stand on the screen.
pub type Signs = BTreeSet<char>;

/// A course that is not read.
pub const UNREAD: char = '-';
/// One that is read and leaves nothing to cut.
pub const NOTHING: char = '0';
/// A piece that no longer fits.
pub const MISFIT: char = 'X';
/// A doubtful reading.
pub const DOUBT: char = '?';
/// The log and a sheet have each another figure, as the Log marks it.
pub const TWO: char = '2';
/// More pieces than have room stand as the least of their stages and this.
pub const MORE: char = '+';

/// The sign of a piece.
pub fn sign(stage: Stage, theme: &Theme) -> char {
    match stage {
        Stage::ToMark => theme.drawn('\u{b7}', ':'),
        Stage::Stacked => theme.drawn('\u{2588}', letter(stage)),
        begun => letter(begun),
    }
}

/// The signs of a course, from the edge into the field, then the marks about it.
pub(super) fn cell_of(course: &PlanCourse, each: u32, theme: &Theme) -> Vec<char> {
    let alone = each == 1;
    let of = |(_, stage): &(PieceId, Stage)| sign(*stage, theme);
    let mut cell = match &course.holds {
        Holds::Unread if alone => vec![UNREAD; 2],
        Holds::Unread => vec![UNREAD],
        Holds::Nothing => vec![NOTHING],
        Holds::Pieces(pieces) => match pieces.as_slice() {
            // Filled twice, to be seen from farther away.
            [one] if alone && has_fill(one.1) => vec![of(one); 2],
            pieces if pieces.len() <= 2 && !alone => pieces.iter().map(of).collect(),
            pieces if pieces.len() <= 3 && alone => {
                let apart: Vec<[char; 2]> = pieces.iter().map(|one| [of(one), ' ']).collect();
                let mut cell = apart.concat();
                cell.pop();
                cell
            }
            pieces => {
                let least = pieces.iter().min_by_key(|(_, stage)| *stage);
                least.map_or_else(Vec::new, |least| vec![of(least), MORE])
            }
        },
    };
    cell.extend(course.misfit.then_some(MISFIT));
    cell.extend(match course.reading {
        ReadingMark::Plain => None,
        ReadingMark::Doubted => Some(DOUBT),
        ReadingMark::Two => Some(TWO),
    });
    cell
}

/// Letters stand once, fills twice.
const fn has_fill(stage: Stage) -> bool {
    matches!(stage, Stage::ToMark | Stage::Stacked)
}

pub(super) fn columns_of(cells: &[char]) -> u16 {
    u16::try_from(cells.len()).unwrap_or(u16::MAX)
}

/// How wide the widest course of an edge is; every one ends before that.
pub(super) fn cell_width(edge: &PlanEdge, each: u32, theme: &Theme) -> u16 {
    let wide = |course| columns_of(&cell_of(course, each, theme));
    edge.courses.iter().map(wide).max().unwrap_or(0)
}
