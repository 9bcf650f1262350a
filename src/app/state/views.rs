//! What is selected at each place.

use super::batch::Batch;
use crate::domain::cutting::ReadingAt;
use crate::domain::log::{CourseNumber, EdgeId, End};
use crate::domain::piece::PieceId;
use crate::domain::settings::Setting;

/// Which of the two lists in Hips the keys move in.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum HipsFocus {
    #[default]
    Edges,
    Pieces,
}

/// What is selected in Hips.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct HipsView {
    /// Which edge, from 0.
    pub edge: usize,
    /// Which of its pieces, from 0.
    pub piece: usize,
    pub focus: HipsFocus,
    pub shown_as: HipsAs,
}

/// How Hips is shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum HipsAs {
    /// The sides of the roof, every course with its stage.
    #[default]
    Plan,
    /// A row an edge, and the pieces of one.
    List,
    /// The same with the edge as a staircase of courses; where there is room the
    /// list has it beside the pieces.
    Staircase,
}

impl HipsAs {
    /// From this width on, the pieces stand as a list and as a staircase.
    pub const BOTH_FROM: u16 = 110;

    /// What the key for another view shows next in so many columns.
    pub const fn next(self, columns: u16) -> Self {
        match self {
            Self::Plan => Self::List,
            Self::List if columns < Self::BOTH_FROM => Self::Staircase,
            Self::List | Self::Staircase => Self::Plan,
        }
    }
}

/// Which of the two lists in the Log the keys move in.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum LogFocus {
    #[default]
    Edges,
    Courses,
}

/// In which rows the readings are shown and asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum EntryOrder {
    /// A row a course: bottom, top.
    #[default]
    Courses,
    /// A row a course line: the top of the course below it, the bottom of the
    /// course above it, as one placement of the tape gives them.
    Lines,
}

/// What is selected in the Log.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LogView {
    pub edge: Option<EdgeId>,
    pub focus: LogFocus,
    pub course: CourseNumber,
    /// Which of the course's readings.
    pub end: End,
    pub order: EntryOrder,
    pub expected: ShowExpected,
    /// A reading that was typed over another one; its course is not left yet.
    pub read_again: Option<ReadingAt>,
    /// What was just read and told to be doubtful, until the cutter looks elsewhere.
    pub told: Option<ReadingAt>,
    /// The key of a press that turns what a course's readings go to, which was told
    /// and not done: pressed again at once it is.
    pub pressed_once: Option<(char, EdgeId, CourseNumber)>,
}

impl Default for LogView {
    fn default() -> Self {
        Self {
            edge: None,
            focus: LogFocus::default(),
            course: CourseNumber::FIRST,
            end: End::Bottom,
            order: EntryOrder::default(),
            expected: ShowExpected::default(),
            read_again: None,
            told: None,
            pressed_once: None,
        }
    }
}

/// Whether missing readings show what they are expected to be.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum ShowExpected {
    #[default]
    No,
    /// They show it, marked as such.
    Yes,
}

/// What is selected at the Bench.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct BenchView {
    /// Which page of the step is shown, from 0.
    pub page: usize,
    /// Whether the marks are shown at a step that does not need them.
    pub shows_marks: bool,
    /// The piece in hand; the next open one where none was chosen.
    pub piece: Option<PieceId>,
    /// Whether the cautions have been read since the job was opened.
    pub cautions_read: bool,
    /// Several pieces that go through the steps together.
    pub batch: Option<Batch>,
    /// Whether a key was pressed here since this place was come to.
    pub touched: bool,
}

/// What is selected in Rack.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct RackView {
    /// Which offcut, from 0.
    pub offcut: usize,
}

impl RackView {
    /// The rack may have become shorter: what is selected is what is shown.
    pub fn keep_within(&mut self, count: usize) {
        self.offcut = self.offcut.min(count.saturating_sub(1));
    }
}

/// What is selected in Job.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct JobView {
    /// Which setting; of the two ways to give a leg always the first.
    pub setting: Setting,
}

impl Default for JobView {
    fn default() -> Self {
        let setting = Setting::Units;
        Self { setting }
    }
}
