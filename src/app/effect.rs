//! Orders to the outside; the shell carries them out and answers by message.

use super::place::Preferences;
use crate::domain::{cutting::Job, measure::Name, settings::Settings};
use std::path::PathBuf;
use std::sync::Arc;

/// An order.
#[derive(Clone, PartialEq, Debug)]
pub enum Effect {
    /// Put this state of the job on the disk; the newest wins.
    SaveJob {
        /// Where.
        path: PathBuf,
        /// What.
        job: Arc<Job>,
        /// Which change it is; comes back with the answer.
        change: u64,
    },
    /// The same over a file that another program has changed; that one is set
    /// aside.
    SaveOver {
        /// Where.
        path: PathBuf,
        /// What.
        job: Arc<Job>,
        /// Which change it is.
        change: u64,
    },
    /// Put it into another file, never over one, and keep it there from now on.
    SaveElsewhere {
        /// Where, as it was typed.
        path: PathBuf,
        /// What.
        job: Arc<Job>,
        /// Which change it is.
        change: u64,
    },
    /// Let the file of the job go that was open.
    LetGo,
    /// Read a job.
    OpenJob(PathBuf),
    /// Keep the job on the screen beside its file, and read what another program
    /// wrote there.
    OpenTheirs {
        /// The file.
        path: PathBuf,
        /// The job on the screen.
        job: Arc<Job>,
    },
    /// Write the cut sheet of this job; never over another file.
    WriteSheet {
        /// Where; the end of the name says the form.
        path: PathBuf,
        /// Of what.
        job: Arc<Job>,
    },
    /// Read what lies on the rack of another job.
    ReadRack(PathBuf),
    /// Make a file for a new job; never over another.
    CreateJob {
        /// What the job is called.
        name: Name,
        /// Where; `None` for the usual folder, under a file name made of the
        /// job's.
        path: Option<PathBuf>,
        /// What is in it.
        job: Box<Job>,
    },
    /// Remember the user's own preferences.
    SavePreferences(Preferences),
    /// Finish saving and leave.
    Quit,
}

impl Effect {
    /// An order to make an empty job.
    pub fn new_job(name: Name, settings: Settings) -> Self {
        Self::CreateJob {
            job: Box::new(Job::new(name.clone(), settings)),
            name,
            path: None,
        }
    }
}
