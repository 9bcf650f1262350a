//! Why a save failed: at which step of its recipe, and what is said of it.

use crate::storage::files::{shown, words};
use std::fmt;
use std::io::{self, ErrorKind};
use std::path::PathBuf;

/// A step of the recipe.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum SaveStep {
    Resolve,
    Create,
    Write,
    Sync,
    Keep,
    Rename,
    SyncFolder,
}

impl SaveStep {
    /// In words, as in "could not be saved while ...".
    pub const fn words(self) -> &'static str {
        match self {
            Self::Resolve => "finding its folder",
            Self::Create => "making a new file beside it",
            Self::Write => "writing the new file",
            Self::Sync => "syncing the new file",
            Self::Keep => "keeping the last file",
            Self::Rename => "putting the new file in its place",
            Self::SyncFolder => "syncing the folder",
        }
    }
}

/// Why a file was not saved. The one of before is still there, under its own
/// name or as `.bak`.
#[derive(Debug)]
pub enum SaveError {
    /// Something of that name is there and must not be overwritten.
    Taken { path: PathBuf },
    /// The file is not the one that was read or saved last: another program
    /// has written it.
    Changed { path: PathBuf },
    Failed {
        path: PathBuf,
        step: SaveStep,
        source: io::Error,
    },
}

impl SaveError {
    /// What is wrong and what can be done, without the path: for whoever has
    /// the job before them.
    pub fn brief(&self) -> String {
        match self {
            Self::Taken { .. } => {
                "something of that name is there already, choose another".to_owned()
            }
            Self::Changed { .. } => {
                "the file was changed by another program and is left as it is".to_owned()
            }
            // Too large to be read is another matter.
            Self::Failed { step, source, .. }
                if matches!(step, SaveStep::Write | SaveStep::Sync)
                    && source.kind() == ErrorKind::FileTooLarge =>
            {
                "the system allows no file of this size here, choose another path".to_owned()
            }
            Self::Failed { source, .. } => words(source),
        }
    }
}

impl fmt::Display for SaveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Taken { path } => write!(
                f,
                "\"{}\" is already there, expected a name not yet taken: open it, or choose another",
                shown(path)
            ),
            Self::Changed { path } => write!(
                f,
                "\"{}\" was changed by another program and is left as it is: open it again, or save under another path",
                shown(path)
            ),
            Self::Failed { path, step, .. } => write!(
                f,
                "\"{}\" could not be saved while {}: {}",
                shown(path),
                step.words(),
                self.brief()
            ),
        }
    }
}

impl std::error::Error for SaveError {}
