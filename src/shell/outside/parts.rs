//! A page that is made part by part, on its way to the output or a file: a few
//! pages' worth wait, never the whole.

use std::fmt;
use std::io;

/// So much waits before it is passed on.
const WAITING: usize = 1 << 16;

/// Hands what `make` writes to `write`.
///
/// # Errors
/// What `write` said, or else what `make` did.
pub fn in_parts<E: fmt::Display>(
    write: &mut dyn FnMut(&[u8]) -> io::Result<()>,
    make: impl FnOnce(&mut dyn fmt::Write) -> Result<(), E>,
) -> io::Result<()> {
    let mut parts = Parts {
        write,
        waiting: String::with_capacity(WAITING),
        trouble: None,
    };
    let made = make(&mut parts);
    if let Some(trouble) = parts.trouble.take() {
        return Err(trouble);
    }
    made.map_err(|error| io::Error::other(error.to_string()))?;
    parts.pass_on()
}

struct Parts<'w> {
    write: &'w mut dyn FnMut(&[u8]) -> io::Result<()>,
    waiting: String,
    /// Why a part was not taken; the writer of the text is told only that.
    trouble: Option<io::Error>,
}

impl Parts<'_> {
    fn pass_on(&mut self) -> io::Result<()> {
        let passed = (self.write)(self.waiting.as_bytes());
        self.waiting.clear();
        passed
    }
}

impl fmt::Write for Parts<'_> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        if self.waiting.len() + text.len() > WAITING {
            self.pass_on().map_err(|trouble| {
                self.trouble = Some(trouble);
                fmt::Error
            })?;
        }
        self.waiting.push_str(text);
        Ok(())
    }
}
