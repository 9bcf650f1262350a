//! Orders to the outside; the shell carries them out and answers by message.

use super::place::Preferences;
use crate::domain::{cutting::Job, measure::Name};
use std::path::PathBuf;
use std::sync::Arc;

/// An order. `change` says which change of the job it is, and comes back with
/// the answer.
#[derive(Clone, PartialEq, Debug)]
pub enum Effect {
    /// Put this state of the job on the disk; the newest wins.
    SaveJob {
        path: PathBuf,
        job: Arc<Job>,
        change: u64,
    },
    /// The same over a file that another program has changed; that one is set
    /// aside.
    SaveOver {
        path: PathBuf,
        job: Arc<Job>,
        change: u64,
    },
    /// Put it into another file, never over one, and keep it there from now on.
    SaveElsewhere {
        /// As it was typed.
        path: PathBuf,
        job: Arc<Job>,
        change: u64,
    },
    /// Let go of the file of the job that was open.
    LetGo,
    /// Read a job.
    OpenJob(PathBuf),
    /// Keep the job on the screen beside its file, and read what another program
    /// wrote there.
    OpenTheirs { path: PathBuf, job: Arc<Job> },
    /// Write the cut sheet of this job; never over another file.
    WriteSheet {
        /// The end of the name says the form.
        path: PathBuf,
        job: Arc<Job>,
    },
    /// Read what lies on the rack of another job.
    ReadRack(PathBuf),
    /// Make a file for a new job; never over another.
    CreateJob {
        name: Name,
        /// `None` for the usual folder, under a file name made of the job's.
        path: Option<PathBuf>,
        job: Box<Job>,
    },
    /// Remember the user's own preferences.
    SavePreferences(Preferences),
    /// Finish saving and leave.
    Quit,
}

impl Effect {
    /// An order to make `job` under its own name, in the usual folder.
    pub fn create(job: Job) -> Self {
        Self::CreateJob {
            name: job.name.clone(),
            path: None,
            job: Box::new(job),
        }
    }
}
