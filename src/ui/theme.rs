//! Colours by role: black on white for the sun, white on black, or none.
//!
//! Only the 16 named colours; foreground and background are always both set;
//! nothing is told by colour alone, and nothing is grey or dim.

use crate::app::place::{Glyphs, Look, Preferences};
use ratatui::style::{Color, Modifier, Style};

/// What a piece of text is for.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Role {
    /// Plain text and empty space.
    Text,
    /// What the eye should find first.
    Strong,
    /// Lines and frames.
    Line,
    /// The header and the key bar.
    Bar,
    /// The place one is at, inside the header.
    Here,
    /// What is selected.
    Selected,
    /// Something was not done, or is not saved.
    Trouble,
    /// The marks to transfer to the panel.
    Mark,
}

impl Role {
    /// A row of a list, which may be the selected one.
    pub const fn of_row(is_selected: bool) -> Self {
        match is_selected {
            true => Self::Selected,
            false => Self::Text,
        }
    }

    /// The role whose paper is this one's ink: a blank in it is a block of ink.
    pub const fn turned(self) -> Self {
        match self {
            Self::Bar | Self::Selected | Self::Trouble => Self::Text,
            Self::Text | Self::Strong | Self::Line | Self::Here | Self::Mark => Self::Selected,
        }
    }
}

/// How everything is drawn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Theme {
    look: Look,
    colours: Colours,
    glyphs: Glyphs,
}

/// Whether colours are used at all.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Colours {
    /// Black and white are set.
    Set,
    /// The terminal's own colours; only bold, underline and reverse.
    None,
}

impl Theme {
    /// A theme.
    pub const fn new(look: Look, colours: Colours, glyphs: Glyphs) -> Self {
        Self {
            look,
            colours,
            glyphs,
        }
    }

    /// As a user likes it, on a terminal with these colours.
    pub const fn liked(known: &Preferences, colours: Colours) -> Self {
        Self::new(known.look, colours, known.glyphs)
    }

    /// Which characters to draw with.
    pub const fn glyphs(&self) -> Glyphs {
        self.glyphs
    }

    /// Of the same thing drawn both ways, the one to be shown.
    pub fn drawn<T>(&self, blocks: T, ascii: T) -> T {
        match self.glyphs {
            Glyphs::Blocks => blocks,
            Glyphs::Ascii => ascii,
        }
    }

    /// How text of that role is drawn.
    pub fn style(&self, role: Role) -> Style {
        let (ink, paper) = match (self.colours, self.look) {
            (Colours::None, _) => (Color::Reset, Color::Reset),
            (Colours::Set, Look::Sun) => (Color::Black, Color::White),
            (Colours::Set, Look::Dark) => (Color::White, Color::Black),
        };
        let plain = Style::new().fg(ink).bg(paper);
        // Without colours, two reset colours cannot be exchanged.
        let turned = match self.colours {
            Colours::None => plain.add_modifier(Modifier::REVERSED),
            Colours::Set => Style::new().fg(paper).bg(ink),
        };
        match role {
            Role::Text | Role::Line => plain,
            Role::Strong | Role::Mark => plain.add_modifier(Modifier::BOLD),
            Role::Bar | Role::Selected => turned,
            Role::Here => plain.add_modifier(Modifier::BOLD | Modifier::UNDERLINED),
            Role::Trouble => turned.add_modifier(Modifier::BOLD),
        }
    }
}
