//! Opening, making and offering jobs, and writing sheets, for the full screen.

pub mod offered;
pub mod kept;
pub mod opening;
pub mod sheets;
pub mod taking;

pub use opening::Answer;
pub use sheets::write;
