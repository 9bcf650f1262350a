//! Arguments in, exit code out; everything else is in the library.

use std::process::ExitCode;

fn main() -> ExitCode {
    bendmark::shell::cli::run(std::env::args_os()).into()
}
