//! What is said of the last change at the program's end.

use crate::shell::outside::say;
use crate::storage::files::shown;
use std::fmt;
use std::path::PathBuf;

/// What became of the last change at the program's end.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Farewell {
    /// It is on the disk.
    Saved,
    /// It is in another file, and why.
    Rescued(PathBuf, String),
    Lost(String),
}

impl Farewell {
    /// Says where it is where that is another place than it belongs to; whoever was
    /// asked whether it may be lost knows that it is.
    pub fn say_if_elsewhere(&self) {
        if matches!(self, Self::Rescued(..)) {
            self.say_if_lost();
        }
    }

    /// Says what became of it where it is not where it belongs.
    pub fn say_if_lost(&self) {
        if *self != Self::Saved {
            say(&self.to_string());
        }
    }
}

impl fmt::Display for Farewell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Saved => f.write_str("the job is saved"),
            Self::Rescued(path, why) => {
                let path = shown(path);
                write!(f, "{why}; the job as it was last is in \"{path}\"")
            }
            Self::Lost(why) => write!(f, "the last change is not saved: {why}"),
        }
    }
}
