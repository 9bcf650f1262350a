//! The program's exit code.

use std::process::ExitCode;

/// What the program ends with.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Exit(pub u8);

impl Exit {
    /// All was done.
    pub const DONE: Self = Self(0);

    /// It could not be done, and a message says why.
    pub const COULD_NOT: Self = Self(1);

    /// A check found something doubtful.
    pub const DOUBTFUL: Self = Self(1);

    /// A check could not read the job.
    pub const UNREADABLE: Self = Self(2);

    /// The terminal is gone, as if by a hang-up: 128 and the signal's number.
    pub const HUNG_UP: Self = Self(129);

    /// Wrong usage, or no terminal where one is needed.
    pub const USAGE: Self = Self(2);
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit.0)
    }
}
