//! The field: what is being typed, what for, and what is understood so far.

use crate::app::place::Place;
use crate::domain::{
    log::{CourseNumber, EdgeId, End, Reading},
    measure::Length,
    settings::{Setting, Settings},
    tape::{self, exact_with_unit},
};

/// What a field is for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Purpose {
    /// A reading of a course.
    Reading {
        edge: EdgeId,
        course: CourseNumber,
        end: End,
    },
    /// How far up a course its line runs out.
    RunsOut {
        edge: EdgeId,
        course: CourseNumber,
        /// The reading that cannot be taken.
        end: End,
    },
    /// A short course's own height.
    Height {
        edge: EdgeId,
        course: CourseNumber,
    },
    Setting(Setting),
    /// How much longer or shorter an edge's pieces are made.
    Correction(EdgeId, Sense),
}

impl Purpose {
    /// Where it is typed.
    pub const fn place(self) -> Place {
        match self {
            Self::Reading { .. } | Self::RunsOut { .. } | Self::Height { .. } => Place::Log,
            Self::Correction(..) => Place::Bench,
            Self::Setting(_) => Place::Job,
        }
    }
}

/// Which way a correction goes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sense {
    /// The pieces came out too long.
    Shorter,
    /// They came out too short.
    Longer,
}

impl Sense {
    /// `SHORTER` or `LONGER`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Shorter => "SHORTER",
            Self::Longer => "LONGER",
        }
    }
}

/// What is being typed.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Field {
    pub purpose: Purpose,
    pub text: String,
}

/// The most characters a field takes; a length needs far fewer.
const LONGEST_FIELD: usize = 24;

impl Field {
    /// An empty field, or one that already holds its first character.
    pub fn new(purpose: Purpose, first: Option<char>) -> Self {
        Self {
            purpose,
            text: first.map(String::from).unwrap_or_default(),
        }
    }

    /// Puts one more character at the end.
    pub fn push(&mut self, c: char) {
        if self.text.chars().count() < LONGEST_FIELD && !c.is_control() {
            self.text.push(c);
        }
    }

    /// What the text means, in words to show before it is accepted.
    ///
    /// # Errors
    /// Why it cannot be accepted yet.
    pub fn understood(&self, settings: &Settings) -> Result<String, String> {
        let unit = settings.unit();
        match self.purpose {
            Purpose::Reading { .. } | Purpose::RunsOut { .. } | Purpose::Height { .. } => {
                Reading::parse(&self.text, unit)
                    .map(|reading| exact_with_unit(reading.length(), unit))
                    .map_err(|error| error.to_string())
            }
            Purpose::Correction(..) => self.correction(settings).map(|by| said_of(by, settings)),
            Purpose::Setting(setting) => setting
                .set(settings, &self.text)
                .map(|changed| value_of(setting, &changed))
                .map_err(|error| error.to_string()),
        }
    }

    /// The length typed for a correction, below zero for shorter.
    ///
    /// # Errors
    /// Why it cannot be accepted.
    pub fn correction(&self, settings: &Settings) -> Result<Length, String> {
        let by =
            tape::parse_positive(&self.text, settings.unit()).map_err(|error| error.to_string())?;
        // A hip that is off by more than a hand's breadth was read wrong.
        let most = Length::from_inches(4);
        if by > most {
            return Err(format!(
                "\"{}\" is over {}, expected a small correction: read the hip again instead",
                self.text,
                exact_with_unit(most, settings.unit())
            ));
        }
        Ok(match self.purpose {
            Purpose::Correction(_, Sense::Shorter) => -by,
            _ => by,
        })
    }
}

/// A correction in words: `1/8 in longer`.
pub fn said_of(by: Length, settings: &Settings) -> String {
    let text = exact_with_unit(by.abs(), settings.unit());
    if by < Length::ZERO {
        format!("{text} shorter")
    } else {
        format!("{text} longer")
    }
}

/// A setting's value with its unit, as the Job screen shows it.
pub fn value_of(setting: Setting, settings: &Settings) -> String {
    let text = setting.text(settings);
    let bare = !setting.choices().is_empty()
        || text.ends_with("mm")
        || setting.word_for_none() == Some(&text);
    match setting {
        _ if text.is_empty() => "-".to_owned(),
        Setting::Pause => format!("{text} min"),
        Setting::CarryMore => format!("{text} %"),
        _ if bare && setting != Setting::Division => text,
        _ => format!("{text} {}", settings.unit().word()),
    }
}
