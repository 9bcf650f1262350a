//! What was done at the bench, fact by fact, and what follows from it.
//!
//! Facts are never changed, only taken back from the end.

mod event;
mod progress;
mod pace;

pub use event::{BenchEvent, CutRest, Fact, GoneBy, MarkedStock, SavedOffcut, Utc};
pub use pace::Pace;
pub use progress::{Done, Needs, Progress, Stage, stages};
