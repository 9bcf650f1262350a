//! Which courses of an edge have in them what a trial on the roof told.
//!
//! What was marked before a correction was said keeps its figures, and a course
//! read again may be free of it: so each amount stands with the courses that have it.

use crate::domain::{
    bench::Progress,
    cutting::{CutPiece, Labels},
    log::EdgeId,
    measure::Length,
    piece::PieceId,
    tape::{Division, print_with_unit},
};
use std::collections::BTreeMap;

/// The corrections of one edge.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(super) struct Corrected {
    /// How much longer the edge's pieces were made in all.
    said: Length,
    /// What each of its pieces has of that, by course.
    pieces: BTreeMap<u32, Vec<(PieceId, Length)>>,
}

impl Corrected {
    /// What the `pieces` of `edge` have in them.
    pub(super) fn of<'p>(
        edge: EdgeId,
        pieces: impl Iterator<Item = &'p CutPiece>,
        progress: &Progress,
    ) -> Self {
        let said = progress.corrections(edge);
        let mut by_course: BTreeMap<u32, Vec<_>> = BTreeMap::new();
        for piece in pieces {
            let id = piece.id;
            let done = progress.done(id).map(|done| done.corrected);
            let has = done.unwrap_or_else(|| progress.correction(id.edge, id.course));
            by_course
                .entry(id.course.get())
                .or_default()
                .push((id, has));
        }
        Self {
            said,
            pieces: by_course,
        }
    }

    /// `corrected after a trial on the roof: 1/8 in shorter in courses 3, 4, 10 to 12`;
    /// nothing where nothing was corrected.
    pub(super) fn words(&self, labels: &Labels, division: Division) -> Option<String> {
        let mut amounts: BTreeMap<Length, (Vec<u32>, Vec<String>)> = BTreeMap::new();
        for (course, pieces) in &self.pieces {
            let first = pieces.first().map(|(_, has)| *has);
            if let Some(has) = first.filter(|first| pieces.iter().all(|(_, has)| has == first)) {
                amounts.entry(has).or_default().0.push(*course);
                continue;
            }
            for (id, has) in pieces {
                amounts.entry(*has).or_default().1.push(labels.piece(*id));
            }
        }
        let others = match amounts.remove(&Length::ZERO) {
            Some(_) => "; the others are as they were read",
            None => "",
        };
        if amounts.is_empty() {
            let amount = amount(self.said, division);
            return (self.said != Length::ZERO).then(|| {
                format!("corrected after a trial on the roof: {amount}; no piece here has it")
            });
        }
        let said = amounts.into_iter().map(|(by, (courses, pieces))| {
            let word = match courses.len() {
                0 => "",
                1 => "course ",
                _ => "courses ",
            };
            let places: Vec<String> = ranges(&courses).into_iter().chain(pieces).collect();
            format!("{} in {word}{}", amount(by, division), places.join(", "))
        });
        let said = said.collect::<Vec<_>>().join("; ");
        Some(format!(
            "corrected after a trial on the roof: {said}{others}"
        ))
    }
}

fn amount(by: Length, division: Division) -> String {
    let which = if by < Length::ZERO {
        "shorter"
    } else {
        "longer"
    };
    format!("{} {which}", print_with_unit(by.abs(), division))
}

/// `3`, `4`, `10 to 12`.
fn ranges(courses: &[u32]) -> Vec<String> {
    let in_turn = courses.chunk_by(|below, above| below + 1 == *above);
    let said = in_turn.flat_map(|run| match run {
        [first, .., last] if run.len() > 2 => vec![format!("{first} to {last}")],
        run => run.iter().map(ToString::to_string).collect(),
    });
    said.collect()
}
