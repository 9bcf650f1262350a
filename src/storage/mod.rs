//! What is kept on disk: the job file, its copies, readings as CSV, preferences.
//!
//! The only layer that touches the file system, and but for the lock and
//! the look at the open file only through [`fs::Fs`], so that a crash can be
//! simulated. It runs no thread and reads no clock and no
//! environment: paths come in as values. Read in this order.

pub mod fs;
pub mod job_file;
pub mod day;
pub mod copies;
pub mod fingerprint;
pub mod save;
pub mod load;
pub mod whole;
pub mod lock;
pub mod open_file;
pub mod readings_csv;
mod readings_row;
mod readings_detail;
mod readings_error;
pub mod preferences;
pub mod file_name;
