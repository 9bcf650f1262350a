//! Hang-up and terminate: save, give the terminal back, leave with 128 + n.
//!
//! Its thread does not depend on the loop, which may be stuck on a terminal
//! that is gone.

use super::saver::Saver;
use super::terminal::give_back;
use signal_hook::consts::{SIGHUP, SIGTERM};
use signal_hook::iterator::Signals;
use std::time::Duration;

/// How long the last save may take before the program leaves all the same.
const LONGEST: Duration = Duration::from_secs(10);

/// Starts watching. Where that is not possible, the signals keep their usual
/// meaning and end the program; what was said to be saved is saved.
pub fn watch(saver: Saver) {
    let Ok(mut signals) = Signals::new([SIGHUP, SIGTERM]) else {
        return;
    };
    std::thread::spawn(move || {
        if let Some(signal) = signals.forever().next() {
            saver.finish(LONGEST);
            give_back();
            std::process::exit(128 + signal);
        }
    });
}
