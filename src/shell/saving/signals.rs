//! Hang-up and terminate, a closed console window and log-off: save, give the
//! terminal back, leave with 128 + n.
//!
//! What watches does not depend on the loop, which may be stuck on a terminal
//! that is gone.

use super::saver::Saver;
use std::sync::atomic::{AtomicBool, Ordering};

/// Starts watching. Where that is not possible, the signals keep their usual
/// meaning and end the program; what was said to be saved is saved.
pub fn watch(saver: &Saver) {
    system::watch(saver);
}

fn leave(saver: &Saver, signal: i32) {
    static UNDERWAY: AtomicBool = AtomicBool::new(false);
    if UNDERWAY.swap(true, Ordering::SeqCst) {
        // Another thread leaves already.
        return;
    }
    saver.finish_and_leave().say_if_lost();
    std::process::exit(128 + signal);
}

/// A terminal may go without a signal, where the program was started apart from
/// it; reading from it would then spin.
#[cfg(unix)]
mod system {
    use super::{Saver, leave};
    use rustix::event::{PollFd, PollFlags, poll};
    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
    use signal_hook::iterator::Signals;
    use std::thread;

    pub(super) fn watch(saver: &Saver) {
        watch_for("hang-up", saver, || has_hung_up().then_some(SIGHUP));
        if let Ok(mut signals) = Signals::new([SIGHUP, SIGINT, SIGTERM]) {
            watch_for("signals", saver, move || signals.forever().next());
        }
    }

    /// Leaves once `next` gives a signal, on a thread of that name.
    fn watch_for(name: &str, saver: &Saver, next: impl FnOnce() -> Option<i32> + Send + 'static) {
        let saver = saver.clone();
        let thread = thread::Builder::new().name(name.to_owned());
        let _ = thread.spawn(move || {
            if let Some(signal) = next() {
                leave(&saver, signal);
            }
        });
    }

    /// Waits until the terminal is gone, and says so; `false` where that cannot be
    /// told. Asked for nothing, the system still tells of that.
    fn has_hung_up() -> bool {
        let stdin = std::io::stdin();
        let mut terminal = [PollFd::new(&stdin, PollFlags::empty())];
        loop {
            match poll(&mut terminal, None) {
                Ok(_) => return true,
                Err(rustix::io::Errno::INTR) => {}
                Err(_) => return false,
            }
        }
    }
}

/// The console tells on a thread of the system's. The numbers are those of the
/// signals elsewhere, so that an exit code means the same everywhere.
#[cfg(windows)]
mod system {
    use super::{Saver, leave};
    use crate::shell::outside::windows_console::{Ending, on_ending};

    pub(super) fn watch(saver: &Saver) {
        let saver = saver.clone();
        let _ = on_ending(move |ending| leave(&saver, number(ending)));
    }

    const fn number(ending: Ending) -> i32 {
        match ending {
            Ending::Closed | Ending::LogOff => 1,
            Ending::Break => 2,
            Ending::ShutDown => 15,
        }
    }

    #[cfg(test)]
    mod tests {
        use super::*;

        #[test]
        fn a_closed_window_and_log_off_are_a_hang_up() {
            let endings = [Ending::Closed, Ending::LogOff, Ending::Break];
            assert_eq!(endings.map(number), [1, 1, 2]);
            assert_eq!(number(Ending::ShutDown), 15);
        }
    }
}
