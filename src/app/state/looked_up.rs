//! What is looked up in an open job and not kept: a course's pieces, a place in a
//! stack, what a spoiled piece would still be of use for.

use super::open_job::OpenJob;
use crate::domain::{
    bench::Fact,
    cutting::{CutList, CutPiece, Note, PanelsToCarry, notes_of},
    log::{CourseNumber, EdgeId},
    measure::Name,
    piece::{Marks, PieceId},
    stock::{Offcut, OffcutNumber},
};

impl OpenJob {
    /// How many new panels the job takes, took and still opens.
    pub fn panels_to_carry(&self) -> PanelsToCarry {
        let opened = self.progress.panels().values();
        PanelsToCarry::of(opened, &self.list.plan)
    }

    /// Which of `offcuts` a plan would use, and for which piece, once `spoiled`
    /// is to be made again.
    pub fn uses_after_spoiling(
        &self,
        spoiled: PieceId,
        offcuts: &[Offcut],
        lot: Option<&Name>,
    ) -> Vec<(Offcut, PieceId)> {
        let first = self.progress.next_offcut();
        let found = offcuts.iter().map(|offcut| (*offcut, lot.cloned()));
        let (piece, saved) = (spoiled, Vec::new());
        let mut facts = vec![Fact::Spoiled {
            piece,
            saved,
            why: None,
        }];
        facts.extend(Fact::found_all(found, first));
        let mut progress = self.progress.clone();
        progress.go_on(&facts);
        let plan = CutList::of(self.job(), &progress).plan;
        let numbers = (first.0..).map(OffcutNumber);
        let used = numbers.zip(offcuts);
        used.filter_map(|(number, offcut)| Some((*offcut, *plan.rack.get(&number)?)))
            .collect()
    }

    /// Where a stacked piece lies in the stack of its edge, 1 on top.
    pub fn stack_place(&self, piece: PieceId) -> Option<usize> {
        let lies = |id: PieceId| self.progress.done(id).is_some_and(|done| done.stacked);
        let stacked = self
            .job()
            .events()
            .iter()
            .rev()
            .filter_map(|event| match event.fact {
                Fact::Stacked(id) if id.edge == piece.edge && lies(id) => Some(id),
                _ => None,
            });
        // One made again was stacked twice: the last time counts.
        let mut seen = Vec::new();
        for id in stacked {
            if !seen.contains(&id) {
                seen.push(id);
            }
            if id == piece {
                return Some(seen.len());
            }
        }
        None
    }

    /// The pieces of one course, in the order they are laid.
    pub fn pieces_of_course(&self, edge: EdgeId, course: CourseNumber) -> Vec<&CutPiece> {
        let id = |number| PieceId {
            edge,
            course,
            number,
        };
        let pieces = (1..).map_while(|number| self.list.piece(id(number)));
        pieces.collect()
    }

    /// What is out of the ordinary about a course's pieces, each piece's words
    /// in turn.
    pub fn notes_of_course(&self, edge: EdgeId, course: CourseNumber) -> Vec<(PieceId, Note)> {
        let of_piece = |piece: &CutPiece| {
            let notes = notes_of(piece, &Marks::of(&piece.spec), &self.job().settings);
            let id = piece.id;
            notes.into_iter().map(move |note| (id, note))
        };
        let pieces = self.pieces_of_course(edge, course).into_iter();
        pieces.flat_map(of_piece).collect()
    }
}
