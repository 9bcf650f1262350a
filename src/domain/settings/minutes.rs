//! Time in whole minutes, as a job sets a pause.

/// A time span in whole minutes.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Minutes(pub u32);
