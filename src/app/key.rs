//! Keys as the program knows them, whatever terminal they came from.

/// Milliseconds on a clock that only runs forward.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub struct Millis(pub u64);

/// Which key.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Code {
    /// A character, as typed.
    Char(char),
    /// A letter with Ctrl held.
    Ctrl(char),
    /// A function key.
    F(u8),
    /// Enter, on either side of the keyboard.
    Enter,
    /// Escape.
    Esc,
    /// Backspace.
    Backspace,
    /// Delete.
    Delete,
    /// Tab.
    Tab,
    /// Arrow left.
    Left,
    /// Arrow right.
    Right,
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Home, or 7 of the number pad without `NumLock`.
    Home,
    /// End, or 1 of the number pad without `NumLock`.
    End,
    /// Page up, or 9 of the number pad without `NumLock`.
    PageUp,
    /// Page down, or 3 of the number pad without `NumLock`.
    PageDown,
    /// Insert, or 0 of the number pad without `NumLock`.
    Insert,
}

/// A key with the time it arrived.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Key {
    /// Which one.
    pub code: Code,
    /// When.
    pub at: Millis,
}
