//! Files that another program holds open for a moment. Only Windows keeps them
//! from others meanwhile: there what was not to be had is tried again, for two
//! seconds at most.

#[cfg(windows)]
pub(super) use system::{is_in_use, name_patiently, open_patiently};

#[cfg(not(windows))]
pub(super) use elsewhere::{is_in_use, name_patiently, open_patiently};

/// As one that looks for viruses holds each new file for a moment.
#[cfg(windows)]
mod system {
    use crate::storage::files::windows::wait;
    use std::io;

    /// How long such a file is waited for, in milliseconds.
    const LONGEST_MS: u32 = 2_000;

    /// The longest between two tries.
    const PAUSE_MS: u32 = 50;

    /// "Another process is using the file", and "has locked a part of it".
    const IN_USE: [i32; 2] = [32, 33];

    /// What is said of a file's name while another has the file open: "access is
    /// denied", which may be meant as it is said, and "is being deleted".
    const NAME_IN_USE: [i32; 2] = [5, 303];

    /// Whether a file could not be had because another program has it open.
    pub(in crate::storage::files) fn is_in_use(error: &io::Error) -> bool {
        let numbered = |number| IN_USE.contains(&number);
        error.raw_os_error().is_some_and(numbered)
    }

    /// The same of a file's name, as far as the system tells the two apart.
    fn is_name_in_use(error: &io::Error) -> bool {
        let numbered = |number| NAME_IN_USE.contains(&number);
        is_in_use(error) || error.raw_os_error().is_some_and(numbered)
    }

    /// Tries `step`, which opens a file, until nobody keeps the file.
    ///
    /// # Errors
    /// What `step` says, at the latest once it was waited for so long.
    pub(in crate::storage::files) fn open_patiently<T>(
        step: impl FnMut() -> io::Result<T>,
    ) -> io::Result<T> {
        until(LONGEST_MS, is_in_use, step)
    }

    /// The same of a step that gives or takes a name.
    ///
    /// # Errors
    /// As [`open_patiently`].
    pub(in crate::storage::files) fn name_patiently<T>(
        step: impl FnMut() -> io::Result<T>,
    ) -> io::Result<T> {
        until(LONGEST_MS, is_name_in_use, step)
    }

    fn until<T>(
        longest_ms: u32,
        is_kept: impl Fn(&io::Error) -> bool,
        mut step: impl FnMut() -> io::Result<T>,
    ) -> io::Result<T> {
        let (mut pause, mut waited) = (1, 0);
        loop {
            match step() {
                Err(error) if is_kept(&error) && waited + pause < longest_ms => wait(pause),
                done => return done,
            }
            waited += pause;
            pause = (pause * 2).min(PAUSE_MS);
        }
    }

    #[cfg(test)]
    mod tests {
        use super::*;

        fn kept<T>() -> io::Result<T> {
            Err(io::Error::from_raw_os_error(32))
        }

        #[test]
        fn what_is_kept_for_a_moment_is_had_and_what_stays_kept_is_told() {
            let mut tries = 0;
            let had = open_patiently(|| {
                tries += 1;
                if tries < 5 { kept() } else { Ok(tries) }
            });
            assert_eq!(had.unwrap(), 5);
            let told = until(30, is_in_use, kept::<()>);
            assert_eq!(told.unwrap_err().raw_os_error(), Some(32));
        }

        #[test]
        fn another_error_is_told_at_once() {
            let mut tries = 0;
            let told = open_patiently(|| {
                tries += 1;
                Err::<(), _>(io::Error::from_raw_os_error(2))
            });
            assert!(told.is_err() && tries == 1);
        }

        #[test]
        fn access_denied_is_waited_out_for_a_name_only() {
            let denied = io::Error::from_raw_os_error(5);
            assert!(is_name_in_use(&denied) && !is_in_use(&denied));
        }
    }
}

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
