//! The roof beside an edge: slopes, corners, kinds of edge, planes.
//!
//! It reads no log: what a roof says of readings is for [`crate::domain::doubt`].

mod angle_number;
mod slope;
mod corner;
mod kind;
mod line;
mod plane;

pub use angle_number::AngleError;
pub use corner::Corner;
pub use kind::{Bend, ByKind, EdgeKind, Trend};
pub use line::RoofLine;
pub use plane::{RoofSide, SameHand, planes_of_one_hand, roof_sides};
pub use slope::{Slope, SlopeForm};
