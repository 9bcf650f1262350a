//! Results to standard output, messages to standard error.

use std::io::{self, ErrorKind, Write};

/// Why a result did not arrive.
#[derive(Debug)]
pub enum Unheard {
    /// Whoever read the pipe has closed it; there is nobody to tell.
    Closed,
    Failed(io::Error),
}

/// Writes `text` to standard output, as it is.
///
/// # Errors
/// [`Unheard`]; a closed pipe is told apart from other troubles.
pub fn put(text: &str) -> Result<(), Unheard> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes())
        .and_then(|()| out.flush())
        .map_err(unheard)
}

/// Writes to standard output what `make` hands on, part by part.
///
/// # Errors
/// As [`put`].
pub fn put_in_parts(
    make: impl FnOnce(&mut dyn FnMut(&[u8]) -> io::Result<()>) -> io::Result<()>,
) -> Result<(), Unheard> {
    let mut out = io::stdout().lock();
    make(&mut |part| out.write_all(part))
        .and_then(|()| out.flush())
        .map_err(unheard)
}

fn unheard(error: io::Error) -> Unheard {
    match error.kind() {
        ErrorKind::BrokenPipe => Unheard::Closed,
        _ => Unheard::Failed(error),
    }
}

/// Writes one message to standard error, behind the program's name. Nobody can
/// be told where that fails.
pub fn say(message: &str) {
    let _ = writeln!(io::stderr().lock(), "bendmark: {message}");
}
