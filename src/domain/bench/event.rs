//! What the shear did at the bench, written down one fact after another.
//!
//! Everything shown about progress is derived from these facts; undo drops the
//! last ones. A fact says what was done, never what follows from it.

use super::written::WrittenCourse;
use crate::domain::log::{CourseNumber, EdgeId};
use crate::domain::measure::{Length, Name, SkewLine};
use crate::domain::piece::{PieceId, PieceSpec};
use crate::domain::stock::{Offcut, OffcutNumber};

/// Seconds since 1970-01-01 00:00:00 UTC.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Utc(pub i64);

/// What a piece is cut from, as it was marked.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum MarkedStock {
    /// A panel opened for it, numbered 1 upward.
    New { panel: u32 },
    Offcut {
        offcut: OffcutNumber,
        /// The panel it came from; none for one found on site.
        panel: Option<u32>,
    },
}

impl MarkedStock {
    /// The number of the panel it comes from; none for an offcut found on site.
    pub const fn panel(self) -> Option<u32> {
        match self {
            Self::New { panel } => Some(panel),
            Self::Offcut { panel, .. } => panel,
        }
    }
}

/// What became of what a cut left of its stock.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum CutRest {
    /// It went to the rack, kept for a piece cut later.
    Kept {
        offcut: OffcutNumber,
        promised: PieceId,
    },
    /// It had no use.
    Waste,
}

/// An offcut that a spoiled piece left on the rack.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct SavedOffcut {
    pub number: OffcutNumber,
    pub offcut: Offcut,
    pub promised: PieceId,
}

/// Why an offcut left the rack without a piece being cut from it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum GoneBy {
    /// It was lost, bad or thrown away.
    Thrown,
    /// It was used for something that is not in this job.
    Used,
}

/// What a piece was spoiled by, where that was said.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum SpoiledBy {
    Reading,
    Mark,
    Cut,
    Bend,
    Dropped,
}

impl SpoiledBy {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 5] = [
        Self::Reading,
        Self::Mark,
        Self::Cut,
        Self::Bend,
        Self::Dropped,
    ];

    /// In a word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Reading => "reading",
            Self::Mark => "mark",
            Self::Cut => "cut",
            Self::Bend => "bend",
            Self::Dropped => "dropped",
        }
    }
}

/// What the log asked for where a piece was left as it is: an answer holds for
/// that and nothing else.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Asked {
    /// Its lines elsewhere: the bend line, and the near one of a piece cut at both
    /// ends.
    Lines {
        bend: SkewLine,
        near: Option<SkewLine>,
    },
    /// Another piece altogether, or none.
    Otherwise,
}

/// One fact of the bench.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Fact {
    /// The piece was marked, with these figures, on this stock.
    Marked {
        piece: PieceId,
        spec: Box<PieceSpec>,
        stock: MarkedStock,
        lot: Option<Name>,
        /// The course as its label says it, where that is not its number.
        written: Option<WrittenCourse>,
    },
    /// The first of its two lines was cut, of a piece cut at both ends.
    FirstCut(PieceId),
    Cut {
        piece: PieceId,
        rest: CutRest,
    },
    Bent(PieceId),
    /// It was labelled and stacked.
    Stacked(PieceId),
    /// It was marked, cut or bent wrong and is to be made again.
    Spoiled {
        piece: PieceId,
        /// What of it, and of its stock, went to the rack.
        saved: Vec<SavedOffcut>,
        why: Option<SpoiledBy>,
    },
    /// The marks of a piece were crossed out: it is to be marked again. A panel
    /// that was opened for it is whole and counts as not opened; an offcut is back
    /// on the rack.
    TakenBack {
        piece: PieceId,
        /// What of it lies on the rack for that, where it was cut already.
        kept: Option<SavedOffcut>,
    },
    /// Its bend line was struck anew, on the piece as it was cut.
    BendStruck {
        piece: PieceId,
        bend: SkewLine,
    },
    /// It stays as it is, though the log asks for other lines.
    Stays {
        piece: PieceId,
        asked: Asked,
    },
    /// An offcut from elsewhere came to the rack.
    Found {
        number: OffcutNumber,
        offcut: Offcut,
        lot: Option<Name>,
    },
    /// An offcut on the rack was measured: it is so wide at nose and back. Where no
    /// lot is named it keeps its own.
    Measured {
        offcut: OffcutNumber,
        at_nose: Length,
        at_back: Length,
        lot: Option<Name>,
    },
    /// An offcut left the rack, and no piece was cut from it.
    Gone {
        offcut: OffcutNumber,
        by: GoneBy,
    },
    /// An offcut on the rack is promised to another piece, or to none.
    Promised {
        offcut: OffcutNumber,
        piece: Option<PieceId>,
    },
    /// Somebody does something else until the next step.
    Paused,
    /// The first pieces were tried on the roof: from here on, those of this
    /// edge not yet marked are `by` longer (shorter where below zero).
    Corrected {
        edge: EdgeId,
        /// How much longer.
        by: Length,
    },
    /// A course of an edge with corrections was read again.
    ReadAgain {
        edge: EdgeId,
        course: CourseNumber,
        /// Whether what was said before holds for it.
        corrected: bool,
    },
}

impl Fact {
    /// One fact for each offcut that came to the rack, numbered from `first`.
    pub fn found_all(
        offcuts: impl IntoIterator<Item = (Offcut, Option<Name>)>,
        first: OffcutNumber,
    ) -> Vec<Self> {
        (first.0..)
            .map(OffcutNumber)
            .zip(offcuts)
            .map(|(number, (offcut, lot))| Self::Found {
                number,
                offcut,
                lot,
            })
            .collect()
    }

    /// The piece whose work it records, if it is about one.
    pub const fn piece(&self) -> Option<PieceId> {
        match self {
            Self::Marked { piece, .. }
            | Self::Cut { piece, .. }
            | Self::Spoiled { piece, .. }
            | Self::TakenBack { piece, .. }
            | Self::BendStruck { piece, .. }
            | Self::Stays { piece, .. }
            | Self::FirstCut(piece)
            | Self::Bent(piece)
            | Self::Stacked(piece) => Some(*piece),
            Self::Found { .. }
            | Self::Gone { .. }
            | Self::Promised { .. }
            | Self::Measured { .. }
            | Self::Paused
            | Self::Corrected { .. }
            | Self::ReadAgain { .. } => None,
        }
    }

    /// The piece that only comes a step further by it: nothing is marked, and what
    /// lies on the rack stays.
    pub const fn only_further(&self) -> Option<PieceId> {
        match self {
            Self::FirstCut(piece) | Self::Bent(piece) | Self::Stacked(piece) => Some(*piece),
            _ => None,
        }
    }

    /// What was done, in one word of the trade.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Marked { .. } => "marked",
            Self::FirstCut(_) => "cut at one end",
            Self::Cut { .. } => "cut",
            Self::Bent(_) => "bent",
            Self::Stacked(_) => "stacked",
            Self::Spoiled { .. } => "spoiled",
            Self::TakenBack { .. } => "to be marked again",
            Self::BendStruck { .. } => "bend line struck anew",
            Self::Stays { .. } => "left as it is",
            Self::Found { .. } => "found",
            Self::Measured { .. } => "measured",
            Self::Gone { .. } => "gone",
            Self::Promised { .. } => "promised",
            Self::Paused => "pause",
            Self::Corrected { .. } => "corrected",
            Self::ReadAgain { .. } => "read again",
        }
    }
}

/// A fact with its time.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BenchEvent {
    /// When; `None` where the clock was unknown or had run back.
    pub at: Option<Utc>,
    /// Whether the same key press wrote the event before it too, so that one
    /// undo takes back both.
    pub joined: bool,
    pub fact: Fact,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::log::CourseNumber;

    #[test]
    fn a_panels_number_stays_with_what_is_cut_from_it() {
        let offcut = |panel| MarkedStock::Offcut {
            offcut: OffcutNumber(3),
            panel,
        };
        assert_eq!(MarkedStock::New { panel: 7 }.panel(), Some(7));
        assert_eq!(offcut(Some(8)).panel(), Some(8));
        assert_eq!(offcut(None).panel(), None);
    }

    #[test]
    fn a_fact_about_a_piece_names_it_and_one_about_an_offcut_names_none() {
        let piece = PieceId {
            edge: EdgeId(2),
            course: CourseNumber::FIRST,
            number: 1,
        };
        let rest = CutRest::Waste;
        let saved = Vec::new();
        for fact in [
            Fact::Cut { piece, rest },
            Fact::Bent(piece),
            Fact::Stacked(piece),
            Fact::Spoiled {
                piece,
                saved,
                why: None,
            },
        ] {
            assert_eq!(fact.piece(), Some(piece), "{fact:?}");
        }
        let offcut = OffcutNumber(3);
        let gone = Fact::Gone {
            offcut,
            by: GoneBy::Thrown,
        };
        assert_eq!(gone.piece(), None);
    }
}
