//! What the console of Windows says that Rust's own library does not tell: its code
//! page, and that it wants the program to end. What the calls promise is said here
//! from their published descriptions.
#![expect(unsafe_code, reason = "calls of the system; each says why it is safe")]

use std::io;
use std::sync::OnceLock;
use windows_sys::Win32::System::Console::{
    CTRL_BREAK_EVENT, CTRL_C_EVENT, CTRL_CLOSE_EVENT, CTRL_LOGOFF_EVENT, GetConsoleOutputCP,
    SetConsoleCtrlHandler,
};
use windows_sys::core::BOOL;

/// The number of the code page that the console shows text by; 0 where there is
/// no console.
pub fn page() -> u32 {
    // SAFETY: it takes nothing and only answers.
    unsafe { GetConsoleOutputCP() }
}

/// Why the console wants the program to end.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Ending {
    /// Ctrl-Break, or Ctrl-C where that is no key.
    Break,
    /// Its window was closed.
    Closed,
    /// The user logs off.
    LogOff,
    /// The machine is shut down.
    ShutDown,
}

impl Ending {
    const fn of(event: u32) -> Self {
        match event {
            CTRL_C_EVENT | CTRL_BREAK_EVENT => Self::Break,
            CTRL_CLOSE_EVENT => Self::Closed,
            CTRL_LOGOFF_EVENT => Self::LogOff,
            _ => Self::ShutDown,
        }
    }
}

type Leave = Box<dyn Fn(Ending) + Send + Sync>;

static LEAVE: OnceLock<Leave> = OnceLock::new();

/// From now on `leave` is called where the console wants the program to end, on
/// a thread of the system's. It is to end the program; the system does so itself
/// about five seconds after the window was closed.
///
/// # Errors
/// What the system says; and where it was called before.
pub fn on_ending(leave: impl Fn(Ending) + Send + Sync + 'static) -> io::Result<()> {
    if LEAVE.set(Box::new(leave)).is_err() {
        return Err(io::ErrorKind::AlreadyExists.into());
    }
    // SAFETY: the function is there as long as the program.
    match unsafe { SetConsoleCtrlHandler(Some(told), 1) } {
        0 => Err(io::Error::last_os_error()),
        _ => Ok(()),
    }
}

/// What the system calls. It ends the program once this returns, which another
/// thread may not want yet: it never does.
unsafe extern "system" fn told(event: u32) -> BOOL {
    if let Some(leave) = LEAVE.get() {
        leave(Ending::of(event));
    }
    loop {
        std::thread::park();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_event_of_the_console_has_its_meaning() {
        let endings = [0, 1, 2, 5, 6].map(Ending::of);
        assert_eq!(
            endings,
            [
                Ending::Break,
                Ending::Break,
                Ending::Closed,
                Ending::LogOff,
                Ending::ShutDown
            ]
        );
    }
}
