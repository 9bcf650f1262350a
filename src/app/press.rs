//! What a key means, and how a selection moves.

use super::place::Place;

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
