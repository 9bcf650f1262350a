//! Files that another program holds open for a moment, as one that looks for
//! viruses does with each new file: what was not to be had is tried again.

use std::io;
use std::thread::sleep;
use std::time::{Duration, Instant};

/// How long such a file is waited for.
pub const LONGEST: Duration = Duration::from_secs(2);

/// The longest between two tries.
const PAUSE: Duration = Duration::from_millis(50);

/// "Another process is using the file", and "has locked a part of it".
const IN_USE: [i32; 2] = [32, 33];

/// What is said of a file's name while another has the file open: "access is
/// denied", which may be meant as it is said, and "is being deleted".
const NAME_IN_USE: [i32; 2] = [5, 303];

/// Whether a file could not be had because another program has it open.
pub fn is_in_use(error: &io::Error) -> bool {
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
/// What `step` says, at the latest after [`LONGEST`].
pub fn open_patiently<T>(step: impl FnMut() -> io::Result<T>) -> io::Result<T> {
    until(LONGEST, is_in_use, step)
}

/// The same of a step that gives or takes a name.
///
/// # Errors
/// As [`open_patiently`].
pub fn name_patiently<T>(step: impl FnMut() -> io::Result<T>) -> io::Result<T> {
    until(LONGEST, is_name_in_use, step)
}

fn until<T>(
    longest: Duration,
    is_kept: impl Fn(&io::Error) -> bool,
    mut step: impl FnMut() -> io::Result<T>,
) -> io::Result<T> {
    let start = Instant::now();
    let mut pause = Duration::from_millis(1);
    loop {
        match step() {
            Err(error) if is_kept(&error) && start.elapsed() + pause < longest => sleep(pause),
            done => return done,
        }
        pause = (pause * 2).min(PAUSE);
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
        let start = Instant::now();
        let told = until(Duration::from_millis(30), is_in_use, kept::<()>);
        assert_eq!(told.unwrap_err().raw_os_error(), Some(32));
        assert!(start.elapsed() < LONGEST);
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
