//! The two calls of Windows that files need and Rust's own library has not, or has
//! with a clock: one file put in another's place, which is on the disk when the
//! call returns, and a short wait. What they promise is said here from their
//! published descriptions.
#![expect(unsafe_code, reason = "calls of the system; each says why it is safe")]

use std::io;
use std::os::windows::ffi::OsStrExt;
use std::path::{Path, absolute};
use windows_sys::Win32::Storage::FileSystem::{
    MOVEFILE_REPLACE_EXISTING, MOVEFILE_WRITE_THROUGH, MoveFileExW,
};
use windows_sys::Win32::System::Threading::Sleep;

/// Gives the file at `from` the name `to`, over any file of that name; both are
/// in one folder. Returns once the new name is on the disk.
///
/// # Errors
/// What the system says.
pub(super) fn replace(from: &Path, to: &Path) -> io::Result<()> {
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

/// Waits so many milliseconds.
pub(super) fn wait(ms: u32) {
    // SAFETY: it takes a number and touches no memory of ours.
    unsafe { Sleep(ms) }
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
}
