//! Questions that stand in front of a place until they are answered.
//!
//! A dialog is state with its data, never a loop of its own: a text to type, a
//! row to choose, a question with keys of its own, or a page to read.

use crate::app::message::KeptState;
use crate::domain::bench::{Fact, SavedOffcut, SpoiledBy};
use crate::domain::cutting::ReadingAt;
use crate::domain::log::{CourseNumber, EdgeId, Reading};
use crate::domain::measure::{Hand, Length};
use crate::domain::piece::PieceId;
use crate::domain::roof::EdgeKind;
use crate::domain::stock::OffcutNumber;
use std::path::PathBuf;

/// What stands in front of a place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Dialog {
    /// The keys of the present place, so many lines scrolled off.
    Help {
        scroll: usize,
    },
    Cautions,
    /// A text to type.
    Prompt {
        what: Prompt,
        text: String,
        /// Whether the text is one that was offered, as selected: the first
        /// character typed takes its place.
        offered: bool,
        /// Which of the recent jobs is selected, where they can be chosen.
        recent: usize,
    },
    /// A row to choose, from 0; `None` until it is chosen where none is usual.
    Choice {
        what: Choice,
        row: Option<usize>,
    },
    /// A question that is answered by keys of its own.
    Question(Question),
    /// The states of the job that are kept, one of them to go back to.
    Kept {
        states: Vec<KeptState>,
        row: usize,
        /// What was asked before they were listed.
        behind: Option<Question>,
        /// Whether it is asked if that one is really to be gone back to.
        is_asked: bool,
    },
    /// The slopes, corner, plane and lot of an edge.
    Details {
        edge: EdgeId,
        /// Which of [`crate::domain::log::EdgeDetail::of`] its kind is selected.
        row: usize,
        /// What was typed for it; `None` while it stands as it was.
        text: Option<String>,
    },
}

/// What a text is typed for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Prompt {
    Rename(EdgeId),
    /// The widths of an offcut found on site, at nose and back, and its lot,
    /// parted by semicolons; the edge that is whole.
    FoundWidths(Hand),
    /// How much longer or shorter an edge's pieces are made; which of them is
    /// asked next.
    CorrectBy(EdgeId),
    /// By how much what is usable of a spoiled piece is shorter.
    SpoiledShorter(Spoiling),
    /// How wide an offcut on the rack is, at nose and back.
    OffcutWidths(OffcutNumber),
    /// The gap that the laid pieces of its course leave for this one and those
    /// beyond it.
    OverLaid(PieceId),
    /// Which job's rack to bring over: a recent one, or a path.
    BringRack,
    /// Which piece to take in hand: its label, `hip-course`, or a hip's name.
    Find,
    /// How many pieces are marked, then cut, then bent.
    Several,
    NewJob,
    /// What the duplicate of this job is called.
    Duplicate,
    /// Which job to open: a recent one, or a path.
    OpenJob,
    /// Which spreadsheet's file readings are taken from.
    Readings,
    /// Where the cut sheet is to be written, of one edge or of all.
    WriteSheet(Option<EdgeId>),
    /// Which file to save in from now on.
    SaveElsewhere,
}

/// What is chosen among rows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Choice {
    /// What sort of edge is added: a row of [`EdgeKind::ALL`].
    Kind,
    /// To which side of the edge, looking up, its panels lie, and so its hand: there
    /// is no usual one. `edge` is `None` for a new one.
    Hand {
        edge: Option<EdgeId>,
        kind: EdgeKind,
    },
    /// Which edge of an offcut found on site is whole, left or right: there is
    /// no usual one.
    FoundWhole,
    /// Whether an edge's pieces came out too long or too short.
    Correct(EdgeId),
    /// The same, the amount typed already.
    CorrectBy(EdgeId, Length),
    /// How the next pieces lie once they are marked, so many of them or all of
    /// the edge: a row of [`super::Lying::ALL`].
    Lying(Option<usize>),
    /// Whether the log's figure stands or the sheet's: there is no usual one.
    TwoReadings { edge: EdgeId, course: CourseNumber },
    /// Every explanation of a doubt at the selected course, one of them to take.
    Doubt { edge: EdgeId, course: CourseNumber },
}

/// What is asked, to be answered by another key than the one that brought it up.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Question {
    /// Whether an edge is really to be deleted.
    DeleteEdge(EdgeId),
    /// Whether a reading of 0 means that the line runs out within the course.
    RunsOut {
        /// The reading that was 0.
        at: ReadingAt,
        /// What stood there before.
        before: Option<Reading>,
    },
    /// Whether edges with another one's figures are edges of their own.
    SameFigures {
        /// The file they are in.
        path: PathBuf,
        /// Which edges, in words.
        what: String,
    },
    /// What of a spoiled piece is usable, and by what it was spoiled where that
    /// was said.
    Spoiled(Spoiling),
    /// Whether an edge's correction holds for courses that are read again.
    CorrectionHolds(ReadingAt),
    /// What becomes of a marked piece that no longer fits.
    NoLongerFits(PieceId),
    /// Some of the work is not on the disk.
    QuitUnsaved,
    /// Another program has changed the open job's file.
    ChangedOutside,
    /// Later work of this job lies elsewhere, in words.
    LaterWork(String),
    /// Whether to work on a job whose file is not as it was saved.
    OpenedOdd {
        /// What is wrong with it, and what was opened instead.
        why: String,
        /// The job that was open before, to go back to.
        before: Option<PathBuf>,
    },
}

/// A piece that is to be made again.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Spoiling {
    pub piece: PieceId,
    pub why: Option<SpoiledBy>,
    /// That it was marked, where one key would have written that down with the rest:
    /// written down when it is answered that it is spoiled.
    pub mark: Option<Box<Fact>>,
    /// What of it the new plan has a use for: planned once, when it is asked.
    pub saved: Vec<SavedOffcut>,
}

/// The longest text a name or path field takes, in characters.
const LONGEST_TEXT: usize = 400;

impl Dialog {
    /// Asks for a text and offers one, which the first character typed replaces.
    pub const fn prompt(what: Prompt, text: String) -> Self {
        Self::Prompt {
            what,
            offered: !text.is_empty(),
            text,
            recent: 0,
        }
    }

    /// Keeps what stands there, to be typed on at its end.
    pub const fn keep_text(&mut self) {
        if let Self::Prompt { offered, .. } = self {
            *offered = false;
        }
    }

    /// Empties its text.
    pub fn erase_all(&mut self) {
        self.keep_text();
        if let Some(text) = self.text_mut() {
            text.clear();
        }
    }

    /// Whether a text is typed into it.
    pub fn takes_text(&self) -> bool {
        matches!(self, Self::Prompt { .. } | Self::Details { .. })
    }

    /// Puts a whole text where the next character would go; false where it is too
    /// long.
    pub fn put(&mut self, pasted: &str) -> bool {
        let kept = match self {
            Self::Prompt {
                text,
                offered: false,
                ..
            } => text.chars().count(),
            Self::Details { text, .. } => text.as_ref().map_or(0, |text| text.chars().count()),
            _ => 0,
        };
        if kept + pasted.chars().count() > LONGEST_TEXT {
            return false;
        }
        self.begin();
        if let Some(text) = self.text_mut() {
            text.push_str(pasted);
        }
        true
    }

    /// Makes room for what is typed, where a text was offered.
    fn begin(&mut self) {
        if matches!(self, Self::Prompt { offered: true, .. }) {
            self.erase_all();
        }
    }

    fn text_mut(&mut self) -> Option<&mut String> {
        match self {
            Self::Prompt { text, .. } => Some(text),
            Self::Details { text, .. } => Some(text.get_or_insert_default()),
            _ => None,
        }
    }

    /// Puts one more character at the end of its text.
    pub fn push(&mut self, c: char) {
        self.begin();
        if let Some(text) = self.text_mut()
            && !c.is_control()
            && text.chars().count() < LONGEST_TEXT
        {
            text.push(c);
        }
    }

    /// Takes the last character of its text away, and keeps the others.
    pub fn erase(&mut self) {
        self.keep_text();
        if let Some(text) = self.text_mut() {
            text.pop();
        }
    }
}

/// The key that chooses each kind of edge.
const KIND_KEYS: [&str; EdgeKind::ALL.len()] = ["1", "2", "3"];

/// The keys of the rows of a list of any length.
const ROW_KEYS: [&str; 9] = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];

impl Choice {
    /// The characters that choose each row. 4 and 6 stand left and right on the
    /// number pad.
    const fn keys(self) -> &'static [&'static str] {
        match self {
            Self::Kind => &KIND_KEYS,
            Self::Hand { .. } | Self::FoundWhole => &["4", "6"],
            // No digit: it begins the amount.
            Self::Correct(_) | Self::CorrectBy(..) => &["-", "+"],
            Self::TwoReadings { .. } | Self::Lying(_) => &["1", "2"],
            Self::Doubt { .. } => &ROW_KEYS,
        }
    }

    /// The row that a character chooses.
    pub fn row_of(self, c: char) -> Option<usize> {
        self.keys().iter().position(|keys| keys.contains(c))
    }

    /// The side that a row stands for: that of the panels, an offcut's whole end.
    pub const fn side(row: usize) -> Hand {
        if row == 0 { Hand::Left } else { Hand::Right }
    }

    /// What Enter asks for while no row is chosen.
    pub const fn unchosen(self) -> &'static str {
        match self {
            Self::Hand { .. } => "4 if its panels lie to its LEFT, 6 if to its RIGHT",
            Self::FoundWhole => "4 if its LEFT end is whole, 6 if the RIGHT one is",
            Self::Correct(_) | Self::CorrectBy(..) => {
                "- if the pieces came out too long, + if too short"
            }
            Self::Lying(_) => "1 if they lie in a pile, 2 if side by side",
            Self::TwoReadings { .. } => "1 if the log's stands, 2 if the sheet's does",
            Self::Kind | Self::Doubt { .. } => "the arrows choose",
        }
    }
}
