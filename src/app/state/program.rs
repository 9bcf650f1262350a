//! Everything the program knows while it runs.
//!
//! Selections and scroll positions are plain numbers and ids, moved in update;
//! what follows from the job is derived in [`crate::app::state`].

use super::{
    dialog::Dialog,
    field::Field,
    open_job::OpenJob,
    views::{BenchView, HipsView, JobView, LogView, RackView},
};
use crate::app::key::Millis;
use crate::app::place::{Place, Preferences, ScreenSize};
use crate::app::press::Press;
use crate::domain::bench::Utc;

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
