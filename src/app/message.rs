//! What happened: a key that means something here, or an answer from outside.

use super::{
    key::Millis,
    place::{Preferences, ScreenSize},
    press::Press,
};
use crate::domain::{cutting::Job, log::EdgeId, stock::RackOffcut};
use std::path::PathBuf;

/// Something that happened; a text beside it says why.
#[derive(Clone, PartialEq, Debug)]
pub enum Message {
    /// A key that means something where it was pressed.
    Pressed(Press, Millis),
    /// A text was pasted into the terminal.
    Pasted(String),
    /// The size the screen was drawn at.
    Shown(ScreenSize),
    Opened(Box<Opened>),
    NotOpened(String),
    /// Everything up to and including that change is on the disk.
    Saved(u64),
    /// That change could not be put on the disk.
    NotSaved(u64, String),
    /// What could not be saved lies in that file meanwhile.
    Rescued(u64, PathBuf),
    /// The disk saves, and does not say that names are on it.
    Unconfirmed,
    /// A job that may only be looked at stands otherwise in its file now.
    Reread(Box<Job>),
    /// Whether such a job could be opened for work now, where that is news.
    Freed(bool),
    /// Another program has changed the open job's file.
    ChangedOutside,
    /// The open job's file is not there any more.
    FileGone,
    /// The states of the job that are kept, the one with most in it first.
    KeptListed(Vec<KeptState>),
    /// One of them was read.
    KeptRead(Box<Job>),
    /// The open job is in another file from now on, up to that change.
    SavedElsewhere(PathBuf, u64),
    /// It is not; the path as it was typed.
    NotSavedElsewhere(String, String),
    /// A version could not be kept.
    NoCopy(String),
    /// What lies on the rack of another job.
    RackRead(Vec<RackOffcut>),
    /// What was on the screen is in that file; another program's job is open.
    OursKept(PathBuf),
    ReadingsTaken(Box<ReadingsTaken>),
    ReadingsNotTaken(PathBuf, String),
    /// Edges of the file have another one's figures.
    SameFigures(PathBuf, String),
    SheetWritten(PathBuf),
    SheetNotWritten {
        path: PathBuf,
        edge: Option<EdgeId>,
        why: String,
    },
    PreferencesRead(Preferences),
}

/// A job that was read or made, ready to work on.
#[derive(Clone, PartialEq, Debug)]
pub struct Opened {
    pub path: PathBuf,
    pub job: Job,
    /// What is unusual about how it was read, to be asked about first.
    pub odd: Option<String>,
    /// Which later work of the job lies elsewhere, to be asked about first.
    pub later: Option<String>,
    /// Why it may only be looked at, where that is so.
    pub read_only: Option<String>,
}

/// A state of the job that is kept, in words.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct KeptState {
    pub path: PathBuf,
    /// What it is, how old, and how much is in it.
    pub says: String,
    /// What it has otherwise than the job on the screen, a line each.
    pub differs: Vec<String>,
    pub is_readable: bool,
}

/// Readings of a spreadsheet's file, settled with the log.
#[derive(Clone, PartialEq, Debug)]
pub struct ReadingsTaken {
    pub path: PathBuf,
    /// The job with them.
    pub job: Job,
    /// What came of it, in words; empty where nothing was taken.
    pub said: String,
}
