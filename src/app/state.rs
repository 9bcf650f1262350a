//! Everything the program knows while it runs.
//!
//! Selections and scroll positions are plain numbers and ids, moved in update;
//! what follows from the job is derived in [`super::open_job`].

use super::dialog::Dialog;
use super::field::Field;
use super::key::Millis;
use super::message::Press;
use super::open_job::OpenJob;
use super::screens::bench::BenchView;
use super::screens::hips::HipsView;
use super::screens::job::JobView;
use super::screens::log::LogView;
use super::screens::rack::RackView;
use crate::domain::event::Utc;
use std::path::PathBuf;

/// One of the five places.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Place {
    /// What is left per hip.
    Hips,
    /// The readings.
    Log,
    /// The piece in hand.
    Bench,
    /// The offcuts.
    Rack,
    /// Panel, tape and bench settings; the job itself.
    Job,
}

impl Place {
    /// All five, in the order of their keys.
    pub const ALL: [Self; 5] = [Self::Hips, Self::Log, Self::Bench, Self::Rack, Self::Job];

    /// Its name on the screen.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Hips => "Hips",
            Self::Log => "Log",
            Self::Bench => "Bench",
            Self::Rack => "Rack",
            Self::Job => "Job",
        }
    }
}

/// Which colours the screen is drawn in.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Look {
    /// Black on white, for the sun.
    #[default]
    Sun,
    /// White on black.
    Dark,
}

/// Which characters the screen is drawn with.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Glyphs {
    /// Box lines and blocks.
    #[default]
    Blocks,
    /// ASCII alone, for a terminal that has nothing else.
    Ascii,
}

/// The terminal's size in cells.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct ScreenSize {
    /// Columns.
    pub columns: u16,
    /// Rows.
    pub rows: u16,
}

/// What is the user's own and not the job's.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Preferences {
    /// Sun or dark.
    pub look: Look,
    /// Blocks or plain ASCII.
    pub glyphs: Glyphs,
    /// Jobs opened lately, the newest first; the first is opened again.
    pub recent: Vec<PathBuf>,
}

impl Preferences {
    /// The most jobs remembered.
    pub const MOST_RECENT: usize = 9;

    /// Puts `path` first.
    pub fn opened(&mut self, path: PathBuf) {
        self.recent.retain(|other| *other != path);
        self.recent.insert(0, path);
        self.recent.truncate(Self::MOST_RECENT);
    }
}

/// A line about what just happened, until the next key.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Notice {
    /// Good to know.
    Said(String),
    /// Something was not done.
    Trouble(String),
}

/// Everything the program knows.
#[derive(Clone, PartialEq, Debug)]
pub struct State {
    /// The terminal's size.
    pub size: ScreenSize,
    /// What is the user's own.
    pub preferences: Preferences,
    /// The place shown.
    pub place: Place,
    /// The job that is open; none if the last one could not be opened.
    pub open: Option<OpenJob>,
    /// A question in front of the place.
    pub dialog: Option<Dialog>,
    /// What is being typed at the place.
    pub field: Option<Field>,
    /// A line about what just happened.
    pub notice: Option<Notice>,
    /// What is selected in the Log.
    pub log: LogView,
    /// What is selected at the Bench.
    pub bench: BenchView,
    /// What is selected in Hips.
    pub hips: HipsView,
    /// What is selected in Rack.
    pub rack: RackView,
    /// What is selected in Job.
    pub job_view: JobView,
    /// When the key for "done" last arrived.
    pub last_confirm: Option<Millis>,
    /// Which key that takes something away last arrived, and when.
    pub last_final: Option<(Press, Millis)>,
    /// How long such a key ignores itself; zero turns that off.
    pub hold_ms: u64,
    /// The time of day, as the shell last told it.
    pub now: Option<Utc>,
    /// Whether to leave as soon as the last change is saved.
    pub leaving: bool,
}

/// A key held down repeats itself; the first repeat comes 250 to 660 ms after
/// the press on common systems, so one that moves a piece on is deaf to itself
/// for this long.
pub const HOLD_MS: u64 = 700;

impl State {
    /// The program before anything is open.
    #[must_use]
    pub fn new(size: ScreenSize) -> Self {
        Self {
            size,
            preferences: Preferences::default(),
            place: Place::Job,
            open: None,
            dialog: None,
            field: None,
            notice: None,
            log: LogView::default(),
            bench: BenchView::default(),
            hips: HipsView::default(),
            rack: RackView::default(),
            job_view: JobView::default(),
            last_confirm: None,
            last_final: None,
            hold_ms: HOLD_MS,
            now: None,
            leaving: false,
        }
    }

    /// Says something until the next key.
    pub fn say(&mut self, text: impl Into<String>) {
        self.notice = Some(Notice::Said(text.into()));
    }

    /// Says that something was not done, until the next key.
    pub fn complain(&mut self, text: impl Into<String>) {
        self.notice = Some(Notice::Trouble(text.into()));
    }
}
