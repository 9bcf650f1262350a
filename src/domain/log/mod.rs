//! What was written down on the roof: edges, courses, readings, answers.
//!
//! It judges nothing and cuts nothing.

mod taken;
mod course;
mod said;
mod course_shift;
mod set_aside;
mod edge;
mod lot_words;
mod detail;

pub use course::{Course, CourseNumber, EdgeId, End, Gap, Reading, SecondTrip, Trip};
pub use course_shift::CourseShift;
pub use detail::EdgeDetail;
pub use edge::{Edge, LaterLot, Struck};
pub use said::{CourseFigure, SheetSaid, Took, TwoReadings};
pub use set_aside::SetAside;
pub use taken::{PanelsLie, ReadTo, TapeEnd};
