//! The field: what is being typed, what for, and what is understood so far.

use crate::app::place::Place;
use crate::domain::cutting::ReadingAt;
use crate::domain::log::{EdgeId, Reading};
use crate::domain::measure::Length;
use crate::domain::settings::{Setting, Settings};
use crate::domain::tape::{self, exact_with_unit};

/// What a field is for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Purpose {
    /// A figure of a course, asked for at one of its readings.
    Course(Figure, ReadingAt),
    Setting(Setting),
    /// How much longer or shorter an edge's pieces are made.
    Correction(EdgeId, Sense),
}

/// What is read of a course.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Figure {
    /// The width at its bottom or top.
    Width,
    /// How far up its line runs out, where a reading cannot be taken.
    RunsOut,
    /// A short course's own height.
    Height,
}

/// What a field holds, once it can be accepted.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Entry {
    Course(Figure, ReadingAt, Reading),
    /// All settings, this one changed.
    Setting(Setting, Box<Settings>),
    /// Below zero for shorter.
    Correction(EdgeId, Length),
}

impl Purpose {
    /// Where it is typed.
    pub const fn place(self) -> Place {
        match self {
            Self::Course(..) => Place::Log,
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

    /// Puts a whole text at the end; false where it is too long.
    pub fn put(&mut self, text: &str) -> bool {
        let fits = self.text.chars().count() + text.chars().count() <= LONGEST_FIELD;
        if fits {
            self.text.push_str(text);
        }
        fits
    }

    /// What the text means, in words to show before it is accepted.
    ///
    /// # Errors
    /// Why it cannot be accepted yet.
    pub fn understood(&self, settings: &Settings) -> Result<String, String> {
        if self.text.is_empty() {
            // Nothing is wrong before a key was pressed.
            return Err("type it, then Enter".to_owned());
        }
        Ok(match self.entry(settings)? {
            Entry::Course(_, _, reading) => exact_with_unit(reading.length(), settings.unit()),
            Entry::Setting(setting, changed) => setting.said_with_unit(&changed),
            Entry::Correction(_, by) => said_of(by, settings),
        })
    }

    /// What the text means.
    ///
    /// # Errors
    /// Why it cannot be accepted.
    pub fn entry(&self, settings: &Settings) -> Result<Entry, String> {
        let (text, unit) = (&self.text, settings.unit());
        match self.purpose {
            Purpose::Course(figure, at) => Reading::parse(text, unit)
                .map(|reading| Entry::Course(figure, at, reading))
                .map_err(|error| error.to_string()),
            Purpose::Setting(setting) => setting
                .set(settings, text)
                .map(|changed| Entry::Setting(setting, Box::new(changed)))
                .map_err(|error| error.to_string()),
            Purpose::Correction(edge, sense) => {
                let by = tape::parse_positive(text, unit).map_err(|error| error.to_string())?;
                // A hip that is off by more than a hand's breadth was read wrong.
                let most = Length::from_inches(4);
                if by > most {
                    return Err(format!(
                        "\"{text}\" is over {}, expected a small correction: read the hip again instead",
                        exact_with_unit(most, unit)
                    ));
                }
                let signed = match sense {
                    Sense::Shorter => -by,
                    Sense::Longer => by,
                };
                Ok(Entry::Correction(edge, signed))
            }
        }
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
