//! A panic, on whichever thread: save, give the terminal back, leave a crash
//! file, exit with 101.
//!
//! The crash file says where in the program it happened, never what was in the
//! job: not even the panic's own message, which may quote it.

use super::saver::{self, Saver};
use crate::shell::outside::{now, say, version::VERSION};
use crate::storage::files::{Fs, RealFs, shown};
use std::backtrace::Backtrace;
use std::fmt::Write;
use std::panic::{Location, set_hook};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;

/// What the program ends with after a panic.
const EXIT: i32 = 101;

static UNDERWAY: AtomicBool = AtomicBool::new(false);

/// Watches for panics from now on; crash files go to `folder`.
pub fn watch(saver: Saver, folder: PathBuf) {
    set_hook(Box::new(move |info| {
        let place = info.location().map(Location::to_string).unwrap_or_default();
        let file = leave_file(&folder, &place);
        if thread::current().name() == Some(saver::THREAD) {
            // It catches its own, says NOT SAVED, and the program goes on.
            return;
        }
        if UNDERWAY.swap(true, Ordering::SeqCst) {
            // Another thread is on its way out already.
            loop {
                thread::park();
            }
        }
        let saved = saver.finish_and_leave();
        let file = file.map_or_else(String::new, |file| {
            format!("; {} says where, without anything of the job", shown(&file))
        });
        say(&format!(
            "stopped by a fault of the program at {place}{file}; {saved}"
        ));
        std::process::exit(EXIT);
    }));
}

/// Leaves a crash file and says where; nobody is kept from leaving where that
/// fails.
fn leave_file(folder: &Path, place: &str) -> Option<PathBuf> {
    let at = now().map_or(0, |now| now.0);
    let path = folder.join(format!("crash-{at}.txt"));
    let text = text(place);
    RealFs.create_folder(folder).ok()?;
    let mut file = RealFs.create_new(&path).ok()?;
    RealFs.write_all(&mut file, text.as_bytes()).ok()?;
    Some(path)
}

fn text(place: &str) -> String {
    let thread = thread::current();
    let mut text = format!(
        "bendmark {}\nsystem: {} {}\nthread: {}\nplace: {place}\n",
        VERSION,
        std::env::consts::OS,
        std::env::consts::ARCH,
        thread.name().unwrap_or("unnamed"),
    );
    // Writing to a text cannot fail.
    let _ = write!(text, "\n{}\n", Backtrace::force_capture());
    text
}
