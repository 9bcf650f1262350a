//! The full screen: needs a terminal on both sides.

use super::exit::Exit;
use super::say::say;
use std::io::{IsTerminal, stdin, stdout};
use std::path::Path;

/// Opens the full screen on `job`, or on the last one where there is none.
#[must_use]
pub fn full_screen(job: Option<&Path>) -> Exit {
    if !stdin().is_terminal() || !stdout().is_terminal() {
        say(
            "the full screen needs a terminal; in a pipe, use a command such as \"bendmark sheet JOB\"",
        );
        return Exit::USAGE;
    }
    let which = job.map_or_else(
        || "the last job".to_owned(),
        |job| job.display().to_string(),
    );
    say(&format!(
        "\"{which}\": the full screen is not in this build"
    ));
    Exit::COULD_NOT
}
