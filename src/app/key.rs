//! Keys as the program knows them, whatever terminal they came from.

/// Milliseconds on a clock that only runs forward.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub struct Millis(pub u64);

impl Millis {
    /// How long before this `earlier` was, in milliseconds; 0 where it was later.
    pub const fn since(self, earlier: Self) -> u64 {
        self.0.saturating_sub(earlier.0)
    }
}

/// Which key. The eight from `Left` to `PageDown`, and `Insert`, also come from
/// the number pad without `NumLock`.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Code {
    /// A character, as typed.
    Char(char),
    /// A letter with Ctrl held.
    Ctrl(char),
    F(u8),
    Enter,
    Esc,
    Backspace,
    Delete,
    Tab,
    Left,
    Right,
    Up,
    Down,
    Home,
    End,
    PageUp,
    PageDown,
    Insert,
}

/// A key with the time it arrived.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Key {
    pub code: Code,
    pub at: Millis,
}
