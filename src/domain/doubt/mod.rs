//! Doubtful readings: which figures of a log are likely wrong, and why.
//!
//! An edge is straight, so every course of it narrows (or widens) alike; the
//! roof's slope says by how much; and where the bond is regular, the joints at
//! the course lines say which of two readings is wrong. Nothing here changes a
//! log, and nothing doubtful is an error: it is for the cutter to measure
//! again. What cannot be seen, and how much is, stands in docs/doubts.md.

mod cause;
mod fix;
mod joints;
mod reach;
mod scatter;
mod given;
mod slips;
mod line;
mod rows;
mod verdict;
mod answer;
mod suspects;
mod placement;
mod left_out;
mod forgotten;
mod moves;
mod moved;
mod plane_end;
mod rearranged;
mod whole_edge;
mod other_unit;
mod width;
mod courses;
mod check;
mod both_ends;
mod peak;
mod expected;

pub use both_ends::{BoardToBoard, check_both_ends};
pub use cause::Cause;
pub use check::{Witness, basis, check};
pub use expected::{Expected, expected_reading, expected_readings};
pub use fix::{Fix, WrittenIn};
pub use joints::Bond;
pub use line::{Basis, EdgeLine};
pub use peak::{PlaneAbove, RowOfGaps, check_above};
pub use rows::OtherEnd;
pub use scatter::{Scatter, mad, stands_out_beyond};
pub use verdict::{Doubt, DoubtedReading, OrAt, Suspect};
