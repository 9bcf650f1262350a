//! What is put into a new file: bytes that are there, or parts made one after the
//! other, so that a large page is never whole in memory.

use std::io;

/// Takes a part of it.
pub type Part<'w> = dyn FnMut(&[u8]) -> io::Result<()> + 'w;

/// A content that can be written again where a sync has failed.
pub trait Content {
    /// Hands all of it to `write`.
    ///
    /// # Errors
    /// What `write` says.
    fn write_to(&self, write: &mut Part<'_>) -> io::Result<()>;
}

impl Content for [u8] {
    fn write_to(&self, write: &mut Part<'_>) -> io::Result<()> {
        write(self)
    }
}

impl Content for Vec<u8> {
    fn write_to(&self, write: &mut Part<'_>) -> io::Result<()> {
        write(self)
    }
}

impl<const N: usize> Content for [u8; N] {
    fn write_to(&self, write: &mut Part<'_>) -> io::Result<()> {
        write(self)
    }
}

/// A content made anew each time it is asked for.
pub struct Made<T>(pub T);

impl<T: Fn(&mut Part<'_>) -> io::Result<()>> Content for Made<T> {
    fn write_to(&self, write: &mut Part<'_>) -> io::Result<()> {
        (self.0)(write)
    }
}
