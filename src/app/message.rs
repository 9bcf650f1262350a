//! What happened: a key that means something here, or an answer from outside.

use super::key::Millis;
use super::state::{Place, Preferences, ScreenSize};
use crate::domain::job::Job;
use crate::domain::rack::RackOffcut;
use std::path::PathBuf;

/// Something that happened.
#[derive(Clone, PartialEq, Debug)]
pub enum Message {
    /// A key that means something where it was pressed.
    Pressed(Press, Millis),
    /// The terminal has another size.
    Resized(ScreenSize),
    /// A job was read or made.
    Opened(Box<Opened>),
    /// A job could not be read or made.
    NotOpened(String),
    /// Everything up to and including that change is on the disk.
    Saved(u64),
    /// That change could not be put on the disk.
    NotSaved(u64, String),
    /// Another program has changed the open job's file.
    ChangedOutside,
    /// The open job is in another file from now on, up to that change.
    SavedElsewhere(PathBuf, u64),
    /// It is not, and why; the path as it was typed.
    NotSavedElsewhere(String, String),
    /// The copy of the day could not be kept, and why.
    NoCopy(String),
    /// What lies on the rack of another job.
    RackRead(Vec<RackOffcut>),
    /// What was on the screen is in that file; another program's job is open.
    OursKept(PathBuf),
    /// The cut sheet was written to that file.
    SheetWritten(PathBuf),
    /// The cut sheet could not be written to that file, and why.
    SheetNotWritten(PathBuf, String),
    /// The user's own preferences are known.
    PreferencesKnown(Preferences),
}

/// A job that was read or made, ready to work on.
#[derive(Clone, PartialEq, Debug)]
pub struct Opened {
    /// Where its file is.
    pub path: PathBuf,
    /// The job.
    pub job: Job,
    /// What is unusual about how it was read, to be asked about first.
    pub odd: Option<String>,
    /// Why it may only be looked at, where that is so.
    pub read_only: Option<String>,
}

/// What a key means where it was pressed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Press {
    /// Go to one of the five places.
    Go(Place),
    /// Accept, done, next.
    Confirm,
    /// One step back; leaves a field or a dialog.
    Back,
    /// Move the selection.
    Move(Direction),
    /// Put a character into the field.
    Type(char),
    /// Take the last character of the field away.
    Erase,
    /// A number-pad key arrived without `NumLock`.
    NumLockOff,
    /// Take the last change back.
    Undo,
    /// Do it again.
    Redo,
    /// Quit.
    Quit,
    /// Show the keys of this place.
    Help,
    /// Show the cautions.
    Cautions,
    /// Change between sun and dark.
    Look,
    /// Change between blocks and plain ASCII.
    Glyphs,
    /// Answer yes.
    Yes,
    /// The other list of this place.
    Switch,
    /// Add an edge.
    Add,
    /// Give it another name.
    Rename,
    /// Change the hand.
    ChangeHand,
    /// Say its slopes, corner, plane and lot.
    Details,
    /// Delete, after asking.
    Delete,
    /// Earlier in the cutting order.
    Earlier,
    /// Later in the cutting order.
    Later,
    /// Clear a reading.
    Clear,
    /// The line runs out below the top.
    RunsOut,
    /// This course is short.
    ShortCourse,
    /// The other view of this place.
    View,
    /// Find a piece by its label, course or hip.
    Find,
    /// These pieces come out too long or too short.
    Correct,
    /// The piece in hand was marked, cut or bent wrong.
    Spoiled,
    /// The offcut for the piece in hand is gone or bad.
    OffcutGone,
    /// Throw the selected offcut away.
    Throw,
    /// The selected offcut was used for something else.
    Used,
    /// Bring the offcuts of another job.
    Bring,
    /// Take the likeliest suggestion about the selected reading.
    TakeSuggestion,
    /// Show every explanation of what is doubtful here.
    Explain,
    /// Measured again: the reading stands.
    Stands,
    /// Show what the missing readings are expected to be.
    ShowExpected,
    /// Write the cut sheet to a file.
    WriteSheet,
    /// Make a job.
    NewJob,
    /// Open another job.
    OpenJob,
    /// Duplicate the job under a new name.
    Duplicate,
    /// Try to save again.
    SaveAgain,
    /// Save under another path.
    SaveElsewhere,
}

/// Which way a selection moves.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Direction {
    /// Up.
    Up,
    /// Down.
    Down,
    /// Left.
    Left,
    /// Right.
    Right,
    /// One page up.
    PageUp,
    /// One page down.
    PageDown,
    /// To the first.
    First,
    /// To the last.
    Last,
}
