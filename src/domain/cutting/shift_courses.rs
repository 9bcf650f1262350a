//! A course put in or taken out of an edge, with all that hangs on numbers:
//! readings, answers, what was struck, and the bench's facts.
//!
//! What is written on steel stays written: a marked piece that moves keeps the
//! number that it bears.

use super::job::Job;
use crate::domain::{
    bench::{CutRest, Fact, WrittenCourse},
    log::{CourseNumber, CourseShift, EdgeId},
    piece::PieceId,
};

impl Job {
    /// Puts a course in or takes one out. False, and nothing changed, where
    /// there is no such edge, or no number left above its highest.
    pub fn shift_courses(&mut self, id: EdgeId, shift: CourseShift) -> bool {
        let highest = self.highest_course(id);
        let free = highest.next();
        let Some(edge) = self.edge_mut(id).filter(|_| free > highest) else {
            return false;
        };
        edge.shift_courses(shift);
        // What was spoiled of a course that is gone stays written down, at a
        // number that nothing else has.
        let to = |piece: PieceId| PieceId {
            course: shift.moved(piece.course).unwrap_or(free),
            ..piece
        };
        let ours = |piece: PieceId| if piece.edge == id { to(piece) } else { piece };
        for event in self.events_mut() {
            move_fact(&mut event.fact, ours);
        }
        true
    }

    /// The highest course of an edge that the log or a fact names.
    fn highest_course(&self, id: EdgeId) -> CourseNumber {
        let read = self.edge(id).and_then(|edge| edge.courses().last());
        let mut highest = read.map_or(CourseNumber::FIRST, |course| course.number);
        for event in self.events() {
            move_fact(&mut event.fact.clone(), |piece| {
                if piece.edge == id {
                    highest = highest.max(piece.course);
                }
                piece
            });
        }
        highest
    }
}

/// Gives every piece that a fact names the id that `to` says.
fn move_fact(fact: &mut Fact, mut to: impl FnMut(PieceId) -> PieceId) {
    match fact {
        Fact::Marked { piece, written, .. } => {
            let bears = written.unwrap_or(WrittenCourse::plain(piece.course));
            *piece = to(*piece);
            *written = (bears != WrittenCourse::plain(piece.course)).then_some(bears);
        }
        Fact::Cut { piece, rest } => {
            *piece = to(*piece);
            if let CutRest::Kept { promised, .. } = rest {
                *promised = to(*promised);
            }
        }
        Fact::FirstCut(piece)
        | Fact::Bent(piece)
        | Fact::Stacked(piece)
        | Fact::BendStruck { piece, .. }
        | Fact::Stays { piece, .. } => *piece = to(*piece),
        Fact::TakenBack { piece, kept } => {
            *piece = to(*piece);
            if let Some(kept) = kept {
                kept.promised = to(kept.promised);
            }
        }
        Fact::Spoiled { piece, saved, .. } => {
            *piece = to(*piece);
            for saved in saved {
                saved.promised = to(saved.promised);
            }
        }
        Fact::Promised { piece, .. } => *piece = piece.map(to),
        Fact::ReadAgain { edge, course, .. } => {
            let piece = PieceId {
                edge: *edge,
                course: *course,
                number: 1,
            };
            *course = to(piece).course;
        }
        Fact::Found { .. }
        | Fact::Measured { .. }
        | Fact::Gone { .. }
        | Fact::Paused
        | Fact::Corrected { .. } => {}
    }
}
