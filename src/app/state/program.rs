//! Everything the program knows while it runs.
//!
//! Selections and scroll positions are plain numbers and ids, moved in update;
//! what follows from the job is derived in [`OpenJob`].

use super::{
    dialog::{Choice, Dialog, Prompt, Question},
    field::Field,
    open_job::OpenJob,
    views::{BenchView, HipsView, JobView, LogView, RackView},
};
use crate::app::effect::Effect;
use crate::app::key::Millis;
use crate::app::place::{Place, Preferences, ScreenSize};
use crate::app::press::Press;
use crate::domain::{bench::Utc, cutting::Job};
use std::path::PathBuf;

/// A line about what just happened, until the next key.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Notice {
    /// Good to know.
    Said(String),
    /// Something was not done.
    Trouble(String),
}

/// Everything the program knows.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct State {
    pub size: ScreenSize,
    pub preferences: Preferences,
    pub place: Place,
    /// The job that is open; none if the last one could not be opened.
    pub open: Option<OpenJob>,
    /// What stands in front of the place.
    pub dialog: Option<Dialog>,
    /// What is being typed at a place, not always the one shown.
    pub field: Option<Field>,
    pub notice: Option<Notice>,
    pub log: LogView,
    pub bench: BenchView,
    pub hips: HipsView,
    pub rack: RackView,
    pub job_view: JobView,
    /// When the key for "done" last arrived.
    pub last_confirm: Option<Millis>,
    /// When it last did something.
    pub last_done: Option<Millis>,
    /// Which key that takes something away last arrived, and when.
    pub last_final: Option<(Press, Millis)>,
    /// How long such a key ignores itself, in milliseconds; zero turns that off.
    pub hold_ms: u64,
    /// The user's home folder, where paths may begin with `~/`.
    pub home: Option<PathBuf>,
    /// The time of day, as the shell last told it.
    pub now: Option<Utc>,
    /// Whether to leave as soon as the last change is saved.
    pub leaving: bool,
    /// Whether the job that is looked at is being opened for work.
    pub taking_over: bool,
    /// What is to be done outside, until update hands it on.
    pub(in crate::app) orders: Vec<Effect>,
}

/// A key held down repeats itself; the first repeat comes 250 to 660 ms after
/// the press on common systems, so one that moves a piece on is deaf to itself
/// for this long.
pub const HOLD_MS: u64 = 700;

/// The slowest that a held key repeats itself, once it does, in milliseconds: 250
/// on common systems, and as much again for a machine that is busy.
pub const REPEAT_MS: u64 = 400;

impl State {
    /// The program before anything is open.
    pub fn new(size: ScreenSize) -> Self {
        Self {
            size,
            hold_ms: HOLD_MS,
            ..Self::default()
        }
    }

    /// The job that is open, as written down.
    pub fn job(&self) -> Option<&Job> {
        self.open.as_ref().map(OpenJob::job)
    }

    /// Whether a field at the place shown takes the keys.
    pub fn is_typing(&self) -> bool {
        let place = self.field.as_ref().map(|field| field.purpose.place());
        place == Some(self.place)
    }

    /// How long after the last key for "done" this one came, in milliseconds,
    /// where it is held down rather than pressed again: it repeats itself, or it
    /// comes so soon after the last one that counted that it may be the first
    /// repeat. Who presses on again and again gets on all the same.
    pub fn held_for(&self, at: Millis) -> Option<u64> {
        let apart = at.since(self.last_confirm?);
        let repeats = apart < REPEAT_MS.min(self.hold_ms);
        let done = self.last_done.map(|done| at.since(done));
        let is_soon = done.is_some_and(|since| since < self.hold_ms);
        (repeats || is_soon).then_some(apart)
    }

    /// Says something until the next key.
    pub fn say(&mut self, text: impl Into<String>) {
        self.notice = Some(Notice::Said(text.into()));
    }

    /// The path that was typed, without the blanks around it.
    pub(in crate::app) fn path_of(&self, typed: &str) -> PathBuf {
        let typed = typed.trim();
        let in_home = typed.strip_prefix("~/").zip(self.home.as_ref());
        match in_home {
            Some((rest, home)) => home.join(rest.trim_start_matches('/')),
            None => PathBuf::from(typed),
        }
    }

    /// Says that something was not done, until the next key.
    pub fn complain(&mut self, text: impl Into<String>) {
        self.notice = Some(Notice::Trouble(text.into()));
    }

    /// Orders something to be done outside.
    pub(in crate::app) fn order(&mut self, effect: Effect) {
        self.orders.push(effect);
    }

    /// Orders the user's own preferences to be remembered.
    pub(in crate::app) fn order_preferences(&mut self) {
        self.order(Effect::SavePreferences(self.preferences.clone()));
    }

    /// Asks for a text and offers one, which the first character typed replaces.
    pub(in crate::app) fn ask(&mut self, what: Prompt, text: impl Into<String>) {
        self.dialog = Some(Dialog::prompt(what, text.into()));
    }

    /// Asks for the rest of a text, to be typed behind what was typed already.
    pub(in crate::app) fn ask_further(&mut self, what: Prompt, text: String) {
        let mut further = Dialog::prompt(what, text);
        further.keep_text();
        self.dialog = Some(further);
    }

    /// Asks for a row; `row` is chosen already.
    pub(in crate::app) fn ask_choice(&mut self, what: Choice, row: Option<usize>) {
        self.dialog = Some(Dialog::Choice { what, row });
    }

    /// Asks what other keys answer than the one that brought it up.
    pub(in crate::app) fn ask_question(&mut self, question: Question) {
        self.dialog = Some(Dialog::Question(question));
    }

    /// Shows a dialog once more, with what is wrong with the answer.
    pub(in crate::app) fn stay(&mut self, mut dialog: Dialog, why: impl Into<String>) {
        dialog.keep_text();
        self.dialog = Some(dialog);
        self.complain(why);
    }
}
