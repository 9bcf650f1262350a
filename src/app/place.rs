//! The five places, and what is the user's own and not the job's.

use std::path::PathBuf;

/// One of the five places.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Place {
    /// What is left per hip.
    Hips,
    Log,
    /// The piece in hand.
    Bench,
    Rack,
    /// Panel, tape and bench settings; the job itself.
    #[default]
    Job,
}

impl Place {
    /// All five, in the order of their keys.
    pub const ALL: [Self; 5] = [Self::Hips, Self::Log, Self::Bench, Self::Rack, Self::Job];

    /// Its name on the screen.
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
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct ScreenSize {
    pub columns: u16,
    pub rows: u16,
}

impl ScreenSize {
    /// The least size everything is laid out for.
    pub const LEAST: Self = Self {
        columns: 60,
        rows: 18,
    };

    /// Whether what a key does can be shown.
    pub const fn is_enough(self) -> bool {
        self.columns >= Self::LEAST.columns && self.rows >= Self::LEAST.rows
    }
}

/// What is the user's own and not the job's.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Preferences {
    pub look: Look,
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
