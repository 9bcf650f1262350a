//! Hang-up and terminate: save, give the terminal back, leave with 128 + n.
//!
//! Its threads do not depend on the loop, which may be stuck on a terminal that
//! is gone. A terminal may go without a signal, where the program was started
//! apart from it; reading from it would then spin.

use super::saver::Saver;
use crate::shell::{outside::say, terminal::give_back_within};
use rustix::event::{PollFd, PollFlags, poll};
use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
use signal_hook::iterator::Signals;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

/// How long the last save may take before the program leaves all the same.
const LONGEST: Duration = Duration::from_secs(10);

/// How long the terminal may take; one that is stuck is left as it is.
const TERMINAL: Duration = Duration::from_secs(1);

/// Starts watching. Where that is not possible, the signals keep their usual
/// meaning and end the program; what was said to be saved is saved.
pub fn watch(saver: &Saver) {
    let on_hang_up = saver.clone();
    let _ = thread::Builder::new()
        .name("hang-up".to_owned())
        .spawn(move || {
            if has_hung_up() {
                leave(&on_hang_up, SIGHUP);
            }
        });
    let Ok(mut signals) = Signals::new([SIGHUP, SIGINT, SIGTERM]) else {
        return;
    };
    let saver = saver.clone();
    let _ = thread::Builder::new()
        .name("signals".to_owned())
        .spawn(move || {
            if let Some(signal) = signals.forever().next() {
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

fn leave(saver: &Saver, signal: i32) {
    static UNDERWAY: AtomicBool = AtomicBool::new(false);
    if UNDERWAY.swap(true, Ordering::SeqCst) {
        // The other of the two threads leaves already.
        return;
    }
    let saved = saver.finish_for_good(LONGEST);
    give_back_within(TERMINAL);
    if !saved.is_saved() {
        say(&saved.to_string());
    }
    std::process::exit(128 + signal);
}
