//! What was done at the bench, fact by fact, and what follows from it.
//!
//! Facts are never changed, only taken back from the end; where a course is put
//! in or taken out below, they name their course by its new number.

mod written;
mod event;
mod stage;
mod corrections;
mod opened;
mod progress;
mod seconds;
mod times;
mod pace;

pub use event::{
    Asked, BenchEvent, CutRest, Fact, GoneBy, MarkedStock, SavedOffcut, SpoiledBy, Utc,
};
pub use opened::OpenedPanel;
pub use pace::{Pace, TimeLeft};
pub use progress::{Done, Progress, with_bend_struck};
pub use seconds::Seconds;
pub use stage::{Needs, Stage, stages};
pub use written::WrittenCourse;
