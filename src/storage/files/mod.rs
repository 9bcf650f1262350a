//! The disk itself and what names things on it; it knows no job.

#[cfg(windows)]
mod windows;
mod patience;
mod fs;
mod day;
mod fingerprint;
mod file_name;
mod shown;
mod lock;

pub use day::Day;
pub use file_name::file_name;
pub use fingerprint::Fingerprint;
pub(crate) use fs::lower;
pub use fs::{Confirmed, Fs, MOST_BYTES, RealFs, confirmed, folder_of, words};
pub use lock::{Lock, LockError, is_held, lock_path};
pub use shown::shown;
