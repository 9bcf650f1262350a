//! The whole job: every piece in cutting order with its stock, label, notes
//! and doubts.
//!
//! All of it but the job itself is worked out from what was written down: anew, but
//! for a step at the bench that follows the plan.

mod spot;
mod numbers;
mod delta;
mod history;
mod job;
mod undo;
mod difference;
mod doubtful;
mod from_board_to_board;
mod every_doubt;
mod shift_courses;
mod fit;
mod second_trip;
mod cut_piece;
mod stock_plan;
mod tally;
mod empty_course;
mod cut_list;
mod going_on;
mod label;
mod note;
mod lots;
mod carry;

pub use carry::{LotPanels, PanelsToCarry};
pub use cut_list::{CutList, course_pieces};
pub use cut_piece::{CutNow, CutPiece, PieceStock};
pub use delta::{Delta, EdgeDelta, Rows};
pub use difference::differences;
pub use doubtful::{
    EdgeDoubt, doubt_words, doubts_of_edge_alone, is_let_stand, not_judged, odd_plane, odd_planes,
    or_at_words, place_words, suspect_words, two_readings,
};
pub use empty_course::EmptyCourse;
pub use every_doubt::doubts_of;
pub use fit::{Fit, Misfit, Off, Remedy};
pub use from_board_to_board::{ExpectedEnd, KnownLean, expected_end, lean_at_end};
pub use history::{Change, History, KeptChange, NamedChange};
pub use job::{Job, JobTrouble, Shift};
pub use label::Labels;
pub use lots::{Lots, lacks_lot};
pub use note::{Note, notes_of};
pub use numbers::{EdgeNumber, EdgeNumbers};
pub use second_trip::{OffCover, OnTrip};
pub use spot::{ReadingAt, Spot};
