//! What is kept on disk: the job file, its copies, readings as CSV, preferences.
//!
//! The only layer that touches the file system, and but for the lock and
//! the look at the open file only through [`files::Fs`], so that a crash can be
//! simulated. It runs no thread and reads no clock and no
//! environment: paths come in as values. Read in this order.

pub mod files;
mod ron_words;
pub mod job_file;
pub mod keeping;
pub mod readings;
pub mod preferences;
