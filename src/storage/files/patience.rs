//! Files that another program holds open for a moment. Only Windows keeps them
//! from others meanwhile: there what was not to be had is tried again, for two
//! seconds at most.

#[cfg(windows)]
pub(super) use bendmark_windows::{is_in_use, name_patiently, open_patiently};

#[cfg(not(windows))]
pub(super) use elsewhere::{is_in_use, name_patiently, open_patiently};

/// The same where nothing is tried twice.
#[cfg(not(windows))]
mod elsewhere {
    use std::io;

    pub(in crate::storage::files) const fn is_in_use(_: &io::Error) -> bool {
        false
    }

    pub(in crate::storage::files) fn open_patiently<T>(
        mut step: impl FnMut() -> io::Result<T>,
    ) -> io::Result<T> {
        step()
    }

    pub(in crate::storage::files) fn name_patiently<T>(
        mut step: impl FnMut() -> io::Result<T>,
    ) -> io::Result<T> {
        step()
    }
}

#[cfg(test)]
mod tests {
    use crate::storage::files::{Fs, RealFs, words};
    use std::time::Duration;

    /// `a` in a folder, kept from everybody else for so long, where the system
    /// can do that; and a new file `b`.
    fn kept(longest: Duration) -> (tempfile::TempDir, std::thread::JoinHandle<()>) {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("b"), "new").unwrap();
        let path = folder.path().join("a");
        std::fs::write(&path, "old").unwrap();
        let (has_it, wait) = std::sync::mpsc::channel();
        let keeper = std::thread::spawn(move || {
            let mut alone = std::fs::OpenOptions::new();
            #[cfg(windows)]
            std::os::windows::fs::OpenOptionsExt::share_mode(&mut alone, 0);
            let file = alone.read(true).open(&path).unwrap();
            has_it.send(()).unwrap();
            std::thread::sleep(longest);
            drop(file);
        });
        wait.recv().unwrap();
        (folder, keeper)
    }

    #[test]
    fn a_file_held_open_for_a_moment_is_read_and_replaced_all_the_same() {
        let (folder, keeper) = kept(Duration::from_millis(300));
        let read = RealFs.read(&folder.path().join("a"), 10);
        assert_eq!(read.unwrap(), b"old");
        keeper.join().unwrap();
        let (folder, keeper) = kept(Duration::from_millis(300));
        let [a, b] = ["a", "b"].map(|name| folder.path().join(name));
        RealFs.rename(&b, &a).unwrap();
        assert_eq!(RealFs.read(&a, 10).unwrap(), b"new");
        RealFs.remove(&a).unwrap();
        keeper.join().unwrap();
    }

    #[test]
    fn a_file_held_open_for_long_is_told_where_the_system_keeps_it() {
        let (folder, keeper) = kept(Duration::from_secs(3));
        let read = RealFs.read(&folder.path().join("a"), 10);
        match cfg!(windows) {
            true => assert_eq!(
                words(&read.unwrap_err()),
                "another program has the file open, close it there or wait a moment"
            ),
            false => assert_eq!(read.unwrap(), b"old"),
        }
        keeper.join().unwrap();
    }
}
