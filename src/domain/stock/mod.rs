//! What pieces are cut from: offcuts, the rack, and the plan that opens the
//! fewest panels.
//!
//! It does not know what was cut, bent or spoiled: what is left comes in.

mod pair;
mod offcut;
mod rack;
mod fit_graph;
mod matching;
mod assignment;
mod waiting;
mod planned;
mod group;
mod either_hand;
mod plan;

pub use either_hand::choose_hands;
pub use fit_graph::FitGraph;
pub use matching::Matching;
pub use offcut::{Offcut, share_a_panel};
pub use plan::Plan;
pub use planned::{LeftToCut, PlannedPiece, PlannedStock, Released, Rest, WhyReleased};
pub use rack::{OffcutNumber, Promise, RackOffcut};
