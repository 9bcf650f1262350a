//! Orders to the outside; the shell carries them out and answers by message.

use super::place::Preferences;
use crate::domain::{cutting::Job, log::EdgeId};
use std::path::PathBuf;
use std::sync::Arc;

/// A state of the open job, to be put on the disk.
#[derive(Clone, PartialEq, Debug)]
pub struct ToSave {
    pub path: PathBuf,
    pub job: Arc<Job>,
    /// Which change of the job it is; comes back with the answer.
    pub change: u64,
    /// The job before a change that takes much away: kept as a version first.
    pub before: Option<Arc<Job>>,
    pub other: OtherFile,
}

/// What becomes of a file that another program has changed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum OtherFile {
    /// It stays, and nothing is saved.
    Stays,
    /// It is set aside.
    GoesAside,
}

/// An order.
#[derive(Clone, PartialEq, Debug)]
pub enum Effect {
    /// Put this state of the job on the disk; the newest wins.
    SaveJob(ToSave),
    /// Put it into another file, the path as it was typed, never over one, and
    /// keep it there from now on.
    SaveElsewhere(PathBuf, ToSave),
    /// Let go of the file of the job that was open.
    LetGo,
    OpenJob(PathBuf),
    /// List the states of this job that are kept, against what is on the screen.
    ListKept(PathBuf, Arc<Job>),
    /// Read one of them.
    ReadKept(PathBuf),
    /// Keep the job on the screen beside its file, and read what another program
    /// wrote there.
    OpenOther(ToSave),
    /// Write the cut sheet of this job; never over another file.
    WriteSheet {
        /// The end of the name says the form.
        path: PathBuf,
        job: Arc<Job>,
        /// This edge only; all of them where none is named.
        edge: Option<EdgeId>,
    },
    /// Settle the readings of a spreadsheet's file with this job's log.
    TakeReadings {
        path: PathBuf,
        job: Arc<Job>,
        /// Whether an edge may have another one's figures.
        same_figures: bool,
    },
    /// Read what lies on the rack of another job.
    ReadRack(PathBuf),
    /// Make a file for a new job in the usual folder, under a name made of the
    /// job's; never over another.
    CreateJob(Box<Job>),
    /// Remember the user's own preferences.
    SavePreferences(Preferences),
    /// Finish saving and leave.
    Quit,
}
