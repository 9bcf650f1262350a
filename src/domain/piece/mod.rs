//! From a gap to pieces: widths, lean, allowance, marks, lie, leg.
//!
//! It does not know what a piece is cut from, nor how far it has come.

mod spec;
mod both_ends;
mod lean;
mod allowance;
mod marks;
mod lie;
mod taper;
mod leg;

pub use allowance::allowance_of;
pub use both_ends::{EndLean, PieceEnd, piece_of_both_ends};
pub use lean::{lean_of, level, median, own_lean, own_step};
pub use leg::leg_trouble;
pub use lie::{Lie, Nose, Part};
pub use marks::{At, Ends, LineAt, LineMarks, Mark, Marks, NearMarks, length_mm};
pub use spec::{
    CourseFrame, CourseTrouble, NearEnd, Panel, PieceId, PieceSpec, along, pieces_of_gap, standing,
};
pub use taper::{Taper, room, stands};
