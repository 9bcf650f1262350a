//! The job file: a job as text, and the text as a job again.
//!
//! RON, described field by field in docs/job-file.md. The version is read
//! first, then the struct of that version reads the whole; so a later version
//! is named and not guessed at. It opens no file: bytes go in and out.
//!
//! Invariant: a file that reads as [`Seal::Whole`] is what [`encode`] wrote.

mod checksum;
mod size;
mod version;
mod error;
mod head;
mod range;
mod settings;
mod doubt;
mod edge;
mod number;
mod offcut;
mod marked;
mod misfit;
mod fact;
mod course;
mod kept_change;
mod replay;
mod history;
mod job;
mod codec;

pub use checksum::Seal;
pub use codec::{Decoded, changes_in, decode, encode, seal_of, version_of};
pub use error::{DecodeError, EncodeError};
pub use history::{MOST_CHANGES, MOST_LINE_BYTES};
pub use size::MOST_PIECES;
pub use version::VERSION;
