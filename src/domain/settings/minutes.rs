//! Time in whole minutes, as a job sets a pause.

/// A time span in whole minutes.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Minutes(pub u32);

impl Minutes {
    /// The longest pause: a day's work has no longer one.
    pub const LONGEST_PAUSE: u32 = 480;
}
