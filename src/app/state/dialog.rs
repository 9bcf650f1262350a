//! Questions that stand in front of a place until they are answered.
//!
//! A dialog is state with its data, never a loop of its own.

use crate::domain::log::{CourseNumber, EdgeId, End, Reading};
use crate::domain::measure::{Hand, Name};
use crate::domain::roof::EdgeKind;
use std::path::PathBuf;

/// A question, a choice, or a page to read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Dialog {
    /// The keys of the present place.
    Help {
        /// How many lines are scrolled off.
        scroll: usize,
    },
    /// The cautions.
    Cautions,
    /// What sort of edge is added.
    ChooseKind(EdgeKind),
    /// At which end of its courses the edge stands, and so its hand.
    ChooseHand {
        /// The edge whose hand is changed; `None` for a new one.
        edge: Option<EdgeId>,
        /// What sort of edge it is.
        kind: EdgeKind,
        /// The hand of its pieces, once it is chosen: there is no usual one.
        hand: Option<Hand>,
    },
    /// What a new edge is called.
    NameNew {
        /// What sort of edge it is.
        kind: EdgeKind,
        /// The hand of its pieces.
        hand: Hand,
        /// What it is called where nothing is typed.
        usual: String,
        /// The name so far.
        text: String,
    },
    /// Another name for an edge.
    Rename {
        /// Which.
        edge: EdgeId,
        /// The name so far.
        text: String,
    },
    /// The slopes, corner, plane and lot of an edge.
    Details {
        /// Which edge.
        edge: EdgeId,
        /// Which of [`crate::domain::log::EdgeDetail::ALL`] is selected.
        row: usize,
        /// What was typed for it; `None` while it stands as it was.
        text: Option<String>,
    },
    /// Whether an edge is really to be deleted.
    DeleteEdge(EdgeId),
    /// Whether a reading of 0 means that the line runs out within the course.
    RunsOutAsk {
        /// The edge.
        edge: EdgeId,
        /// The course.
        course: CourseNumber,
        /// The reading that was 0.
        end: End,
        /// What stood there before.
        before: Option<Reading>,
    },
    /// Which edge of an offcut found on site is whole, once it is chosen: there
    /// is no usual one.
    FoundWhole(Option<Hand>),
    /// The widths of an offcut found on site, at nose and back, and its lot.
    FoundWidths {
        /// The edge that is whole.
        whole: Hand,
        /// What was typed so far, parted by semicolons.
        text: String,
    },
    /// Which job's rack to bring over: a recent one, or a path.
    BringRack {
        /// Which of the recent ones is selected.
        choice: usize,
        /// The path so far.
        text: String,
    },
    /// Every explanation of a doubt, one of them to take.
    Doubt {
        /// The edge.
        edge: EdgeId,
        /// The selected course.
        course: CourseNumber,
        /// Which explanation is selected, from 0.
        choice: usize,
    },
    /// Which piece to take in hand: its label, `hip-course`, or a hip's name.
    Find {
        /// What was typed so far.
        text: String,
    },
    /// Whether an edge's pieces came out too long or too short.
    Correct(EdgeId),
    /// What a new job is called.
    NewJob {
        /// The name so far.
        text: String,
    },
    /// What the duplicate of this job is called.
    Duplicate {
        /// The name so far.
        text: String,
    },
    /// Where the cut sheet is to be written.
    WriteSheet {
        /// The path so far.
        text: String,
    },
    /// Which job to open: a recent one, or a path.
    OpenJob {
        /// Which of the recent ones is selected; the path field comes after.
        choice: usize,
        /// The path so far.
        text: String,
    },
    /// Some of the work is not on the disk.
    QuitUnsaved,
    /// Another program has changed the open job's file.
    ChangedOutside,
    /// Which file to save in from now on.
    SaveElsewhere {
        /// The path so far.
        text: String,
    },
    /// Whether to work on a job whose file is not as it was saved; says why.
    OpenedOdd {
        /// What is wrong with it, and what was opened instead.
        why: String,
        /// The job that was open before, to go back to.
        before: Option<PathBuf>,
    },
}

/// The longest text a name or path field takes.
const LONGEST_TEXT: usize = 400;

impl Dialog {
    /// The text being typed in it, if it has a field.
    #[must_use]
    pub fn text_mut(&mut self) -> Option<&mut String> {
        match self {
            Self::NameNew { text, .. }
            | Self::Rename { text, .. }
            | Self::NewJob { text }
            | Self::Duplicate { text }
            | Self::FoundWidths { text, .. }
            | Self::BringRack { text, .. }
            | Self::Find { text }
            | Self::SaveElsewhere { text }
            | Self::WriteSheet { text }
            | Self::OpenJob { text, .. } => Some(text),
            Self::Details { text, .. } => Some(text.get_or_insert_default()),
            _ => None,
        }
    }

    /// Whether it has a field.
    pub const fn has_field(&self) -> bool {
        matches!(
            self,
            Self::NameNew { .. }
                | Self::Rename { .. }
                | Self::NewJob { .. }
                | Self::Duplicate { .. }
                | Self::FoundWidths { .. }
                | Self::BringRack { .. }
                | Self::Find { .. }
                | Self::SaveElsewhere { .. }
                | Self::WriteSheet { .. }
                | Self::OpenJob { .. }
                | Self::Details { .. }
        )
    }

    /// Puts one more character at the end of its field.
    pub fn push(&mut self, c: char) {
        if let Some(text) = self.text_mut()
            && !c.is_control()
            && text.chars().count() < LONGEST_TEXT
        {
            text.push(c);
        }
    }
}

/// The name a text holds, or why it holds none.
///
/// # Errors
/// In words, quoting nothing since nothing showed.
pub fn name_in(text: &str) -> Result<Name, String> {
    Name::new(text).map_err(|error| error.to_string())
}
