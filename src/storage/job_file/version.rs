//! Which version of the job file is written.

/// The version that is written.
pub const VERSION: u32 = 2;
