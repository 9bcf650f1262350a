//! What a key means, and how a selection moves.

use super::place::Place;
use crate::domain::bench::SpoiledBy;

/// What a key means where it was pressed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Press {
    Go(Place),
    /// Accept, done, next.
    Confirm,
    /// One step back; leaves a field or a dialog.
    Back,
    Move(Direction),
    /// Put a character into the field, or choose by it.
    Type(char),
    /// Take the last character of the field away.
    Erase,
    /// Empty the field.
    EraseAll,
    /// A number-pad key arrived without `NumLock`.
    NumLockOff,
    Undo,
    Redo,
    Quit,
    Help,
    Cautions,
    /// Change between sun and dark.
    ChangeLook,
    /// Change between blocks and plain ASCII.
    ChangeGlyphs,
    Yes,
    /// The other list of this place.
    Switch,
    /// Add an edge, or an offcut found on site.
    Add,
    Rename,
    ChangeHand,
    /// Say the slopes, corner, plane and lot of an edge.
    Details,
    /// Delete, after asking.
    Delete,
    /// In the cutting order.
    Earlier,
    Later,
    Clear,
    /// The line runs out below the top.
    RunsOut,
    ShortCourse,
    /// The course's piece runs to another edge.
    BoardToBoard,
    /// A line is struck up the course, at which two pieces lap.
    StrikeLine,
    /// Put a course in at the selected one, or take that one out.
    PutIn,
    TakeOut,
    /// The other view of this place.
    View,
    /// Find a piece by its label, course or hip.
    Find,
    /// The next pieces are marked, then cut, then bent.
    Several,
    /// These pieces come out too long or too short.
    Correct,
    /// The piece in hand was marked, cut or bent wrong.
    Spoiled,
    /// What is usable of a spoiled piece is shorter, or nothing.
    Shorter,
    Nothing,
    /// Say by what a piece was spoiled.
    Because(SpoiledBy),
    /// Measure an offcut on the rack anew.
    Measure,
    /// Something else is done until the next step.
    Pause,
    /// Hold the piece in hand for a second trip, or have it cut with the others.
    SecondTrip,
    /// The offcut for the piece in hand is gone or bad.
    OffcutGone,
    /// The marks of a piece, at a step that does not show them.
    ShowMarks,
    /// To the next marked piece that no longer fits.
    NextMisfit,
    /// What can be done with a piece that no longer fits.
    Again,
    /// A piece that no longer fits stays as it is.
    LeaveIt,
    Throw,
    /// The selected offcut was used for something else.
    Used,
    /// Bring the offcuts of another job.
    Bring,
    /// Take the likeliest suggestion about the selected reading.
    TakeSuggestion,
    /// Show every explanation of what is doubtful here.
    Explain,
    /// Measured again, and the reading stands.
    MeasuredAgain,
    /// Show what the missing readings are expected to be.
    ShowExpected,
    WriteSheet,
    /// Take readings from a spreadsheet's file.
    TakeReadings,
    /// Choose one of two readings, or go to the next two.
    ChooseReading,
    NewJob,
    OpenJob,
    /// Duplicate the job under a new name.
    Duplicate,
    SaveAgain,
    SaveElsewhere,
    /// List the states of the job that are kept.
    ListKept,
}

impl Press {
    /// Whether it takes something away, and would take the next one too while
    /// its key is held.
    pub const fn takes_away(self) -> bool {
        matches!(
            self,
            Self::Throw
                | Self::PutIn
                | Self::TakeOut
                | Self::Used
                | Self::OffcutGone
                | Self::Spoiled
                | Self::TakeSuggestion
                | Self::MeasuredAgain
        )
    }
}

/// Which way a selection moves.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Direction {
    Up,
    Down,
    Left,
    Right,
    PageUp,
    PageDown,
    First,
    Last,
}

/// Where a selection of `count` things goes from `at`.
pub fn moved(at: usize, direction: Direction, count: usize) -> usize {
    let last = count.saturating_sub(1);
    let to = match direction {
        Direction::Up => at.saturating_sub(1),
        Direction::Down => at + 1,
        Direction::PageUp => at.saturating_sub(10),
        Direction::PageDown => at + 10,
        Direction::First => 0,
        Direction::Last => last,
        Direction::Left | Direction::Right => at,
    };
    to.min(last)
}

/// Turns one of two ways into the other.
pub fn turn<T: Copy + PartialEq>(now: &mut T, [one, two]: [T; 2]) {
    *now = if *now == one { two } else { one };
}
