//! What every command shares: the job's argument, and why a command ends early.

use crate::shell::outside::Unheard;
use clap::{Arg, ArgMatches, value_parser};
use std::path::PathBuf;

/// Why a command ended early.
#[derive(Debug)]
pub enum Stop {
    /// It could not be done: one message or more.
    CouldNot(Vec<String>),
    /// The reader of the output has gone; that is no trouble.
    Closed,
}

impl Stop {
    /// One message.
    pub fn one(message: impl ToString) -> Self {
        Self::CouldNot(vec![message.to_string()])
    }
}

impl From<Unheard> for Stop {
    fn from(unheard: Unheard) -> Self {
        match unheard {
            Unheard::Closed => Self::Closed,
            Unheard::Failed(error) => {
                Self::one(format!("the output could not be written: {error}"))
            }
        }
    }
}

/// The job's path, used exactly as written.
pub(super) fn job_arg() -> Arg {
    Arg::new("JOB").value_parser(value_parser!(PathBuf))
}

/// A path that clap has made sure is there.
pub(super) fn path(matches: &ArgMatches, id: &str) -> PathBuf {
    matches.get_one(id).cloned().unwrap_or_default()
}
