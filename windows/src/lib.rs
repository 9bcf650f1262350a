//! The calls of Windows that bendmark needs and Rust's own library has not: a
//! file put in another's place that is on the disk when the call returns, files
//! that another program holds open, word that the console goes, and the
//! console's code page.
//!
//! All that is unsafe in bendmark is here, so that it can be read in one go; the
//! program itself forbids it. On other systems there is nothing in it. What the
//! calls promise is said here from their published descriptions.
#![cfg(windows)]

mod patience;

pub use patience::{LONGEST, is_in_use, name_patiently, open_patiently};

use std::io;
use std::os::windows::ffi::OsStrExt;
use std::path::{Path, absolute};
use std::sync::OnceLock;
use windows_sys::Win32::Storage::FileSystem::{
    MOVEFILE_REPLACE_EXISTING, MOVEFILE_WRITE_THROUGH, MoveFileExW,
};
use windows_sys::Win32::System::Console::{
    CTRL_BREAK_EVENT, CTRL_C_EVENT, CTRL_CLOSE_EVENT, CTRL_LOGOFF_EVENT, GetConsoleOutputCP,
    SetConsoleCtrlHandler,
};
use windows_sys::core::BOOL;

/// Gives the file at `from` the name `to`, over any file of that name; both are
/// in one folder. Returns once the new name is on the disk.
///
/// # Errors
/// What the system says.
pub fn replace(from: &Path, to: &Path) -> io::Result<()> {
    let (from, to) = (wide(from)?, wide(to)?);
    let how = MOVEFILE_REPLACE_EXISTING | MOVEFILE_WRITE_THROUGH;
    // SAFETY: both are UTF-16 with a zero behind, and live until it returns.
    match unsafe { MoveFileExW(from.as_ptr(), to.as_ptr(), how) } {
        0 => Err(io::Error::last_os_error()),
        _ => Ok(()),
    }
}

/// `path` as the system takes it at any length: absolute, marked as it is to be
/// taken word for word, with a zero behind.
fn wide(path: &Path) -> io::Result<Vec<u16>> {
    const MARK: &str = r"\\?\";
    let path: Vec<u16> = absolute(path)?.as_os_str().encode_wide().collect();
    let starts = |with: &str| {
        path.iter()
            .copied()
            .take(with.len())
            .eq(with.encode_utf16())
    };
    let (mark, rest) = if starts(MARK) || starts(r"\\.\") {
        ("", path.as_slice())
    } else if starts(r"\\") {
        (r"\\?\UNC\", path.get(2..).unwrap_or_default())
    } else {
        (MARK, path.as_slice())
    };
    let mut wide: Vec<u16> = mark.encode_utf16().chain(rest.iter().copied()).collect();
    if wide.contains(&0) {
        return Err(io::ErrorKind::InvalidInput.into());
    }
    wide.push(0);
    Ok(wide)
}

/// The number of the code page that the console shows text by; 0 where there is
/// no console.
pub fn console_page() -> u32 {
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

    fn taken(path: &str) -> String {
        let wide = wide(Path::new(path)).unwrap();
        String::from_utf16(&wide[..wide.len() - 1]).unwrap()
    }

    #[test]
    fn drives_servers_and_marked_paths_are_taken_word_for_word() {
        assert_eq!(taken(r"C:\jobs\roof.ron"), r"\\?\C:\jobs\roof.ron");
        assert_eq!(taken("C:/jobs/./roof.ron"), r"\\?\C:\jobs\roof.ron");
        assert_eq!(taken(r"\\hut\jobs\roof.ron"), r"\\?\UNC\hut\jobs\roof.ron");
        assert_eq!(taken(r"\\?\C:\jobs\roof.ron"), r"\\?\C:\jobs\roof.ron");
        assert!(taken("roof.ron").starts_with(r"\\?\"));
    }

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
